"""From likelihoods of readings to what is suspect, wherever the likelihoods come from."""

from collections.abc import Callable, Sequence
from dataclasses import dataclass

import numpy as np

from faulttree.core.bench.suspects import Suspect
from faulttree.core.suspects.bayes import Posterior, posterior
from faulttree.core.suspects.density import Floats
from faulttree.core.suspects.evidence import Read, stretches_of
from faulttree.core.suspects.explain import sightings_speaking, speaking, speaks_of
from faulttree.core.suspects.hypotheses import Evidence, Hypotheses, Ints, Pairs
from faulttree.core.suspects.likely import Likely
from faulttree.core.suspects.ranking import Ranked, Suspicion, Together
from faulttree.core.suspects.twos import named

NONE_SHARE = 0.02
"""How likely it is beforehand that it is none of the faults that the model knows, or nothing at
all, beside one of them. Common practice, no source."""
PERMANENT_SHARE = 0.5
"""Of a fault that comes and goes by nature: how likely it is there for good by now."""
PAIRS_FROM = 0.1
"""Pairs are thought of once “none of these”, or that a reading is a slip, has become so likely."""


@dataclass(frozen=True, slots=True, eq=False)
class Field:
    """All that may be suspect, before any reading.

    Attributes:
        suspects: each once.
        suspect: index of the suspect that each form is of, shape (n,).
        weights: of the forms, shape (n,).
    """

    suspects: tuple[Suspect, ...]
    suspect: Ints
    weights: Floats

    @property
    def none_weight(self) -> float:
        """Weight of “none of these”."""
        return NONE_SHARE * sum(s.weight for s in self.suspects)

    def hypotheses(self, shows: Floats, likely: Sequence[Likely]) -> Hypotheses:
        """The forms with what was read; a fault that comes and goes may be there for good."""
        comes = [suspect.comes for suspect in self.suspects]
        good = np.array([PERMANENT_SHARE if c else 1.0 for c in comes])
        chance = np.array([c.chance if c else 1.0 for c in comes])
        table = np.array([each.cells for each in likely]).reshape(len(likely), len(self.suspect)).T
        at = self.suspect
        return Hypotheses(at, self.weights, good[at], chance[at], shows, table)


def infer(
    field: Field,
    shows: Floats,
    reads: tuple[Read, ...],
    likely: Sequence[Likely],
    pairs_for: Callable[[], Pairs | None],
) -> Suspicion:
    """What is suspect after some readings.

    Args:
        field: what may be suspect.
        shows: chance that the complaint shows while a form is there, shape (n,).
        reads: what was read and seen, in order.
        likely: the same as likelihoods.
        pairs_for: gives the pairs where they have to be thought of.
    """
    hypotheses, evidence = field.hypotheses(shows, likely), _evidence(reads, likely)
    weight, count = field.none_weight, len(field.suspects)
    now, pairs = posterior(hypotheses, evidence, weight, None, count), None
    if _is_surprised(hypotheses, evidence, now, np.array([each.slip for each in likely])):
        pairs = pairs_for()
    if pairs is not None:
        now = posterior(hypotheses, evidence, weight, pairs, count)
    before = now
    if reads:
        fewer = None if pairs is None else pairs.up_to(len(reads) - 1)
        known = field.hypotheses(shows, likely[:-1])
        before = posterior(known, evidence.before_the_last(), weight, fewer, count)
    suspected = hypotheses, evidence, weight, count, pairs
    times = speaking(*suspected), sightings_speaking(*suspected)
    return _told(field, reads, (hypotheses, evidence, pairs), (now, before), times)


def _is_surprised(
    hypotheses: Hypotheses, evidence: Evidence, now: Posterior, slips: Floats
) -> bool:
    """Whether no single suspect explains the readings: none of these, or a reading is a slip."""
    if not len(slips):
        return False
    away = np.where(hypotheses.for_good < 1.0, 1.0, 0.0)[:, None] * evidence.healthy
    slipped = slips / np.maximum(hypotheses.likelihood, np.maximum(away, slips))
    return now.none + float((now.forms @ slipped).max()) >= PAIRS_FROM


def _evidence(reads: tuple[Read, ...], likely: Sequence[Likely]) -> Evidence:
    return Evidence(
        stretches_of(reads),
        np.array([each.healthy for each in likely]),
        np.array([each.anything for each in likely]),
    )


def _told(
    field: Field,
    reads: tuple[Read, ...],
    known: tuple[Hypotheses, Evidence, Pairs | None],
    shares: tuple[Posterior, Posterior],
    times: tuple[Floats, Floats],
) -> Suspicion:
    hypotheses, evidence, pairs = known
    now, before = (each.involved(pairs, hypotheses) for each in shares)
    firsts = [stretch.readings[0] for stretch in evidence.stretches]
    whole = sum(s.weight for s in field.suspects) + field.none_weight
    ranked = [
        Ranked(
            suspect,
            float(now[i]),
            float(before[i]),
            suspect.weight / whole,
            speaks_of(times[0], i),
            speaks_of(times[1], i, firsts),
        )
        for i, suspect in enumerate(field.suspects)
    ]
    ranked.sort(key=lambda r: (-r.share, r.suspect.id))
    together = () if pairs is None else _together(field, hypotheses, pairs, shares)
    return Suspicion(reads, tuple(ranked), shares[0].none, shares[1].none, together)


def _together(
    field: Field, hypotheses: Hypotheses, pairs: Pairs, shares: tuple[Posterior, Posterior]
) -> tuple[Together, ...]:
    now, before = (named(pairs, hypotheses, each.pairs) for each in shares)
    twos = (
        Together(field.suspects[a], field.suspects[b], share, before[a, b])
        for (a, b), share in now.items()
    )
    return tuple(sorted(twos, key=lambda t: (-t.share, t.one.id, t.other.id)))
