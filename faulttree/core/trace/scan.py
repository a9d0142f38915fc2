"""Dropouts found in samples: the two limits, pauses merged, short ones left out.

Samples come in pieces of any size and give the same dropouts as all at once. Most pieces of most
traces hold no sample beyond the limit that begins a dropout: those cost one comparison.
"""

import numpy as np

from faulttree.core.trace.arrays import Bools, Floats, Ints, Samples
from faulttree.core.trace.grouping import Grouping
from faulttree.core.trace.limits import Counting, Limits, Sampling, Side
from faulttree.core.trace.runs import BEGIN_UNSEEN, END_UNSEEN, Runs

PIECE = 1 << 15
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
        """Look at the next samples."""
        count = len(samples.times)
        for begin in range(0, count, PIECE):
            end = min(begin + PIECE, count)
            first, last = np.searchsorted(samples.breaks, (begin, end))
            breaks = samples.breaks[first:last] - begin
            self._piece(samples.times[begin:end], samples.values[begin:end], breaks)

    def found(self) -> tuple[Runs, int]:
        """The dropouts, and how many were left out as too short; nothing can be scanned after."""
        if self._open is not None:
            self._open.ends[:] = self._last + self._sampling.step_s
            self._open.unseen[:] |= END_UNSEEN
            self._grouping.add(self._open)
            self._open = None
        return self._grouping.finish()

    def _piece(self, times: Floats, values: Floats, breaks: Ints) -> None:
        is_beyond = self._is_beyond(values, self._limits.begin)
        if self._open is not None or is_beyond.any():
            self._runs(times, values, breaks, is_beyond)
        self._stretch += len(breaks)
        self._last = float(times[-1])

    def _runs(self, times: Floats, values: Floats, breaks: Ints, is_beyond: Bools) -> None:
        """Pair where runs begin with where they end.

        A run may begin where samples become beyond the first limit, and at a break; it ends at
        the first place after that where they become back past the second, or at a break.
        """
        is_break = np.zeros(len(times), bool)
        is_break[breaks] = True
        may_begin = np.flatnonzero(_begins_here(is_beyond, is_break))
        if self._open is not None:
            may_begin = np.concatenate(([-1], may_begin))
        is_back = self._is_back(values, self._limits.end)
        may_end = np.flatnonzero(_begins_here(is_back, is_break) | is_break)
        which = np.searchsorted(may_end, may_begin, "right")
        is_first = np.diff(which, prepend=-1) > 0
        begins, which = may_begin[is_first], which[is_first]
        ends = np.concatenate((may_end, [len(times)]))[which]
        runs = self._cut_out(times, values, breaks, begins, ends)
        if ends[-1] == len(times):
            runs, self._open = runs.only(slice(0, -1)), runs.only(slice(-1, None))
        else:
            self._open = None
        self._grouping.add(runs)

    def _cut_out(
        self, times: Floats, values: Floats, breaks: Ints, begins: Ints, ends: Ints
    ) -> Runs:
        """The runs between these indices; the first may have begun before, at -1."""
        step = self._sampling.step_s
        starts = np.maximum(begins, 0)
        at_end = np.minimum(ends, len(times) - 1)
        is_cut = np.isin(ends, breaks)
        before = np.where(ends > 0, times[ends - 1], self._last)
        stretch = self._stretch + np.searchsorted(breaks, starts, "right")
        runs = Runs(
            times[starts],
            np.where(is_cut, before + step, times[at_end]),
            _extremes(self._further, values, starts, ends),
            np.isin(starts, breaks) * BEGIN_UNSEEN + is_cut * END_UNSEEN,
            stretch,
        )
        if self._open is not None:
            self._go_on(runs, self._open, ends[0] > 0)
        return runs

    def _go_on(self, runs: Runs, opened: Runs, is_longer: bool) -> None:
        """Put what began before in the place of what the first run seems to begin with."""
        runs.begins[0] = opened.begins[0]
        runs.unseen[0] = opened.unseen[0] | runs.unseen[0] & END_UNSEEN
        runs.stretch[0] = opened.stretch[0]
        extreme = opened.extremes[0]
        runs.extremes[0] = self._further(extreme, runs.extremes[0]) if is_longer else extreme


def _begins_here(mask: Bools, is_break: Bools) -> Bools:
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
