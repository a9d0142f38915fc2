"""unknown-input, unknown-state: an element or a condition asks for what the car does not have."""

from collections.abc import Iterator

from faulttree.core.checks.finding import DocumentPath, Finding, nearest
from faulttree.core.circuit.conditions import Condition
from faulttree.core.circuit.document import CircuitModel
from faulttree.core.circuit.elements import Sender, Switch, Thermistor, ThresholdSwitch
from faulttree.core.circuit.walks import conditions_in
from faulttree.core.units import Quantity

MEASURES = {
    "thermistor": (Quantity.TEMPERATURE,),
    "temperature-switch": (Quantity.TEMPERATURE,),
    "pressure-switch": (Quantity.GAUGE_PRESSURE, Quantity.ABSOLUTE_PRESSURE),
}
"""What an element of a kind may follow; any quantity where it is not listed."""


def check(model: CircuitModel) -> Iterator[Finding]:
    """One finding for each input or state that is not there."""
    for name, each in model.inputs.items():
        if each.states is not None:
            yield from _states(model, name, (each.usual.text,), ("inputs", name, "usual"))
    for name, element in model.elements.items():
        at: DocumentPath = ("elements", name)
        if isinstance(element, Switch):
            yield from _switch(model, element, at)
        elif isinstance(element, Sender | Thermistor | ThresholdSwitch):
            yield from _measured(model, element, at)
        for path, condition in conditions_in(element):
            yield from _condition(model, condition, at + path)


def _switch(model: CircuitModel, switch: Switch, at: DocumentPath) -> Iterator[Finding]:
    if switch.follows not in model.inputs:
        yield _unknown(model, switch.follows, (*at, "follows"))
    elif model.inputs[switch.follows].states is None:
        message = f"{switch.follows} is measured; a switch follows an input with states"
        help = "Use a pressure-switch or temperature-switch, or give the input states."
        yield Finding("unknown-input", (*at, "follows"), message, help)
    else:
        for key, contact in switch.contacts.items():
            path = (*at, "contacts", key, "closed")
            yield from _states(model, switch.follows, contact.closed, path)


def _measured(
    model: CircuitModel, element: Sender | Thermistor | ThresholdSwitch, at: DocumentPath
) -> Iterator[Finding]:
    if element.follows not in model.inputs:
        yield _unknown(model, element.follows, (*at, "follows"))
        return
    quantity = model.inputs[element.follows].quantity
    wanted = MEASURES.get(element.kind, tuple(Quantity))
    if quantity not in wanted:
        what = quantity.words if quantity else "an input with states"
        message = f"{element.follows} is {what}; a {element.kind} cannot follow it"
        help = f"Let it follow an input of {wanted[0].words if len(wanted) < 3 else 'a quantity'}."
        yield Finding("unknown-input", (*at, "follows"), message, help)


def _condition(model: CircuitModel, condition: Condition, at: DocumentPath) -> Iterator[Finding]:
    if not condition.input:
        return
    if condition.input not in model.inputs:
        yield _unknown(model, condition.input, (*at, "input"))
    elif condition.is_ and model.inputs[condition.input].states is None:
        message = f"{condition.input} is measured and has no states"
        yield Finding("unknown-state", (*at, "is"), message, "Use from and below.")
    elif condition.is_:
        yield from _states(model, condition.input, condition.is_, (*at, "is"))
    elif model.inputs[condition.input].states is not None:
        message = f"{condition.input} has states and no value"
        yield Finding("unknown-state", (*at, "input"), message, "Use is, with its states.")


def _states(
    model: CircuitModel, name: str, used: tuple[str, ...], at: DocumentPath
) -> Iterator[Finding]:
    known = model.inputs[name].states or ()
    for index, state in enumerate(used):
        if state not in known:
            path = at if at[-1] == "usual" else (*at, index)
            yield Finding(
                "unknown-state", path, f"{name} has no state {state}", nearest(state, known)
            )


def _unknown(model: CircuitModel, name: str, at: DocumentPath) -> Finding:
    return Finding("unknown-input", at, f"no input is called {name}", nearest(name, model.inputs))
