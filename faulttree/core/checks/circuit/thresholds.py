"""circuit-threshold: two points of a switch, a relay, an input or a motor contradict each other."""

from collections.abc import Iterator

from faulttree.core.checks.finding import DocumentPath, Finding
from faulttree.core.circuit.amounts import si
from faulttree.core.circuit.document import CircuitModel
from faulttree.core.circuit.elements import ControlInput, Element, Motor, Relay, ThresholdSwitch
from faulttree.core.expression import ExpressionError
from faulttree.core.uncertain import CannotWorkOut
from faulttree.core.units import Quantity


def check(model: CircuitModel) -> Iterator[Finding]:
    """One finding for each pair of points that cannot both be right."""
    for name, element in model.elements.items():
        try:
            for path, message, help in _of(model, element):
                yield Finding("circuit-threshold", ("elements", name, *path), message, help)
        except (ExpressionError, CannotWorkOut, KeyError):
            continue  # another rule tells it


def _of(model: CircuitModel, element: Element) -> Iterator[tuple[DocumentPath, str, str]]:
    if isinstance(element, Relay):
        coil = element.coil
        if si(coil.drop_out, Quantity.VOLTAGE) >= si(coil.pull_in, Quantity.VOLTAGE):
            message = f"it drops out at {coil.drop_out.text} and pulls in at {coil.pull_in.text}"
            yield ("coil", "drop-out"), message, "Drop-out lies below pull-in."
    elif isinstance(element, ControlInput):
        low, high = element.low_below, element.high_from
        if si(low, Quantity.VOLTAGE) > si(high, Quantity.VOLTAGE):
            message = f"low below {low.text} and high from {high.text} overlap"
            yield ("low-below",), message, "Low ends below where high begins."
    elif isinstance(element, ThresholdSwitch):
        quantity = model.quantities[element.follows]
        if si(element.opens, quantity) == si(element.closes, quantity):
            message = f"it opens and closes at {element.opens.text}"
            yield ("closes",), message, "Give two different points."
    elif isinstance(element, Motor):
        drop = si(element.current, Quantity.CURRENT) * si(element.winding, Quantity.RESISTANCE)
        if drop >= si(element.voltage, Quantity.VOLTAGE):
            message = f"at {element.current.text} its winding takes all of {element.voltage.text}"
            yield ("winding",), message, "Give the resistance at standstill, brushes included."
