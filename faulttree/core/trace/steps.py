"""How samples follow each other: the usual step, what is a gap, the mean step."""

import numpy as np

from faulttree.core.trace.arrays import Bools, Floats
from faulttree.core.trace.limits import Sampling
from faulttree.core.trace.lines import TraceRefused

LOOKED_AT = 10_000
"""How many steps of time tell which one is usual: the first ones."""
GAP_STEPS = 2.5
"""A longer step than so many usual ones is a gap; common practice, no source."""
_PER_SECOND = 10**9
"""Steps are added up in nanoseconds: whole numbers, so that their order does not matter."""


class Steps:
    """Learns the steps of time of a trace, taken in order in pieces of any size."""

    def __init__(self, gap_s: float | None = None) -> None:
        """`gap_s` is the shortest gap [s], where it is known."""
        self._given_gap_s = gap_s
        self._usual_s: float | None = None
        self._rising = 0
        self._head: list[tuple[Floats, Bools]] = []
        self._total = {True: 0, False: 0}
        self._count = {True: 0, False: 0}
        self._zeros = 0

    def look(self, steps: Floats, is_parted: Bools) -> None:
        """Take in the next steps [s]; NaN for the first sample of all.

        Args:
            steps: from each sample to the next.
            is_parted: whether something was missing in between.
        """
        if self._usual_s is not None:
            self._add(steps, is_parted, self._gap_s)
            return
        self._head.append((steps, is_parted))
        self._rising += int(np.count_nonzero(steps > 0))
        if self._rising >= LOOKED_AT:
            self._settle()

    def sampling(self, follows_only: bool) -> Sampling:
        """How samples follow each other.

        Args:
            follows_only: steps with something missing in between are left out.

        Raises:
            TraceRefused: no time passes.
        """
        if self._usual_s is None:
            self._settle()
        usual_s = self._usual_s or 0.0
        total, count = self._total[follows_only], self._count[follows_only]
        step_s = total / count / _PER_SECOND if total else usual_s
        if not step_s > 0:
            raise TraceRefused(
                "No time passes between the readings; choose another column with --time, or say "
                "with --rate how many there are a second."
            )
        is_shared = self._zeros * 2 > count
        return Sampling(step_s, self._gap_s, max(usual_s, step_s) if is_shared else step_s)

    @property
    def _gap_s(self) -> float:
        if self._given_gap_s is not None:
            return self._given_gap_s
        return GAP_STEPS * (self._usual_s or 0.0)

    def _settle(self) -> None:
        """Take the usual step from the first ones, and add these up."""
        rising = np.concatenate([head[head > 0] for head, _ in self._head] or [np.empty(0)])
        self._usual_s = float(np.median(rising[:LOOKED_AT])) if len(rising) else 0.0
        head, self._head = self._head, []
        for steps, is_parted in head:
            self._add(steps, is_parted, self._gap_s)

    def _add(self, steps: Floats, is_parted: Bools, gap_s: float) -> None:
        is_step = steps <= gap_s
        self._zeros += int(np.count_nonzero(steps == 0))
        for follows_only in (True, False):
            chosen = steps[is_step & ~is_parted] if follows_only else steps[is_step]
            whole = np.rint(chosen * _PER_SECOND).astype(np.int64)
            self._total[follows_only] += int(whole.sum())
            self._count[follows_only] += len(chosen)
