"""What to test next after some readings, and what every other test would lose."""

from collections.abc import Mapping
from dataclasses import dataclass, field

from faulttree.core.order.best import share_of, shares_of
from faulttree.core.order.board import Board, Move
from faulttree.core.order.plan import Range
from faulttree.core.order.search import OutOfWork
from faulttree.core.order.solver import Solver


@dataclass(frozen=True, slots=True)
class SoFar:
    """What is known of a car.

    Attributes:
        seen: test to the outcome it gave.
        suspects: what may still be wrong; None where that follows from what was seen.
        set_up: how the car is set up now; what is not named is as at first.
        cannot: tests that cannot be done, or were done without an outcome to go by.
    """

    seen: Mapping[str, str] = field(default_factory=dict)
    suspects: frozenset[str] | None = None
    set_up: Mapping[str, str] = field(default_factory=dict)
    cannot: frozenset[str] = frozenset()


@dataclass(frozen=True, slots=True)
class Left:
    """What an outcome would leave.

    Attributes:
        outcome: of the test.
        share: how likely it is.
        suspects: what could still be wrong, and how much of it; as in `End`.
        minutes: mean minutes from there to the end [min].
    """

    outcome: str
    share: float
    suspects: Mapping[str, float]
    minutes: Range


@dataclass(frozen=True, slots=True)
class Option:
    """A test that may come next.

    Attributes:
        test: its name.
        set_up: what to bring about first.
        minutes: of the set-up and the test [min].
        expected: mean minutes to the end, this test included [min].
        regret: mean minutes more than with the best test [min].
        leaves: what each outcome would leave.
    """

    test: str
    set_up: Mapping[str, str]
    minutes: float
    expected: Range
    regret: Range
    leaves: tuple[Left, ...]


@dataclass(frozen=True, slots=True)
class Advice:
    """What to do next.

    Attributes:
        suspects: what may still be wrong, and how much of it; as in `End`.
        expected: mean minutes to the end with the best test [min].
        options: tests that lead on, the best first; none where nothing more can be told.
    """

    suspects: Mapping[str, float]
    expected: Range
    options: tuple[Option, ...]


def advice(solver: Solver, kinds: int, way: int, count: int) -> Advice:
    """The best tests for some kinds.

    Args:
        solver: of the kinds.
        kinds: those that are left.
        way: how the car is set up.
        count: how many tests are wanted.
    """
    board, suspects = solver.board, shares_of(solver.board, kinds)
    if board.is_found(kinds):
        return _at_the_end(solver, kinds, way, count, suspects)
    whole = board.weight(kinds) or 1.0
    best = solver.range(kinds, way)
    weighed = sorted(_weighed(solver, kinds, way, count), key=lambda each: each[0].most)
    expected = Range(best.least, min([best.most, *(each.most for each, _ in weighed)]))
    options = [_option(solver, kinds, way, move, each, expected) for each, move in weighed]
    return Advice(suspects, _over(expected, whole), tuple(options[:count]))
