"""What is still suspect in a walk, and why."""

from collections.abc import Mapping

import numpy as np

from faulttree.core.expression_values import Values
from faulttree.core.suspects.density import Floats
from faulttree.core.suspects.evidence import Read
from faulttree.core.suspects.hypotheses import Pairs
from faulttree.core.suspects.inferred import Field, infer
from faulttree.core.suspects.likely import Likely
from faulttree.core.suspects.on_bench import SuspectBench
from faulttree.core.suspects.ranking import Ranked, Suspicion, Together
from faulttree.core.suspects.twos import Sizes, both_of, pairs_of, worth_pairing


class Suspects:
    """Suspects of one car; what a reading means is worked out once."""

    def __init__(self, bench: SuspectBench) -> None:
        self._bench = bench
        suspect = np.array([cell.suspect for cell in bench.cells], np.intp)
        self._field = Field(bench.suspects, suspect, bench.weights)
        self._likely = _Kept(bench)
        self._twos: _TwoAtOnce | None = None

    def after(self, reads: tuple[Read, ...], values: Values) -> Suspicion:
        """What is suspect after some readings.

        Args:
            reads: what was read and seen, in order.
            values: vehicle data and readings that a step's plausible window may use.
        """
        likely = [self._likely.of(read, values) for read in reads]
        shows = self._bench.shows
        return infer(self._field, shows, reads, likely, lambda: self._pairs(reads, values, likely))

    def _pairs(self, reads: tuple[Read, ...], values: Values, likely: list[Likely]) -> Pairs | None:
        """Two at once, among those that explain some reading; None where there are not two."""
        table = np.array([each.cells for each in likely]).T
        healthy = np.array([each.healthy for each in likely])
        chosen = worth_pairing(self._bench.cells, table, healthy)
        if self._twos is None or self._twos.chosen != chosen:
            self._twos = _TwoAtOnce(self._bench, chosen)
        return self._twos.pairs(reads, values)


class _Kept:
    """Likelihoods on one bench, each worked out once."""

    def __init__(self, bench: SuspectBench) -> None:
        self._bench = bench
        self._found: dict[int, tuple[Read, Likely]] = {}

    def of(self, read: Read, values: Values) -> Likely:
        """Those of a reading; an event whose reading is another one now is worked out anew."""
        found = self._found.get(read.seq)
        if found is None or found[0] != read:
            found = self._found[read.seq] = read, self._bench.likely(read, values)
        return found[1]


class _TwoAtOnce:
    """Pairs of some suspects on a bench of their own."""

    def __init__(self, bench: SuspectBench, chosen: Mapping[int, tuple[Sizes, ...]]) -> None:
        self.chosen, self._alone = chosen, bench
        pairs, cells, self._twos = both_of(bench.suspects, chosen)
        self._bench = bench.with_suspects(pairs, cells)
        self._likely = _Kept(self._bench)

    def pairs(self, reads: tuple[Read, ...], values: Values) -> Pairs | None:
        """The pairs as hypotheses; None where there are none."""
        if not self._twos:
            return None
        columns: list[Floats] = [self._likely.of(read, values).cells for read in reads]
        alone = self._alone
        table = np.array(columns).T
        return pairs_of(alone.suspects, alone.weights, self._twos, self._bench.shows, table)


__all__ = ["Ranked", "Suspects", "Suspicion", "Together"]
