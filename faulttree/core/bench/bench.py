"""A tree on the bench: what each of its tests reads or shows in every car.

A value is a range: a relay that chatters swings between two readings, and a wire that floats may
show a ghost voltage on a meter of high impedance.
"""

from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from functools import cached_property
from itertools import product

import numpy as np
from numpy.typing import NDArray

from faulttree.core.bench.document import BenchSheet, ProofOf, SetOnCar, Test
from faulttree.core.bench.fitted import Fitted, fitted_at
from faulttree.core.bench.leads import Spot, Spots
from faulttree.core.bench.looks import Bools, Floats, Looks, Supplied, supplied
from faulttree.core.bench.setting import Setting, added, of_step, usual
from faulttree.core.bench.sights import NO, SURELY, Holds, all_hold
from faulttree.core.bench.suspects import SUPPLIES, Suspect, rows_of, suspects_of
from faulttree.core.circuit.amounts import si
from faulttree.core.circuit.attached import Flag
from faulttree.core.circuit.circuit import Circuit
from faulttree.core.circuit.elements import Battery
from faulttree.core.circuit.probes import Probe, Tool
from faulttree.core.instruments import InstrumentClass
from faulttree.core.tree import BATTERY_VOLTAGE, Conclude, Measure, Observe, SetUp, Tree
from faulttree.core.units import Quantity

GHOST_V = 0.2
"""What a meter of high impedance may show on a wire that nothing holds [V]; a few hundred
millivolts, common practice, no source."""

Key = tuple[str, Fitted]
"""A step, and what is fitted to the car while it is done."""
Rows = NDArray[np.intp]


@dataclass(frozen=True, slots=True, eq=False)
class Shown:
    """What a `measure` step shows in every row, shape (n_rows,) each.

    Attributes:
        low, high: limits of the reading [SI]; infinite for OL.
        posts_low, posts_high: the battery's posts in the same state [V].
        flags: what must be said beside the number; sums of circuit.attached.Flag.
    """

    low: Floats
    high: Floats
    posts_low: Floats
    posts_high: Floats
    flags: NDArray[np.uint8]


@dataclass(frozen=True, slots=True, eq=False)
class Seen:
    """What an `observe` step shows: for each outcome whether it may be what is seen.

    Attributes:
        may_be: shape (n_outcomes, n_rows), in the order of the tree's outcomes.
    """

    may_be: Bools


