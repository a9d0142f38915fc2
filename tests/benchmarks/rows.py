"""What is measured against what: samples taken in turn, and the row of the table they make."""

from collections.abc import Callable, Sequence
from dataclasses import dataclass
from statistics import median


@dataclass(frozen=True, slots=True)
class Row:
    """One limit.

    Attributes:
        what: what is measured.
        against: the baseline; empty where the goal is a plain number.
        measured: the ratio to the baseline, or the plain number.
        goal: what `measured` must not pass, or must reach where `more_is_better`.
        unit: x for a ratio.
        detail: the two figures behind a ratio.
    """

    what: str
    against: str
    measured: float
    goal: float
    unit: str = "x"
    detail: str = ""
    more_is_better: bool = False

    @property
    def is_met(self) -> bool:
        """True when the goal is reached."""
        if self.more_is_better:
            return self.measured >= self.goal
        return self.measured <= self.goal


Sample = Callable[[], float]


def in_turn(rounds: int, *samples: Sample) -> tuple[float, ...]:
    """The median of each of several measurements, taken in turn so that other load hits all alike.

    One round more is run first and not counted: it compiles modules and fills the disk's cache.
    """
    taken = [[sample() for sample in samples] for _ in range(rounds + 1)][1:]
    return tuple(median(column) for column in zip(*taken, strict=True))


def ratio(what: str, against: str, subject_s: float, baseline_s: float, goal: float) -> Row:
    """A row for a time that may be at most so many times that of a baseline."""
    detail = f"{subject_s * 1000:.1f} ms / {baseline_s * 1000:.1f} ms"
    return Row(what, against, subject_s / baseline_s, goal, detail=detail)


def percentile(samples: Sequence[float], percent: float) -> float:
    """The sample that so many percent of all are not above."""
    ordered = sorted(samples)
    return ordered[min(len(ordered) - 1, int(len(ordered) * percent / 100))]
