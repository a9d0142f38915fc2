"""A bar that shows how far some work has come; only where a person sits in front of it."""

import sys
from time import monotonic

_WIDTH = 30
_WAIT_S = 0.5
"""Work that takes less shows no bar [s]."""
_PAUSE_S = 0.1


class Progress:
    """A bar on stderr. It appears once the work takes long and is gone when the block is left."""

    def __init__(self, label: str) -> None:
        self._label = label
        self._is_wanted = sys.stderr.isatty()
        self._next = monotonic() + _WAIT_S
        self._is_drawn = False

    def __enter__(self) -> "Progress":
        return self

    def __exit__(self, *_: object) -> None:
        if self._is_drawn:
            width = len(self._label) + _WIDTH + 9
            print(f"\r{' ' * width}\r", end="", file=sys.stderr, flush=True)

    def show(self, share: float) -> None:
        """Show a share from 0 to 1, if it is time to."""
        if not self._is_wanted or monotonic() < self._next:
            return
        self._next = monotonic() + _PAUSE_S
        self._is_drawn = True
        done = min(_WIDTH, int(share * _WIDTH))
        bar = "#" * done + "." * (_WIDTH - done)
        print(f"\r{self._label} [{bar}] {share:4.0%}", end="", file=sys.stderr, flush=True)
