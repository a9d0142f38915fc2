"""Some cars in one setting, solved: currents, voltages, lamps, relays, swinging ones included."""

from collections.abc import Callable, Sequence
from functools import cached_property

import numpy as np
from numpy.typing import NDArray

from faulttree.core.circuit.amounts import si
from faulttree.core.circuit.attached import Spread, read_pairs
from faulttree.core.circuit.circuit import Circuit
from faulttree.core.circuit.controls import Controls
from faulttree.core.circuit.elements import Lamp, Led
from faulttree.core.circuit.figures import branches_named
from faulttree.core.circuit.laws import LIGHT_EXPONENT
from faulttree.core.circuit.newton import Point
from faulttree.core.circuit.probes import LAMP_RATED_V, Probe
from faulttree.core.circuit.settle import swings
from faulttree.core.circuit.solve import Solved, currents_at
from faulttree.core.units import Quantity

Floats = NDArray[np.float64]
Bools = NDArray[np.bool_]
Rows = NDArray[np.intp]
Range = tuple[Floats, Floats]
"""Lower and upper limit of each car; the same where nothing swings."""


class SolvedRows:
    """Cars in one setting.

    Attributes:
        rows: which cars of the bench, shape (n,); results are in their order.
    """

    def __init__(self, circuit: Circuit, solved: Solved, rows: Rows) -> None:
        self._circuit, self._solved, self.rows = circuit, solved, rows

    def among(self, rows: Rows) -> Rows:
        """Positions of those of its cars that are among some rows."""
        return np.flatnonzero(np.isin(self.rows, rows))

    def readings(self, probes: Sequence[Probe], positions: Rows) -> list[Spread]:
        """What probes show on some of the cars, one probe after the other."""
        n, n_probes = len(positions), len(probes)
        case, probe = np.tile(positions, n_probes), np.repeat(np.arange(n_probes), n)
        found = read_pairs(self._circuit, self._solved, probes, case, probe)
        pieces = [slice(i * n, (i + 1) * n) for i in range(n_probes)]
        return [Spread(found.low[p], found.high[p], found.flags[p]) for p in pieces]

    def current(self, name: str) -> Range:
        """Current of a branch, or of an element of one branch, either way round [A]."""
        index = branches_named(self._circuit, name)[0]
        now = np.abs(self._currents[:, index])
        return self._range(now, lambda point, on: np.abs(self._swung(point, on)[:, index]))

    def voltage(self, a: str, b: str) -> Range:
        """Voltage from one node to another [V]."""
        i, j = self._circuit.netlist.node(a), self._circuit.netlist.node(b)

        def across(point: Point, _on: Bools) -> Floats:
            return point.voltages[:, i] - point.voltages[:, j]

        return self._range(across(self._solved.settled.point, self._solved.on), across)

    def light(self, name: str) -> Range:
        """Light of a lamp as a share of its light at rated voltage."""
        element = self._circuit.model.elements[name]
        assert isinstance(element, Lamp | Led)
        low, high = self.current(name)
        if isinstance(element, Led):
            forward = si(element.forward, Quantity.VOLTAGE)
            rated = (LAMP_RATED_V - forward) / si(element.resistance, Quantity.RESISTANCE)
            return low / rated, high / rated
        volts = si(element.voltage, Quantity.VOLTAGE)
        v_low, v_high = self.voltage(*element.between)
        least = np.where(v_low * v_high <= 0.0, 0.0, np.minimum(np.abs(v_low), np.abs(v_high)))
        most = np.maximum(np.abs(v_low), np.abs(v_high))
        # A filament that is burnt out has its voltage and no light.
        return (
            np.where(low > 0, (least / volts) ** LIGHT_EXPONENT, 0.0),
            np.where(high > 0, (most / volts) ** LIGHT_EXPONENT, 0.0),
        )

    def control(self, name: str) -> tuple[Bools, Bools]:
        """Whether a control is off, and whether it is on, at some time; both where it chatters."""
        index = self._circuit.netlist.control(name)
        on = self._solved.on[:, index]
        is_off, is_on = ~on, on.copy()
        for _, states in self._swings:
            is_off[self._unstable] |= ~states[:, index]
            is_on[self._unstable] |= states[:, index]
        return is_off, is_on

    @property
    def gone(self) -> Bools:
        """Fuses that have gone, shape (n, n_fuses), in the order of the branches."""
        return self._solved.settled.blown

    def blown(self, name: str) -> Bools:
        """Whether a fuse has gone."""
        index = self._circuit.netlist.branch(name)
        fuses = list(self._solved.batch.layout.fuses)
        return self.gone[:, fuses.index(index)]

    def _range(self, now: Floats, value: Callable[[Point, Bools], Floats]) -> Range:
        low, high = now.copy(), now.copy()
        if self._unstable.size:
            seen = [value(point, on) for point, on in self._swings]
            low[self._unstable] = np.min(seen, axis=0)
            high[self._unstable] = np.max(seen, axis=0)
        return low, high

    def _swung(self, point: Point, on: Bools) -> Floats:
        batch = self._solved.batch.take(self._unstable)
        return currents_at(batch, on, self._solved.settled.blown[self._unstable], point)

    @cached_property
    def _currents(self) -> Floats:
        settled = self._solved.settled
        return currents_at(self._solved.batch, settled.on, settled.blown, settled.point)

    @cached_property
    def _unstable(self) -> Rows:
        return np.flatnonzero(~self._solved.is_stable)

    @cached_property
    def _swings(self) -> list[tuple[Point, Bools]]:
        rows = self._unstable
        if not rows.size:
            return []
        at = self._solved.settled.pick(rows)
        return list(swings(self._solved.batch.take(rows), Controls(self._circuit), at))
