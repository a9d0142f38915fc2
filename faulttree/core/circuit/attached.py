"""Instruments attached to the cases of a solved circuit, each reading by itself.

A reading is a pair of a case and a probe. An unstable case has no reading; it swings between two
limits, and both are told.
"""

from collections.abc import Callable, Sequence
from dataclasses import dataclass
from enum import IntFlag
from functools import cached_property

import numpy as np
from numpy.typing import NDArray

from faulttree.core.circuit.batch import Batch, Bools, Floats, Ints
from faulttree.core.circuit.circuit import Circuit
from faulttree.core.circuit.controls import Controls
from faulttree.core.circuit.figures import branches_named
from faulttree.core.circuit.netlist import Law
from faulttree.core.circuit.network import Added, find_islands
from faulttree.core.circuit.newton import Point
from faulttree.core.circuit.probes import (
    AMMETER_FUSE_A,
    LOADS,
    OHMMETER_OHM,
    OHMMETER_V,
    OVER_RANGE_OHM,
    Probe,
    Tool,
)
from faulttree.core.circuit.settle import Settled, settle, swings
from faulttree.core.circuit.solve import CHUNK, Solved, currents_at, in_chunks


class Flag(IntFlag):
    """What must be said of a reading beside its number."""

    FLOATING = 1
    """No path between the leads but the instrument: a high-impedance meter may show a ghost."""
    UNSTABLE = 2
    """A relay chatters or no steady state exists: there is no number."""
    FUSE_BLOWN = 4
    """A fuse of the car has gone in this case."""
    OVER_RANGE = 8
    """The ohmmeter shows OL."""
    METER_FUSE = 16
    """The ammeter's own fuse goes: there is no number."""


Flags = NDArray[np.uint8]
"""Sums of Flag."""


@dataclass(frozen=True, slots=True, eq=False)
class Spread:
    """Readings, one for each pair of case and probe, shape (n_pairs,).

    Attributes:
        low, high: limits between which the reading swings, the same where it stands still. Volts
            across a meter, a lamp or an LED [V]; amperes of ammeter and clamp [A]; ohms [ohm],
            infinite for OL. Not a number where none exists.
        flags: sums of Flag.
    """

    low: Floats
    high: Floats
    flags: Flags


def read_pairs(
    circuit: Circuit, solved: Solved, probes: Sequence[Probe], case: Ints, probe: Ints
) -> Spread:
    """What probes show in cases, pair by pair.

    Args:
        circuit: the circuit.
        solved: its steady states.
        probes: the readings that may be taken.
        case, probe: index into the cases of `solved` and into `probes`, shape (n_pairs,).

    Raises:
        KeyError: a probe names something the circuit does not have.
    """
    reader = _Reader(circuit, solved, tuple(probes))
    found = Spread(np.empty(len(case)), np.empty(len(case)), np.zeros(len(case), np.uint8))
    for is_of, read in reader.kinds():
        rows = np.flatnonzero(is_of[probe])
        for begin in range(0, len(rows), CHUNK):
            chunk = rows[begin : begin + CHUNK]
            part = read(case[chunk], probe[chunk])
            found.low[chunk], found.high[chunk] = part.low, part.high
            found.flags[chunk] = part.flags
    return found


Read = Callable[[Ints, Ints], Spread]
"""Readings of cases with probes."""


