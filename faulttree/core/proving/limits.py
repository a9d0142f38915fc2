"""Exact limits of a chance per try, and of a rate in time, from what was counted."""

from typing import NamedTuple

from faulttree.core.proving.demands import (
    USUAL_CONFIDENCE,
    chance_left,
    need_count,
    need_counts,
    need_positive,
)
from faulttree.core.proving.special import beta_quantile, gamma_quantile


class Limits(NamedTuple):
    """Lowest and highest value that still fit what was counted."""

    low: float
    high: float


def chance_limits(seen: int, tries: int, confidence: float = USUAL_CONFIDENCE) -> Limits:
    """Two-sided limits of the chance per try, after `seen` in `tries`.

    Each end alone is missed with half of what the confidence leaves. With 0 seen the lower end is
    0, and with all seen the upper end is 1.

    Args:
        seen: tries in which the complaint showed.
        tries: tries in all; alike and independent.
        confidence: between 0 and 1.

    Raises:
        ValueError: counts that cannot be, or a confidence outside 0 to 1.

    Source: Clopper and Pearson, Biometrika 26 (1934) 404, in its beta form.
    """
    side = 1 - float(chance_left(confidence)) / 2
    return Limits(lowest_chance(seen, tries, side), highest_chance(seen, tries, side))


def highest_chance(seen: int, tries: int, confidence: float = USUAL_CONFIDENCE) -> float:
    """One-sided upper limit of the chance per try; arguments and source as `chance_limits`."""
    need_counts(seen, tries)
    left = float(chance_left(confidence))
    return 1.0 if seen == tries else beta_quantile(1 - left, seen + 1, tries - seen)


def lowest_chance(seen: int, tries: int, confidence: float = USUAL_CONFIDENCE) -> float:
    """One-sided lower limit of the chance per try; arguments and source as `chance_limits`."""
    need_counts(seen, tries)
    left = float(chance_left(confidence))
    return 0.0 if seen == 0 else beta_quantile(left, seen, tries - seen + 1)


def count_limits(count: int, confidence: float = USUAL_CONFIDENCE) -> Limits:
    """Two-sided limits of the number of events to be expected, after `count` were counted.

    Events must be independent of each other: chatter of one bad contact counts as one event.

    Args:
        count: events counted, 0 or more.
        confidence: between 0 and 1.

    Raises:
        ValueError: a negative count, or a confidence outside 0 to 1.

    Source: Garwood, Biometrika 28 (1936) 437, in its gamma (chi-square) form.
    """
    side = float(chance_left(confidence)) / 2
    high = highest_count(count, 1 - side)
    return Limits(gamma_quantile(side, count) if count else 0.0, high)


def highest_count(count: int, confidence: float = USUAL_CONFIDENCE) -> float:
    """One-sided upper limit of the number to be expected; arguments as `count_limits`."""
    need_count("a count", count)
    return gamma_quantile(1 - float(chance_left(confidence)), count + 1)


def rate_limits(count: int, duration: float, confidence: float = USUAL_CONFIDENCE) -> Limits:
    """Two-sided limits of a rate in time: `count_limits` divided by the duration.

    Args:
        count: events counted, 0 or more.
        duration: how long was watched, in any unit; the limits are per that unit.
        confidence: between 0 and 1.

    Raises:
        ValueError: a negative count, no duration, or a confidence outside 0 to 1.
    """
    need_positive("the time watched", duration)
    low, high = count_limits(count, confidence)
    return Limits(low / duration, high / duration)
