"""Marks set while a trace was logged, and whether dropouts follow them more than chance would.

Dropouts that chatter are one episode: a burst of five would count five times, and a test that
takes its dropouts for independent finds causes where there are none. If a mark has nothing to do
with the episodes, each of them begins within its windows with the chance that the windows' share
of the recorded time is. So many of n or more within is a binomial tail. Where several kinds of
marks are tried, the smallest of their chances is small by trying: Holm's correction undoes that.

Source: Clopper and Pearson, Biometrika 26 (1934) 404, for the binomial tail as a beta share; Holm,
A simple sequentially rejective multiple test procedure, Scandinavian Journal of Statistics 6 (1979)
65.
"""

from collections.abc import Sequence
from dataclasses import dataclass, replace

import numpy as np

from faulttree.core.proving.special import beta_share
from faulttree.core.trace.arrays import Bools, Floats
from faulttree.core.trace.runs import BEGIN_UNSEEN, Runs
from faulttree.core.trace.sampler import Stretches


@dataclass(frozen=True, slots=True)
class Mark:
    """Something done at a time [s, from the first row of the trace]."""

    at_s: float
    label: str


@dataclass(frozen=True, slots=True, eq=False)
class Episodes:
    """Dropouts with short pauses between them, taken together.

    Attributes:
        begins: when the first dropout of each begins [s].
        is_seen: whether its beginning was seen.
    """

    begins: Floats
    is_seen: Bools

    def __len__(self) -> int:
        return len(self.begins)


@dataclass(frozen=True, slots=True)
class Follows:
    """How episodes follow marks of one kind.

    Attributes:
        label: the kind.
        marks: how many there are on the trace.
        outside: how many lie outside it.
        share: share of the recorded time that lies within their windows.
        hits: episodes that begin within.
        episodes: episodes whose beginning was seen.
        chance: of so many hits or more if the marks had nothing to do with it.
        corrected: the same, for all kinds tried.
    """

    label: str
    marks: int
    outside: int
    share: float
    hits: int
    episodes: int
    chance: float
    corrected: float

    @property
    def least_chance(self) -> float:
        """The chance if every episode were a hit: what can be shown at best."""
        return self.share**self.episodes


def episodes_of(dropouts: Runs, apart_s: float) -> Episodes:
    """The episodes of some dropouts; those with a pause of less than `apart_s` [s] are one."""
    if not len(dropouts):
        return Episodes(np.empty(0), np.zeros(0, bool))
    pauses = dropouts.begins[1:] - dropouts.ends[:-1]
    first = np.flatnonzero(np.concatenate(([True], pauses >= apart_s)))
    is_seen = (dropouts.unseen[first] & BEGIN_UNSEEN) == 0
    return Episodes(dropouts.begins[first], is_seen)


def follow(
    episodes: Episodes, marks: Sequence[Mark], window_s: float, stretches: Stretches
) -> tuple[Follows, ...]:
    """How episodes follow each kind of mark, in the order the kinds first come in.

    Args:
        episodes: what may follow.
        marks: of all kinds.
        window_s: how long after a mark something may count as following it [s].
        stretches: what was recorded.
    """
    kinds = dict.fromkeys(mark.label for mark in marks)
    begins = episodes.begins[episodes.is_seen]
    found = [
        _follow(begins, kind, [m.at_s for m in marks if m.label == kind], window_s, stretches)
        for kind in kinds
    ]
    corrected = holm([each.chance for each in found])
    return tuple(replace(f, corrected=c) for f, c in zip(found, corrected, strict=True))


def _follow(
    begins: Floats, label: str, marks: Sequence[float], window_s: float, stretches: Stretches
) -> Follows:
    end = float(stretches.lasts[-1]) + stretches.sampling.step_s
    within = np.array(sorted(at for at in marks if 0 <= at <= end))
    froms, untils = _windows(within, window_s)
    recorded = stretches.recorded_before(untils) - stretches.recorded_before(froms)
    share = min(1.0, float(recorded.sum()) / stretches.recorded_s)
    hits = int(np.count_nonzero(_are_within(begins, froms, untils)))
    chance = chance_of_so_many(hits, len(begins), share)
    outside = len(marks) - len(within)
    return Follows(label, len(within), outside, share, hits, len(begins), chance, chance)


def _windows(marks: Floats, window_s: float) -> tuple[Floats, Floats]:
    """Windows behind marks, those that overlap as one."""
    is_new = np.diff(marks, prepend=-np.inf) > window_s
    is_last = np.concatenate((is_new[1:], [True]))[: len(marks)]
    return marks[is_new], marks[is_last] + window_s


def _are_within(times: Floats, froms: Floats, untils: Floats) -> Bools:
    """Which times lie in a window; its begin belongs to it, its end does not."""
    index = np.searchsorted(froms, times, "right") - 1
    if not len(froms):
        return np.zeros(len(times), bool)
    found: Bools = (index >= 0) & (times < untils[index])
    return found


def chance_of_so_many(hits: int, tries: int, share: float) -> float:
    """Chance of `hits` or more in `tries` that each hit with the chance `share`.

    Source: regularised incomplete beta function I_share(hits, tries - hits + 1); NIST Digital
    Library of Mathematical Functions, 8.17.5.
    """
    return 1.0 if hits == 0 else beta_share(share, hits, tries - hits + 1)


def holm(chances: Sequence[float]) -> list[float]:
    """Chances corrected for their number, each at its place.

    The smallest of m is multiplied by m, the next by m - 1, and so on; none is below one before it,
    and none above 1.
    """
    corrected = [0.0] * len(chances)
    highest = 0.0
    for rank, index in enumerate(sorted(range(len(chances)), key=lambda i: chances[i])):
        highest = max(highest, min(1.0, chances[index] * (len(chances) - rank)))
        corrected[index] = highest
    return corrected
