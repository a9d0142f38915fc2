"""The circuit and the refrigerant loop of a car, each working on the other.

Fans and clutch of the circuit move air and turn the compressor; pressures and temperatures of the
loop open and close switches of the circuit. Each is solved with what the other showed last, until
nothing changes, a few times at most: see `course` for what has no steady state.
"""

from collections.abc import Callable, Iterator, Sequence

import numpy as np

from faulttree.core.bench.course import SAME, Course
from faulttree.core.bench.fan_cycling import just_before_it_stops
from faulttree.core.bench.loop_runs import Asked, Drawn, LoopRuns, Values
from faulttree.core.bench.setting import Inputs, Setting
from faulttree.core.bench.solved_rows import Floats, SolvedRows
from faulttree.core.circuit.amounts import amounts_in, si
from faulttree.core.circuit.circuit import Circuit
from faulttree.core.circuit.document import CircuitModel
from faulttree.core.circuit.elements import Motor, Sender, Thermistor, ThresholdSwitch
from faulttree.core.circuit.loop_document import SHOWN, ByMotor
from faulttree.core.circuit.walks import conditions_in
from faulttree.core.units import Quantity

Case = tuple[Setting, Inputs]
"""A setting, and the inputs of a car as it is found."""
Solve = Callable[[Sequence[Values]], SolvedRows]
"""Solves the circuit of some cases, given what the loop of each shows."""
ROUNDS = 4
_TURNS_FROM = 0.05
"""Share of its rated current below which a motor stands still."""


class LoopLooks:
    """What the loop shows in cases of one circuit."""

    def __init__(self, circuit: Circuit) -> None:
        assert circuit.model.loop is not None
        self._circuit, self._section = circuit, circuit.model.loop
        self._runs = LoopRuns(circuit.model)
        blower = self._section.evaporator.blower
        fan, clutch = self._section.condenser.fan, self._section.compressor.clutch
        self._fan = fan.motor if fan else None
        self._blower = blower.motor if isinstance(blower, ByMotor) else None
        self._clutch = clutch
        self.followed = frozenset(_used(circuit.model)) & SHOWN.keys()

    def shown(self, cases: Sequence[Case], solve: Solve) -> list[Values]:
        """What the loop of each case shows, by name [SI]."""
        first = [Drawn()] * len(cases)
        courses = [Course(*each) for each in zip(first, self._shown(cases, first), strict=True)]
        if not (self._fan or self._blower or self._clutch):
            return [course.values for course in courses]
        for _ in range(ROUNDS):
            now = self._drawn(solve([course.values for course in courses]), len(cases))
            for course, drawn in zip(courses, now, strict=True):
                course.answers(drawn)
            if all(course.is_over for course in courses):
                break
            for course, drawn, values in zip(courses, now, self._shown(cases, now), strict=True):
                course.goes_on(drawn, values)
        return self._with_steady_fans(courses, solve)

    def _with_steady_fans(self, courses: Sequence[Course], solve: Solve) -> list[Values]:
        """Where each course ended; of a fan that goes on and off, just before it stops."""
        values = [course.values for course in courses]
        if not any(course.fan for course in courses):
            return values

        def runs(tried: Sequence[Values]) -> list[bool]:
            return [each.fan > SAME for each in self._drawn(solve(tried), len(tried))]

        both = [course.fan or (course.values, course.values) for course in courses]
        return just_before_it_stops([on for on, _ in both], [off for _, off in both], runs)

    def _shown(self, cases: Sequence[Case], drawn: Sequence[Drawn]) -> list[Values]:
        asked = [
            Asked({**found, **dict(setting.inputs)}, each, setting.elapsed_s)
            for (setting, found), each in zip(cases, drawn, strict=True)
        ]
        found = self._runs.shown(asked)
        return [{**values, **_given(each)} for values, each in zip(found, asked, strict=True)]

    def _drawn(self, solved: SolvedRows, count: int) -> list[Drawn]:
        fan, blower = (self._speed(solved, motor, count) for motor in (self._fan, self._blower))
        engaged = np.ones(count, bool)
        if self._clutch:
            low, _ = solved.current(self._clutch.current)
            engaged = low >= si(self._clutch.from_, Quantity.CURRENT)
        return [
            Drawn(float(a), float(b), bool(c)) for a, b, c in zip(fan, blower, engaged, strict=True)
        ]

    def _speed(self, solved: SolvedRows, name: str | None, count: int) -> Floats:
        """Speed of a motor as a share of its rated one: what current and voltage allow."""
        if name is None:
            return np.ones(count)
        motor = self._circuit.model.elements[name]
        assert isinstance(motor, Motor)
        volts, amperes = si(motor.voltage, Quantity.VOLTAGE), si(motor.current, Quantity.CURRENT)
        winding = si(motor.winding, Quantity.RESISTANCE)
        current, _ = solved.current(name)
        across = np.min(np.abs(solved.voltage(*motor.between)), axis=0)
        by_torque = np.sqrt(current / amperes)
        by_voltage = np.maximum(across - current * winding, 0.0) / (volts - amperes * winding)
        turns = current >= _TURNS_FROM * amperes
        return np.where(turns, np.minimum(by_torque, by_voltage), 0.0)


def _used(model: CircuitModel) -> Iterator[str]:
    """Inputs that the elements of a circuit follow, depend on, or reckon with."""
    for element in model.elements.values():
        if isinstance(element, Sender | Thermistor | ThresholdSwitch):
            yield element.follows
        for written in amounts_in(element):
            yield from written.value.names
        for _, condition in conditions_in(element):
            yield condition.input or ""


def _given(asked: Asked) -> dict[str, float]:
    """What a look or a situation says of the loop itself, in place of what it would show."""
    return {name: float(v) for name, v in asked.inputs.items() if name in SHOWN}
