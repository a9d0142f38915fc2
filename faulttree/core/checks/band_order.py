"""band-order: somewhere in the plausible range of its reference, an edge passes another one."""

import itertools
from collections.abc import Iterator, Mapping

from faulttree.core.checks.finding import Finding
from faulttree.core.expression import Expression, ExpressionError
from faulttree.core.tree import BATTERY_VOLTAGE, Measure, Tree, WorkOut
from faulttree.core.uncertain import CannotWorkOut, Uncertain, exactly

BATTERY_RANGE_V = (9.0, 15.5)
"""Battery voltages over which bands must make sense [V]: cranking on a weak battery to charging.
Source: common practice."""


def check(tree: Tree) -> Iterator[Finding]:
    """Edges rise, for every battery voltage and every earlier reading that is plausible."""
    for step_id, step in tree.steps.items():
        if not isinstance(step, Measure | WorkOut):
            continue
        names = sorted(set().union(*(e.names for e in step.edges)))
        crossed = _first_crossing(tree, step, names)
        if crossed is None:
            continue
        index, values = crossed
        with_values = ", ".join(f"{n} = {v.value:g} (SI)" for n, v in values.items())
        yield Finding(
            "band-order",
            ("steps", step_id, "bands", index + 1),
            f"{step.bands[index + 1].name} begins above where it ends"
            + (f" when {with_values}" if values else ""),
            "Bands run from low to high; keep the edges apart over the whole plausible range.",
        )


def _first_crossing(
    tree: Tree, step: Measure | WorkOut, names: list[str]
) -> tuple[int, dict[str, Uncertain]] | None:
    ranges = [_range_of(tree, name) for name in names]
    if any(r is None for r in ranges) or len(names) > 4:
        return None
    for corner in itertools.product(*(r for r in ranges if r is not None)):
        values = {n: exactly(v) for n, v in zip(names, corner, strict=True)}
        edges = _edge_values(tree, step, values)
        if edges is None:
            return None
        for index, (low, high) in enumerate(itertools.pairwise(edges)):
            if high < low:
                return index, values
    return None


def _edge_values(
    tree: Tree, step: Measure | WorkOut, values: Mapping[str, Uncertain]
) -> list[float] | None:
    try:
        return [e.evaluator(step.quantity, tree.quantities)(values).value for e in step.edges]
    except (ExpressionError, CannotWorkOut):
        return None


def _range_of(tree: Tree, name: str) -> tuple[float, float] | None:
    if name == BATTERY_VOLTAGE:
        return BATTERY_RANGE_V
    step = tree.steps.get(name)
    if isinstance(step, Measure | WorkOut):
        return _constant_range(tree, step, step.plausible.from_, step.plausible.below)
    return None


def _constant_range(
    tree: Tree, step: Measure | WorkOut, low: Expression, high: Expression
) -> tuple[float, float] | None:
    try:
        ends = [e.evaluator(step.quantity, tree.quantities)({}).value for e in (low, high)]
    except (ExpressionError, CannotWorkOut):
        return None
    return ends[0], ends[1]
