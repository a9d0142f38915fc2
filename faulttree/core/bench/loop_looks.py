"""The circuit and the refrigerant loop of a car, each working on the other.

Fans and clutch of the circuit move air and turn the compressor; pressures and temperatures of the
loop open and close switches of the circuit. Each is solved with what the other showed last, until
nothing changes, a few times at most. A clutch that a cut-out lets go, and takes back once the
pressure has fallen, has no steady state: it is shown as it is found when it has just let go, with
the pressures that did it. A fan that its own pressure switch turns on and off is left as it was
found last.
"""

import math
from collections.abc import Callable, Iterator, Sequence

import numpy as np

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
_SAME = 0.02
"""Shares of speed that differ by less are the same."""
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
        drawn = [Drawn()] * len(cases)
        values = self._shown(cases, drawn)
        if not (self._fan or self._blower or self._clutch):
            return values
        engaged, lets_go = values, [False] * len(cases)
        for _ in range(ROUNDS):
            now = self._drawn(solve(values), len(cases))
            # A clutch that comes back once its loop stands was let go by what its loop showed.
            lets_go = [
                known or (new.is_engaged and not old.is_engaged)
                for known, new, old in zip(lets_go, now, drawn, strict=True)
            ]
            if all(k or _alike(a, b) for k, a, b in zip(lets_go, now, drawn, strict=True)):
                break
            drawn, values = now, self._shown(cases, now)
            engaged = [
                new if each.is_engaged and not known else old
                for new, old, each, known in zip(values, engaged, now, lets_go, strict=True)
            ]
            values = _picked(engaged, values, lets_go)
        return _picked(engaged, values, lets_go)

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


def _picked(some: list[Values], others: list[Values], which: list[bool]) -> list[Values]:
    return [a if is_so else b for a, b, is_so in zip(some, others, which, strict=True)]


def _given(asked: Asked) -> dict[str, float]:
    """What a look or a situation says of the loop itself, in place of what it would show."""
    return {name: float(v) for name, v in asked.inputs.items() if name in SHOWN}


def _alike(one: Drawn, other: Drawn) -> bool:
    return (
        one.is_engaged == other.is_engaged
        and math.isclose(one.fan, other.fan, abs_tol=_SAME)
        and math.isclose(one.blower, other.blower, abs_tol=_SAME)
    )
