"""Readings picked evenly from a trace of any length, for quantiles of all."""

import numpy as np
from numpy.typing import NDArray

from faulttree.core.trace.arrays import Floats

MOST = 1 << 17
"""The most readings that are kept."""
_MIXER = np.uint64(0x9E3779B97F4A7C15)
"""An odd number whose multiples are spread evenly: 2^64 divided by the golden ratio.

Source: Knuth, The Art of Computer Programming, volume 3, 6.4, multiplicative hashing (from memory).
"""


class Picker:
    """Keeps all readings of a short trace, and an even share of a long one.

    Which are kept hangs on their numbers alone, mixed so that no rhythm of the trace falls in step
    with it: the same trace in other pieces keeps the same.

    Attributes:
        count: how many there were.
    """

    def __init__(self) -> None:
        self.count = 0
        self._below = np.uint64(2**64 - 1)
        self._size = 0
        self._kept: list[tuple[NDArray[np.uint64], Floats, Floats]] = []

    def pick(self, values: Floats, steps: Floats) -> None:
        """Pick from the next readings.

        Args:
            values: the readings.
            steps: how far each is from the one before it.
        """
        index = np.arange(self.count, self.count + len(values), dtype=np.uint64)
        self.count += len(values)
        mixed = index * _MIXER
        chosen = mixed <= self._below
        self._kept.append((mixed[chosen], values[chosen], steps[chosen]))
        self._size += int(np.count_nonzero(chosen))
        while self._size > MOST:
            self._below >>= np.uint64(1)
            arrays = [np.concatenate(column) for column in zip(*self._kept, strict=True)]
            is_left = arrays[0] <= self._below
            mixed, values, steps = (array[is_left] for array in arrays)
            self._kept = [(mixed, values, steps)]
            self._size = len(mixed)

    def picked(self) -> tuple[Floats, Floats]:
        """The readings picked, in order, and how far each is from the one before it."""
        values = np.concatenate([values for _, values, _ in self._kept])
        steps = np.concatenate([steps for _, _, steps in self._kept])
        return values, steps[np.isfinite(steps)]
