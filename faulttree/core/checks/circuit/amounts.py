"""circuit-amount, ideal-source: an amount is of another kind, cannot be, or has no resistance."""

from collections.abc import Iterator, Mapping

from faulttree.core.checks.circuit.inputs import MEASURES
from faulttree.core.checks.finding import DocumentPath, Finding
from faulttree.core.circuit.amounts import Of, amounts_in
from faulttree.core.circuit.document import CircuitModel
from faulttree.core.circuit.elements import (
    Element,
    Sender,
    Thermistor,
    ThresholdSwitch,
)
from faulttree.core.circuit.walks import conditions_in
from faulttree.core.expression import Expression, ExpressionError
from faulttree.core.uncertain import CannotWorkOut, Uncertain, exactly
from faulttree.core.units import Quantity

_MAY_BE_ZERO = ("charge", "after", "chance", "forward", "drop-out", "supply", "low-below", "door")
_MAY_BE_NEGATIVE = ("from", "below", "at", "opens", "closes", "usual", "altitude")


def check(model: CircuitModel) -> Iterator[Finding]:
    """One finding for each amount that cannot be worked out, or not be what it says."""
    for name, each in model.inputs.items():
        if each.quantity is not None:
            path: DocumentPath = ("inputs", name, "usual")
            yield from _amount(path, Of(each.quantity, may_follow=False), each.usual, {}, {})
    names = model.quantities
    usual = _usual_values(model)
    for name, element in model.elements.items():
        for path, mark, value in _of_element(model, element):
            yield from _amount(("elements", name, *path), mark, value, names, usual)
    for written in amounts_in(model.loop) if model.loop else ():
        if written.mark:
            yield from _amount(("loop", *written.path), written.mark, written.value, names, usual)


def _of_element(
    model: CircuitModel, element: Element
) -> Iterator[tuple[DocumentPath, Of, Expression]]:
    for written in amounts_in(element):
        if written.mark:
            yield written.path, written.mark, written.value
    if isinstance(element, Sender | Thermistor | ThresholdSwitch):
        quantity = model.quantities.get(element.follows)
        if quantity in MEASURES.get(element.kind, tuple(Quantity)):
            assert quantity
            fixed = Of(quantity, may_follow=False)
            yield from ((path, fixed, value) for path, value in _followed(element))
    for path, condition in conditions_in(element):
        kind = Quantity.VOLTAGE if condition.node else model.quantities.get(condition.input or "")
        for key, edge in (("from", condition.from_), ("below", condition.below)):
            if edge is not None and kind:
                yield (*path, key), Of(kind, may_follow=False), edge


def _followed(
    element: Sender | Thermistor | ThresholdSwitch,
) -> Iterator[tuple[DocumentPath, Expression]]:
    if isinstance(element, ThresholdSwitch):
        yield ("opens",), element.opens
        yield ("closes",), element.closes
    else:
        yield from ((("curve", i, "at"), p.at) for i, p in enumerate(element.curve))


def _usual_values(model: CircuitModel) -> Mapping[str, Uncertain]:
    found = {}
    for name, quantity in model.quantities.items():
        try:
            found[name] = exactly(model.inputs[name].usual.evaluator(quantity, {})({}).value)
        except (ExpressionError, CannotWorkOut):
            continue
    return found


def _amount(
    path: DocumentPath,
    mark: Of,
    value: Expression,
    names: Mapping[str, Quantity],
    usual: Mapping[str, Uncertain],
) -> Iterator[Finding]:
    try:
        evaluate = value.evaluator(mark.quantity, names if mark.may_follow else {})
    except ExpressionError as error:
        help = f"Write {_example(mark.quantity)}."
        yield Finding("circuit-amount", path, _in_our_words(str(error), names, mark), help)
        return
    try:
        found = evaluate(usual).value
    except CannotWorkOut as error:
        if value.names <= usual.keys():
            yield Finding("circuit-amount", path, str(error), "Write a plain value.")
        return
    yield from _size(path, value, found)


def _size(path: DocumentPath, value: Expression, found: float) -> Iterator[Finding]:
    key = next(str(p) for p in reversed(path) if isinstance(p, str))
    may_be_zero = key in _MAY_BE_ZERO or "is" in path
    if key in _MAY_BE_NEGATIVE or found > 0.0 or (found == 0.0 and may_be_zero):
        return
    if found == 0.0 and key == "internal":
        message = f"{value.text} makes an ideal source; in a loop its current would have no limit"
        yield Finding("ideal-source", path, message, "Give its resistance, for example 10 mohm.")
    else:
        message = f"{value.text} must be more than nothing"
        yield Finding("circuit-amount", path, message, "Write a positive amount.")


def _in_our_words(error: str, names: Mapping[str, Quantity], mark: Of) -> str:
    known = "a measured input" if mark.may_follow and names else "an amount"
    return error.replace("neither an earlier step nor a value under needs", f"not {known}")


_EXAMPLES = {
    Quantity.VOLTAGE: "12.6 V",
    Quantity.CURRENT: "10 A",
    Quantity.RESISTANCE: "0.05 ohm",
    Quantity.POWER: "21 W",
    Quantity.LENGTH: "2 m",
    Quantity.AREA: "1.5 mm2",
    Quantity.VOLUME: "160 cm3",
    Quantity.ROTATIONAL_SPEED: "850 rpm",
    Quantity.MASS: "800 g",
    Quantity.TEMPERATURE: "20 C",
    Quantity.TIME: "0.5 s",
    Quantity.RATIO: "75 %",
}


def _example(quantity: Quantity) -> str:
    example = _EXAMPLES.get(quantity)
    return f"{quantity.words}, for example {example}" if example else quantity.words
