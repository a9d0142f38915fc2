"""What is asked of a trace, and what was found in it."""

from collections.abc import Callable, Sequence
from dataclasses import dataclass, field

from faulttree.core.proving import rate_limits
from faulttree.core.trace.arrays import Floats
from faulttree.core.trace.header import Columns, Wanted
from faulttree.core.trace.layout import Layout
from faulttree.core.trace.limits import Counting, Limits, Side
from faulttree.core.trace.mark_texts import MarkClock
from faulttree.core.trace.marks import Episodes, Follows, Mark
from faulttree.core.trace.runs import Runs
from faulttree.core.trace.sampler import Stretches
from faulttree.core.trace.suggest import Suggestion
from faulttree.core.trace.survey import Surveyed

APART_S = 2.0
"""Dropouts with a shorter pause between them are one episode [s]; common practice, no source."""
WINDOW_S = 2.0
"""How long after a mark a dropout may count as following it [s]; common practice, no source."""
PICTURE_COLUMNS = 66
"""Columns of the picture, where nothing else is asked for."""
_HOUR_S = 3600.0


def _no_marks(clock: MarkClock) -> Sequence[Mark]:
    return ()


@dataclass(frozen=True, slots=True)
class Request:
    """What is asked of a trace.

    Attributes:
        wanted: the columns, where the header does not settle it.
        side: where dropouts lie.
        low, high: limits as typed; suggested from the trace where both are None.
        counting: which dropouts are counted.
        gap_s: what is a gap [s]; told from the usual step where it is None.
        apart_s: dropouts with a shorter pause between them are one episode [s].
        window_s: how long after a mark an episode may count as following it [s].
        marks: gives the marks, once it is known how the trace tells the time.
        picture_columns: columns of the envelope.
    """

    wanted: Wanted = field(default_factory=Wanted)
    side: Side = Side.BELOW
    low: str | None = None
    high: str | None = None
    counting: Counting = field(default_factory=Counting)
    gap_s: float | None = None
    apart_s: float = APART_S
    window_s: float = WINDOW_S
    marks: Callable[[MarkClock], Sequence[Mark]] = _no_marks
    picture_columns: int = PICTURE_COLUMNS


@dataclass(frozen=True, slots=True)
class Rate:
    """Something counted, per hour, with the limits of a 95 % interval."""

    count: int
    per_hour: float
    low: float
    high: float


@dataclass(frozen=True, slots=True, eq=False)
class Scanned:
    """What a scan of a trace gave; times in seconds from its first row, readings in its unit.

    Attributes:
        dropouts: the dropouts.
        short: how many more were left out as too short.
        stretches: what was recorded without a gap.
        lows, highs: the envelope.
    """

    dropouts: Runs
    short: int
    stretches: Stretches
    lows: Floats
    highs: Floats


@dataclass(frozen=True, slots=True, eq=False)
class Findings:
    """What was found in a trace.

    Attributes:
        request: what was asked.
        layout, columns: what stands where in the file.
        surveyed: how its samples lie and follow each other.
        limits: what dropouts were found with.
        suggestion: how the limits came about, where they were not given.
        scanned: what the scan gave.
        cut_line: the last line, where it was cut off and left out; 0 otherwise.
        episodes: dropouts that belong together, as one.
        marks: the marks, in order of time.
        follows: what follows each kind of them.
    """

    request: Request
    layout: Layout
    columns: Columns
    surveyed: Surveyed
    limits: Limits
    suggestion: Suggestion | None
    scanned: Scanned
    cut_line: int
    episodes: Episodes
    marks: tuple[Mark, ...]
    follows: tuple[Follows, ...]

    @property
    def dropouts(self) -> Runs:
        """The dropouts."""
        return self.scanned.dropouts

    @property
    def recorded_s(self) -> float:
        """How long was recorded, gaps left out [s]."""
        return self.scanned.stretches.recorded_s

    @property
    def total_s(self) -> float:
        """How long all dropouts last together [s]."""
        return float(self.dropouts.durations.sum())

    @property
    def share(self) -> float:
        """Share of the recorded time that lies in dropouts."""
        return self.total_s / self.recorded_s

    @property
    def rate(self) -> Rate:
        """Dropouts per hour."""
        return self._rate(len(self.dropouts))

    @property
    def episode_rate(self) -> Rate:
        """Episodes per hour."""
        return self._rate(len(self.episodes))

    def _rate(self, count: int) -> Rate:
        hours = self.recorded_s / _HOUR_S
        return Rate(count, count / hours, *rate_limits(count, hours))
