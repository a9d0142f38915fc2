"""missing-need: a band or sum goes by vehicle data that the tree does not ask for."""

from collections.abc import Iterator

from faulttree.core.checks.finding import DocumentPath, Finding
from faulttree.core.checks.names import placed
from faulttree.core.expression_functions import goes_by
from faulttree.core.expression_values import ALTITUDE, REFRIGERANT
from faulttree.core.tree import Measure, Tree, WorkOut
from faulttree.core.units import Quantity

_MEND = {
    REFRIGERANT: "Under facts of needs, write refrigerant: {ask: Refrigerant on the label}.",
    ALTITUDE: "Under values of needs, write altitude: {quantity: length, ask: Altitude here}.",
}


def check(tree: Tree) -> Iterator[Finding]:
    """Refrigerant and altitude stand under needs where a function goes by them."""
    for name, (path, function) in _first_uses(tree).items():
        if name in (tree.needs.facts if name == REFRIGERANT else tree.needs.values):
            yield from _of_another_quantity(tree, name)
            continue
        message = f"{function} goes by the car's {name}, which does not stand under needs"
        yield Finding("missing-need", path, message, _MEND[name])


def _first_uses(tree: Tree) -> dict[str, tuple[DocumentPath, str]]:
    """Where each of them is first gone by, and by which function."""
    found: dict[str, tuple[DocumentPath, str]] = {}
    for step_id, step in tree.steps.items():
        if isinstance(step, Measure | WorkOut):
            for path, expression in placed(step):
                for function in sorted(expression.functions):
                    for name in sorted(goes_by(function)):
                        found.setdefault(name, (("steps", step_id, *path), function))
    return found


def _of_another_quantity(tree: Tree, name: str) -> Iterator[Finding]:
    if name == ALTITUDE and tree.needs.values[name].quantity is not Quantity.LENGTH:
        found = tree.needs.values[name].quantity.words
        path = ("needs", "values", name)
        message = f"the altitude is a length, here it is {found}"
        yield Finding("missing-need", path, message, "Write quantity: length.", on_key=True)
