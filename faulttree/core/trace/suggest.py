"""Limits taken from the trace itself, where none are given.

The usual level is not the median: a contact that is open most of the time would make the dropout
the usual. It is the middle of those readings that lie in the half of the range where no dropout
lies: the upper half, where dropouts lie below. One reading in two hundred at either end does not
count, so that a spike does not stretch the range. Where less than one in ten lies in that half, it
is no usual level either, and the median of all is taken.
"""

from dataclasses import dataclass
from enum import StrEnum

import numpy as np

from faulttree.core.trace.arrays import Floats
from faulttree.core.trace.limits import Limits, Side
from faulttree.core.trace.lines import TraceRefused
from faulttree.core.trace.survey import Surveyed
from faulttree.core.units import Quantity

SHARE = 0.2
"""How far beyond the usual level a dropout begins, as a share of it; common practice, no source."""
HALF = 0.5
"""The same as a share of the way to the furthest reading, where the level says nothing."""
NOISE = 8.0
"""A limit lies at least so many standard deviations of the noise from the level: less than one
sample in 10^15 of normal noise reaches it."""
RAREST = 0.1
"""What takes a smaller share of the time is not the usual; common practice, no source."""
_LITTLE = 0.05
_OUTLIERS = 0.005


class Way(StrEnum):
    """How a suggestion came about."""

    SHARE_OF_LEVEL = "share of the usual level"
    WAY_TO_FURTHEST = "way to the furthest reading"
    NOISE = "distance from the noise"


@dataclass(frozen=True, slots=True)
class Suggestion:
    """Limits with how they came about.

    Attributes:
        limits: half as far from the level for the end of a dropout as for its beginning.
        level: the usual level.
        way: what the distance was taken from.
    """

    limits: Limits
    level: float
    way: Way


def suggest(surveyed: Surveyed, quantity: Quantity, side: Side) -> Suggestion:
    """Limits for dropouts of a trace.

    Args:
        surveyed: the trace, read once.
        quantity: what it is of; a temperature has no natural zero to take a share from.
        side: where dropouts lie.

    Raises:
        TraceRefused: nothing stands out from the noise, and no share of the level can be taken.
    """
    level = usual_level(surveyed.picked, side)
    furthest = surveyed.lowest if side is Side.BELOW else surveyed.highest
    reach, way = abs(level) * SHARE, Way.SHARE_OF_LEVEL
    if quantity is Quantity.TEMPERATURE or abs(level) < _LITTLE * abs(furthest - level):
        reach, way = abs(furthest - level) * HALF, Way.WAY_TO_FURTHEST
    least = noise(surveyed.steps) * NOISE
    if way is Way.WAY_TO_FURTHEST and (reach < least or not reach):
        raise TraceRefused(
            f"No reading stands out {side} the others, so no limits can be suggested; give them "
            "with --low and --high."
        )
    if reach < least:
        reach, way = least, Way.NOISE
    sign = -1 if side is Side.BELOW else 1
    begin, end = (_rounded(level + sign * r, reach) for r in (reach, reach / 2))
    return Suggestion(Limits(min(begin, end), max(begin, end), side), level, way)


def usual_level(values: Floats, side: Side) -> float:
    """The level that readings have when no dropout is under way."""
    low, high = np.quantile(values, (_OUTLIERS, 1 - _OUTLIERS))
    middle = (low + high) / 2
    usual = values[values >= middle] if side is Side.BELOW else values[values <= middle]
    is_rare = len(usual) < RAREST * len(values)
    return float(np.median(values if is_rare else usual))


def noise(steps: Floats) -> float:
    """Standard deviation of the noise, from how far neighbouring readings are apart.

    Half of all steps are less than 0.6745 standard deviations of a step, which is sqrt(2) times
    that of the readings.

    Source: median absolute deviation of the normal distribution, 1/0.6745 = 1.4826; Hampel, JASA 69
    (1974) 383 (from memory).
    """
    return float(np.median(np.abs(steps))) * 1.4826 / 2**0.5


def _rounded(value: float, reach: float) -> float:
    """To a hundredth of the reach: a limit is shown as it is used."""
    return round(value, 2 - int(np.floor(np.log10(reach)))) if reach else value
