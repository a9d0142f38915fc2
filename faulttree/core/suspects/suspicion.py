"""What is still suspect in a walk, and why."""

from collections.abc import Mapping
from dataclasses import dataclass

import numpy as np

from faulttree.core.bench.fitted import Fitted
from faulttree.core.bench.suspects import Suspect
from faulttree.core.suspects.bayes import Evidence, Hypotheses, Pairs, Posterior, posterior
from faulttree.core.suspects.density import Floats
from faulttree.core.suspects.evidence import Read, stretches_of
from faulttree.core.suspects.explain import Speaks, speaking, speaks_of
from faulttree.core.suspects.on_bench import Likely, SuspectBench
from faulttree.core.suspects.twos import both_of, named, pairs_of, worth_pairing
from faulttree.core.uncertain import Uncertain

NONE_SHARE = 0.02
"""How likely it is beforehand that the fault is none that the model knows. Common practice, no
source."""
PERMANENT_SHARE = 0.5
"""Of a fault that comes and goes by nature: how likely it is there for good by now."""
PAIRS_FROM = 0.1
"""Pairs are thought of once “none of these” has become so likely."""
Values = Mapping[str, Uncertain]


@dataclass(frozen=True, slots=True)
class Ranked:
    """One suspect.

    Attributes:
        suspect: which.
        share: probability that it is there, alone or as one of two.
        before: the same before the last reading.
        prior: the same before any reading.
        speaks: readings that speak for or against it, the strongest first.
    """

    suspect: Suspect
    share: float
    before: float
    prior: float
    speaks: tuple[Speaks, ...]


@dataclass(frozen=True, slots=True)
class Together:
    """Two suspects that may be there at once.

    Attributes:
        one, other: which.
        share: probability that both are there.
        before: the same before the last reading.
    """

    one: Suspect
    other: Suspect
    share: float
    before: float


@dataclass(frozen=True, slots=True)
class Suspicion:
    """What is still suspect.

    Attributes:
        reads: the readings it rests on; `Speaks.reading` counts among them.
        ranked: all suspects, the likeliest first.
        none, none_before: that it is none of these, and that before the last reading.
        together: pairs, the likeliest first; none where single faults explain the readings.
    """

    reads: tuple[Read, ...]
    ranked: tuple[Ranked, ...]
    none: float
    none_before: float
    together: tuple[Together, ...] = ()


