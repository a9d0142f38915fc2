"""A plan: which test first, and which after each of its outcomes; and what it takes."""

import math
from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass

SAME = 1e-12
"""Minutes that differ by no more than this share are the same."""


@dataclass(frozen=True, slots=True)
class Range:
    """Minutes known to lie between two limits.

    Attributes:
        least: a proven lower bound.
        most: what the best plan found takes.
    """

    least: float
    most: float

    @property
    def is_proven(self) -> bool:
        """Whether the two are the same: no plan takes less."""
        return self.most - self.least <= 1e-9 * self.most

    @property
    def gap(self) -> float:
        """How far the plan may lie above the best there is, as a share of the bound."""
        if self.is_proven:
            return 0.0
        return self.most / self.least - 1 if self.least > 0 else math.inf


@dataclass(frozen=True, slots=True)
class End:
    """Where a plan ends.

    Attributes:
        suspects: what may still be wrong, and how much of it ends here: 1 unless other ways that
            it may take end elsewhere.
        mends: whether the search ended because the part swapped was it.
    """

    suspects: Mapping[str, float]
    mends: bool = False


@dataclass(frozen=True, slots=True)
class Asked:
    """A test of a plan.

    Attributes:
        test: its name.
        set_up: what to bring about first: set-up to state.
        minutes: of the set-up and the test [min].
        weight: share of all the weight that comes here.
        expected: mean minutes from here to the end, this test included [min].
        go: outcome to what follows.
    """

    test: str
    set_up: Mapping[str, str]
    minutes: float
    weight: float
    expected: float
    go: Mapping[str, "Plan"]


Plan = Asked | End


@dataclass(frozen=True, slots=True)
class Arrival:
    """One way a suspect comes to an end: how much of it goes that way, and the minutes."""

    suspect: str
    share: float
    minutes: float


@dataclass(frozen=True, slots=True)
class Spent:
    """What a plan or a tree takes.

    Attributes:
        expected: mean over all suspects by weight [min].
        worst: the longest way that a suspect can take [min].
        means: suspect to its mean over the ways it may take [min].
        worsts: suspect to its longest way [min].
    """

    expected: float
    worst: float
    means: Mapping[str, float]
    worsts: Mapping[str, float]

    @classmethod
    def of(cls, arrivals: Iterable[Arrival], weights: Mapping[str, float]) -> "Spent":
        """The figures of every way that suspects come to an end."""
        means, worsts = dict.fromkeys(weights, 0.0), dict.fromkeys(weights, 0.0)
        for each in arrivals:
            means[each.suspect] += each.share * each.minutes
            worsts[each.suspect] = max(worsts[each.suspect], each.minutes)
        whole = sum(weights.values())
        expected = sum(weights[name] * mean for name, mean in means.items()) / whole
        return cls(expected, max(worsts.values(), default=0.0), means, worsts)


def arrivals(plan: Plan) -> Iterator[Arrival]:
    """Every way that a suspect comes to an end of a plan."""
    waiting = [(plan, 0.0)]
    while waiting:
        at, spent = waiting.pop()
        if isinstance(at, End):
            for suspect, share in at.suspects.items():
                yield Arrival(suspect, share, spent)
        else:
            waiting += [(after, spent + at.minutes) for after in at.go.values()]