class _Reader:
    def __init__(self, circuit: Circuit, solved: Solved, probes: tuple[Probe, ...]) -> None:
        self._netlist, self._circuit = circuit.netlist, circuit
        self._solved, self._controls = solved, Controls(circuit)
        self._probes = probes
        self._sources = [i for i, b in enumerate(circuit.netlist.branches) if b.is_source]

    def kinds(self) -> list[tuple[Bools, Read]]:
        """Which probes are read together, and how."""
        found: list[tuple[Bools, Read]] = []
        for index, probe in enumerate(self._probes):
            if probe.through:
                only = np.arange(len(self._probes)) == index
                found.append((only, self._in_line))
        for tool in Tool:
            same = np.array([p.tool is tool and not p.through for p in self._probes], bool)
            if same.any():
                found.append((same, lambda case, probe, tool=tool: self._leads(tool, case, probe)))  # type: ignore[misc]
        return found

    def _in_line(self, case: Ints, probe: Ints) -> Spread:
        """The current of a branch: a clamp round it, or an ammeter put in series with it."""
        one = self._probes[probe[0]]
        index = self._netlist.branch(one.through)
        batch, settled = self._solved.batch.pick(case), self._solved.settled.pick(case)
        if one.tool is Tool.AMMETER or one.removed:
            self._remove(batch, slice(None), one)
            if one.tool is Tool.AMMETER:
                self._insert(batch, index)
            at = settled.point.at
            settled = in_chunks(batch, self._controls, settled.on, settled.blown, at)
        found = self._swung(
            batch, settled, lambda b, on, blown, point: currents_at(b, on, blown, point)[:, index]
        )
        return _amperes(found, one.tool)

    def _leads(self, tool: Tool, case: Ints, probe: Ints) -> Spread:
        """Readings of a tool with two leads."""
        law, terms = LOADS[tool]
        a, b = self._ends[0][probe], self._ends[1][probe]
        batch = self._solved.batch.pick(case).with_branch(law, terms, a, b)
        for index, each in enumerate(self._probes):
            if each.removed:
                self._remove(batch, probe == index, each)
        settled = self._settled(tool, batch, case, law)
        column = batch.ohm.shape[1] - 1
        found = self._swung(
            batch, settled, lambda b, _on, _blown, point: b.across(point.voltages, [column])[:, 0]
        )
        if tool is Tool.OHMMETER:
            return _ohms(found)
        if tool is Tool.AMMETER:
            return _amperes(
                Spread(found.low / terms.ohm, found.high / terms.ohm, found.flags), tool
            )
        floats = self._floats(batch, settled, a, b) & settled.is_stable
        # Without a second path no current flows through the instrument; what rounding leaves is
        # taken away.
        low, high = np.where(floats, 0.0, found.low), np.where(floats, 0.0, found.high)
        return Spread(low, high, found.flags | (floats * np.uint8(Flag.FLOATING)))

    @cached_property
    def _ends(self) -> tuple[Ints, Ints]:
        node = self._netlist.node
        a = [node(p.plus) if p.plus else 0 for p in self._probes]
        b = [node(p.minus) if p.minus else 0 for p in self._probes]
        return np.array(a, np.intp), np.array(b, np.intp)

    def _settled(self, tool: Tool, batch: Batch, case: Ints, law: Law) -> Settled:
        before = self._solved.settled
        on, at = before.on[case], before.point.at[case]
        if tool is Tool.OHMMETER:
            batch.can_close[:, self._sources] = False
            on, at = self._controls.start(len(case)), np.zeros_like(at)
        if law is not Law.LINEAR:
            at = np.concatenate([at, np.zeros((len(case), 1))], axis=1)
        return settle(batch, self._controls, on, before.blown[case], at)

    def _swung(
        self, batch: Batch, settled: Settled,
        value: Callable[[Batch, Bools, Bools, Point], Floats],
    ) -> Spread:  # fmt: skip
        """A value of every case, between its limits where the case is unstable."""
        low = value(batch, settled.on, settled.blown, settled.point)
        high, rows = low.copy(), np.flatnonzero(~settled.is_stable)
        if len(rows):
            unstable, at = batch.take(rows), settled.pick(rows)
            seen = [
                value(unstable, on, at.blown, point)
                for point, on in swings(unstable, self._controls, at)
            ]
            low[rows], high[rows] = np.min(seen, axis=0), np.max(seen, axis=0)
        return Spread(low, high, _flags(settled))

    def _remove(self, batch: Batch, rows: Bools | slice, probe: Probe) -> None:
        n_b = len(self._netlist.branches)
        n_p = batch.figures.path_branch.shape[1]
        for name in probe.removed:
            for branch in branches_named(self._circuit, name):
                batch.can_close[rows, branch] = False
                in_its_place = batch.figures.path_branch[rows] == branch
                batch.can_close[rows, n_b : n_b + n_p] &= ~in_its_place

    def _insert(self, batch: Batch, index: int) -> None:
        if self._netlist.branches[index].law is Law.LAMP:
            raise KeyError(f"{self._netlist.branches[index].name}: read the wire to the lamp")
        batch.ohm[:, index] += LOADS[Tool.AMMETER][1].ohm

    def _floats(self, batch: Batch, settled: Settled, a: Ints, b: Ints) -> Bools:
        """Where nothing but the instrument joins the two points."""
        closed = batch.closed(settled.on, settled.blown)
        slope, amps = batch.plain(closed)
        batch.put_curved(slope, amps, closed, settled.point.at)
        without = Added(batch.added.a[:, :-1], batch.added.b[:, :-1])
        labels = find_islands(batch.layout.network, without, slope[:, :-1])
        cases = np.arange(len(a))
        return np.asarray(labels[a, cases] != labels[b, cases])


def _flags(settled: Settled) -> Flags:
    found = np.where(settled.is_stable, 0, Flag.UNSTABLE)
    return (found | np.where(settled.blown.any(axis=1), Flag.FUSE_BLOWN, 0)).astype(np.uint8)


def _ohms(volts: Spread) -> Spread:
    low, high = _ohm_of(volts.low), _ohm_of(volts.high)
    is_over = high > OVER_RANGE_OHM
    high = np.where(is_over, np.inf, high)
    low = np.where(low > OVER_RANGE_OHM, np.inf, low)
    return Spread(low, high, volts.flags | (is_over * np.uint8(Flag.OVER_RANGE)))


def _ohm_of(volts: Floats) -> Floats:
    amps = (OHMMETER_V - volts) / OHMMETER_OHM
    with np.errstate(divide="ignore"):
        ohm = np.where(amps > 0.0, volts / amps, np.inf)
    return np.where(np.isnan(volts), np.nan, ohm)


def _amperes(amps: Spread, tool: Tool) -> Spread:
    most = np.maximum(np.abs(amps.low), np.abs(amps.high))
    goes = (most > AMMETER_FUSE_A) & (tool is Tool.AMMETER)
    low, high = np.where(goes, np.nan, amps.low), np.where(goes, np.nan, amps.high)
    return Spread(low, high, amps.flags | (goes * np.uint8(Flag.METER_FUSE)))