class Suspects:
    """Suspects of one car; what a reading means is worked out once."""

    def __init__(self, bench: SuspectBench) -> None:
        self._bench = bench
        self._likely: dict[tuple[int, Fitted], Likely] = {}
        self._pairs: tuple[tuple[int, ...], Pairs, tuple[int, ...]] | None = None

    def after(self, reads: tuple[Read, ...], values: Values) -> Suspicion:
        """What is suspect after some readings.

        Args:
            reads: what was read and seen, in order.
            values: vehicle data and readings that a step's plausible window may use.
        """
        likely = [self._of(read, values) for read in reads]
        hypotheses, evidence = self._hypotheses(likely), _evidence(reads, likely)
        weight = self._none_weight()
        n = len(self._bench.suspects)
        alone = posterior(hypotheses, evidence, weight, None, n)
        pairs = None
        if alone.none >= PAIRS_FROM and reads:
            pairs = self._two_at_once(reads, values, likely)
        now = alone if pairs is None else posterior(hypotheses, evidence, weight, pairs, n)
        before = self._before(hypotheses, evidence, pairs)
        times = speaking(hypotheses, evidence, weight, n, pairs)
        return self._told(reads, hypotheses, pairs, (now, before), times)

    def _of(self, read: Read, values: Values) -> Likely:
        key = read.seq, read.fitted
        if key not in self._likely:
            self._likely[key] = self._bench.likely(read, values)
        return self._likely[key]

    def _hypotheses(self, likely: list[Likely]) -> Hypotheses:
        """Each cell for good, and those of faults that come and go a second time as such."""
        cells, suspects = self._bench.cells, self._bench.suspects
        count = np.bincount([c.suspect for c in cells], minlength=len(suspects))
        rows, prior, chance = [], [], []
        for index, cell in enumerate(cells):
            suspect = suspects[cell.suspect]
            share = suspect.weight / count[cell.suspect]
            rows.append(index)
            prior.append(share * (PERMANENT_SHARE if suspect.comes else 1.0))
            chance.append(1.0)
            if suspect.comes:
                rows.append(index)
                prior.append(share * (1.0 - PERMANENT_SHARE))
                chance.append(suspect.comes.chance)
        picked = np.array(rows, np.intp)
        table = np.array([each.cells for each in likely]).reshape(len(likely), len(cells)).T
        return Hypotheses(
            np.array([cells[i].suspect for i in rows], np.intp),
            np.array(prior),
            np.array(chance),
            self._bench.shows[picked],
            table[picked],
        )

    def _hypothesis_of(self) -> dict[int, int]:
        """Cell to the hypothesis of it that comes and goes, where it does; else to the other."""
        found: dict[int, int] = {}
        place = 0
        for index, cell in enumerate(self._bench.cells):
            comes = self._bench.suspects[cell.suspect].comes is not None
            found[index] = place + comes
            place += 1 + comes
        return found

    def _two_at_once(
        self, reads: tuple[Read, ...], values: Values, likely: list[Likely]
    ) -> Pairs | None:
        table = np.array([each.cells for each in likely]).T
        healthy = np.array([each.healthy for each in likely])
        chosen = worth_pairing(self._bench.cells, table, healthy)
        if len(chosen) < 2:
            return None
        seqs = tuple(read.seq for read in reads)
        if self._pairs is not None and self._pairs[0] == chosen and self._pairs[2] == seqs:
            return self._pairs[1]
        suspects = self._bench.suspects
        both, twos = both_of(suspects, self._bench.cells, chosen)
        bench = self._bench.with_suspects(both)
        columns = [bench.likely(read, values).cells for read in reads]
        pairs = pairs_of(suspects, twos, self._hypothesis_of(), bench.shows, np.array(columns).T)
        self._pairs = chosen, pairs, seqs
        return pairs

    def _none_weight(self) -> float:
        return NONE_SHARE * sum(s.weight for s in self._bench.suspects)

    def _before(self, hypotheses: Hypotheses, evidence: Evidence, pairs: Pairs | None) -> Posterior:
        """As it was before the last reading."""
        n = len(self._bench.suspects)
        last = len(evidence.healthy) - 1
        known = evidence if last < 0 else evidence.without(last)
        return posterior(hypotheses, known, self._none_weight(), pairs, n)

    def _told(
        self,
        reads: tuple[Read, ...],
        hypotheses: Hypotheses,
        pairs: Pairs | None,
        shares: tuple[Posterior, Posterior],
        times: Floats,
    ) -> Suspicion:
        suspects = self._bench.suspects
        now, before = (each.involved(pairs, hypotheses) for each in shares)
        whole = sum(s.weight for s in suspects) * (1.0 + NONE_SHARE)
        ranked = [
            Ranked(s, float(now[i]), float(before[i]), s.weight / whole, speaks_of(times, i))
            for i, s in enumerate(suspects)
        ]
        ranked.sort(key=lambda r: (-r.share, r.suspect.id))
        twos = [] if pairs is None else self._pairs_told(pairs, hypotheses, shares)
        return Suspicion(reads, tuple(ranked), shares[0].none, shares[1].none, tuple(twos))

    def _pairs_told(
        self, pairs: Pairs, hypotheses: Hypotheses, shares: tuple[Posterior, Posterior]
    ) -> list[Together]:
        suspects = self._bench.suspects
        now, before = (named(pairs, hypotheses, each.pairs) for each in shares)
        found = (
            Together(suspects[a], suspects[b], share, before[a, b]) for (a, b), share in now.items()
        )
        return sorted(found, key=lambda t: (-t.share, t.one.id, t.other.id))


def _evidence(reads: tuple[Read, ...], likely: list[Likely]) -> Evidence:
    return Evidence(
        stretches_of(reads),
        np.array([each.healthy for each in likely]),
        np.array([each.anything for each in likely]),
    )
