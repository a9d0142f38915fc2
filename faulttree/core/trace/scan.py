"""Dropouts found in samples: the two limits, pauses merged, short ones left out.

Samples come in pieces of any size and give the same dropouts as all at once. Most pieces of most
traces hold no sample beyond the limit that begins a dropout: those cost one comparison.
"""

import numpy as np

from faulttree.core.trace.arrays import Bools, Floats, Ints, Samples
from faulttree.core.trace.grouping import Grouping
from faulttree.core.trace.limits import Counting, Limits, Sampling, Side
from faulttree.core.trace.runs import BEGIN_UNSEEN, END_UNSEEN, Runs, joined

PIECE = 1 << 16
"""Samples looked at together: they stay in the processor's cache."""


class Scanner:
    """Finds dropouts in the samples of one trace, taken in order."""

    def __init__(self, limits: Limits, counting: Counting, sampling: Sampling) -> None:
        self._limits = limits
        self._sampling = sampling
        self._grouping = Grouping(limits.side, counting, sampling)
        is_below = limits.side is Side.BELOW
        self._is_beyond = np.less if is_below else np.greater
        self._is_back = np.greater if is_below else np.less
        self._further = np.minimum if is_below else np.maximum
        self._open: Runs | None = None
        self._stretch = -1
        self._last = 0.0

    def scan(self, samples: Samples) -> None:
        """Look at the next samples.

        Raises:
            TraceRefused: more dropouts than `grouping.MOST_DROPOUTS`.
        """
        count = len(samples.times)
        found: list[Runs] = []
        for begin in range(0, count, PIECE):
            end = min(begin + PIECE, count)
            first, last = np.searchsorted(samples.breaks, (begin, end))
            breaks = samples.breaks[first:last] - begin
            piece = Samples(samples.times[begin:end], samples.values[begin:end], breaks)
            is_beyond = self._is_beyond(piece.values, self._limits.begin)
            if self._open is not None or is_beyond.any():
                found.append(self._runs(piece, is_beyond))
            self._stretch += len(breaks)
            self._last = float(piece.times[-1])
        self._grouping.add(joined(found))

    def found(self) -> tuple[Runs, int]:
        """The dropouts, and how many were left out as too short; nothing can be scanned after."""
        if self._open is not None:
            self._open.ends[:] = self._last + self._sampling.step_s
            self._open.unseen[:] |= END_UNSEEN
            self._grouping.add(self._open)
            self._open = None
        return self._grouping.finish()

    def _runs(self, piece: Samples, is_beyond: Bools) -> Runs:
        """The runs that end in a piece; one that does not is left open.

        A run may begin where samples become beyond the first limit, and at a break; it ends at
        the first place after that where they become back past the second, or at a break.
        """
        is_break = np.zeros(len(piece.times), bool)
        is_break[piece.breaks] = True
        may_begin = np.flatnonzero(_becomes(is_beyond, is_break))
        if self._open is not None:
            may_begin = np.concatenate(([-1], may_begin))
        is_back = self._is_back(piece.values, self._limits.end)
        may_end = np.flatnonzero(_becomes(is_back, is_break) | is_break)
        which = np.searchsorted(may_end, may_begin, "right")
        is_first = np.diff(which, prepend=-1) > 0
        ends = np.concatenate((may_end, [len(is_break)]))[which[is_first]]
        runs = self._cut_out(piece, is_break, may_begin[is_first], ends)
        is_left_open = ends[-1] == len(is_break)
        self._open = runs.only(slice(-1, None)) if is_left_open else None
        return runs.only(slice(0, -1)) if is_left_open else runs

    def _cut_out(self, piece: Samples, is_break: Bools, begins: Ints, ends: Ints) -> Runs:
        """The runs between these indices; the first may have begun before, at -1."""
        starts, last = np.maximum(begins, 0), len(is_break) - 1
        at_end = np.minimum(ends, last)
        is_cut = is_break[at_end] & (ends <= last)
        before = np.where(ends > 0, piece.times[ends - 1], self._last)
        runs = Runs(
            piece.times[starts],
            np.where(is_cut, before + self._sampling.step_s, piece.times[at_end]),
            _extremes(self._further, piece.values, starts, ends),
            is_break[starts] * BEGIN_UNSEEN + is_cut * END_UNSEEN,
            self._stretch + np.searchsorted(piece.breaks, starts, "right"),
        )
        if self._open is not None:
            self._go_on(runs, self._open, bool(ends[0] > 0))
        return runs

    def _go_on(self, runs: Runs, opened: Runs, is_longer: bool) -> None:
        """Put what began before in the place of what the first run seems to begin with."""
        runs.begins[0] = opened.begins[0]
        runs.unseen[0] = opened.unseen[0] | runs.unseen[0] & END_UNSEEN
        runs.stretch[0] = opened.stretch[0]
        extreme = opened.extremes[0]
        runs.extremes[0] = self._further(extreme, runs.extremes[0]) if is_longer else extreme


def _becomes(mask: Bools, is_break: Bools) -> Bools:
    """Where a mask becomes true, or is true behind a break; it is taken for false before."""
    edges = mask.copy()
    edges[1:] &= ~mask[:-1] | is_break[1:]
    return edges


def _extremes(further: np.ufunc, values: Floats, begins: Ints, ends: Ints) -> Floats:
    """The extreme of each stretch of values; any value where a stretch is empty."""
    bounds = np.stack((begins, ends), axis=1).ravel()
    if ends[-1] == len(values):
        bounds = bounds[:-1]
    found: Floats = further.reduceat(values, bounds)[::2]
    return found
