"""What a tree that somebody wrote takes on the same suspects, and where it loses minutes.

At every step with a set S of kinds the tree spends c P(S) and leaves its parts; the best there is
from S on would take W(S). The difference c P(S) + sum W(parts) - W(S) is what the step loses, and
over the whole tree these losses add up to what the tree takes more than the best plan. Where the
tree ends though more could be told, W(S) minutes are saved; they count in the sum as well.
"""

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, field

from faulttree.core.order.best import shares_of
from faulttree.core.order.board import Board, Move
from faulttree.core.order.plan import Arrival, Range, Spent
from faulttree.core.order.problem import CannotOrder, Suspect
from faulttree.core.order.solver import Solver


@dataclass(frozen=True, slots=True)
class GivenStep:
    """A step of a tree: the test it does, and for every outcome the step or end it leads to."""

    test: str
    go: Mapping[str, str]


@dataclass(frozen=True, slots=True)
class Given:
    """A tree that somebody wrote.

    Attributes:
        start: its first step.
        steps: its steps; what they lead to and is no step is an end.
    """

    start: str
    steps: Mapping[str, GivenStep]


@dataclass(frozen=True, slots=True)
class Costed:
    """What a tree takes, beside the best there is.

    Attributes:
        spent: what it takes.
        best: least mean minutes of any plan.
        losses: step to the mean minutes it loses; over all of the tree, not only over the cars
            that come there [min].
        saved: end to the mean minutes saved by ending there, though more could be told [min].
        is_proven: whether every figure is; else they are by the best plans found.
    """

    spent: Spent
    best: Range
    losses: Mapping[str, float]
    saved: Mapping[str, float]
    is_proven: bool

    @property
    def excess(self) -> float:
        """Minutes above the best plan found: the losses less what was saved."""
        return self.spent.expected - self.best.most

    @property
    def ratio(self) -> float:
        """Minutes as a multiple of the best plan found."""
        return self.spent.expected / self.best.most if self.best.most > 0 else 1.0


@dataclass(frozen=True, slots=True)
class _At:
    """Where the walk stands: the share is that of every kind, where all outcomes are open."""

    place: str
    kinds: int
    way: int
    minutes: float = 0.0
    share: float = 1.0
    steps: int = 0
    is_over: bool = False


@dataclass(slots=True)
class _Costing:
    """A tree being walked with all kinds at once."""

    solver: Solver
    board: Board
    given: Given
    suspects: Sequence[Suspect]
    arrivals: list[Arrival] = field(default_factory=list)
    losses: dict[str, float] = field(default_factory=dict)
    saved: dict[str, float] = field(default_factory=dict)
    is_proven: bool = True
    _values: dict[tuple[int, int], Range] = field(default_factory=dict)

    def value(self, kinds: int, way: int) -> Range:
        """The least minutes times weight from some kinds on."""
        found = self._values.get((kinds, way))
        if found is None:
            found = self._values[kinds, way] = self.solver.range(kinds, way)
            self.is_proven = self.is_proven and found.is_proven
        return found

    def walk(self, start: _At) -> None:
        """Every kind to its end."""
        waiting = [start]
        while waiting:
            at = waiting.pop()
            if at.place in self.given.steps:
                waiting += self._step(at)
            else:
                self._end(at)

    def _rest(self, at: _At) -> float:
        return 0.0 if at.is_over else at.share * self.value(at.kinds, at.way).most

    def _end(self, at: _At) -> None:
        self.saved[at.place] = self.saved.get(at.place, 0.0) + self._rest(at)
        for suspect, share in shares_of(self.board, at.kinds).items():
            self.arrivals.append(Arrival(suspect, share * at.share, at.minutes))

    def _step(self, at: _At) -> list[_At]:
        step = self.given.steps[at.place]
        if at.steps > len(self.given.steps):
            raise CannotOrder(f"Step {at.place} leads back to itself: a tree has no loops.")
        move = self.board.by_name.get(step.test)
        if move is None:
            raise CannotOrder(f"Step {at.place} does {step.test}, which is none of the tests.")
        prices, afters = self.board.prices(at.way)
        minutes = prices[move.index]
        after = [
            _At(
                _target(at.place, step, outcome),
                kinds,
                afters[move.index],
                at.minutes + minutes,
                at.share * share,
                at.steps + 1,
                at.is_over or outcome in move.test.ends,
            )
            for outcome, kinds, share in _parts(move, at.kinds)
        ]
        paid = at.share * minutes * self.board.weight(at.kinds)
        lost = paid + sum(self._rest(each) for each in after) - self._rest(at)
        self.losses[at.place] = self.losses.get(at.place, 0.0) + lost
        return after

    def costed(self, best: Range) -> Costed:
        """The figures, after the walk."""
        weights = {s.id: s.weight for s in self.suspects}
        spent = Spent.of(self.arrivals, weights)
        return Costed(spent, best, self.losses, self.saved, self.is_proven)


def cost(solver: Solver, board: Board, suspects: Sequence[Suspect], given: Given) -> Costed:
    """What a tree takes.

    Args:
        solver: of all kinds of a problem.
        board: the same kinds in the same order, with every test, destroying ones included.
        suspects: of the problem.
        given: the tree.

    Raises:
        CannotOrder: it does a test that is not there, leads nowhere after some outcome, or goes
            round in a loop.
    """
    costing = _Costing(solver, board, given, suspects)
    best = costing.value(board.full, 0)
    costing.walk(_At(given.start, board.full, 0))
    return costing.costed(best)


def _parts(move: Move, kinds: int) -> Iterator[tuple[str, int, float]]:
    if not move.parts:
        outcomes = move.test.outcomes
        yield from ((outcome, kinds, 1 / len(outcomes)) for outcome in outcomes)
    for outcome, mask in move.parts:
        if kinds & mask:
            yield outcome, kinds & mask, 1.0


def _target(place: str, step: GivenStep, outcome: str) -> str:
    if outcome not in step.go:
        raise CannotOrder(f"Step {place} says nothing of {outcome}: say where it leads.")
    return step.go[outcome]
