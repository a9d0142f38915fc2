"""The readings of a walk against the cars of a bench: likelihoods of every suspect."""

import math
from collections.abc import Sequence
from contextlib import suppress
from functools import cached_property

import numpy as np
from numpy.typing import NDArray

from faulttree.core.bench.bench import Bench, Seen, Shown
from faulttree.core.bench.document import BenchSheet
from faulttree.core.bench.looks import Supplied, supplied
from faulttree.core.bench.setting import RUNNING
from faulttree.core.bench.suspects import Suspect
from faulttree.core.circuit.circuit import Circuit
from faulttree.core.circuit.netlist import Supply
from faulttree.core.expression_values import Values
from faulttree.core.suspects.density import (
    SLIP,
    WRONG_LOOK,
    Floats,
    Spans,
    anything_density,
    outcome_chance,
    reading_density,
)
from faulttree.core.suspects.evidence import Read
from faulttree.core.suspects.grid import Cell, cells_of, refined
from faulttree.core.suspects.likely import Likely
from faulttree.core.suspects.modes import FALSE_SIGHT
from faulttree.core.suspects.spread import (
    AS_MEASURED_V,
    AT_REST_V,
    GENERATOR_V,
    Feed,
    spread,
    spread_of_input,
    spread_of_shown,
)
from faulttree.core.tree import Measure, Observe, Tree
from faulttree.core.uncertain import CannotWorkOut, Uncertain

Ints = NDArray[np.intp]

SHOWS = (FALSE_SIGHT, 0.5, 1.0 - FALSE_SIGHT)
"""Chance that the complaint shows on a car that does not, may, or surely shows it."""
THIS, USUAL = "this battery", "usual battery"


