"""loop-part, unknown-input, unknown-state, unknown-fault, fault-size: a loop that cannot be.

A loop follows inputs, motors and a clutch of its circuit, has faults of its own, and shows what no
input may be called.
"""

from collections.abc import Iterator

from faulttree.core.checks.circuit.fault_names import sizes_of_entry
from faulttree.core.checks.finding import DocumentPath, Finding, nearest
from faulttree.core.circuit.amounts import si
from faulttree.core.circuit.document import CircuitModel
from faulttree.core.circuit.elements import Motor
from faulttree.core.circuit.loop_document import SHOWN, ByMotor, ByShares, ByTurns, Loop
from faulttree.core.circuit.loop_faults import kinds_of_loop
from faulttree.core.expression import ExpressionError
from faulttree.core.uncertain import CannotWorkOut
from faulttree.core.units import Quantity

_AT: DocumentPath = ("loop",)


def check(model: CircuitModel) -> Iterator[Finding]:
    """One finding for each thing of the loop that is not there or cannot be."""
    if model.loop is None:
        return
    for path, by in _states(model.loop):
        yield from _followed(model, by, path)
    for path, by_motor in _motors(model.loop):
        yield from _motor(model, by_motor, path)
    yield from _clutch(model, model.loop)
    yield from _control(model.loop)
    yield from _faults(model.loop)
    yield from _names(model)


def _states(loop: Loop) -> Iterator[tuple[DocumentPath, ByTurns | ByShares]]:
    yield ("compressor", "turns"), loop.compressor.turns
    heater = loop.heater
    for path, by in (
        (("condenser", "draught"), loop.condenser.draught),
        (("evaporator", "blower"), loop.evaporator.blower),
        (("heater", "flow"), heater.flow if heater else None),
        (("heater", "door"), heater.door if heater else None),
    ):
        if isinstance(by, ByShares):
            yield path, by


def _motors(loop: Loop) -> Iterator[tuple[DocumentPath, ByMotor]]:
    if loop.condenser.fan:
        yield ("condenser", "fan"), loop.condenser.fan
    if isinstance(loop.evaporator.blower, ByMotor):
        yield ("evaporator", "blower"), loop.evaporator.blower


def _followed(model: CircuitModel, by: ByTurns | ByShares, path: DocumentPath) -> Iterator[Finding]:
    at = (*_AT, *path)
    known = model.inputs.get(by.follows)
    if known is None:
        help = nearest(by.follows, model.inputs)
        message = f"no input is called {by.follows}"
        yield Finding("unknown-input", (*at, "follows"), message, help)
    elif known.states is None:
        message = f"{by.follows} is measured; this follows an input with states"
        yield Finding("unknown-input", (*at, "follows"), message, "Give that input states.")
    else:
        for state in by.is_:
            if state not in known.states:
                message, help = f"{by.follows} has no state {state}", nearest(state, known.states)
                yield Finding("unknown-state", (*at, "is", state), message, help, on_key=True)


def _motor(model: CircuitModel, by: ByMotor, path: DocumentPath) -> Iterator[Finding]:
    motors = [n for n, e in model.elements.items() if isinstance(e, Motor)]
    if by.motor not in motors:
        message = f"no motor is called {by.motor}"
        yield Finding("loop-part", (*_AT, *path, "motor"), message, nearest(by.motor, motors))


def _clutch(model: CircuitModel, loop: Loop) -> Iterator[Finding]:
    clutch = loop.compressor.clutch
    if clutch and clutch.current not in model.elements:
        message = f"no element is called {clutch.current}"
        help = nearest(clutch.current, model.elements)
        yield Finding("loop-part", (*_AT, "compressor", "clutch", "current"), message, help)


def _control(loop: Loop) -> Iterator[Finding]:
    control = loop.control
    if control is None:
        return
    found = []
    for key, value in (("opens", control.opens), ("closes", control.closes)):
        try:
            found.append(si(value, control.quantity))
        except (ExpressionError, CannotWorkOut) as error:
            at = (*_AT, "control", key)
            yield Finding("circuit-amount", at, str(error), f"Write {_EXAMPLES[control.quantity]}.")
    if len(found) == 2 and found[0] >= found[1]:
        message = "it opens where it should be closed"
        help = "It opens at the colder or lower point and closes again at the other."
        yield Finding("loop-part", (*_AT, "control", "opens"), message, help)


_EXAMPLES = {Quantity.TEMPERATURE: "1 C", Quantity.GAUGE_PRESSURE: "165 kPa"}


def _faults(loop: Loop) -> Iterator[Finding]:
    kinds = {kind.id: kind for kind in kinds_of_loop(loop)}
    for name, entry in loop.faults.items():
        at = (*_AT, "faults", name)
        if name not in kinds:
            message = f"this loop has no fault {name}"
            yield Finding("unknown-fault", at, message, nearest(name, kinds), on_key=True)
        else:
            quantity = Quantity.RATIO if kinds[name].sizes else None
            yield from sizes_of_entry(entry, quantity, at)


def _names(model: CircuitModel) -> Iterator[Finding]:
    for name in model.inputs:
        shown = SHOWN.get(name)
        written = model.inputs[name]
        if shown and (written.quantity is not shown.quantity or written.usual.text != shown.usual):
            message = f"{name} is what the loop shows; the car cannot set it"
            help = "Take the input out, or give it another name."
            yield Finding("loop-part", ("inputs", name), message, help, on_key=True)
