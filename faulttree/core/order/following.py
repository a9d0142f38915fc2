"""What to test next after some readings, and what every other test would lose."""

from collections.abc import Mapping
from dataclasses import dataclass, field

from faulttree.core.order.best import share_of, shares_of
from faulttree.core.order.board import Board, Move
from faulttree.core.order.plan import Range
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
        count: how many tests are wanted; 0 where the part swapped was it.
    """
    board = solver.board
    if not count or board.is_found(kinds):
        last = solver.of_last(kinds) if count else None
        if last is not None:
            return advice(last, last.board.full, way, count)
        return Advice(shares_of(board, kinds), Range(0.0, 0.0), ())
    best = solver.range(kinds, way)
    weighed = _weighed(solver, kinds, way, count)
    best = Range(best.least, min([best.most, *(each.most for each, _ in weighed)]))
    options = tuple(_option(solver, kinds, way, move, each, best) for each, move in weighed)
    return Advice(shares_of(board, kinds), _mean(best, board.weight(kinds)), options)


def _weighed(solver: Solver, kinds: int, way: int, count: int) -> list[tuple[Range, Move]]:
    """The best tests with their minutes times weight.

    Tests are worked out in the order of their lower bounds, until no other can be among the best.
    """
    board = solver.board
    useful = [move for move in board.moves if board.splits(move, kinds)]
    bounds = {move.index: solver.least_with(move, kinds, way) for move in useful}
    found: list[tuple[Range, Move]] = []
    for move in sorted(useful, key=lambda m: (bounds[m.index], m.index)):
        if len(found) >= count and bounds[move.index] > found[count - 1][0].most:
            break
        found.append((solver.range_with(move, kinds, way), move))
        found.sort(key=lambda each: _rank(board, way, *each))
    return found[:count]


def _rank(board: Board, way: int, minutes: Range, move: Move) -> tuple[float, float, int]:
    """The best first; of equals the one with less to set up, with fewer tools, first by name."""
    set_up, _ = board.set_ups.changed(way, move.needs)
    return float(f"{minutes.most:.11g}"), set_up, move.index


def _option(
    solver: Solver, kinds: int, way: int, move: Move, minutes: Range, best: Range
) -> Option:
    board = solver.board
    whole = board.weight(kinds)
    prices, afters = board.prices(way)
    leaves = []
    for outcome, mask in move.parts:
        if part := kinds & mask:
            rest = Range(0.0, 0.0)
            if not part & move.ended:
                rest = _mean(solver.known_range(part, afters[move.index]), board.weight(part))
            share = share_of(board, part, kinds)
            leaves.append(Left(outcome, share, shares_of(board, part), rest))
    regret = Range(max(0.0, minutes.least - best.most), max(0.0, minutes.most - best.least))
    return Option(
        move.test.name,
        board.set_ups.changes(way, move.needs),
        prices[move.index],
        _mean(minutes, whole),
        _mean(regret, whole),
        tuple(leaves),
    )


def _mean(minutes: Range, weight: float) -> Range:
    """Minutes a car, from minutes times weight."""
    return Range(minutes.least / weight, minutes.most / weight) if weight > 0 else Range(0.0, 0.0)