class SuspectBench:
    """A bench whose faults are on a grid of sizes, at the battery of the car that is walked.

    Attributes:
        suspects: as in the proof, with finer sizes.
        cells: what the hypotheses are made of.
    """

    def __init__(
        self,
        tree: Tree,
        circuit: Circuit,
        sheet: BenchSheet,
        battery: Supplied | None = None,
        suspects: tuple[Sequence[Suspect], Sequence[Cell]] | None = None,
    ) -> None:
        """A bench.

        Args:
            tree, circuit, sheet: documents that have been checked.
            battery: what was measured, engine stopped and running; the sheet's normal one where it
                was not. The internal resistance is the sheet's, as no voltmeter tells it.
            suspects: other suspects than those of model and sheet, with their cells.
        """
        if suspects is None:
            self.suspects = refined(circuit.model, sheet)
            self.cells = cells_of(self.suspects)
        else:
            self.suspects, self.cells = tuple(suspects[0]), tuple(suspects[1])
        self._documents = tree, circuit, sheet, battery
        self._usual = supplied(sheet, circuit.model)["normal"]
        this = _with_emf(self._usual, battery)
        self._supplies = {THIS: this, USUAL: self._usual._replace(day=this.day)}
        self._benches: dict[str, Bench] = {}
        self._tree, self._sheet = tree, sheet

    def likely(self, read: Read, values: Values) -> Likely:
        """How likely a recorded reading is under every cell.

        Args:
            read: the reading, or what was seen.
            values: vehicle data and earlier readings.
        """
        step, test = self._tree.steps[read.step_id], self._sheet.tests[read.step_id]
        if test.anything or test.value is not None:
            return Likely(np.ones(len(self.cells)), 1.0, 1.0, 0.0)
        if isinstance(step, Observe):
            return self._seen(read, step)
        assert isinstance(step, Measure)
        assert read.value is not None
        return self._measured(read, read.value, step, values)

    def with_suspects(self, suspects: Sequence[Suspect], cells: Sequence[Cell]) -> "SuspectBench":
        """The same car with other suspects."""
        return SuspectBench(*self._documents, (suspects, cells))

    @cached_property
    def shows(self) -> Floats:
        """Chance that the complaint shows while a cell is there, shape (n_cells,)."""
        chance = np.array(SHOWS)[self._bench(THIS).complaint]
        return np.asarray(chance[self._rows].mean(axis=1))

    @cached_property
    def weights(self) -> Floats:
        """Weight of each cell: that of its suspect, spread over all of its cells alike."""
        suspect = np.array([cell.suspect for cell in self.cells], np.intp)
        count = np.bincount(suspect, minlength=len(self.suspects))
        weight = np.array([s.weight for s in self.suspects])
        return np.asarray((weight / np.maximum(count, 1))[suspect])

    def _bench(self, supply: str) -> Bench:
        if supply not in self._benches:
            tree, circuit, sheet, _ = self._documents
            supplies = {supply: self._supplies[supply]}
            self._benches[supply] = Bench(tree, circuit, sheet, supplies, self.suspects)
        return self._benches[supply]

    @cached_property
    def _rows(self) -> Ints:
        """The rows of all ends of every cell, shape (n_cells, n_ends); row 0 is the healthy car."""
        before = np.cumsum([1, *(len(s.forms) for s in self.suspects)])
        n_ends = max((len(cell.forms) for cell in self.cells), default=1)
        ends = [(*c.forms, *c.forms[-1:] * (n_ends - len(c.forms))) for c in self.cells]
        first = np.array([before[cell.suspect] for cell in self.cells], np.intp)
        return np.asarray(np.array(ends, np.intp).reshape(-1, n_ends) + first[:, None])

    @cached_property
    def _wanted(self) -> Ints:
        return np.union1d(self._rows.ravel(), [0])

    def _supply_for(self, read: Read) -> str:
        """The battery that was measured is no evidence of itself: it is held against usual ones."""
        with suppress(KeyError):  # a point that is nowhere while everything is as usual
            if self._bench(THIS).reads_posts((read.step_id, read.fitted)):
                return USUAL
        return THIS

    def _measured(self, read: Read, value: Uncertain, step: Measure, values: Values) -> Likely:
        bench = self._bench(self._supply_for(read))
        shown = bench.shown((read.step_id, read.fitted), self._wanted)
        assert isinstance(shown, Shown)
        anything = anything_density(value.value, step.quantity, *_window(self._tree, step, values))
        found, healthy = (
            self._density(read, step, shown, rows, anything)
            for rows in (self._rows, np.zeros((1, 1), np.intp))
        )
        return self._likely(found, float(healthy[0]), anything, SLIP * anything)

    def _density(
        self,
        read: Read,
        step: Measure,
        shown: Shown,
        rows: Ints,
        anything: float,
    ) -> Floats:
        value, supply = read.value, self._supply_for(read)
        assert value is not None
        spans = Spans.of(shown.low[rows], shown.high[rows])
        shows = self._sheet.tests[read.step_id].of
        if shows is not None and self._bench(supply).looks.is_shown(shows):
            sigma = spread_of_shown(value, step.quantity, spans)
        elif shows is not None:
            sigma = spread_of_input(value, step.quantity, spans)
        else:
            feed = self._feed(step, shown.posts_high[rows].max(axis=1), supply)
            sigma = spread(value, step.quantity, spans, feed)
        return reading_density(value.value, spans, sigma, anything)

    def _feed(self, step: Measure, posts: Floats, supply: str) -> Feed:
        is_running = step.set_up.engine in RUNNING
        emf, battery = self._supplies[supply].at(is_running).emf_v, self._documents[3]
        is_known = (
            supply == THIS
            and battery is not None
            and battery.at(is_running) != self._usual.at(is_running)
        )
        doubt = AS_MEASURED_V if is_known else GENERATOR_V if is_running else AT_REST_V
        return Feed(emf, posts, doubt)

    def _seen(self, read: Read, step: Observe) -> Likely:
        seen = self._bench(THIS).shown((read.step_id, read.fitted), self._wanted)
        assert isinstance(seen, Seen)
        place = [o.name for o in step.outcomes].index(read.outcome)
        even = 1.0 / len(step.outcomes)
        cells, healthy = (
            outcome_chance(seen.may_be[:, rows])[place]
            for rows in (self._rows, np.zeros((1, 1), np.intp))
        )
        return self._likely(cells, float(healthy[0]), even, WRONG_LOOK * even)

    def _likely(self, cells: Floats, healthy: float, anything: float, slip: float) -> Likely:
        """A fault that nobody thought of reads as the known ones do, or anything: half of each."""
        whole = float(self.weights.sum())
        as_some = float(self.weights @ cells) / whole if whole > 0.0 else anything
        return Likely(cells, healthy, (as_some + anything) / 2, slip)


def _with_emf(usual: Supplied, battery: Supplied | None) -> Supplied:
    """The usual battery with the EMF of the one that was measured."""
    if battery is None:
        return usual
    stopped, running = (
        Supply(battery.at(engine).emf_v, usual.at(engine).internal_ohm) for engine in (False, True)
    )
    return Supplied(stopped, running, battery.day)


def _window(tree: Tree, step: Measure, values: Values) -> tuple[float, float]:
    """Limits of what the point can show [SI]."""
    limits = (step.plausible.from_, step.plausible.below)
    try:
        low, high = (e.evaluator(step.quantity, tree.quantities)(values).value for e in limits)
    except (CannotWorkOut, KeyError):
        return 0.0, 1e3
    return low, high if math.isfinite(high) else low + 1e3
