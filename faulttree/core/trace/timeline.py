"""When samples were taken: seconds since the first one, never backwards, and where gaps are."""

import numpy as np

from faulttree.core.trace.arrays import Bools, Floats, Rows
from faulttree.core.trace.moments import DAY_S


class Timeline:
    """Counts the times of a trace on from its first one.

    A clock that passes midnight goes on with the next day. Where the time goes back otherwise, it
    is counted on from the sample before, and the samples there do not follow on each other.

    Attributes:
        began: the time of the first row, as the file tells it [s]; None before it.
        setbacks: how often the time went back.
        first_setback: line and size of the first time it did [s].
    """

    def __init__(self, is_clock: bool = False) -> None:
        self._is_clock = is_clock
        self._last = 0.0
        self._offset = 0.0
        self.began: float | None = None
        self.setbacks = 0
        self.first_setback: tuple[int, float] | None = None

    def count(self, rows: Rows) -> tuple[Floats, Bools]:
        """Seconds since the beginning, and which rows stand after a setback."""
        if not len(rows.times):
            return rows.times, np.zeros(0, bool)
        if self.began is None:
            self.began = self._last = float(rows.times[0])
        steps = np.diff(rows.times, prepend=self._last)
        self._last = float(rows.times[-1])
        is_back = steps < 0
        if not is_back.any():
            return rows.times - self.began + self._offset, is_back
        added = np.where(is_back, -steps, 0.0)
        if self._is_clock:
            is_midnight = steps < -DAY_S / 2
            added[is_midnight] = DAY_S
            is_back &= ~is_midnight
        self._note(rows, steps, is_back)
        offsets = np.cumsum(np.concatenate(([self._offset], added)))[1:]
        self._offset = float(offsets[-1])
        return rows.times - self.began + offsets, is_back

    def _note(self, rows: Rows, steps: Floats, is_back: Bools) -> None:
        back = np.flatnonzero(is_back)
        if len(back) and self.first_setback is None:
            self.first_setback = int(rows.lines[back[0]]), float(-steps[back[0]])
        self.setbacks += len(back)
