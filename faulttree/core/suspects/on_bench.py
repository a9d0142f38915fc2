"""The readings of a walk against the cars of a bench: likelihoods of every suspect."""

import math
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from functools import cached_property

import numpy as np
from numpy.typing import NDArray

from faulttree.core.bench.bench import Bench, Seen, Shown
from faulttree.core.bench.document import BenchSheet
from faulttree.core.bench.looks import Supplied, supplied
from faulttree.core.bench.suspects import Suspect
from faulttree.core.circuit.circuit import Circuit
from faulttree.core.suspects.density import Floats, outcome_chance, reading_density
from faulttree.core.suspects.evidence import Read
from faulttree.core.suspects.grid import Cell, cells_of, forms_of, refined
from faulttree.core.tree import Measure, Observe, Tree
from faulttree.core.uncertain import CannotWorkOut, Uncertain
from faulttree.core.units import Quantity

Ints = NDArray[np.intp]

TOLERANCE = 0.1
"""How far resistances of a real car may be from those of the model, either way; common practice, no
source."""
LEAST = {Quantity.VOLTAGE: 0.01, Quantity.CURRENT: 0.02, Quantity.RESISTANCE: 0.1}
"""Spread of readings that no model gets right [SI]: contact of the probe, wires left out."""
AT_REST_V = 0.15
"""Spread of the batteries of healthy cars, about the normal one of the sheet [V]."""
SHOWS = (0.02, 0.5, 0.98)
"""Chance that the complaint shows on a car that does not, may, or surely shows it."""
THIS, USUAL = "this battery", "usual battery"