class Bench:
    """A tree, its circuit and its bench sheet, all of them checked.

    Attributes:
        suspects: everything that may be wrong.
        rows: every car to try.
        looks: the circuit, solved for all of them.
    """

    def __init__(
        self,
        tree: Tree,
        circuit: Circuit,
        sheet: BenchSheet,
        supplies: Mapping[str, Supplied] | None = None,
    ) -> None:
        self.tree, self.circuit, self.sheet = tree, circuit, sheet
        self.suspects: tuple[Suspect, ...] = suspects_of(circuit.model, sheet)
        names = tuple(supplies) if supplies else SUPPLIES
        self.rows = rows_of(self.suspects, names)
        self.looks = Looks(circuit, supplies or supplied(sheet.supplies), self.rows)
        self._spots = Spots(sheet, circuit.model)
        self._all = np.arange(len(self.rows))

    @cached_property
    def complaint(self) -> Holds:
        """How surely each car shows the complaint, shape (n_rows,)."""
        return all_hold(self.looks, self.sheet.complaint, usual(self.circuit.model))

    @cached_property
    def keys(self) -> tuple[Key, ...]:
        """Every measure and observe step that can be reached, with what may be fitted there."""
        return tuple(
            (step_id, fitted)
            for step_id, sets in fitted_at(self.tree).items()
            if isinstance(self.tree.steps[step_id], Measure | Observe)
            for fitted in sorted(sets, key=sorted)
        )

    def shown(self, key: Key) -> Shown | Seen:
        """What a step shows in every row."""
        if key not in self._shown:
            step, test = self.tree.steps[key[0]], self.sheet.tests[key[0]]
            if isinstance(step, Measure):
                self._shown[key] = self._measure(step, test, key[1])
            else:
                assert isinstance(step, Observe)
                self._shown[key] = self._observe(step, test, key[1])
        return self._shown[key]

    @cached_property
    def _shown(self) -> dict[Key, Shown | Seen]:
        return {}

    def proof_holds(self, conclusion: str) -> Holds | None:
        """How surely the proof of a verdict holds in each row; None where the sheet has none."""
        step, verdict = self.tree.steps[conclusion], self.sheet.verdicts.get(conclusion)
        if not isinstance(step, Conclude) or step.prove is None:
            return None
        if verdict is None or verdict.proof is None:
            return None
        if conclusion not in self._proofs:
            self._proofs[conclusion] = self._proof(verdict.proof)
        return self._proofs[conclusion]

    @cached_property
    def _proofs(self) -> dict[str, Holds]:
        return {}

    def _proof(self, proof: ProofOf) -> Holds:
        """With good parts in, the car is the healthy one at the same supply."""
        found = np.empty(len(self.rows), np.int8)
        for setting, rows in self._settings(usual(self.circuit.model), proof, frozenset()):
            if proof.holds:
                held = all_hold(self.looks, proof.holds, setting)
            else:
                held = SURELY - all_hold(self.looks, self.sheet.complaint, setting)
            found[rows] = held[self._mended(proof)[rows]]
        return found

    def _mended(self, proof: ProofOf) -> Rows:
        """The row that each becomes when good parts are put in."""
        is_replaced = [
            row.suspect is not None and row.suspect.is_named_by(proof.replaces) for row in self.rows
        ]
        return np.where(is_replaced, self.looks.normal, self._all)

    @cached_property
    def _choices(self) -> Mapping[str, tuple[str, ...]]:
        """The state that each choice stands for in every row."""
        found = {}
        for name, choice in self.sheet.choices.items():
            states = np.full(len(self.rows), choice.of[-1], dtype=object)
            for state in reversed(choice.of):
                there = usual(self.circuit.model).having({choice.input: state})
                states[all_hold(self.looks, choice.where, there) > NO] = state
            found[name] = tuple(states)
        return found

    def _settings(
        self, base: Setting, written: SetOnCar, fitted: Fitted
    ) -> Iterator[tuple[Setting, Rows]]:
        """Every setting of a test, with the rows in which it is done so."""
        fits = [self.sheet.fits[name] for name in sorted(fitted) if name in self.sheet.fits]
        parts = [*fits, written]
        used = sorted({
            value.text for part in parts for value in part.inputs.values()
            if value.text in self.sheet.choices
        })  # fmt: skip
        for states in product(*(self.sheet.choices[name].of for name in used)):
            rows = self._all
            for name, state in zip(used, states, strict=True):
                rows = rows[[self._choices[name][r] == state for r in rows]]
            if not rows.size:
                continue
            setting, choices = base, dict(zip(used, states, strict=True))
            for part in parts:
                setting = setting.joined_by(added(self.circuit.model, part, choices))
            yield setting, rows

    def _measure(self, step: Measure, test: Test, fitted: Fitted) -> Shown:
        n = len(self.rows)
        found = Shown(np.zeros(n), np.zeros(n), np.zeros(n), np.zeros(n), np.zeros(n, np.uint8))
        base = of_step(self.circuit.model, step.set_up)
        for setting, rows in self._settings(base, test, fitted):
            readings = [self._read(step, test, each, rows) for each in _over(setting, test)]
            keep = np.minimum if test.keep == "lowest" else np.maximum
            found.low[rows] = keep.reduce([r.low for r in readings])
            found.high[rows] = keep.reduce([r.high for r in readings])
            found.posts_low[rows], found.posts_high[rows] = (
                readings[0].posts_low,
                readings[0].posts_high,
            )
            found.flags[rows] = np.bitwise_or.reduce([r.flags for r in readings])
        return found

    def _read(self, step: Measure, test: Test, setting: Setting, rows: Rows) -> Shown:
        """One reading in one setting, in some rows."""
        probe = self._probe(step, test, setting)
        probes = [p for p in (probe, self._posts) if p is not None]
        read = self.looks.at(setting).readings(probes, rows)
        posts = read[-1] if self._posts is not None else None
        if probe is not None:
            low, high, flags = read[0].low, read[0].high, read[0].flags
            if probe.tool is Tool.VOLTMETER:
                is_ghost = (flags & Flag.FLOATING) != 0
                high = np.where(is_ghost, np.maximum(high, GHOST_V), high)
        else:
            low = high = self._given(step, test, setting, rows)
            flags = np.zeros(len(rows), np.uint8)
        more = si(test.adds, step.quantity) if test.adds else 0.0
        nothing = np.zeros(len(rows))
        return Shown(
            low + more,
            high + more,
            posts.low if posts else nothing,
            posts.high if posts else nothing,
            flags,
        )

    def _probe(self, step: Measure, test: Test, setting: Setting) -> Probe | None:
        """What is held to the circuit; None for a reading that the circuit has no part in."""
        if test.current:
            tool = Tool.CLAMP if step.with_ is InstrumentClass.CLAMP else Tool.AMMETER
            return Probe(tool, through=self._branch(test.current))
        if test.of is not None or test.value is not None:
            return None
        plus = self._node(test.red, step.red_lead, setting)
        minus = self._node(test.black, step.black_lead, setting)
        if step.quantity is Quantity.RESISTANCE:
            return Probe(Tool.OHMMETER, plus, minus)
        if step.quantity is Quantity.CURRENT:
            return Probe(Tool.AMMETER, plus, minus)
        is_low = step.with_ is InstrumentClass.LOW_IMPEDANCE_METER
        return Probe(Tool.LOW_IMPEDANCE_VOLTMETER if is_low else Tool.VOLTMETER, plus, minus)

    def _branch(self, name: str) -> str:
        netlist = self.circuit.netlist
        if name in self.circuit.model.elements:
            return netlist.branches[netlist.branches_of(name)[0]].name
        return name

    def _node(self, named: str | None, lead: str | None, setting: Setting) -> str:
        spot = Spot(named) if named else self._spots.find(lead)
        inputs = {n: i.usual.text for n, i in self.circuit.model.inputs.items()}
        node = spot.at({**inputs, **dict(setting.inputs)}) if spot else None
        if node is None:
            raise KeyError(f"no node for “{lead}”")
        return node

    def _given(self, step: Measure, test: Test, setting: Setting, rows: Rows) -> Floats:
        """A reading that an input or the sheet gives [SI]."""
        if test.value is not None:
            return np.full(len(rows), si(test.value, step.quantity))
        name = test.of or ""
        model, there = self.circuit.model, dict(setting.inputs)
        as_usual = si(model.inputs[name].usual, model.quantities[name])
        values = (
            there.get(name, self.rows[row].form.inputs.get(name, as_usual)) for row in rows.tolist()
        )
        return np.array([float(v) for v in values])

    @cached_property
    def _posts(self) -> Probe | None:
        """The meter on the battery's posts."""
        batteries = (e for e in self.circuit.model.elements.values() if isinstance(e, Battery))
        battery = next(batteries, None)
        return Probe(Tool.VOLTMETER, battery.plus, battery.minus) if battery else None

    def _observe(self, step: Observe, test: Test, fitted: Fitted) -> Seen:
        may_be = np.zeros((len(step.outcomes), len(self.rows)), bool)
        if test.anything:
            return Seen(~may_be)
        places = {outcome.name: i for i, outcome in enumerate(step.outcomes)}
        for setting, rows in self._settings(self._base(step.set_up), test, fitted):
            is_open = np.ones(len(self.rows), bool)
            for name, sights in test.outcomes.items():
                held = all_hold(self.looks, sights, setting)
                may_be[places[name], rows] |= (is_open & (held > NO))[rows]
                is_open &= held < SURELY
        return Seen(may_be)

    def _base(self, set_up: SetUp) -> Setting:
        return of_step(self.circuit.model, set_up)


def _over(setting: Setting, test: Test) -> list[Setting]:
    """The settings that one reading is taken in, one after the other."""
    inputs = list(test.over)
    return [
        setting.having(dict(zip(inputs, states, strict=True)))
        for states in product(*test.over.values())
    ]


__all__ = ["BATTERY_VOLTAGE", "Bench", "Key", "Seen", "Shown"]
