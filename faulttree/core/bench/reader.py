"""How a `measure` step is read on the bench: which probe, where, and what it shows."""

from collections.abc import Mapping
from dataclasses import dataclass
from functools import cached_property
from itertools import product

import numpy as np
from numpy.typing import NDArray

from faulttree.core.bench.document import BenchSheet, Test
from faulttree.core.bench.leads import Spot, Spots
from faulttree.core.bench.looks import Looks
from faulttree.core.bench.setting import Setting
from faulttree.core.bench.solved_rows import Bools, Floats, Rows
from faulttree.core.circuit.amounts import si
from faulttree.core.circuit.attached import Flag
from faulttree.core.circuit.figures import branches_named
from faulttree.core.circuit.probes import Probe, Tool
from faulttree.core.instruments import InstrumentClass
from faulttree.core.tree import Measure
from faulttree.core.units import Quantity

ALIKE = 1e-9
"""Readings that differ by less, of the larger one or of a volt, ampere or ohm, are the same."""
GHOST_V = 0.2
"""What a meter of high impedance may show on a wire that nothing holds [V]; a few hundred
millivolts, common practice, no source."""


@dataclass(frozen=True, slots=True, eq=False)
class Shown:
    """What a `measure` step shows on every car, shape (n_rows,) each.

    Attributes:
        low, high: limits of the reading [SI]; infinite for OL, not a number where there is none.
        posts_low, posts_high: the battery's posts in the same state [V].
        flags: what must be said beside the number; sums of circuit.attached.Flag.
        is_known: cars that were read; the others hold nothing.
    """

    low: Floats
    high: Floats
    posts_low: Floats
    posts_high: Floats
    flags: NDArray[np.uint8]
    is_known: Bools

    def are_alike(self, one: int, other: int) -> bool:
        """Whether two cars read the same, the battery's posts included."""
        pairs = (
            (float(each[one]), float(each[other]))
            for each in (self.low, self.high, self.posts_low, self.posts_high)
        )
        return all(a == b or abs(a - b) <= ALIKE * max(abs(a), abs(b), 1.0) for a, b in pairs)

    @classmethod
    def nothing(cls, n_rows: int) -> "Shown":
        """No car read yet."""
        low, high, posts_low, posts_high = (np.full(n_rows, np.nan) for _ in range(4))
        flags, is_known = np.zeros(n_rows, np.uint8), np.zeros(n_rows, bool)
        return cls(low, high, posts_low, posts_high, flags, is_known)


@dataclass(frozen=True, slots=True, eq=False)
class _Reading:
    low: Floats
    high: Floats
    flags: NDArray[np.uint8]
    posts_low: Floats
    posts_high: Floats


class Reader:
    """Reads steps of one tree."""

    def __init__(self, looks: Looks, sheet: BenchSheet) -> None:
        self._looks, self._model = looks, looks.circuit.model
        self._spots, self._sheet = Spots(sheet, self._model), sheet

    def read(self, step: Measure, test: Test, setting: Setting, rows: Rows, into: Shown) -> None:
        """Read a step in a setting on some cars, and write it into what the step shows."""
        found = [self._read(step, test, each, rows) for each in _over(setting, test)]
        keep = np.minimum if test.keep == "lowest" else np.maximum
        into.low[rows] = keep.reduce([r.low for r in found])
        into.high[rows] = keep.reduce([r.high for r in found])
        into.posts_low[rows], into.posts_high[rows] = found[0].posts_low, found[0].posts_high
        into.flags[rows] = np.bitwise_or.reduce([r.flags for r in found])
        into.is_known[rows] = True

    def is_at_posts(self, step: Measure, test: Test) -> bool:
        """Whether a step reads the battery's posts, with everything as usual."""
        if test.of is not None or test.value is not None or test.current is not None:
            return False
        try:
            return self._posts is not None and self._probe(step, test, Setting()) == self._posts
        except KeyError:
            return False  # its place depends on how the car is set, as that of no post does

    def _read(self, step: Measure, test: Test, setting: Setting, rows: Rows) -> _Reading:
        probe = self._probe(step, test, setting)
        probes = [p for p in (probe, self._posts) if p is not None]
        read = self._looks.at(setting).readings(probes, rows)
        nothing = np.zeros(len(rows))
        posts = (read[-1].low, read[-1].high) if self._posts is not None else (nothing, nothing)
        more = si(test.adds, step.quantity) if test.adds else 0.0
        if probe is None:
            given = self._given(step, test, setting, rows) + more
            return _Reading(given, given, np.zeros(len(rows), np.uint8), *posts)
        low, high, flags = read[0].low, read[0].high, read[0].flags
        if test.keep is not None:
            swings = (flags & Flag.UNSTABLE) != 0
            kept = low if test.keep == "lowest" else high
            low, high = np.where(swings, kept, low), np.where(swings, kept, high)
        if probe.tool is Tool.VOLTMETER:
            is_ghost = (flags & Flag.FLOATING) != 0
            high = np.where(is_ghost, np.maximum(high, GHOST_V), high)
        return _Reading(low + more, high + more, flags, *posts)

    def _probe(self, step: Measure, test: Test, setting: Setting) -> Probe | None:
        """What is held to the circuit; None for a reading that the circuit has no part in."""
        if test.current:
            tool = Tool.CLAMP if step.with_ is InstrumentClass.CLAMP else Tool.AMMETER
            circuit = self._looks.circuit
            branch = branches_named(circuit, test.current)[0]
            return Probe(tool, through=circuit.netlist.branches[branch].name)
        if test.of is not None or test.value is not None:
            return None
        plus = self._node(test.red, step.red_lead, setting)
        minus = self._node(test.black, step.black_lead, setting)
        return Probe(_tool(step), plus, minus)

    def _node(self, named: str | None, lead: str | None, setting: Setting) -> str:
        spot = Spot(named) if named else self._spots.find(lead)
        node = spot.at({**self._usual, **dict(setting.inputs)}) if spot else None
        if node is None:
            raise KeyError(f"no node for “{lead}”")
        return node

    def _given(self, step: Measure, test: Test, setting: Setting, rows: Rows) -> Floats:
        """A reading that an input or the sheet gives [SI]."""
        if test.value is not None:
            return np.full(len(rows), si(test.value, step.quantity))
        return self._looks.at(setting).measured(test.of or "", rows)

    @cached_property
    def _posts(self) -> Probe | None:
        """The meter on the battery's posts."""
        if self._sheet.posts is not None:
            return Probe(Tool.VOLTMETER, *self._sheet.posts)
        battery = self._model.battery
        return Probe(Tool.VOLTMETER, battery.plus, battery.minus) if battery else None

    @cached_property
    def _usual(self) -> Mapping[str, str]:
        return {name: each.usual.text for name, each in self._model.inputs.items()}


def _tool(step: Measure) -> Tool:
    if step.quantity is Quantity.RESISTANCE:
        return Tool.OHMMETER
    if step.quantity is Quantity.CURRENT:
        return Tool.AMMETER
    is_low = step.with_ is InstrumentClass.LOW_IMPEDANCE_METER
    return Tool.LOW_IMPEDANCE_VOLTMETER if is_low else Tool.VOLTMETER


def _over(setting: Setting, test: Test) -> list[Setting]:
    """The settings that one reading is taken in, one after the other."""
    inputs = list(test.over)
    return [
        setting.having(dict(zip(inputs, states, strict=True)))
        for states in product(*test.over.values())
    ]
