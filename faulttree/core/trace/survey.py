"""What a first reading of a trace tells: how many samples, how they follow, how they lie."""

from dataclasses import dataclass

import numpy as np

from faulttree.core.trace.arrays import Floats, Rows
from faulttree.core.trace.limits import Sampling
from faulttree.core.trace.lines import TraceRefused
from faulttree.core.trace.parting import Parting
from faulttree.core.trace.picking import Picker
from faulttree.core.trace.steps import Steps
from faulttree.core.trace.timeline import Timeline


@dataclass(frozen=True, slots=True, eq=False)
class Surveyed:
    """What a first reading of a trace told.

    Attributes:
        rows: lines with a time.
        samples: those with a reading.
        is_sparse: most rows hold readings of other columns alone; they are passed over.
        missing: readings that are missing, where they are not passed over.
        lowest, highest: of all readings.
        picked: readings picked evenly from all, in order of time.
        steps: how far each of them is from the one before it.
        duration_s: from the first row to the last sample.
        began: the time of the first row, as the file tells it [s].
        setbacks, first_setback: as in `timeline.Timeline`.
        sampling: how samples follow each other.
    """

    rows: int
    samples: int
    is_sparse: bool
    missing: int
    lowest: float
    highest: float
    picked: Floats
    steps: Floats
    duration_s: float
    began: float
    setbacks: int
    first_setback: tuple[int, float] | None
    sampling: Sampling


class Survey:
    """Reads a trace for the first time; rows are taken in order, in pieces of any size."""

    def __init__(self, is_clock: bool = False, gap_s: float | None = None) -> None:
        """`gap_s` is the shortest gap [s], where it is known."""
        self._timeline = Timeline(is_clock)
        self._parting = Parting()
        self._steps = Steps(gap_s)
        self._picker = Picker()
        self._rows = self._missing = self._empty = 0
        self._lowest, self._highest = np.inf, -np.inf
        self._last = (np.nan, np.nan)

    def look(self, rows: Rows) -> None:
        """Take in the next rows."""
        times, is_back = self._timeline.count(rows)
        here = ~np.isnan(rows.values)
        self._rows += len(here)
        self._missing += len(here) - int(np.count_nonzero(here))
        self._empty += 0 if rows.is_empty is None else int(np.count_nonzero(rows.is_empty))
        is_parted = self._parting.part(is_back, here)
        times, values = times[here], rows.values[here]
        if not len(values):
            return
        self._lowest = min(self._lowest, float(values.min()))
        self._highest = max(self._highest, float(values.max()))
        self._picker.pick(values, np.diff(values, prepend=self._last[1]))
        self._steps.look(np.diff(times, prepend=self._last[0]), is_parted)
        self._last = float(times[-1]), float(values[-1])

    def surveyed(self) -> Surveyed:
        """What was found.

        Raises:
            TraceRefused: fewer than two readings, or no time between them.
        """
        if self._picker.count < 2:
            raise TraceRefused("Fewer than two readings were found: there is nothing to scan.")
        is_sparse = self._empty * 2 > self._rows
        picked, steps = self._picker.picked()
        return Surveyed(
            rows=self._rows,
            samples=self._picker.count,
            is_sparse=is_sparse,
            missing=self._missing - (self._empty if is_sparse else 0),
            lowest=self._lowest,
            highest=self._highest,
            picked=picked,
            steps=steps,
            duration_s=self._last[0],
            began=self._timeline.began or 0.0,
            setbacks=self._timeline.setbacks,
            first_setback=self._timeline.first_setback,
            sampling=self._steps.sampling(follows_only=not is_sparse),
        )
