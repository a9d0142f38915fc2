"""What counts as a dropout: limits with hysteresis, and which of what lies outside is counted."""

import math
from dataclasses import dataclass
from enum import StrEnum


class Side(StrEnum):
    """On which side of the usual level dropouts lie."""

    BELOW = "below"
    ABOVE = "above"


@dataclass(frozen=True, slots=True)
class Limits:
    """Two limits, so that noise about one of them does not count again and again.

    A dropout begins with the first sample below `low` and ends with the first above `high`; one
    that lies above begins with the first above `high` and ends with the first below `low`. What
    lies between them, or on one, changes nothing.

    Attributes:
        low, high: in the unit of the trace; `low` is not above `high`.
        side: where dropouts lie.

    Raises:
        ValueError: the limits are no numbers, or the wrong way round.

    Source: Schmitt, A thermionic trigger, Journal of Scientific Instruments 15 (1938) 24, for a
    switch with two limits (from memory).
    """

    low: float
    high: float
    side: Side = Side.BELOW

    def __post_init__(self) -> None:
        if not -math.inf < self.low <= self.high < math.inf:
            raise ValueError("the lower limit may not be above the upper one")

    @property
    def begin(self) -> float:
        """A sample beyond this limit begins a dropout."""
        return self.low if self.side is Side.BELOW else self.high

    @property
    def end(self) -> float:
        """A sample on the other side of this limit ends it."""
        return self.high if self.side is Side.BELOW else self.low


@dataclass(frozen=True, slots=True)
class Counting:
    """Which dropouts are counted, in this order.

    Attributes:
        merge_s: two with a shorter pause between them are one [s].
        shortest_s: shorter ones are left out after that [s].
    """

    merge_s: float = 0.0
    shortest_s: float = 0.0


@dataclass(frozen=True, slots=True)
class Sampling:
    """How samples follow each other.

    Attributes:
        step_s: the mean time from one sample to the next [s]; above 0.
        gap_s: a longer time between two samples is a gap [s].
        resolution_s: how finely their times are told [s]; coarser than the step where several
            samples share one time.
    """

    step_s: float
    gap_s: float
    resolution_s: float

    @property
    def tolerance_s(self) -> float:
        """A pause or a dropout that misses its limit by less counts as long as the limit [s].

        Times read from decimals differ by parts of a billionth; a thousandth of a step is far
        above that and far below what samples can tell.
        """
        return self.step_s / 1000
