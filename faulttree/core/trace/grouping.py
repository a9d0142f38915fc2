"""Runs made dropouts: short pauses merged first, short dropouts left out then."""

import numpy as np

from faulttree.core.trace.limits import Counting, Sampling, Side
from faulttree.core.trace.lines import TraceRefused
from faulttree.core.trace.runs import END_UNSEEN, Runs, joined

MOST_DROPOUTS = 1_000_000
"""More are refused: the limits lie within the noise."""


class Grouping:
    """Takes runs in order, in pieces of any size."""

    def __init__(self, side: Side, counting: Counting, sampling: Sampling) -> None:
        self._further = np.minimum if side is Side.BELOW else np.maximum
        self._counting = counting
        self._tolerance_s = sampling.tolerance_s
        self._kept: list[Runs] = []
        self._pending: Runs | None = None
        self._short = 0
        self._count = 0

    def add(self, runs: Runs) -> None:
        """Take in the next runs; the last group waits, since the next run may belong to it.

        Raises:
            TraceRefused: more than `MOST_DROPOUTS`.
        """
        if not len(runs):
            return
        if self._pending is not None:
            runs = joined((self._pending, runs))
        merged = self._merged(runs)
        self._pending = merged.only(slice(-1, None))
        self._keep(merged.only(slice(0, -1)))

    def finish(self) -> tuple[Runs, int]:
        """All dropouts, and how many were left out as too short."""
        if self._pending is not None:
            self._keep(self._pending)
            self._pending = None
        return joined(self._kept), self._short

    def _merged(self, runs: Runs) -> Runs:
        """Runs of one stretch with short pauses between them as one."""
        pauses = runs.begins[1:] - runs.ends[:-1]
        is_short = pauses < self._counting.merge_s - self._tolerance_s
        is_new = np.concatenate(([True], ~is_short | (np.diff(runs.stretch) != 0)))
        first = np.flatnonzero(is_new)
        last = np.concatenate((first[1:], [len(runs)])) - 1
        return Runs(
            runs.begins[first],
            runs.ends[last],
            self._further.reduceat(runs.extremes, first),
            runs.unseen[first] | runs.unseen[last] & END_UNSEEN,
            runs.stretch[first],
        )

    def _keep(self, merged: Runs) -> None:
        is_long = merged.durations >= self._counting.shortest_s - self._tolerance_s
        kept = merged.only(is_long)
        self._short += len(merged) - len(kept)
        self._count += len(kept)
        if len(kept):
            self._kept.append(kept)
        if self._count > MOST_DROPOUTS:
            raise TraceRefused(
                f"More than {MOST_DROPOUTS:,} dropouts: the limits lie within the noise; set "
                "--low and --high further apart, or merge with --merge."
            )
