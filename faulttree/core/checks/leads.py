"""lead-positions: a test does not say where the instrument goes."""

from collections.abc import Iterator

from faulttree.core.checks.finding import Finding
from faulttree.core.tree import Measure, Observe, Tree
from faulttree.core.units import Quantity

_BETWEEN_POINTS = (Quantity.VOLTAGE, Quantity.RESISTANCE)


def check(tree: Tree) -> Iterator[Finding]:
    """Tests between two points name both leads, all others one place."""
    for step_id, step in tree.steps.items():
        if isinstance(step, Measure):
            yield from _check(step_id, step, step.quantity in _BETWEEN_POINTS)
        elif isinstance(step, Observe) and step.with_ is not None:
            yield from _check(step_id, step, step.with_.has_two_leads)


def _check(step_id: str, step: Measure | Observe, two_leads: bool) -> Iterator[Finding]:
    has_leads = bool(step.red_lead), bool(step.black_lead)
    if two_leads and not all(has_leads):
        missing = " and ".join(
            n for n, there in zip(("red-lead", "black-lead"), has_leads, strict=True) if not there
        )
        yield _finding(step_id, f"{step_id} does not say where the leads go", f"Add {missing}.")
    elif two_leads and step.at:
        yield _finding(step_id, f"{step_id} has leads and at as well", "Take out at.")
    elif not two_leads and not step.at and not any(has_leads):
        yield _finding(
            step_id, f"{step_id} does not say where the reading is taken", "Add at: PLACE."
        )


def _finding(step_id: str, message: str, help: str) -> Finding:
    return Finding("lead-positions", ("steps", step_id), message, help, on_key=True)
