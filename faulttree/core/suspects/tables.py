"""What is suspect by a table of likelihoods: for a tree that has no circuit."""

from collections.abc import Iterable, Mapping

import numpy as np

from faulttree.core.bench.suspects import Form, Suspect
from faulttree.core.circuit.amounts import si
from faulttree.core.circuit.faults import comes_of
from faulttree.core.likelihoods import HEALTHY, OTHERS, LikelihoodTable, Row, TableSuspect
from faulttree.core.suspects.density import WRONG_LOOK
from faulttree.core.suspects.evidence import Read
from faulttree.core.suspects.inferred import Field, infer
from faulttree.core.suspects.likely import Likely
from faulttree.core.suspects.modes import FALSE_SIGHT
from faulttree.core.suspects.ranking import Suspicion
from faulttree.core.tree import Measure, Observe, Tree, outcome_names
from faulttree.core.units import Quantity
from faulttree.core.walk.judge import judge
from faulttree.core.walk.state import WalkState

Bands = Mapping[int, tuple[str, ...]]
"""Event of a reading to the bands that it may lie in."""


class TableSuspects:
    """Suspects of a table.

    One at a time: a table does not tell what two faults do together.

    Attributes:
        suspects: as in the table, in its order.
    """

    def __init__(self, table: LikelihoodTable, tree: Tree) -> None:
        """Suspects; the two documents have been checked beside each other."""
        self._table, self._tree = table, tree
        self.suspects = tuple(_suspect(name, each) for name, each in table.suspects.items())
        weights = np.array([suspect.weight for suspect in self.suspects])
        self._field = Field(self.suspects, np.arange(len(weights)), weights)
        self._shows = np.full(len(weights), 1.0 - FALSE_SIGHT)

    def after(self, reads: tuple[Read, ...], bands: Bands) -> Suspicion:
        """What is suspect after some readings.

        Args:
            reads: what was read and seen, in order.
            bands: where each reading lies; see `bands_of`. One that is in none says nothing.
        """
        likely = [self._likely(read, bands) for read in reads]
        return infer(self._field, self._shows, reads, likely, lambda: None)

    def _likely(self, read: Read, bands: Bands) -> Likely:
        """A reading too close to call counts for each band that it may lie in."""
        step, rows = self._tree.steps.get(read.step_id), self._table.readings.get(read.step_id)
        found = (read.outcome,) if isinstance(step, Observe) else bands.get(read.seq, ())
        if rows is None or not found or not isinstance(step, Measure | Observe):
            return Likely(np.ones(len(self.suspects)), 1.0, 1.0, 0.0)
        names = outcome_names(step)
        even = 1.0 / len(names)
        whole = {who: _chance(row, names, found) for who, row in rows.items()}
        other = whole.get(OTHERS, whole[HEALTHY])
        cells = np.array([whole.get(suspect.id, other) for suspect in self.suspects])
        as_some = float(self._field.weights @ cells) / float(self._field.weights.sum())
        return Likely(cells, whole[HEALTHY], (as_some + even) / 2, WRONG_LOOK * even)


def bands_of(state: WalkState, reads: Iterable[Read]) -> dict[int, tuple[str, ...]]:
    """The bands that each reading of a walk reaches with its error, by their names."""
    found = {}
    for read in reads:
        step = state.tree.steps[read.step_id]
        if isinstance(step, Measure) and read.seq in state.readings:
            judgement = judge(state, step, state.readings[read.seq][0])
            found[read.seq] = tuple(band.name for band in judgement.reached(step))
    return found


def spread_out(row: Row, names: tuple[str, ...]) -> dict[str, float]:
    """The share of every band or outcome: what a row leaves out is spread evenly over the rest.

    Args:
        row: as written.
        names: of all bands or outcomes of the step.

    Returns:
        Shares that add up to 1.
    """
    written = {name: si(share, Quantity.RATIO) for name, share in row.items()}
    left = [name for name in names if name not in written]
    rest = max(1.0 - sum(written.values()), 0.0) / len(left) if left else 0.0
    every = {name: written.get(name, rest) for name in names}
    whole = sum(every.values()) or 1.0
    return {name: share / whole for name, share in every.items()}


def _chance(row: Row, names: tuple[str, ...], found: tuple[str, ...]) -> float:
    """Of what was found; with chance WRONG_LOOK anything is told."""
    shares = spread_out(row, names)
    share = sum(shares[name] for name in found) / len(found)
    return (1.0 - WRONG_LOOK) * share + WRONG_LOOK / len(names)


def _suspect(name: str, written: TableSuspect) -> Suspect:
    comes = comes_of(written.intermittent)
    return Suspect(name, written.part, written.words, written.weight, comes, (Form(),))
