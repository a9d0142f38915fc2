"""Runs of samples beyond the limits, as arrays."""

from collections.abc import Sequence
from dataclasses import dataclass, fields
from typing import Any

import numpy as np
from numpy.typing import NDArray

from faulttree.core.trace.arrays import Floats, Ints

BEGIN_UNSEEN, END_UNSEEN = 1, 2
"""Signs of a run that was under way behind a gap, or at one: it was longer than what was seen."""


@dataclass(frozen=True, slots=True, eq=False)
class Runs:
    """Runs in order of time; dropouts, once they are merged and the short ones are left out.

    Attributes:
        begins: time of the first sample of each [s].
        ends: time of the first sample behind it; one step after its last sample at a gap [s].
        extremes: lowest reading in it, or the highest where runs lie above.
        unseen: `BEGIN_UNSEEN` and `END_UNSEEN`, added up.
        stretch: number of the stretch without a gap that it lies in.
    """

    begins: Floats
    ends: Floats
    extremes: Floats
    unseen: NDArray[np.int_]
    stretch: Ints

    def __len__(self) -> int:
        return len(self.begins)

    @property
    def durations(self) -> Floats:
        """How long each lasts [s]."""
        return self.ends - self.begins

    def only(self, chosen: Any) -> "Runs":
        """Some of them, by a slice or a mask."""
        return Runs(*(getattr(self, each.name)[chosen].copy() for each in fields(self)))


def joined(pieces: Sequence[Runs]) -> Runs:
    """Runs put behind each other."""
    if not pieces:
        none, whole = np.empty(0), np.empty(0, np.intp)
        return Runs(none, none, none, whole, whole)
    return Runs(*(np.concatenate([getattr(p, f.name) for p in pieces]) for f in fields(Runs)))
