"""How likely a reading is when the car would read a value, or anything between two values."""

import math
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from faulttree.core.units import Quantity

Floats = NDArray[np.float64]

SLIP = 1e-3
"""Chance that a reading has nothing to do with the car: mistyped, on the wrong pin, a model that is
wrong there. It keeps one reading from condemning or clearing for good. Common practice, no
source."""
WRONG_LOOK = 0.02
"""The same for what is seen, heard or felt. Common practice, no source."""
LOOK_BETWEEN = 0.2
"""The same where a fault shows one thing in one size and another in the next."""
STRETCHED, STRETCH = 0.05, 3.0
"""Chance that a reading is off by so many times what its standard deviation says, because the car
differs from the model by more than is allowed for. Common practice, no source."""
AT_AN_END = 0.5
"""Of a reading anywhere between two: the share that lies at one of them, where a relay lets go
somewhere between."""
OPEN_SHARE = 0.2
"""Chance of an open circuit where an ohmmeter may show anything. Common practice, no source."""
LEAST_OHM = 0.1
"""Resistances that may be anything are spread evenly in their logarithm, from here up [ohm]."""


@dataclass(frozen=True, slots=True, eq=False)
class Spans:
    """What cars would read under each hypothesis, shape (n,) each.

    Attributes:
        low, high: limits of the number that is read [SI].
        open_share: share of the cars that show an open circuit instead.
        none_share: share of the cars that give no reading, so that anything may be shown.
    """

    low: Floats
    high: Floats
    open_share: Floats
    none_share: Floats

    @classmethod
    def of(cls, low: Floats, high: Floats) -> "Spans":
        """From the limits on some cars of each hypothesis, shape (n, n_cars).

        Infinite for an open circuit, not a number where the car gives no reading.
        """
        has_none = np.isnan(low) | np.isnan(high)
        is_open = np.isinf(high) & ~has_none
        is_number = ~(has_none | is_open)
        least = np.where(is_number, low, np.inf).min(axis=1)
        most = np.where(is_number, high, -np.inf).max(axis=1)
        is_any = is_number.any(axis=1)
        return cls(
            np.where(is_any, least, 0.0),
            np.where(is_any, most, 0.0),
            is_open.mean(axis=1),
            has_none.mean(axis=1),
        )


def reading_density(value: float, spans: Spans, sigma: Floats, anything: float) -> Floats:
    """Density of a reading under each hypothesis.

    What the car would read lies between two limits, as the size of the fault is not known better:
    half evenly between, half at one of the ends. The reading is normally distributed about it, now
    and then with a greater spread. With chance SLIP it may be anything.

    Args:
        value: the reading [SI]; infinite for an open circuit.
        spans: what the car would read.
        sigma: standard deviation of the reading about it, shape (n,), above 0.
        anything: density of the reading where it may be anything; see `anything_density`.

    Returns:
        Density [1/SI], shape (n,); for an open circuit its probability.
    """
    if math.isinf(value):
        likely = spans.open_share
    else:
        near = between(value, spans.low, spans.high, sigma)
        far = between(value, spans.low, spans.high, STRETCH * sigma)
        number_share = 1.0 - spans.open_share - spans.none_share
        likely = number_share * ((1.0 - STRETCHED) * near + STRETCHED * far)
    likely = likely + spans.none_share * anything
    return np.asarray((1.0 - SLIP) * likely + SLIP * anything)


def between(value: float, low: Floats, high: Floats, sigma: Floats) -> Floats:
    """Density of a reading of what lies between two values, half of the time at an end of it."""
    ends = (_normal(value, low, sigma) + _normal(value, high, sigma)) / 2
    return np.asarray(
        (1.0 - AT_AN_END) * evenly_between(value, low, high, sigma) + AT_AN_END * ends
    )


def evenly_between(value: float, low: Floats, high: Floats, sigma: Floats) -> Floats:
    """Density of a normally distributed reading of what lies evenly between two values.

    The convolution of a uniform with a normal distribution; both differences of tails are taken on
    the side where the tails are small, so that nothing cancels.
    """
    width = high - low
    is_wide = width > 1e-5 * sigma
    safe = np.where(is_wide, width, 1.0)
    above_low, above_high = (value - low) / sigma, (value - high) / sigma
    is_over = above_low + above_high > 0.0
    from_low = np.where(is_over, -above_low, above_low)
    from_high = np.where(is_over, -above_high, above_high)
    share = np.abs(normal_share(from_low) - normal_share(from_high))
    return np.where(is_wide, share / safe, _normal(value, (low + high) / 2, sigma))


def anything_density(value: float, quantity: Quantity, low: float, high: float) -> float:
    """Density of a reading that has nothing to do with the car.

    It is spread evenly over what the point can show; resistances, of which a tenth and ten times
    are as far off, evenly in their logarithm, with a share for an open circuit.

    Args:
        value: the reading [SI]; infinite for an open circuit.
        quantity: what is read.
        low, high: limits of what the point can show [SI].
    """
    if quantity is not Quantity.RESISTANCE:
        return SLIP if math.isinf(value) else 1.0 / max(high - low, 1e-9)
    if math.isinf(value):
        return OPEN_SHARE
    bottom, top = max(low, 0.0) + LEAST_OHM, max(high, 10 * LEAST_OHM)
    here = min(max(abs(value), bottom), top)
    return (1.0 - OPEN_SHARE) / (here * math.log(top / bottom))


def outcome_chance(may_be: NDArray[np.bool_]) -> Floats:
    """Probability of each outcome under each hypothesis, shape (n_outcomes, n).

    Those that may be what is seen on a car are equally likely. With chance WRONG_LOOK any is told;
    where the cars of a hypothesis do not show the same, a size between theirs may show another, and
    any is told with chance LOOK_BETWEEN.

    Args:
        may_be: whether it may be what is seen, shape (n_outcomes, n, n_cars).
    """
    count, even = may_be.sum(axis=0), 1.0 / len(may_be)
    share = np.where(may_be, 1.0 / np.maximum(count, 1), 0.0)
    share = np.where(count == 0, even, share)
    is_same = (may_be == may_be[:, :, :1]).all(axis=(0, 2))
    wrong = np.where(is_same, WRONG_LOOK, LOOK_BETWEEN)
    return np.asarray((1.0 - wrong) * share.mean(axis=2) + wrong * even)


def normal_share(z: Floats) -> Floats:
    """Standard normal distribution function.

    numpy has none; this is `math.erfc` element by element, which keeps the lower tail.
    """
    flat = [0.5 * math.erfc(-v / math.sqrt(2.0)) for v in np.ravel(z).tolist()]
    return np.array(flat).reshape(np.shape(z))


def _normal(value: float, mean: Floats, sigma: Floats) -> Floats:
    z = (value - mean) / sigma
    return np.asarray(np.exp(-0.5 * z * z) / (sigma * math.sqrt(2 * math.pi)))
