"""value-before-use: a band or sum refers to a reading that this walk may not have taken."""

from collections.abc import Iterator

from faulttree.core.checks.finding import Finding
from faulttree.core.graph import find_loop, maybe_before, surely_before
from faulttree.core.tree import BATTERY_VOLTAGE, Measure, Step, Tree, WorkOut, expressions


def check(tree: Tree) -> Iterator[Finding]:
    """Readings are taken before they are used; a measurement asks for the battery itself."""
    if find_loop(tree):
        return
    sure, maybe = surely_before(tree), maybe_before(tree)
    for step_id, step in tree.steps.items():
        if not isinstance(step, Measure | WorkOut) or step_id not in sure:
            continue
        for name in sorted(set().union(*(e.names for e in expressions(step)))):
            if name in tree.quantities and name not in tree.needs.values:
                yield from _check(tree, step_id, name, sure[step_id], maybe[step_id])


def _check(
    tree: Tree, step_id: str, name: str, sure: frozenset[str], maybe: frozenset[str]
) -> Iterator[Finding]:
    step = tree.steps[step_id]
    if name == BATTERY_VOLTAGE and isinstance(step, Measure):
        return
    givers = {s for s, step in tree.steps.items() if _gives(s, step, name)}
    if not givers & maybe:
        yield Finding(
            "value-before-use",
            ("steps", step_id),
            f"{step_id} uses {name}, which no path to it measures",
            "Measure it on the way, or use a value under needs.",
            on_key=True,
        )
    elif not givers & sure and not isinstance(step, WorkOut):
        yield Finding(
            "value-before-use",
            ("steps", step_id),
            f"{step_id} uses {name}, which some paths to it do not measure",
            "Put the measurement on every path, or judge by battery-voltage.",
            severity="warning",
            on_key=True,
        )


def _gives(step_id: str, step: Step, name: str) -> bool:
    """True when a step's reading has the name, or the battery is measured for its bands."""
    if not isinstance(step, Measure | WorkOut):
        return False
    asks_for_battery = isinstance(step, Measure) and any(name in e.names for e in expressions(step))
    return name in (step_id, step.as_) or (name == BATTERY_VOLTAGE and asks_for_battery)
