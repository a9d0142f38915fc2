"""Where a reading lies among a step's bands, with the limit of error on both sides counted.

A band holds its lower edge and not its upper one, so every edge belongs to the band above it.
"""

import math
from collections.abc import Iterable, Sequence
from dataclasses import dataclass

from faulttree.core.uncertain import Uncertain


@dataclass(frozen=True, slots=True)
class Placement:
    """The band of a reading, and all bands the reading's error reaches.

    Attributes:
        nominal: index of the band that owns the reading as read.
        lowest: lowest band the error reaches.
        highest: highest band the error reaches.
        margin: distance from the nearest edge over the limit of error there; below 1 the error
            reaches over it. None without an edge or without an error.
    """

    nominal: int
    lowest: int
    highest: int
    margin: float | None

    @property
    def reached(self) -> tuple[int, ...]:
        """Every band the reading may belong to."""
        return tuple(range(self.lowest, self.highest + 1))

    @property
    def is_clear(self) -> bool:
        """True when the error stays inside one band."""
        return self.lowest == self.highest


def place(value: Uncertain, edges: Sequence[Uncertain]) -> Placement:
    """Find the band of a reading.

    Args:
        value: the reading [SI]; infinite for an open circuit, which lies above every edge.
        edges: the edges between the bands, rising; band k lies below edges[k]. An edge may be an
            open circuit too: every number lies below it. Where readings make an edge fall below
            the one before it, the band between them is empty.
    """
    if math.isinf(value.value):
        top = len(edges)
        return Placement(top, top, top, None)
    gaps = [gap(value, edge) for edge in edges]
    return Placement(
        nominal=_first(above < 0 for above, _ in gaps),
        lowest=_first(above - radius < 0 for above, radius in gaps),
        highest=_first(above + radius < 0 for above, radius in gaps),
        margin=min((abs(above) / radius for above, radius in gaps if radius > 0), default=None),
    )


def _first(is_below: Iterable[bool]) -> int:
    """The first band that the reading is below the upper edge of; the last band has none."""
    index = -1
    for index, below in enumerate(is_below):
        if below:
            return index
    return index + 1


def gap(value: Uncertain, edge: Uncertain) -> tuple[float, float]:
    """How far a reading lies above an edge, negative below it, and the limit of error of that."""
    return (-math.inf, 0.0) if math.isinf(edge.value) else value.above(edge)
