"""Least mean minutes as published, or as theory has them. Sources stand beside each."""

from fractions import Fraction
from itertools import product

import pytest
from core.order.samples import matrix_problem, optimum_of, published, published_problem

from faulttree.core.order import problem as given
from faulttree.core.order.board import Board
from faulttree.core.order.bounds import code_length, levelled
from faulttree.core.order.kinds import kinds_of
from faulttree.core.order.planner import Planner

TITLES = [each["title"] for each in published()]

LETTERS = (
    *(1859, 642, 127, 218, 317, 1031, 208, 152, 467, 575, 8, 49, 321, 198, 574, 632, 152, 8),
    *(484, 514, 796, 228, 83, 175, 13, 164, 5),
)
"""Frequencies of the space and the letters A to Z in English, in ten thousandths. Gilbert and
Moore, Variable-length binary encodings, Bell System Tech. J. 38 (1959) 933, from memory."""


def _board(problem: given.Problem) -> Board:
    return Board(kinds_of(problem).kinds, list(enumerate(problem.tests)))


@pytest.mark.parametrize("instance", published(), ids=TITLES)
def test_the_published_optimum_is_found_and_proven(instance) -> None:
    found = Planner(published_problem(instance)).best()
    assert found.expected.is_proven
    assert found.expected.most == pytest.approx(optimum_of(instance), rel=1e-12)
    assert found.spent.expected == pytest.approx(optimum_of(instance), rel=1e-12)


@pytest.mark.parametrize("instance", published(), ids=TITLES)
def test_the_shortest_code_is_as_published(instance) -> None:
    length = code_length([w / sum(instance["weights"]) for w in instance["weights"]], 2)
    assert length == pytest.approx(float(Fraction(instance["shortest_binary_code"])), rel=1e-12)


@pytest.mark.parametrize(
    ("weights", "signs", "optimum"),
    [
        # Cormen et al., Introduction to Algorithms: 224,000 bits for 100,000 characters.
        ((45, 13, 12, 16, 9, 5), 2, 2.24),
        # Cover and Thomas, Elements of Information Theory, examples 5.6.1 and 5.6.2.
        ((25, 25, 20, 15, 15), 2, 2.3),
        ((25, 25, 20, 15, 15), 3, 1.5),
    ],
)
def test_with_every_test_there_could_be_the_optimum_is_the_huffman_code(
    weights, signs, optimum
) -> None:
    """Zimmerman, An optimal search procedure, Amer. Math. Monthly 66 (1959) 690, from memory."""
    columns = list(product(range(signs), repeat=len(weights)))
    shows = list(zip(*columns, strict=True))
    problem = matrix_problem(weights, [1] * len(columns), shows)
    assert Planner(problem).best().expected.most == pytest.approx(optimum, rel=1e-12)
    board = _board(problem)
    assert levelled(board, board.full) == pytest.approx(optimum, rel=1e-12)


def test_unequal_pieces_in_a_row_take_as_long_as_the_best_alphabetical_code() -> None:
    """Gilbert and Moore 1959: 4.1978 for letters in their order, Huffman code 4.1195."""
    size = len(LETTERS)
    shows = [[int(piece > cut) for cut in range(size - 1)] for piece in range(size)]
    problem = matrix_problem(LETTERS, [1] * (size - 1), shows)
    found = Planner(problem).best()
    assert found.expected.is_proven
    assert found.expected.most == pytest.approx(4.1978, abs=5e-5)
    board = _board(problem)
    assert levelled(board, board.full) == pytest.approx(4.1195, abs=5e-5)


def test_parts_are_swapped_in_the_order_of_likelihood_over_minutes() -> None:
    """Rule of Mitten 1960; Simon and Kadane, Artificial Intelligence 6 (1975) 235, from memory.

    Three places with odds 5, 3, 2 and 4, 1, 2 minutes: second, first, third, 4.2 minutes with the
    last one, which has to be opened too: it may be none of them.
    """
    suspects = tuple(
        given.Suspect(name, name, weight)
        for name, weight in (("first", 5), ("second", 3), ("third", 2), ("none of them", 0))
    )
    minutes = {"first": 4, "second": 1, "third": 2}
    tests = tuple(given.swap(name, cost, name, suspects) for name, cost in minutes.items())
    plan = Planner(given.Problem(suspects, tests)).best()
    assert plan.expected.most == pytest.approx(4.2, rel=1e-12)
    order, at = [], plan.plan
    while not hasattr(at, "mends"):
        order.append(at.test)
        at = at.go[given.AS_BEFORE]
    assert order == ["second", "first", "third"]
