"""Round numbers along an axis, and labels beside it that do not run into each other."""

import math
from collections.abc import Sequence

_LEAPS = (1.0, 2.0, 5.0)
"""Distances of round numbers, times a power of ten."""


def even_steps(low: float, high: float, most: int) -> tuple[float, ...]:
    """Multiples of 1, 2 or 5 times a power of ten from `low` to `high`, `most` at most.

    Raises:
        ValueError: `high` is not above `low`, or `most` is below 2.
    """
    if not low < high or most < 2:
        raise ValueError("an axis runs upwards and has two steps at least")
    power = math.floor(math.log10((high - low) / most))
    for exponent in (power, power + 1, power + 2):
        for leap in _LEAPS:
            steps = _multiples(low, high, leap, exponent)
            if len(steps) <= most:
                return steps
    raise AssertionError("a hundred times the finest step is too coarse for any axis")


def _multiples(low: float, high: float, leap: float, exponent: int) -> tuple[float, ...]:
    step = leap * 10.0**exponent
    slack = 1e-9 * (high - low) / step
    first, last = math.ceil(low / step - slack), math.floor(high / step + slack)
    return tuple(round(i * step, max(0, 1 - exponent)) for i in range(first, last + 1))


def log_steps(low: float, high: float) -> tuple[float, ...]:
    """1, 2 and 5 times every power of ten from `low` to `high`, both above 0."""
    powers = range(math.floor(math.log10(low)), math.floor(math.log10(high)) + 1)
    steps = (leap * 10.0**power for power in powers for leap in _LEAPS)
    return tuple(round(s, 12) for s in steps if low <= s <= high)


def label_starts(
    labels: Sequence[tuple[float, float]], begin: float, end: float, gap: float
) -> list[float | None]:
    """Where each label begins: around its middle, inside the ends, clear of those before it.

    Args:
        labels: middle and length of each, in the order in which they matter.
        begin, end: what no label may reach beyond.
        gap: what stays free between two labels.

    Returns:
        The beginning of each; None for a label that has no room.
    """
    taken: list[tuple[float, float]] = []
    starts: list[float | None] = []
    for middle, length in labels:
        start = max(begin, min(middle - length / 2, end - length))
        is_free = all(start >= e + gap or start + length + gap <= b for b, e in taken)
        fits = start + length <= end and is_free
        if fits:
            taken.append((start, start + length))
        starts.append(start if fits else None)
    return starts
