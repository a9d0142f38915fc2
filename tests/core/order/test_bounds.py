"""Lower bounds: never above the least minutes, whatever the set and the set-up."""

from fractions import Fraction
from random import Random

import pytest
from core.order.brute_force import BruteForce
from core.order.random_problems import random_problem

from faulttree.core.order import problem as given
from faulttree.core.order.blocks import Blocks
from faulttree.core.order.board import Board, bits
from faulttree.core.order.bounds import levelled, pair_separation, pair_sharing
from faulttree.core.order.clusters import blocks_of
from faulttree.core.order.kinds import kinds_of


class Case:
    """A random problem without tests that destroy, a set of its kinds, and a set-up."""

    def __init__(self, seed: int) -> None:
        drawn = random_problem(seed, 7, 6)
        names = {test.name for test in drawn.tests if test.destroys}
        self.problem, self.rng = drawn.without(names), Random(seed)
        board = self._board()
        blocks = blocks_of(board, self.rng.randint(1, 4))
        self.sizes = [len(block) for block in blocks]
        self.board = self._board([n for block in blocks for n in block])
        self.set_up = {s.name: self.rng.choice(sorted(s.minutes)) for s in self.problem.set_ups}
        self.way = self.board.set_ups.number(self.set_up)
        self.kinds = self.rng.randint(1, self.board.full)

    def _board(self, order: list[int] | None = None) -> Board:
        kinds = kinds_of(self.problem).kinds
        ordered = kinds if order is None else [kinds[n] for n in order]
        return Board(ordered, list(enumerate(self.problem.tests)), self.problem.set_ups)

    @property
    def least(self) -> float:
        """Of the set of kinds, by trying everything; alike kinds stay together."""
        shown = {self._outcomes(bit) for bit in bits(self.kinds)}
        brute = BruteForce(self.problem)
        cars = frozenset(car for car in brute.cars if car.shows in shown)
        return float(brute.least(cars, tuple(self.set_up.values())))

    def _outcomes(self, bit: int) -> tuple[str, ...]:
        shows = self.board.kinds[bit].shows
        pairs = zip(self.problem.tests, shows, strict=True)
        return tuple(test.outcomes[n] for test, n in pairs)


def _cases(seeds: range) -> list[Case]:
    """Cases whose outcomes are never open to everyone alike, so that kinds are plain."""
    return [
        case
        for case in map(Case, seeds)
        if all(n >= 0 for kind in case.board.kinds for n in kind.shows)
    ]


CASES = _cases(range(250))


def test_no_bound_is_above_the_least_minutes() -> None:
    tight = dict.fromkeys(("code", "separation", "sharing"), 0)
    for case in CASES:
        least = case.least
        bounds = {
            "code": levelled(case.board, case.kinds),
            "separation": pair_separation(case.board, case.kinds, case.way),
            "sharing": pair_sharing(case.board, case.kinds),
        }
        for name, bound in bounds.items():
            assert bound <= least + 1e-12, (name, case.problem)
            tight[name] += bound > 0.9 * least > 0
    assert min(tight.values()) > 20, "bounds that are always far off would pass as well"


def test_blocks_add_up_to_no_more_than_the_least_minutes() -> None:
    for ways in (1, 4, 16):
        for case in CASES:
            blocks = Blocks(case.board, case.sizes, ways)
            assert blocks.low(case.kinds, case.way) <= case.least + 1e-12


def test_one_block_with_every_set_up_is_exact() -> None:
    for case in CASES:
        blocks = Blocks(case.board, [len(case.board.kinds)], 16)
        assert blocks.is_exact
        assert blocks.low(case.kinds, case.way) == pytest.approx(case.least, abs=1e-12)


def test_pair_sharing_is_close_where_every_test_finds_one_fault() -> None:
    """Derived here: two faults and one test are told apart for its minutes, all of them shared."""
    suspects = tuple(given.Suspect(name, name, 1) for name in "ab")
    test = given.Test("t", 6, (("no",), ("yes",)))
    problem = given.Problem(suspects, (test,))
    board = Board(kinds_of(problem).kinds, [(0, test)])
    assert Fraction(pair_sharing(board, board.full)) == 6
