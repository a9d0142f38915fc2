"""The steps of a tree as a graph: what is reachable, what comes before what, where a loop is."""

from collections.abc import Mapping
from graphlib import CycleError, TopologicalSorter

from faulttree.core.tree import Tree, exits


def successors(tree: Tree) -> dict[str, tuple[str, ...]]:
    """Step id to the ids it can lead to, in the order of its exits; unknown targets left out."""
    return {
        step_id: tuple(dict.fromkeys(t for _, t in exits(step) if t in tree.steps))
        for step_id, step in tree.steps.items()
    }


def reachable(tree: Tree, start: str | None = None) -> set[str]:
    """Every step that can be reached from `start`, itself included."""
    following = successors(tree)
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
        TopologicalSorter(successors(tree)).prepare()
    except CycleError as error:
        loop: list[str] = error.args[1]
        return tuple(reversed(loop))
    return ()


def surely_before(tree: Tree) -> Mapping[str, frozenset[str]]:
    """For each reachable step of a tree without loops: the steps on every path that leads to it."""
    following = successors(tree)
    sure: dict[str, frozenset[str]] = {}
    if tree.start in tree.steps:
        sure[tree.start] = frozenset()
    for step in _in_order(tree):
        if step not in sure:
            continue
        passed = sure[step] | {step}
        for after in following[step]:
            sure[after] = sure[after] & passed if after in sure else passed
    return sure


def maybe_before(tree: Tree) -> Mapping[str, frozenset[str]]:
    """For each reachable step of a tree without loops: the steps on some path that leads to it."""
    following = successors(tree)
    maybe: dict[str, frozenset[str]] = {step: frozenset() for step in tree.steps}
    for step in _in_order(tree):
        for after in following[step]:
            maybe[after] |= maybe[step] | {step}
    return maybe


def longest_minutes(tree: Tree) -> float:
    """Minutes of the dearest path through a tree without loops."""
    following = successors(tree)
    total: dict[str, float] = {}
    for step_id in reversed(_in_order(tree)):
        own = getattr(tree.steps[step_id], "minutes", 0.0)
        total[step_id] = own + max((total[n] for n in following[step_id]), default=0.0)
    return total.get(tree.start, 0.0)


def _in_order(tree: Tree) -> list[str]:
    following = successors(tree)
    sorter: TopologicalSorter[str] = TopologicalSorter()
    for step, targets in following.items():
        sorter.add(step)
        for target in targets:
            sorter.add(target, step)
    return list(sorter.static_order())
