"""What coils, inputs and drivers do next, given the voltages of an operating point."""

from collections.abc import Callable

import numpy as np

from faulttree.core.circuit.amounts import si
from faulttree.core.circuit.batch import Batch, Bools, Floats
from faulttree.core.circuit.circuit import Circuit
from faulttree.core.circuit.conditions import Condition
from faulttree.core.circuit.netlist import Car, Control
from faulttree.core.circuit.static_conditions import holds, is_static
from faulttree.core.units import Quantity

Holds = Callable[[Batch, Floats, Bools], Bools]
"""Whether a condition holds in each case, by voltages and by the states of the inputs."""


class Controls:
    """All controls of a circuit."""

    def __init__(self, circuit: Circuit) -> None:
        self._circuit = circuit
        self._controls = circuit.netlist.controls
        self._drivers = {
            i: [self._compiled(c) for c in control.conditions]
            for i, control in enumerate(self._controls)
        }

    def start(self, n_cases: int) -> Bools:
        """Everything at rest: coils released, drivers off; inputs are held up, as most are."""
        at_rest = [control.kind == "input" for control in self._controls]
        return np.tile(np.array(at_rest, bool), (n_cases, 1))

    def after(self, batch: Batch, voltages: Floats, closed: Bools, on: Bools) -> Bools:
        """The states that an operating point leads to, shape (n_cases, n_controls)."""
        found = on.copy()
        for index, control in enumerate(self._controls):
            if control.kind != "driver":
                found[:, index] = self._with_memory(index, control, batch, voltages, closed, on)
        for index, control in enumerate(self._controls):
            if control.kind == "driver":
                found[:, index] = self._drives(index, control, batch, voltages, found)
        return found

    def _with_memory(
        self, index: int, control: Control, batch: Batch, voltages: Floats, closed: Bools, on: Bools
    ) -> Bools:
        volts = voltages[:, control.a] - voltages[:, control.b]
        on_at, off_at = batch.figures.on_at[:, index], batch.figures.off_at[:, index]
        if control.kind == "coil":
            # A coil that is open makes no field, whatever stands across it.
            volts = np.abs(volts) * closed[:, control.branch]
            return np.asarray((volts >= on_at) | (on[:, index] & (volts > off_at)))
        return np.asarray((volts >= on_at) | (on[:, index] & (volts >= off_at)))

    def _drives(
        self, index: int, control: Control, batch: Batch, voltages: Floats, on: Bools
    ) -> Bools:
        is_time = _by_car(batch, lambda car: car.elapsed_s >= control.after_s)
        for condition in self._drivers[index]:
            is_time = is_time & condition(batch, voltages, on)
        return is_time

    def _compiled(self, condition: Condition) -> Holds:
        if is_static(condition):
            model = self._circuit.model
            return lambda batch, _v, _on: _by_car(batch, lambda car: holds(condition, car, model))
        if condition.any:
            inner = [self._compiled(c) for c in condition.any]
            return lambda batch, v, on: np.any([c(batch, v, on) for c in inner], axis=0)
        if condition.reads:
            control = self._circuit.netlist.control(condition.reads)
            is_high = condition.is_ == ("high",)
            return lambda _batch, _v, on: np.asarray(on[:, control] == is_high)
        return self._range(condition)

    def _range(self, condition: Condition) -> Holds:
        netlist, against = self._circuit.netlist, condition.against or self._circuit.model.reference
        a, b = netlist.node(condition.node or ""), netlist.node(against)
        low = si(condition.from_, Quantity.VOLTAGE) if condition.from_ else -np.inf
        high = si(condition.below, Quantity.VOLTAGE) if condition.below else np.inf
        return lambda _batch, v, _on: (v[:, a] - v[:, b] >= low) & (v[:, a] - v[:, b] < high)


def _by_car(batch: Batch, ask: Callable[[Car], bool]) -> Bools:
    answers = np.array([ask(car) for car in batch.figures.cars], bool)
    return answers[batch.figures.state_of]
