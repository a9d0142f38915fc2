"""value-before-use: a band or sum refers to a reading that this walk may not have taken."""

from collections.abc import Iterator, Sequence

from faulttree.core.checks.finding import Finding
from faulttree.core.graph import StepsBefore, in_order, maybe_before, surely_before
from faulttree.core.tree import BATTERY_VOLTAGE, Measure, Tree, WorkOut


def check(tree: Tree) -> Iterator[Finding]:
    """Readings are taken before they are used; a measurement asks for the battery itself."""
    order = in_order(tree)
    if not order:
        return
    sure, maybe, givers = surely_before(tree, order), maybe_before(tree, order), _givers(tree)
    for step_id, step in tree.steps.items():
        if not isinstance(step, Measure | WorkOut) or step_id not in sure:
            continue
        for name in sorted(step.names_used):
            asks_for_it = name == BATTERY_VOLTAGE and isinstance(step, Measure)
            if name in tree.quantities and name not in tree.needs.values and not asks_for_it:
                yield from _check(tree, step_id, name, givers.get(name, []), sure, maybe)


def _check(
    tree: Tree,
    step_id: str,
    name: str,
    givers: Sequence[str],
    sure: StepsBefore,
    maybe: StepsBefore,
) -> Iterator[Finding]:
    if not maybe.has_any(step_id, givers):
        yield Finding(
            "value-before-use",
            ("steps", step_id),
            f"{step_id} uses {name}, which no path to it measures",
            "Measure it on the way, or use a value under needs.",
            on_key=True,
        )
    elif not sure.has_any(step_id, givers) and not isinstance(tree.steps[step_id], WorkOut):
        yield Finding(
            "value-before-use",
            ("steps", step_id),
            f"{step_id} uses {name}, which some paths to it do not measure",
            "Put the measurement on every path, or judge by battery-voltage.",
            severity="warning",
            on_key=True,
        )


def _givers(tree: Tree) -> dict[str, list[str]]:
    """The steps that give each name a value; the battery is measured where bands need it, too."""
    found: dict[str, list[str]] = {}
    for step_id, step in tree.steps.items():
        if not isinstance(step, Measure | WorkOut):
            continue
        given = {step_id, step.as_ or step_id}
        if isinstance(step, Measure) and BATTERY_VOLTAGE in step.names_used:
            given.add(BATTERY_VOLTAGE)
        for name in given:
            found.setdefault(name, []).append(step_id)
    return found
