"""Curves without corners: a solver that follows slopes gets stuck in one."""

import numpy as np

from faulttree.core.loop.fluid import Floats


def sigmoid(x: Floats) -> Floats:
    """From 0 to 1, a half at 0."""
    return np.asarray(1.0 / (1.0 + np.exp(-np.clip(x, -40.0, 40.0))))


def lengthened(unknown: Floats) -> Floats:
    """Transfer units by an unknown: the same below one, growing fast above; any length is near."""
    return np.where(unknown > 1.0, np.exp(np.minimum(unknown, 12.0) - 1.0), unknown)


def used(length: Floats) -> Floats:
    """How much of the way to the air's temperature a stretch of heat exchanger goes, 0 to 1."""
    return np.asarray(-np.expm1(-np.maximum(length, 0.0)))


def mean_void(start: Floats, end: Floats, slip: Floats) -> Floats:
    """Mean share of the volume that is vapour between two shares of vapour by mass.

    Zivi 1964, from memory: void = x / (x + slip (1 - x)), slip = (gas by liquid density)^(2/3).
    """
    low, high = np.minimum(start, end), np.maximum(start, end)
    high = np.maximum(high, low + 1e-4)
    slip = np.minimum(slip, 0.9)

    def integral(x: Floats) -> Floats:
        rest = 1.0 - slip
        return np.asarray(x / rest - slip / rest**2 * np.log(slip + rest * x))

    return np.asarray((integral(high) - integral(low)) / (high - low))
