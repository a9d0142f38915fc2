"""The samples of a trace, and the stretches in which they follow on each other."""

from dataclasses import dataclass

import numpy as np

from faulttree.core.trace.arrays import Floats, Ints, Rows, Samples
from faulttree.core.trace.limits import Sampling
from faulttree.core.trace.lines import TraceRefused
from faulttree.core.trace.parting import Parting
from faulttree.core.trace.timeline import Timeline

MOST_STRETCHES = 1_000_000
"""A trace with more gaps is refused; it could not be told from one that is mostly missing."""


@dataclass(frozen=True, slots=True, eq=False)
class Stretches:
    """Stretches without a gap, in order: time of the first and of the last sample of each [s]."""

    firsts: Floats
    lasts: Floats
    sampling: Sampling

    @property
    def recorded_s(self) -> float:
        """How long was recorded [s]; every sample stands for one step."""
        return float((self.lasts - self.firsts).sum()) + len(self.firsts) * self.sampling.step_s

    def recorded_before(self, times: Floats) -> Floats:
        """How long was recorded before some times [s]."""
        ends = self.lasts + self.sampling.step_s
        before = np.concatenate(([0.0], np.cumsum(ends - self.firsts)))
        index = np.searchsorted(self.firsts, times, "right") - 1
        within = np.minimum(times, ends[index]) - self.firsts[index]
        return np.where(index < 0, 0.0, before[index] + within)

    @property
    def gaps(self) -> tuple[Floats, Floats]:
        """When each gap begins and ends [s]: the samples on either side of it.

        A clock that was set back parts two stretches without a gap between them.
        """
        begins, ends = self.lasts[:-1], self.firsts[1:]
        is_gap = ends - begins > self.sampling.tolerance_s
        return begins[is_gap], ends[is_gap]


class Sampler:
    """Makes samples of the rows of one trace, taken in order.

    A missing reading and a step of time longer than a gap part two stretches, and so does a clock
    set back.
    """

    def __init__(self, sampling: Sampling, is_clock: bool, passes_over_empty: bool) -> None:
        """Empty cells are passed over where most rows hold readings of other columns alone."""
        self._sampling = sampling
        self._timeline = Timeline(is_clock)
        self._passes_over_empty = passes_over_empty
        self._parting = Parting()
        self._last = -np.inf
        self._firsts: list[Floats] = []
        self._lasts: list[Floats] = []
        self._count = 0

    def sample(self, rows: Rows) -> Samples:
        """The samples of the next rows.

        Raises:
            TraceRefused: more than `MOST_STRETCHES`.
        """
        if self._passes_over_empty and rows.is_empty is not None:
            rows = rows.only(~rows.is_empty)
        times, is_back = self._timeline.count(rows)
        here = ~np.isnan(rows.values)
        is_parted = self._parting.part(is_back, here)
        times, values = times[here], rows.values[here]
        if not len(times):
            return Samples(times, values, np.empty(0, np.intp))
        is_parted |= np.diff(times, prepend=self._last) > self._sampling.gap_s
        breaks = np.flatnonzero(is_parted)
        self._note(times, breaks)
        return Samples(times, values, breaks)

    def stretches(self) -> Stretches:
        """The stretches of all that was sampled."""
        lasts = np.concatenate([*self._lasts, np.array([self._last])])
        return Stretches(np.concatenate(self._firsts), lasts[1:], self._sampling)

    def _note(self, times: Floats, breaks: Ints) -> None:
        before = np.concatenate(([self._last], times))[breaks]
        self._last = float(times[-1])
        self._firsts.append(times[breaks])
        self._lasts.append(before)
        self._count += len(breaks)
        if self._count > MOST_STRETCHES:
            raise TraceRefused(
                f"More than {MOST_STRETCHES:,} gaps: most of this column is missing, or the time "
                "between samples varies; say with --gap how long a gap is."
            )
