"""The day a walk is done on: what was measured of it sets the car on the bench.

A pressure of 1.4 MPa is much at 22 °C and little at 40 °C. So what was read of the weather is no
evidence about the car but a condition of every other reading, as the battery voltage is.
"""

from collections.abc import Iterator

from faulttree.core.bench.document import BenchSheet
from faulttree.core.circuit.document import CircuitModel
from faulttree.core.circuit.loop_document import SHOWN
from faulttree.core.circuit.loop_faults import OF_CAR_ALTITUDE, OF_CAR_REFRIGERANT
from faulttree.core.expression_values import ALTITUDE, REFRIGERANT
from faulttree.core.refrigerant.spelled import refrigerant_spelled
from faulttree.core.walk.events import ReadingTaken
from faulttree.core.walk.state import WalkState

Day = tuple[tuple[str, float | str], ...]
"""Inputs of the circuit and their values [SI], in the order of their names; also what the data of
the car say of its refrigerant loop."""


def day_of(state: WalkState, sheet: BenchSheet, model: CircuitModel) -> Day:
    """The day as far as the walk tells it.

    Counted are measured inputs that no situation of the sheet changes: what a situation changes is
    something that may be wrong with the car, and its reading is evidence. The weather counts all
    the same: no car makes it.
    """
    changed = {name for each in sheet.situations.values() for name in each.inputs}
    names = model.quantities.keys() - (changed - _weather(model)) - SHOWN.keys()
    told = {**dict(_vehicle(state, model)), **dict(_read(state, sheet))}
    measured = {name: value for name, value in told.items() if name in names}
    return tuple(sorted({**measured, **dict(_loop(state, model))}.items()))


def _weather(model: CircuitModel) -> set[str]:
    """Inputs that the loop takes the air outside from."""
    loop = model.loop
    return {*loop.ambient.names, *loop.humidity.names} if loop else set()


def _loop(state: WalkState, model: CircuitModel) -> Iterator[tuple[str, float | str]]:
    """Altitude and refrigerant of this car, where the document says them once for all."""
    if model.loop is None:
        return
    altitude = state.vehicle_values.get(ALTITUDE)
    if altitude is not None and not model.loop.altitude.names:
        yield OF_CAR_ALTITUDE, altitude.value
    told = refrigerant_spelled(state.fact(REFRIGERANT) or "")
    if told is not None and told.value != model.loop.refrigerant:
        yield OF_CAR_REFRIGERANT, told.value


def _vehicle(state: WalkState, model: CircuitModel) -> Iterator[tuple[str, float]]:
    """Vehicle data that are called like an input and are of its quantity."""
    for name, value in state.vehicle_values.items():
        if state.tree.needs.values[name].quantity is model.quantities.get(name):
            yield name, value.value


def _read(state: WalkState, sheet: BenchSheet) -> Iterator[tuple[str, float]]:
    """Readings of tests that read an input of the circuit."""
    for step_id, test in sheet.tests.items():
        answer = state.answers.get(step_id)
        if test.of and isinstance(answer, ReadingTaken) and answer.value != "OL":
            yield test.of, answer.value
