"""Looks at every car on the bench at once: what is on its wires when it is set in some way."""

from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass
from functools import cached_property

import numpy as np
from numpy.typing import NDArray

from faulttree.core.bench.document import Feed, Supplies
from faulttree.core.bench.setting import Setting
from faulttree.core.bench.suspects import Row
from faulttree.core.circuit.amounts import si
from faulttree.core.circuit.attached import Spread, read_pairs
from faulttree.core.circuit.cases import Cases, FaultSet
from faulttree.core.circuit.circuit import Circuit, State
from faulttree.core.circuit.controls import Controls
from faulttree.core.circuit.edits import Between
from faulttree.core.circuit.elements import Lamp, Led
from faulttree.core.circuit.faults import Injected
from faulttree.core.circuit.netlist import Supply
from faulttree.core.circuit.newton import Point
from faulttree.core.circuit.probes import Probe
from faulttree.core.circuit.readings import LIGHT_EXPONENT
from faulttree.core.circuit.settle import Settled, swings
from faulttree.core.circuit.solve import Solved, currents_at, solve
from faulttree.core.units import Quantity

Floats = NDArray[np.float64]
Bools = NDArray[np.bool_]
Range = tuple[Floats, Floats]
"""Lower and upper limit in each row; the same where nothing swings."""
Supplied = tuple[Supply, Supply]
"""The battery with the engine stopped, and with it running."""


class Looks:
    """Solves the circuit in all rows, once for each setting.

    Attributes:
        rows: the cars.
        normal: index of the healthy car at the same supply, shape (n_rows,).
    """

    def __init__(self, circuit: Circuit, supplies: Mapping[str, Supplied], rows: Sequence[Row]):
        self.circuit, self.rows = circuit, tuple(rows)
        self._supplies = supplies
        healthy = {row.supply: i for i, row in enumerate(self.rows) if row.suspect is None}
        self.normal = np.array([healthy[row.supply] for row in self.rows], np.intp)
        self._looks: dict[Setting, Look] = {}

    def at(self, setting: Setting) -> "Look":
        """All cars in a setting."""
        if setting not in self._looks:
            solved = solve(self.circuit, self._cases(setting))
            self._looks[setting] = Look(self.circuit, solved)
        return self._looks[setting]

    def _cases(self, setting: Setting) -> Cases:
        loads = Injected("loads", tuple(Between(a, b, ohm) for a, b, ohm in setting.loads))
        states: dict[tuple[str, int], int] = {}
        found: list[State] = []
        state_of = []
        for row in self.rows:
            key = row.supply, id(row.form.inputs) if row.form.inputs else 0
            if key not in states:
                states[key] = len(found)
                found.append(self._state(setting, row))
            state_of.append(states[key])
        faults: dict[FaultSet, int] = {}
        fault_of = [faults.setdefault(row.form.injected, len(faults)) for row in self.rows]
        sets = tuple((*each, loads) if loads.edits else each for each in faults)
        return Cases(tuple(found), sets, np.array(state_of), np.array(fault_of))

    def _state(self, setting: Setting, row: Row) -> State:
        stopped, running = self._supplies[row.supply]
        return State(
            inputs={**row.form.inputs, **dict(setting.inputs)},
            supply=running if setting.is_running else stopped,
            removed=setting.removes,
            bridges=setting.bridges,
            elapsed_s=setting.elapsed_s,
        )


def supplied(supplies: Supplies) -> dict[str, Supplied]:
    """The supplies of a bench sheet, as the solver takes them."""
    return {
        name: (_supply(each.battery), _supply(each.running))
        for name, each in (
            ("weak", supplies.weak),
            ("normal", supplies.normal),
            ("charging", supplies.charging),
        )
    }


def _supply(feed: Feed) -> Supply:
    return Supply(si(feed.emf, Quantity.VOLTAGE), si(feed.internal, Quantity.RESISTANCE))


