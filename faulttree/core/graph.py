"""The steps of a tree as a graph: what is reachable, what comes before what, where a loop is."""

from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from graphlib import CycleError, TopologicalSorter

from faulttree.core.tree import Tree


@dataclass(frozen=True, slots=True)
class StepsBefore:
    """Which steps come before which.

    A set of steps is a number here, one bit a step: a chain of a thousand steps has half a million
    pairs, which as sets of names would take seconds.
    """

    _bits: Mapping[str, int]
    _before: Mapping[str, int]

    def __contains__(self, step: str) -> bool:
        return step in self._before

    def has_any(self, step: str, earlier: Iterable[str]) -> bool:
        """True when at least one of the earlier steps comes before the step."""
        before = self._before[step]
        return any(before & self._bits[name] for name in earlier)


def reachable(tree: Tree, start: str | None = None) -> set[str]:
    """Every step that can be reached from `start`, itself included."""
    following = tree.following
    first = tree.start if start is None else start
    found: set[str] = set()
    waiting = [first] if first in tree.steps else []
    while waiting:
        step = waiting.pop()
        if step not in found:
            found.add(step)
            waiting.extend(following[step])
    return found


def find_loop(tree: Tree) -> tuple[str, ...]:
    """The steps of one loop, first step repeated at the end; empty when there is none."""
    try:
        TopologicalSorter(tree.following).prepare()
    except CycleError as error:
        loop: list[str] = error.args[1]
        return tuple(reversed(loop))
    return ()


def in_order(tree: Tree) -> tuple[str, ...]:
    """Every step after all those that lead to it; empty when there is a loop."""
    try:
        return tuple(TopologicalSorter(tree.following).static_order())[::-1]
    except CycleError:
        return ()


def surely_before(tree: Tree, order: Iterable[str]) -> StepsBefore:
    """For each reachable step: the steps on every path that leads to it.

    Args:
        tree: a tree without loops.
        order: its steps, as `in_order` gives them.
    """
    bits = _bits(tree)
    sure: dict[str, int] = {tree.start: 0} if tree.start in tree.steps else {}
    for step in order:
        if step not in sure:
            continue
        passed = sure[step] | bits[step]
        for after in tree.following[step]:
            sure[after] = sure[after] & passed if after in sure else passed
    return StepsBefore(bits, sure)


def maybe_before(tree: Tree, order: Iterable[str]) -> StepsBefore:
    """For each step: the steps on some path that leads to it; arguments as `surely_before`."""
    bits = _bits(tree)
    maybe = dict.fromkeys(tree.steps, 0)
    for step in order:
        passed = maybe[step] | bits[step]
        for after in tree.following[step]:
            maybe[after] |= passed
    return StepsBefore(bits, maybe)


def _bits(tree: Tree) -> dict[str, int]:
    return {step_id: 1 << n for n, step_id in enumerate(tree.steps)}
