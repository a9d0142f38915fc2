"""curve-order: the points of a sensor's curve do not rise."""

from collections.abc import Iterator

from faulttree.core.checks.finding import Finding
from faulttree.core.circuit.amounts import si
from faulttree.core.circuit.document import CircuitModel
from faulttree.core.circuit.elements import Sender, Thermistor
from faulttree.core.expression import ExpressionError
from faulttree.core.uncertain import CannotWorkOut


def check(model: CircuitModel) -> Iterator[Finding]:
    """One finding for each point that does not lie above the one before."""
    for name, element in model.elements.items():
        if isinstance(element, Sender | Thermistor) and element.follows in model.quantities:
            quantity = model.quantities[element.follows]
            try:
                at = [si(point.at, quantity) for point in element.curve]
            except (ExpressionError, CannotWorkOut):
                continue
            for index in range(1, len(at)):
                if at[index] <= at[index - 1]:
                    path = ("elements", name, "curve", index, "at")
                    message = f"{element.curve[index].at.text} is not above the point before"
                    yield Finding("curve-order", path, message, "Put the points in rising order.")
