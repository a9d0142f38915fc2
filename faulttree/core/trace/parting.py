"""Which samples of a trace are parted from the one before: rows taken in pieces of any size."""

import numpy as np

from faulttree.core.trace.arrays import Bools


class Parting:
    """Counts what parts samples: a missing reading between them, or a clock set back."""

    def __init__(self) -> None:
        self._events = 0
        self._seen = -1

    def part(self, is_back: Bools, here: Bools) -> Bools:
        """Which samples do not follow on the one before; the first of all does not.

        Args:
            is_back: rows before which the clock was set back.
            here: rows with a reading.
        """
        events = self._events + np.cumsum(is_back | ~here)
        at = events[here]
        is_parted = np.diff(at, prepend=self._seen) > 0
        self._events = int(events[-1]) if len(events) else self._events
        self._seen = int(at[-1]) if len(at) else self._seen
        return is_parted
