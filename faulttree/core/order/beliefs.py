"""What is believed after tests that may show a wrong outcome by chance."""

from collections.abc import Iterator
from dataclasses import dataclass, field
from operator import mul

from faulttree.core.order.board import Board, Move
from faulttree.core.order.kinds import kinds_of
from faulttree.core.order.problem import Problem

Shown = tuple[tuple[int, str], ...]
"""Tests that may be wrong, by index, with what they showed."""


@dataclass(frozen=True, slots=True)
class Belief:
    """What is known: kinds not ruled out, what unsure tests showed, how the car is set up.

    Attributes:
        kinds, shown, way: what is known; beliefs are equal when these are.
        likely: for each kind the probability of what was shown; 0 where it is ruled out.
        weight: of all of them, with what was shown.
        wrong: weight of all finds but the likeliest.
    """

    kinds: int
    shown: Shown
    way: int
    likely: tuple[float, ...] = field(compare=False)
    weight: float = field(compare=False)
    wrong: float = field(compare=False)


@dataclass(frozen=True, slots=True)
class Outcome:
    """One outcome of a test, and what is known then; whether the part swapped was it."""

    name: str
    belief: Belief
    is_over: bool


class Beliefs:
    """The beliefs that one problem can lead to."""

    def __init__(self, problem: Problem) -> None:
        kinds = kinds_of(problem)
        tests = list(enumerate(kinds.problem.tests))
        self.board = Board(kinds.kinds, tests, problem.set_ups)
        self.left_out = kinds.left_out
        self._loss = problem.wrong_minutes
        self._cheapest = min((test.minutes for test in problem.tests), default=0.0)
        self._weights = [kind.weight for kind in self.board.kinds]
        self._finds = _finds_of(problem, self.board)
        self._likely = [_likelihoods(move, self.board.full) for move in self.board.moves]
        self.first = self._belief(self.board.full, (), 0, (1.0,) * len(self._weights))

    def shares(self, at: Belief) -> dict[str, float]:
        """Suspect to how much of it comes here."""
        found: dict[str, float] = {}
        for kind, likely in zip(self.board.kinds, at.likely, strict=True):
            for suspect, share in kind.shares.items() if likely else ():
                found[suspect] = found.get(suspect, 0.0) + share * likely
        return found

    def stop(self, at: Belief) -> float:
        """What ending here costs by wrong conclusions, minutes times weight."""
        return self._loss * at.wrong

    def floor(self, at: Belief) -> float:
        """A lower bound: it ends here, or at least one more test is done."""
        return min(self._loss * at.wrong, self._cheapest * at.weight)

    def paid(self, at: Belief, move: Move) -> float:
        """Minutes times weight of a test."""
        return self.board.prices(at.way)[0][move.index] * at.weight

    def tests(self, at: Belief) -> list[Move]:
        """The tests that may tell something; those that destroy evidence when no others do."""
        done = {index for index, _ in at.shown}
        useful = [
            move
            for move in self.board.moves
            if move.index not in done and self.board.splits(move, at.kinds)
        ]
        gentle = [move for move in useful if not move.test.destroys]
        return gentle or useful

    def after(self, at: Belief, move: Move) -> Iterator[Outcome]:
        """Every outcome of a test with what is known then."""
        way = self.board.prices(at.way)[1][move.index]
        for (name, mask), column in zip(move.parts, self._likely[move.index], strict=True):
            kinds, shown = at.kinds & mask, at.shown
            if move.test.wrong:
                kinds, shown = at.kinds, tuple(sorted((*at.shown, (move.index, name))))
            if kinds:
                likely = tuple(map(mul, at.likely, column))
                is_over = name in move.test.ends
                yield Outcome(name, self._belief(kinds, shown, way, likely), is_over)

    def _belief(self, kinds: int, shown: Shown, way: int, likely: tuple[float, ...]) -> Belief:
        weights = list(map(mul, likely, self._weights))
        finds: dict[str, float] = {}
        for weight, shares in zip(weights, self._finds, strict=True):
            for find, share in shares if weight else ():
                finds[find] = finds.get(find, 0.0) + share * weight
        whole = sum(weights)
        return Belief(kinds, shown, way, likely, whole, whole - max(finds.values(), default=0.0))


def _likelihoods(move: Move, kinds: int) -> list[tuple[float, ...]]:
    """For each outcome its probability with every kind."""
    true, other = 1 - move.test.wrong, move.test.wrong / max(1, len(move.parts) - 1)
    every = range(kinds.bit_length())
    return [tuple(true if mask >> n & 1 else other for n in every) for _, mask in move.parts]


def _finds_of(problem: Problem, board: Board) -> list[list[tuple[str, float]]]:
    """For each kind the finds, with their shares of its weight."""
    by_id = {s.id: s for s in problem.suspects}
    found = []
    for kind in board.kinds:
        parts = [(by_id[name], share) for name, share in kind.shares.items()]
        whole = sum(suspect.weight * share for suspect, share in parts) or 1.0
        found.append([(s.find, s.weight * share / whole) for s, share in parts])
    return found