@dataclass(frozen=True, eq=False)
class Look:
    """What is on the wires of every car in one setting."""

    circuit: Circuit
    solved: Solved

    def readings(self, probes: Sequence[Probe], rows: NDArray[np.intp]) -> list[Spread]:
        """What probes show in some rows, one after the other."""
        n_rows, n_probes = len(rows), len(probes)
        case = np.tile(rows, n_probes)
        probe = np.repeat(np.arange(n_probes), n_rows)
        found = read_pairs(self.circuit, self.solved, probes, case, probe)
        pieces = [slice(i * n_rows, (i + 1) * n_rows) for i in range(n_probes)]
        return [Spread(found.low[p], found.high[p], found.flags[p]) for p in pieces]

    def current(self, name: str) -> Range:
        """Current of a branch, or of an element of one branch, either way round [A]."""
        index = self._branch(name)
        now = self._currents[:, index]
        return self._range(np.abs(now), lambda point, on: np.abs(self._swung(point, on)[:, index]))

    def voltage(self, a: str, b: str) -> Range:
        """Voltage from one node to another [V]."""
        i, j = self.circuit.netlist.node(a), self.circuit.netlist.node(b)

        def across(point: Point, _on: Bools) -> Floats:
            return point.voltages[:, i] - point.voltages[:, j]

        return self._range(across(self.solved.settled.point, self.solved.on), across)

    def light(self, name: str) -> Range:
        """Light of a lamp as a share of its light at rated voltage."""
        element = self.circuit.model.elements[name]
        assert isinstance(element, Lamp | Led)
        if isinstance(element, Led):
            low, high = self.current(name)
            rated = (12.0 - si(element.forward, Quantity.VOLTAGE)) / si(
                element.resistance, Quantity.RESISTANCE
            )
            return low / rated, high / rated
        volts, ends = si(element.voltage, Quantity.VOLTAGE), element.between
        low, high = self.voltage(*ends)
        amps_low, amps_high = self.current(name)
        least = np.where(low * high <= 0.0, 0.0, np.minimum(np.abs(low), np.abs(high)))
        most = np.maximum(np.abs(low), np.abs(high))
        # A filament that is burnt out has its voltage and no light.
        return (
            np.where(amps_low > 0, (least / volts) ** LIGHT_EXPONENT, 0.0),
            np.where(amps_high > 0, (most / volts) ** LIGHT_EXPONENT, 0.0),
        )

    def control(self, name: str) -> tuple[Bools, Bools]:
        """Whether a control is off, and whether it is on, at some time; both where it chatters."""
        index = self.circuit.netlist.control(name)
        on = self.solved.on[:, index]
        is_off, is_on = ~on, on.copy()
        for _, states in self._swings:
            is_off[self._unstable] |= ~states[:, index]
            is_on[self._unstable] |= states[:, index]
        return is_off, is_on

    def blown(self, name: str) -> Bools:
        """Whether a fuse has gone."""
        index = self.circuit.netlist.branch(name)
        layout = self.solved.batch.layout
        return self.solved.settled.blown[:, list(layout.fuses).index(index)]

    @cached_property
    def _currents(self) -> Floats:
        settled = self.solved.settled
        return currents_at(self.solved.batch, settled.on, settled.blown, settled.point)

    def _branch(self, name: str) -> int:
        netlist = self.circuit.netlist
        if name in self.circuit.model.elements:
            return netlist.branches_of(name)[0]
        return netlist.branch(name)

    def _range(self, now: Floats, value: Callable[[Point, Bools], Floats]) -> Range:
        low, high = now.copy(), now.copy()
        if self._unstable.size:
            seen = [value(point, on) for point, on in self._swings]
            low[self._unstable] = np.min(seen, axis=0)
            high[self._unstable] = np.max(seen, axis=0)
        return low, high

    def _swung(self, point: Point, on: Bools) -> Floats:
        batch = self.solved.batch.take(self._unstable)
        return currents_at(batch, on, self.solved.settled.blown[self._unstable], point)

    @cached_property
    def _unstable(self) -> NDArray[np.intp]:
        return np.flatnonzero(~self.solved.is_stable)

    @cached_property
    def _swings(self) -> list[tuple[Point, Bools]]:
        rows = self._unstable
        if not rows.size:
            return []
        settled = self.solved.settled
        point = settled.point
        there = Point(
            point.voltages[rows], point.at[rows], point.labels[rows], point.is_settled[rows]
        )
        at = Settled(there, settled.on[rows], settled.blown[rows], settled.is_stable[rows])
        return list(swings(self.solved.batch.take(rows), Controls(self.circuit), at))
