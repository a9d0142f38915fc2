"""What instruments show: each is solved as a part of the circuit, from the state it is put into."""

from collections.abc import Sequence
from dataclasses import dataclass
from enum import IntFlag

import numpy as np
from numpy.typing import NDArray

from faulttree.core.circuit.batch import Batch, Bools, Floats, Ints
from faulttree.core.circuit.cases import Cases
from faulttree.core.circuit.circuit import Circuit
from faulttree.core.circuit.controls import Controls
from faulttree.core.circuit.figures import branches_named
from faulttree.core.circuit.netlist import Law
from faulttree.core.circuit.network import Added, find_islands
from faulttree.core.circuit.probes import (
    AMMETER_FUSE_A,
    LAMP_RATED_V,
    LOADS,
    OHMMETER_OHM,
    OHMMETER_V,
    OVER_RANGE_OHM,
    Probe,
    Tool,
)
from faulttree.core.circuit.settle import Settled, settle
from faulttree.core.circuit.solve import CHUNK, Solved, branch_currents, in_chunks, solve

LIGHT_EXPONENT = 3.4
"""Light of a filament goes with the voltage to this power; usual lamp rerating exponent of the
trade, from memory."""


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


_WORDS = {
    Flag.UNSTABLE: "unstable: a relay chatters, no steady reading",
    Flag.METER_FUSE: "more than the meter can carry: its fuse goes",
    Flag.OVER_RANGE: "OL: no path that the meter can see",
    Flag.FLOATING: "floating: no path but the instrument; a high-impedance meter may show a ghost "
    "voltage",
    Flag.FUSE_BLOWN: "a fuse of the car has blown",
}


@dataclass(frozen=True, slots=True, eq=False)
class Readings:
    """Readings of every probe in every case.

    Attributes:
        probes: what was read, in the order of the columns.
        values: shape (n_cases, n_probes): volts across a meter, a lamp or an LED [V]; amperes of
            ammeter and clamp [A]; ohms [ohm], infinite for OL. Not a number where none exists.
        flags: shape (n_cases, n_probes); sums of Flag.
    """

    probes: tuple[Probe, ...]
    values: Floats
    flags: NDArray[np.uint8]

    def words(self, case: int, probe: int) -> str:
        """What must be said of a reading beside its number, in one line; empty for nothing."""
        here = int(self.flags[case, probe])
        return "; ".join(words for flag, words in _WORDS.items() if here & flag)

    def light(self) -> Floats:
        """Light of test lamps as a share of full, shape (n_cases, n_probes); others are NaN."""
        lamps = np.array([p.tool.is_lamp for p in self.probes])
        share = (np.abs(self.values) / LAMP_RATED_V) ** LIGHT_EXPONENT
        return np.where(lamps, share, np.nan)


def read(
    circuit: Circuit, cases: Cases, probes: Sequence[Probe], solved: Solved | None = None
) -> Readings:
    """What every probe shows in every case.

    Args:
        circuit: the circuit.
        cases: states and faults.
        probes: the readings to take, each by itself.
        solved: `solve(circuit, cases)`, where it is at hand already.

    Raises:
        KeyError: a case or a probe names something the circuit does not have.
    """
    reader = _Reader(circuit, solved or solve(circuit, cases))
    values = np.empty((len(cases), len(probes)))
    flags = np.zeros((len(cases), len(probes)), np.uint8)
    for tool in Tool:
        columns = [i for i, probe in enumerate(probes) if probe.tool is tool]
        if tool in (Tool.CLAMP, Tool.AMMETER):
            for i in [i for i in columns if probes[i].through]:
                values[:, i], flags[:, i] = reader.in_line(probes[i])
            columns = [i for i in columns if not probes[i].through]
        if columns:
            chosen = [probes[i] for i in columns]
            values[:, columns], flags[:, columns] = reader.with_leads(tool, chosen)
    return Readings(tuple(probes), values, flags)


Found = tuple[Floats, NDArray[np.uint8]]
"""Values and flags."""


