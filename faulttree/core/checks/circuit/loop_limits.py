"""loop-limit: an amount, a size of a fault or a refrigerant of a loop that no car has.

The loop is worked out within what cars are met with; beyond it its figures would mean nothing, or
there would be none.
"""

from collections.abc import Iterator, Mapping
from contextlib import suppress

from faulttree.core.checks.finding import DocumentPath, Finding
from faulttree.core.circuit.amounts import amounts_in, si
from faulttree.core.circuit.document import CircuitModel
from faulttree.core.circuit.loop_document import SHOWN, Loop
from faulttree.core.circuit.loop_faults import kinds_of_loop
from faulttree.core.expression import Expression, ExpressionError
from faulttree.core.uncertain import CannotWorkOut, exactly
from faulttree.core.units import Quantity

Limits = tuple[str, str]
"""Least and most, as they are written."""
_AT: DocumentPath = ("loop",)
_LIMITS: dict[DocumentPath, Limits] = {
    ("charge",): ("100 g", "5 kg"),
    ("superheat",): ("1 K", "15 K"),
    ("ambient",): ("-30 C", "60 C"),
    ("humidity",): ("0 %", "100 %"),
    ("altitude",): ("-500 m", "5000 m"),
    ("compressor", "displacement"): ("20 cm3", "500 cm3"),
    ("compressor", "turns", "is"): ("0 rpm", "10000 rpm"),
    ("condenser", "draught", "is"): ("0 %", "300 %"),
    ("condenser", "fan", "gives"): ("0 %", "300 %"),
    ("evaporator", "blower", "gives"): ("0 %", "150 %"),
    ("evaporator", "blower", "is"): ("0 %", "150 %"),
    ("heater", "coolant"): ("-30 C", "130 C"),
    ("heater", "flow"): ("0 %", "150 %"),
    ("heater", "door"): ("0 %", "100 %"),
}
"""Least and most, by where it stands; common practice, no source, but for the altitude: see
core.atmosphere."""


def check(model: CircuitModel) -> Iterator[Finding]:
    """One finding for each amount that lies beyond what a car has."""
    if model.loop is None:
        return
    for written in amounts_in(model.loop):
        if written.mark:
            path: DocumentPath = tuple(written.path)
            yield from _own(written.value, path)
            yield from _amount(model, written.value, written.mark.quantity, path)
    yield from _sizes(model.loop)
    if model.loop.wrong_refrigerant == model.loop.refrigerant:
        message = f"{model.loop.refrigerant} is the right refrigerant of this car"
        help = "Name another one, or take wrong-refrigerant out."
        yield Finding("loop-limit", (*_AT, "wrong-refrigerant"), message, help)


def _own(value: Expression, path: DocumentPath) -> Iterator[Finding]:
    """Nothing the loop shows may be what the loop is worked out from."""
    for name in sorted(value.names & SHOWN.keys()):
        message = f"{name} is what the loop shows; it cannot be worked out from it"
        yield Finding("loop-limit", (*_AT, *path), message, "Use an input of the car.")


def _amount(
    model: CircuitModel, value: Expression, quantity: Quantity, path: DocumentPath
) -> Iterator[Finding]:
    limits = limits_at(path)
    with suppress(ExpressionError, CannotWorkOut, KeyError):  # another rule tells it
        if limits and not is_within(limits, value, quantity, model, {}):
            message = f"{value.text} is {beyond(limits)}"
            yield Finding("loop-limit", (*_AT, *path), message, between(limits))


def limits_at(path: DocumentPath) -> Limits | None:
    """Least and most of what stands at a place in the loop."""
    return next((both for at, both in _LIMITS.items() if path[: len(at)] == at), None)


def is_within(
    limits: Limits,
    value: Expression,
    quantity: Quantity,
    model: CircuitModel,
    inputs: Mapping[str, float],
) -> bool:
    """Whether an amount of the loop is one of a car, with some inputs set [SI] and others as usual.

    Raises:
        ExpressionError, CannotWorkOut, KeyError: it cannot be worked out at all.
    """
    car = {
        name: exactly(
            inputs[name] if name in inputs else si(model.inputs[name].usual, model.quantities[name])
        )
        for name in value.names
    }
    found = value.evaluator(quantity, model.quantities)(car).value
    least, most = (si(Expression.parse(text), quantity) for text in limits)
    slack = 1e-9 * (most - least)
    return least - slack <= found <= most + slack


def _sizes(loop: Loop) -> Iterator[Finding]:
    kinds = {kind.id: kind for kind in kinds_of_loop(loop)}
    for name, entry in loop.faults.items():
        if name not in kinds or not kinds[name].sizes:
            continue
        most = kinds[name].most
        for index, size in enumerate(entry.sizes or ()):
            with suppress(ExpressionError, CannotWorkOut):
                if not 0.0 <= si(size, Quantity.RATIO) <= most:
                    at = (*_AT, "faults", name, "sizes", index)
                    message = f"{size.text} is no size of this fault"
                    yield Finding("loop-limit", at, message, between(("0", f"{most:g}")))


def beyond(limits: Limits) -> str:
    """Why an amount is refused."""
    return f"not between {limits[0]} and {limits[1]}, where the loop of a car lies"


def between(limits: Limits) -> str:
    """How to mend it."""
    return f"Write a value between {limits[0]} and {limits[1]}."
