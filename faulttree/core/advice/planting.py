"""A plan as steps of a tree with all that follows them, before they have ids."""

from collections.abc import Iterator, Mapping
from dataclasses import dataclass

from faulttree.core.advice.as_problem import NO_READING
from faulttree.core.advice.draft import CannotDraft
from faulttree.core.advice.ends import Ends
from faulttree.core.bench.fitted import fitted_at
from faulttree.core.order.plan import Asked, End, Plan
from faulttree.core.tree import (
    BATTERY_VOLTAGE,
    Measure,
    Observe,
    Step,
    Tree,
    WorkOut,
    outcome_names,
)

UNSETTLED, OPEN_END = "not-settled-here", "left-open"
"""Ids of the new conclusions."""


@dataclass(frozen=True, slots=True)
class Node:
    """A test with all that follows it; equal ones become one step."""

    of: str
    go: "tuple[tuple[str, Node | str], ...]"
    no_reading: "Node | str | None"


Target = Node | str
"""What an answer leads to: a test, or the id of a conclusion."""


class Planting:
    """Turns a plan into nodes.

    Attributes:
        open_ends: new conclusion to the parts that are left there.
        put_in: tests put in for their reading.
    """

    def __init__(self, tree: Tree, ends: Ends) -> None:
        self._tree, self._ends = tree, ends
        self._fitted = fitted_at(tree)
        self.unsettled = free(UNSETTLED, tree.steps)
        self.open_ends: dict[str, tuple[str, ...]] = {}
        self.put_in: dict[str, None] = {}

    def node(self, plan: Asked, passed: frozenset[str]) -> Node:
        """A test of the plan, behind the tests whose readings it refers to."""
        missing = [name for name in self._givers(plan.test) if name not in passed]
        passed |= {plan.test, *missing}
        step = self._probed(plan.test)
        go = {outcome: self._after(plan.go.get(outcome), passed) for outcome in outcome_names(step)}
        none = plan.go.get(NO_READING)
        found = Node(plan.test, tuple(go.items()), self._after(none, passed) if none else None)
        for name in reversed(missing):
            self.put_in[name] = None
            led: tuple[tuple[str, Target], ...] = tuple(
                (outcome, found) for outcome in outcome_names(self._probed(name))
            )
            found = Node(name, led, None)
        return found

    def _after(self, plan: Plan | None, passed: frozenset[str]) -> Target:
        if plan is None:
            return self.unsettled
        return self._end(plan) if isinstance(plan, End) else self.node(plan, passed)

    def _end(self, end: End) -> str:
        verdict = self._ends.verdict(end)
        if verdict is not None:
            return verdict
        parts = tuple(sorted(self._ends.parts(end)))
        for name, left in self.open_ends.items():
            if left == parts:
                return name
        name = free(OPEN_END, {*self._tree.steps, *self.open_ends})
        self.open_ends[name] = parts
        return name

    def _probed(self, step_id: str) -> Measure | Observe | WorkOut:
        step = self._tree.steps[step_id]
        assert isinstance(step, Measure | Observe | WorkOut)
        if frozenset[str]() not in self._fitted.get(step_id, frozenset()):
            raise CannotDraft(
                f"{step_id} is done with something fitted by an earlier step, which a draft cannot "
                "arrange: write this part of the tree by hand."
            )
        return step

    def _givers(self, step_id: str) -> tuple[str, ...]:
        """Steps whose readings a test refers to, each after those that it refers to itself."""
        found: dict[str, None] = {}
        waiting = [(step_id, False)]
        while waiting:
            at, is_ready = waiting.pop()
            if is_ready:
                found[at] = None
            elif at not in found:
                waiting.append((at, True))
                waiting += [(giver, False) for giver in _givers_of(self._tree, at)]
        return tuple(name for name in found if name != step_id)


def _givers_of(tree: Tree, step_id: str) -> Iterator[str]:
    """The step that gives each name that a step refers to."""
    step = tree.steps[step_id]
    if not isinstance(step, Measure | WorkOut):
        return
    for name in sorted(step.names_used):
        is_asked_for = name == BATTERY_VOLTAGE and isinstance(step, Measure)
        if name not in tree.needs.values and not is_asked_for:
            yield next(n for n, each in tree.steps.items() if name in _gives(n, each))


def _gives(step_id: str, step: Step) -> tuple[str | None, ...]:
    return (step_id, step.as_) if isinstance(step, Measure | WorkOut) else ()


def free(wanted: str, taken: Mapping[str, object] | set[str]) -> str:
    """The name, or the name with the first number that is not taken."""
    return wanted if wanted not in taken else numbered(wanted, set(taken), from_one=False)


def numbered(wanted: str, taken: set[str], from_one: bool) -> str:
    """The name with the first number that is not taken."""
    number = 1 if from_one else 2
    while f"{wanted}-{number}" in taken:
        number += 1
    return f"{wanted}-{number}"