class _Reader:
    """Attaches instruments to the cases of a solved circuit."""

    def __init__(self, circuit: Circuit, solved: Solved) -> None:
        self._netlist, self._circuit = circuit.netlist, circuit
        self._solved, self._controls = solved, Controls(circuit)
        self._sources = [i for i, b in enumerate(circuit.netlist.branches) if b.is_source]

    def in_line(self, probe: Probe) -> Found:
        """The current of a branch: a clamp round it, or an ammeter put in series with it."""
        index = self._netlist.branch(probe.through)
        batch, settled = self._solved.batch, self._solved.settled
        if probe.tool is Tool.AMMETER or probe.removed:
            batch = _own(batch)
            self._remove(batch, slice(None), probe)
            if probe.tool is Tool.AMMETER:
                self._insert(batch, index)
            at = settled.point.at
            settled = in_chunks(batch, self._controls, settled.on, settled.blown, at)
        amps = branch_currents(batch, settled)[:, index]
        return _amperes(amps, probe.tool, _flags(settled))

    def with_leads(self, tool: Tool, probes: Sequence[Probe]) -> Found:
        """Readings of one tool, shape (n_cases, n_probes)."""
        n_cases, n_probes = len(self._solved.cases), len(probes)
        values, flags = np.empty(n_cases * n_probes), np.empty(n_cases * n_probes, np.uint8)
        for begin in range(0, len(values), CHUNK):
            rows = np.arange(begin, min(begin + CHUNK, len(values)))
            values[rows], flags[rows] = self._chunk(tool, probes, rows)
        shape = n_cases, n_probes
        return values.reshape(shape), flags.reshape(shape)

    def _chunk(self, tool: Tool, probes: Sequence[Probe], rows: Ints) -> Found:
        """Rows of the table of all cases and probes, counted along the cases' rows."""
        case, probe = np.divmod(rows, len(probes))
        law, terms = LOADS[tool]
        a = np.array([self._netlist.node(p.plus) for p in probes])[probe]
        b = np.array([self._netlist.node(p.minus) for p in probes])[probe]
        batch = self._solved.batch.pick(case).with_branch(law, terms, a, b)
        for index, each in enumerate(probes):
            self._remove(batch, probe == index, each)
        settled = self._settled(tool, batch, case, law)
        column = batch.ohm.shape[1] - 1
        volts = batch.across(settled.point.voltages, [column])[:, 0]
        volts = np.where(settled.is_stable, volts, np.nan)
        flags = _flags(settled)
        if tool is Tool.OHMMETER:
            return _ohms(volts, flags)
        if tool is Tool.AMMETER:
            return _amperes(volts / terms.ohm, tool, flags)
        floats = self._floats(batch, settled, a, b) & settled.is_stable
        # Without a second path no current flows through the instrument; what rounding leaves is
        # taken away.
        return np.where(floats, 0.0, volts), flags | (floats * np.uint8(Flag.FLOATING))

    def _settled(self, tool: Tool, batch: Batch, case: Ints, law: Law) -> Settled:
        before = self._solved.settled
        on, at = before.on[case], before.point.at[case]
        if tool is Tool.OHMMETER:
            batch.can_close[:, self._sources] = False
            on, at = self._controls.start(len(case)), np.zeros_like(at)
        if law is not Law.LINEAR:
            at = np.concatenate([at, np.zeros((len(case), 1))], axis=1)
        return settle(batch, self._controls, on, before.blown[case], at)

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


def _own(batch: Batch) -> Batch:
    """The batch with arrays that may be written to."""
    return batch.pick(np.arange(len(batch)))


def _flags(settled: Settled) -> NDArray[np.uint8]:
    found = np.where(settled.is_stable, 0, Flag.UNSTABLE)
    return (found | np.where(settled.blown.any(axis=1), Flag.FUSE_BLOWN, 0)).astype(np.uint8)


def _ohms(volts: Floats, flags: NDArray[np.uint8]) -> Found:
    amps = (OHMMETER_V - volts) / OHMMETER_OHM
    with np.errstate(divide="ignore"):
        ohm = np.where(amps > 0.0, volts / amps, np.inf)
    ohm = np.where(np.isnan(volts), np.nan, ohm)
    is_over = ohm > OVER_RANGE_OHM
    return np.where(is_over, np.inf, ohm), flags | (is_over * np.uint8(Flag.OVER_RANGE))


def _amperes(amps: Floats, tool: Tool, flags: NDArray[np.uint8]) -> Found:
    goes = (np.abs(amps) > AMMETER_FUSE_A) & (tool is Tool.AMMETER)
    return np.where(goes, np.nan, amps), flags | (goes * np.uint8(Flag.METER_FUSE))
