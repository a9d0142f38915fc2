"""What is suspect of a car by its author's table of likelihoods, for a tree without a circuit."""

from faulttree.core.likelihoods import LikelihoodTable
from faulttree.core.suspects.along import Along
from faulttree.core.suspects.by_part import by_part
from faulttree.core.suspects.evidence import Read, reads_of
from faulttree.core.suspects.suspected import TABLE, Suspected
from faulttree.core.suspects.tables import Bands, TableSuspects, bands_of
from faulttree.core.walk.state import WalkState

Told = tuple[tuple[Read, ...], Bands]
"""What suspects are worked out from; the same gives the same."""


def told_by(state: WalkState) -> Told:
    """The readings that stand, and the bands in which each lies."""
    reads = reads_of(state)
    return reads, bands_of(state, reads)


def suspected_by(table: LikelihoodTable, state: WalkState) -> Suspected:
    """What is suspect; nothing is drawn along a circuit."""
    reads, bands = told_by(state)
    suspicion = TableSuspects(table, state.tree).after(reads, bands)
    return Suspected(suspicion, by_part(suspicion), Along((), ()), {}, {}, {}, TABLE)