@dataclass(frozen=True, slots=True, eq=False)
class Likely:
    """One reading, as likelihoods.

    Attributes:
        cells: under each cell, shape (n_cells,).
        healthy: on a healthy car.
        anything: if it may be anything.
    """

    cells: Floats
    healthy: float
    anything: float


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
        suspects: Sequence[Suspect] | None = None,
    ) -> None:
        """A bench.

        Args:
            tree, circuit, sheet: documents that have been checked.
            battery: what was measured, engine stopped and running; the sheet's normal one if None.
            suspects: other suspects than those of model and sheet; each form is a cell by itself.
        """
        usual = supplied(sheet.supplies)["normal"]
        if suspects is None:
            self.suspects = refined(circuit.model, sheet)
            self.cells = cells_of(self.suspects)
        else:
            self.suspects = tuple(suspects)
            self.cells = forms_of(self.suspects)
        self._documents = tree, circuit, sheet, battery
        supplies = {THIS: battery or usual, USUAL: usual}
        self._bench = Bench(tree, circuit, sheet, supplies, self.suspects)
        self._tree, self._sheet = tree, sheet

    def likely(self, read: Read, values: Mapping[str, Uncertain]) -> Likely:
        """How likely a recorded reading is under every cell.

        Args:
            read: the reading, or what was seen.
            values: vehicle data and earlier readings, for the window of what is plausible.
        """
        step = self._tree.steps[read.step_id]
        if isinstance(step, Observe):
            return self._seen(read, step)
        assert isinstance(step, Measure)
        assert read.value is not None
        supply = USUAL if self._is_at_posts(read) else THIS
        low_rows, high_rows, healthy = self._rows[supply]
        rows = np.unique(np.concatenate([low_rows, high_rows, [healthy]]))
        shown = self._bench.shown((read.step_id, read.fitted), rows)
        assert isinstance(shown, Shown)
        span = _window(self._tree, step, values)
        found = self._density(read.value, step, shown, (low_rows, high_rows), span, supply)
        alone = np.array([healthy])
        sound = self._density(read.value, step, shown, (alone, alone), span, supply)
        anything = 0.5 if math.isinf(read.value.value) else 1.0 / span
        return Likely(found, float(sound[0]), anything)

    def with_suspects(self, suspects: Sequence[Suspect]) -> "SuspectBench":
        """The same car with other suspects."""
        return SuspectBench(*self._documents, suspects)

    @cached_property
    def shows(self) -> Floats:
        """Chance that the complaint shows while a cell is there, shape (n_cells,)."""
        low, high, _ = self._rows[THIS]
        chance = np.array(SHOWS)[self._bench.complaint]
        return np.asarray((chance[low] + chance[high]) / 2)

    @cached_property
    def _rows(self) -> Mapping[str, tuple[Ints, Ints, int]]:
        """For each supply the rows of both ends of every cell, and of the healthy car."""
        places = {
            (id(row.suspect), id(row.form), row.supply): i for i, row in enumerate(self._bench.rows)
        }
        healthy = {r.supply: i for i, r in enumerate(self._bench.rows) if r.suspect is None}

        def row(cell: Cell, form: int, supply: str) -> int:
            suspect = self.suspects[cell.suspect]
            return places[id(suspect), id(suspect.forms[form]), supply]

        return {
            supply: (
                np.array([row(c, c.low, supply) for c in self.cells], np.intp),
                np.array([row(c, c.high, supply) for c in self.cells], np.intp),
                healthy[supply],
            )
            for supply in (THIS, USUAL)
        }

    def _is_at_posts(self, read: Read) -> bool:
        """The battery that was measured is no evidence of itself: it is held against usual ones."""
        return self._bench.reads_posts((read.step_id, read.fitted))

    def _density(
        self,
        value: Uncertain,
        step: Measure,
        shown: Shown,
        ends: tuple[Ints, Ints],
        span: float,
        supply: str,
    ) -> Floats:
        """Density of a reading under cells; one that is open at one end only is half of each."""
        low = np.minimum(shown.low[ends[0]], shown.low[ends[1]])
        high = np.maximum(shown.high[ends[0]], shown.high[ends[1]])
        low, high = np.nan_to_num(low, nan=0.0, posinf=np.inf), np.where(np.isnan(high), low, high)
        posts = shown.posts_high[ends[0]]
        is_half = np.isinf(high) & ~np.isinf(low)
        sigma = _sigma(value, step.quantity, low, high, posts)
        if supply == USUAL:
            sigma = np.hypot(sigma, AT_REST_V)
        found = reading_density(value.value, low, np.where(is_half, low, high), sigma, span)
        if is_half.any():
            as_open = reading_density(value.value, high, high, sigma, span)
            found = np.where(is_half, (found + as_open) / 2, found)
        return found

    def _seen(self, read: Read, step: Observe) -> Likely:
        low, high, healthy = self._rows[THIS]
        rows = np.unique(np.concatenate([low, high, [healthy]]))
        seen = self._bench.shown((read.step_id, read.fitted), rows)
        assert isinstance(seen, Seen)
        place = [o.name for o in step.outcomes].index(read.outcome)
        chance = outcome_chance(seen.may_be)[place]
        return Likely(
            (chance[low] + chance[high]) / 2, float(chance[healthy]), 1.0 / len(step.outcomes)
        )


def _sigma(
    value: Uncertain, quantity: Quantity, low: Floats, high: Floats, posts: Floats
) -> Floats:
    """Standard deviation of a reading about what the model says [SI].

    The instrument's limit of error over the square root of three, and what the model may be off: a
    voltage lies between two resistances, so that their tolerance moves it most at half of the
    battery's and not at all at either end.
    """
    middle = np.where(np.isinf(high), low, (low + high) / 2)
    middle = np.where(np.isinf(middle), 0.0, np.abs(middle))
    meter = 0.0 if math.isinf(value.value) else value.radius / math.sqrt(3)
    off = np.zeros_like(middle)
    if quantity is Quantity.VOLTAGE:
        whole = np.maximum(posts, np.maximum(middle, 1e-6))
        off = TOLERANCE * middle * (whole - middle) / whole
    elif quantity in LEAST:
        off = TOLERANCE * middle
    return np.sqrt(meter**2 + off**2 + LEAST.get(quantity, 0.0) ** 2) + 1e-9


def _window(tree: Tree, step: Measure, values: Mapping[str, Uncertain]) -> float:
    """Width of what the point can show [SI]."""
    limits = (step.plausible.from_, step.plausible.below)
    try:
        low, high = (e.evaluator(step.quantity, tree.quantities)(values).value for e in limits)
    except (CannotWorkOut, KeyError):
        return 1e3
    return max(high - low, 1e-9)
