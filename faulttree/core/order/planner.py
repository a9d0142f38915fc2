"""The way in: the best order of tests for a problem, and all that can be asked about it."""

from collections.abc import Collection, Mapping, Sequence
from dataclasses import dataclass

from faulttree.core.order.board import Board, Move, bits
from faulttree.core.order.following import Advice, SoFar, advice
from faulttree.core.order.kinds import Kind, kinds_of
from faulttree.core.order.plan import Asked, Plan, Range, Spent, arrivals
from faulttree.core.order.problem import CannotOrder, Limits, Problem
from faulttree.core.order.search import Work
from faulttree.core.order.solver import Solver

NEXT_LIMITS = Limits(expansions=400)
"""Work for one answer while a technician waits; some 40 ms."""
_SOLVERS_KEPT = 8
"""Sets of tests that cannot be done, for which what was found out is kept."""


@dataclass(frozen=True, slots=True)
class Ordered:
    """A plan for a problem.

    Attributes:
        plan: which test first, and which after each of its outcomes.
        expected: mean minutes of the plan, and the proven bound below it [min].
        spent: what it takes each suspect.
        left_out: tests that were not considered, because their outcome is open for so many
            suspects that there would be too many ways.
        expansions: sets of suspects that were looked into.
    """

    plan: Plan
    expected: Range
    spent: Spent
    left_out: tuple[str, ...]
    expansions: int


class Planner:
    """Orders the tests of one problem, and remembers what it found out.

    Answers are the same wherever the same questions are asked in the same order; where they are
    proven, in any order.
    """

    def __init__(self, problem: Problem, limits: Limits | None = None) -> None:
        """The planner.

        Args:
            problem: tests that may be wrong by chance are not for this planner, but for `unsure`.
            limits: work that each question may take.

        Raises:
            CannotOrder: a test may be wrong, or there are too many kinds.
        """
        unsure = [test.name for test in problem.tests if test.wrong]
        if unsure:
            raise CannotOrder(f"Test {unsure[0]} may be wrong: order such tests as unsure ones.")
        self._limits, self._work = limits or Limits(), Work(0, 0)
        self._kinds = kinds_of(problem)
        self.problem = self._kinds.problem
        self._solver = self._solver_of(self._kinds.kinds, frozenset())
        tests = list(enumerate(self.problem.tests))
        self._every = Board(self._solver.board.kinds, tests, self.problem.set_ups)
        self._without = {frozenset[str](): self._solver}

    def best(self) -> Ordered:
        """The best plan, or the best found with a proven bound."""
        self._allow(self._limits)
        full = self._solver.board.full
        found = self._solver.range(full, 0)
        expansions = self._work.done
        self._allow(self._limits)
        plan = self._solver.plan(full, 0)
        most = plan.expected if isinstance(plan, Asked) else 0.0
        expected = Range(min(found.least, most), most)
        weights = {s.id: s.weight for s in self.problem.suspects}
        spent = Spent.of(arrivals(plan), weights)
        return Ordered(plan, expected, spent, self._kinds.left_out, expansions)

    def next_tests(self, so_far: SoFar, count: int = 5, limits: Limits = NEXT_LIMITS) -> Advice:
        """What to test next.

        Args:
            so_far: what is known of the car.
            count: how many tests are wanted.
            limits: work that the answer may take; what is not proven then is told as a range.

        Raises:
            CannotOrder: no suspect fits what was seen, or a name is unknown.
        """
        self._allow(limits)
        solver, kinds = self._for(so_far)
        way = solver.board.set_ups.number(self._known(so_far.set_up))
        return advice(solver, kinds, way, 0 if self._is_mended(so_far.seen) else count)

    def without(self, tests: Collection[str]) -> "Planner":
        """The planner for a car on which some tests cannot be done."""
        return Planner(self.problem.without(tests), self._limits)

    def _allow(self, limits: Limits) -> None:
        """Work for one question; what was found out before is kept while there is room for it."""
        if len(self._without) > _SOLVERS_KEPT:
            self._without = {frozenset[str](): self._solver}
        for solver in self._without.values():
            if solver.search.entries > self._limits.states // 2:
                solver.search.forget()
        self._work.allow(limits.expansions, limits.states // 2)

    def _for(self, so_far: SoFar) -> tuple[Solver, int]:
        """The solver for a car, and the kinds that it may be of."""
        left = self._left(so_far.seen)
        dropped, is_destroyed = self._dropped(so_far, left)
        chosen = [self._every.kinds[bit] for bit in bits(left)]
        kinds, is_whole = self._kinds.only(chosen, so_far.suspects)
        if not kinds:
            raise CannotOrder("No suspect fits what was seen: check the readings.")
        if is_destroyed or not is_whole or (len(kinds) < len(chosen) and self._has_alike(dropped)):
            solver = self._solver_of(kinds, dropped)
        elif dropped in self._without:
            solver = self._without[dropped]
        else:
            solver = self._without[dropped] = self._solver_of(self._kinds.kinds, dropped)
        return solver, solver.board.set_of(kinds)

    def _is_mended(self, seen: Mapping[str, str]) -> bool:
        moves = [(self._move(name), outcome) for name, outcome in seen.items()]
        return any(move is not None and outcome in move.test.ends for move, outcome in moves)

    def _has_alike(self, dropped: frozenset[str]) -> bool:
        """Whether kinds may be alike in the tests of a solver.

        What can be found of one then depends on which others there are.
        """
        return bool(dropped) or any(test.destroys for test in self.problem.tests)

    def _left(self, seen: Mapping[str, str]) -> int:
        """The kinds that fit what was seen."""
        left = self._every.full
        for name, outcome in seen.items():
            move = self._move(name)
            if move is not None and move.parts:
                left &= dict(move.parts).get(outcome, 0)
        return left

    def _dropped(self, so_far: SoFar, left: int) -> tuple[frozenset[str], bool]:
        """Tests that would lead on but may not be done, and whether evidence was destroyed."""
        seen = [self._move(name) for name in so_far.seen]
        is_destroyed = any(move is not None and move.test.destroys for move in seen)
        cannot = {name for name in so_far.cannot if self._move(name) is not None}
        if is_destroyed:
            cannot |= {move.test.name for move in self._every.moves if not move.test.destroys}
        splits = self._every.splits
        found = (m for m in self._every.moves if m.test.name in cannot and splits(m, left))
        return frozenset(move.test.name for move in found), is_destroyed

    def _move(self, name: str) -> Move | None:
        """The test of a name; None where it was left out.

        Raises:
            CannotOrder: there is none.
        """
        if name in self._kinds.left_out:
            return None
        if name not in self._every.by_name:
            raise CannotOrder(f"{name} is none of the tests.")
        return self._every.by_name[name]

    def _known(self, set_up: Mapping[str, str]) -> Mapping[str, str]:
        for name, state in set_up.items():
            if state not in {s.name: s.minutes for s in self.problem.set_ups}.get(name, {}):
                raise CannotOrder(f"No set-up {name} can be {state}.")
        return set_up

    def _solver_of(self, kinds: Sequence[Kind], dropped: frozenset[str]) -> Solver:
        tests = [
            (place, test)
            for place, test in enumerate(self.problem.tests)
            if test.name not in dropped
        ]
        return Solver(kinds, tests, self.problem.set_ups, self._work)
