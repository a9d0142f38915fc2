"""Tests that may show a wrong outcome by chance: what to test, and when to stop.

A meter that is off is off again when the test is repeated: that is a suspect with several outcomes.
A helper who misses one click in ten is another matter. What he reports only shifts what is likely,
no suspect is ever ruled out for certain, and a plan weighs the minutes of one more test against
what a wrong conclusion costs. A test is done once.

V(b) = min(stop, min over tests t of c_t P(b) + sum over outcomes o of V(b_o)), with b the weights
of all kinds, P their sum, and stop the minutes of a wrong conclusion times the weight of all finds
but the likeliest. Tests that may be wrong as a decision process on beliefs: Raghavan, Shakeri and
Pattipati, IEEE Trans. SMC-A 29 (1999) (abstract read).
"""

from collections.abc import Callable
from dataclasses import dataclass

from faulttree.core.order.beliefs import Belief, Beliefs
from faulttree.core.order.board import Move
from faulttree.core.order.plan import SAME, Asked, End, Plan, Range, Spent, arrivals
from faulttree.core.order.problem import Limits, Problem
from faulttree.core.order.search import OutOfWork, Work

Value = Callable[[Belief], float]
"""Minutes times weight from a belief on."""
UNSURE_LIMITS = Limits(expansions=30_000)
"""Beliefs that are looked into; ten thousand take a second or two."""
_AHEAD = 6
"""Tests that a lower bound looks ahead at most."""


@dataclass(frozen=True, slots=True)
class Unsure:
    """A plan where tests may be wrong.

    Attributes:
        plan: which test first, and which after each of its outcomes; every outcome of a test that
            may be wrong is there for all suspects, each with its share.
        expected: mean minutes with what wrong conclusions cost, and the proven bound [min].
        spent: what the tests alone take.
        wrong: probability of ending with another find than the true one.
        left_out: as in `Ordered`.
    """

    plan: Plan
    expected: Range
    spent: Spent
    wrong: float
    left_out: tuple[str, ...]


def order_unsure(problem: Problem, limits: Limits = UNSURE_LIMITS) -> Unsure:
    """The best plan where tests may be wrong; a good one with a bound where that is too much work.

    Args:
        problem: up to about twelve faults and ten tests can be worked out.
        limits: work that may be done, for the plan and for the bound each.
    """
    values = _Values(Beliefs(problem), limits)
    beliefs, first = values.beliefs, values.beliefs.first
    try:
        least, value = values.exact(first), values.exact
    except OutOfWork:
        least, value = values.bound(first), values.shortsighted
    values.allow()
    made = _Made(values, value)
    plan, most = made.plan(first)
    weights = {s.id: s.weight for s in problem.suspects}
    spent = Spent.of(arrivals(plan), weights)
    return Unsure(plan, Range(min(least, most), most), spent, made.wrong, beliefs.left_out)


class _Values:
    """What beliefs are worth."""

    def __init__(self, beliefs: Beliefs, limits: Limits) -> None:
        self.beliefs, self.limits = beliefs, limits
        self.work = Work(limits.expansions, limits.states)
        self._exact: dict[Belief, float] = {}
        self._shortsighted: dict[Belief, float] = {}

    def allow(self) -> None:
        """Work anew."""
        self.work.allow(self.limits.expansions, self.limits.states)

    def exact(self, at: Belief) -> float:
        """The least minutes times weight.

        Raises:
            OutOfWork: too many beliefs had to be looked into.
        """
        found = self._exact.get(at)
        if found is None:
            self.work.spend()
            found = self._exact[at] = self._least(at)
        return found

    def shortsighted(self, at: Belief) -> float:
        """Of a plan that judges every test as if it were the last; it stops when work is done."""
        found = self._shortsighted.get(at)
        if found is None:
            try:
                self.work.spend()
                move = self.choice(at, self.beliefs.stop)
            except OutOfWork:
                move = None
            found = self._shortsighted[at] = self.with_first(at, move, self.shortsighted)
        return found

    def bound(self, at: Belief) -> float:
        """A lower bound, by looking as many tests ahead as there is work for."""
        self.allow()
        best = 0.0
        try:
            for depth in range(_AHEAD + 1):
                best = max(best, self._ahead(at, depth))
        except OutOfWork:
            pass
        return best

    def choice(self, at: Belief, value: Value) -> Move | None:
        """The best test with these values after it; None where stopping is no worse.

        Of equals the one with the least to set up, with the fewest tools, the first by name.
        """
        least, found = self.beliefs.stop(at) * (1 - SAME), list[tuple[float, Move]]()
        for floor, move in self._promising(at):
            if floor > least * (1 + SAME):
                break
            total = self.with_first(at, move, value)
            least = min(least, total)
            found.append((total, move))
        prices, _ = self.beliefs.board.prices(at.way)
        equal = [move for total, move in found if total <= least * (1 + SAME)]
        return min(equal, key=lambda m: (prices[m.index] - m.test.minutes, m.index), default=None)

    def with_first(self, at: Belief, move: Move | None, value: Value) -> float:
        """Minutes times weight with a test first, or of stopping."""
        if move is None:
            return self.beliefs.stop(at)
        after = self.beliefs.after(at, move)
        return self.beliefs.paid(at, move) + sum(value(o.belief) for o in after if not o.is_over)

    def _promising(self, at: Belief) -> list[tuple[float, Move]]:
        tests = self.beliefs.tests(at)
        found = [(self.with_first(at, move, self.beliefs.floor), move) for move in tests]
        return sorted(found, key=lambda each: (each[0], each[1].index))

    def _least(self, at: Belief) -> float:
        best = self.beliefs.stop(at)
        for floor, move in self._promising(at):
            if floor >= best:
                break
            best = min(best, self.with_first(at, move, self.exact))
        return best

    def _ahead(self, at: Belief, depth: int) -> float:
        if depth == 0:
            return self.beliefs.floor(at)
        self.work.spend()
        found = [
            self.with_first(at, move, lambda after: self._ahead(after, depth - 1))
            for move in self.beliefs.tests(at)
        ]
        return min([self.beliefs.stop(at), *found])


class _Made:
    """A plan being made, with the probability that it ends wrong."""

    def __init__(self, values: _Values, value: Value) -> None:
        self._values, self._value = values, value
        self.wrong = 0.0

    def plan(self, at: Belief) -> tuple[Plan, float]:
        """The plan from a belief on, and its minutes times weight."""
        beliefs = self._values.beliefs
        move = self._chosen(at)
        if move is None:
            self.wrong += at.wrong
            return End(beliefs.shares(at)), beliefs.stop(at)
        total, go = beliefs.paid(at, move), dict[str, Plan]()
        for outcome in beliefs.after(at, move):
            if outcome.is_over:
                go[outcome.name] = End(beliefs.shares(outcome.belief), mends=True)
            else:
                go[outcome.name], rest = self.plan(outcome.belief)
                total += rest
        board = beliefs.board
        minutes = board.prices(at.way)[0][move.index]
        changes = board.set_ups.changes(at.way, move.needs)
        mean = total / at.weight if at.weight > 0 else minutes
        return Asked(move.test.name, changes, minutes, at.weight, mean, go), total

    def _chosen(self, at: Belief) -> Move | None:
        """The test for a belief; none where stopping is no worse, or the work is done."""
        try:
            self._values.work.spend()
            return self._values.choice(at, self._value)
        except OutOfWork:
            return None
