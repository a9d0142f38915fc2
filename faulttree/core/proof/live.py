"""Which readings a walk still needs: those that a step further on is judged by."""

from collections.abc import Mapping

from faulttree.core.graph import in_order
from faulttree.core.tree import BATTERY_VOLTAGE, Measure, Tree, WorkOut

Live = Mapping[str, frozenset[str]]
"""Step to the names that it, or a step it can lead to, refers to."""


def live_names(tree: Tree) -> Live:
    """The names that are still needed at each step.

    Args:
        tree: a tree without loops.
    """
    found: dict[str, frozenset[str]] = {}
    for step_id in reversed(in_order(tree)):
        step = tree.steps[step_id]
        own = step.names_used - {step_id} if isinstance(step, Measure | WorkOut) else frozenset()
        found[step_id] = own.union(*(found[t] for t in tree.following[step_id]))
    return found


def needs_battery(live: Live, step_id: str) -> bool:
    """Whether a battery voltage may still be needed from a step on."""
    return BATTERY_VOLTAGE in live[step_id]
