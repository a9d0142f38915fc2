"""How likely a reading is when the car would read a value, or anything between two values."""

import math

import numpy as np
from numpy.typing import NDArray

Floats = NDArray[np.float64]

SLIP = 1e-3
"""Chance that a reading has nothing to do with the car: mistyped, on the wrong pin, a model that is
wrong there. It keeps one reading from condemning or clearing for good. Common practice, no
source."""


def reading_density(value: float, low: Floats, high: Floats, sigma: Floats, span: float) -> Floats:
    """Density of a reading under each hypothesis.

    What the car would read lies evenly between `low` and `high`, as the size of the fault is not
    known better; the reading is normally distributed about it. With chance SLIP it may be anything
    in the window.

    Args:
        value: the reading [SI]; infinite for an open circuit.
        low, high: limits of what the car would read, shape (n,); infinite for an open circuit.
        sigma: standard deviation of the reading about it, shape (n,), above 0.
        span: width of the window of what the point can show [SI], above 0.

    Returns:
        Density [1/SI], shape (n,); for an open circuit its probability.
    """
    is_open = np.isinf(high)
    if math.isinf(value):
        return np.where(is_open, 1.0 - SLIP, SLIP)
    bottom, top = np.where(is_open, 0.0, low), np.where(is_open, 0.0, high)
    width = top - bottom
    is_wide = width > 1e-6 * sigma
    safe = np.where(is_wide, width, 1.0)
    spread = (normal_share((value - bottom) / sigma) - normal_share((value - top) / sigma)) / safe
    peak = np.exp(-0.5 * ((value - bottom) / sigma) ** 2) / (sigma * math.sqrt(2 * math.pi))
    likely = np.where(is_wide, spread, peak)
    return np.where(is_open, SLIP / span, (1.0 - SLIP) * likely + SLIP / span)


def outcome_chance(may_be: NDArray[np.bool_]) -> Floats:
    """Probability of each outcome under each hypothesis, shape (n_outcomes, n).

    Those that may be what is seen are equally likely; with chance SLIP any is told.

    Args:
        may_be: whether it may be what is seen, same shape.
    """
    count = may_be.sum(axis=0)
    even = 1.0 / len(may_be)
    share = np.where(may_be, 1.0 / np.maximum(count, 1), 0.0)
    share = np.where(count == 0, even, share)
    return np.asarray((1.0 - SLIP) * share + SLIP * even)


def normal_share(z: Floats) -> Floats:
    """Standard normal distribution function.

    numpy has none; this is `math.erfc` element by element, which keeps the tails.
    """
    flat = [0.5 * math.erfc(-v / math.sqrt(2.0)) for v in np.ravel(z).tolist()]
    return np.array(flat).reshape(np.shape(z))
