"""Which readings speak for and against a suspect, and by how much."""

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np

from faulttree.core.suspects.bayes import log_prior
from faulttree.core.suspects.density import Floats
from faulttree.core.suspects.hypotheses import (
    Evidence,
    Hypotheses,
    Ints,
    Pairs,
    Sighting,
    Stretch,
)
from faulttree.core.suspects.modes import Columns, Modes

_LEAST = 1e-150
"""Weights below count as none; their ratio stays a number."""


@dataclass(frozen=True, slots=True)
class Speaks:
    """What one reading does to one suspect.

    Attributes:
        reading: index of the reading.
        times: how many times as likely it makes the suspect against all others: above 1 it speaks
            for it, below 1 against it (the Bayes factor, all other readings taken as they are).
    """

    reading: int
    times: float

    @property
    def matters(self) -> bool:
        """Whether it moves the odds by more than a fifth."""
        return not 1 / 1.2 < self.times < 1.2


def speaking(
    hypotheses: Hypotheses,
    evidence: Evidence,
    none_prior: float,
    n_suspects: int,
    pairs: Pairs | None = None,
) -> Floats:
    """What every reading does to every suspect, shape (n_readings, n_suspects); see Speaks.times.

    The odds of the suspect with all readings, over its odds as if the one had not been taken. That
    the complaint showed, or did not, stays known: it is no part of the reading.
    """
    stretch_of = {r: i for i, s in enumerate(evidence.stretches) for r in s.readings}
    readings = range(len(evidence.healthy))
    less = [evidence.stretches[stretch_of[r]].without(r) for r in readings]
    column = np.array([stretch_of[r] for r in readings], np.intp)
    return _times((hypotheses, pairs, none_prior, n_suspects), evidence, less, column)


def sightings_speaking(
    hypotheses: Hypotheses,
    evidence: Evidence,
    none_prior: float,
    n_suspects: int,
    pairs: Pairs | None = None,
) -> Floats:
    """What it does to every suspect that the complaint showed or stayed away in a stretch.

    Shape (n_stretches, n_suspects); as for `speaking`, with the stretch's readings taken as they
    are.
    """
    less = [Stretch(Sighting.UNKNOWN, stretch.readings) for stretch in evidence.stretches]
    column = np.arange(len(less))
    return _times((hypotheses, pairs, none_prior, n_suspects), evidence, less, column)


def speaks_of(
    times: Floats, suspect: int, reading: Sequence[int] | None = None
) -> tuple[Speaks, ...]:
    """What the readings do to one suspect, the strongest first; those that matter only.

    Args:
        times: of `speaking` or `sightings_speaking`.
        suspect: its index.
        reading: the reading that each row stands for; they count through by default.
    """
    rows = range(len(times)) if reading is None else reading
    every = [Speaks(r, float(t)) for r, t in zip(rows, times[:, suspect], strict=True)]
    return tuple(sorted((s for s in every if s.matters), key=lambda s: -abs(np.log(s.times))))


_Suspected = tuple[Hypotheses, Pairs | None, float, int]
"""Single suspects, pairs, weight of none of these, number of suspects."""


def _times(
    suspected: _Suspected, evidence: Evidence, less: Sequence[Stretch], column: Ints
) -> Floats:
    """Odds with everything over odds with one stretch in another form, for each of those forms.

    All forms are worked out at once: each changes one column of the whole.
    """
    hypotheses, pairs, none_prior, count = suspected
    if not less:
        return np.ones((0, count))
    whole, other = Columns(evidence, evidence.stretches), Columns(evidence, less)
    none = np.array([none_prior])
    parts = [
        (hypotheses.prior, whole.singles(hypotheses), other.singles(hypotheses)),
        (none, whole.none(), other.none()),
    ]
    if pairs is not None:
        both = whole.pairs(hypotheses, pairs), other.pairs(hypotheses, pairs)
        parts.append((pairs.prior, *both))
    logs = np.concatenate([_logs(*part, column) for part in parts])
    odds = _odds(_members(hypotheses, pairs, count), np.exp(logs - logs.max(axis=0)))
    return np.asarray((odds[:, :1] / odds[:, 1:]).T)


def _logs(prior: Floats, whole: Modes, other: Modes, column: Ints) -> Floats:
    """Log weights with everything, then with each of the other forms, shape (n, 1 + n_forms)."""
    logs = np.concatenate([whole.total()[:, None], whole.replaced(column, other)], axis=1)
    return np.asarray(log_prior(prior)[:, None] + logs)


def _members(hypotheses: Hypotheses, pairs: Pairs | None, count: int) -> list[Ints]:
    """For each suspect the rows that it is in: of singles, none of these, and pairs."""
    single = np.append(hypotheses.suspect, -1)
    if pairs is None:
        return [np.flatnonzero(single == suspect) for suspect in range(count)]
    one, two = hypotheses.suspect[pairs.first], hypotheses.suspect[pairs.second]
    first, second = np.concatenate([single, one]), np.concatenate([single, two])
    return [np.flatnonzero((first == each) | (second == each)) for each in range(count)]


def _odds(members: list[Ints], weights: Floats) -> Floats:
    """Odds of every suspect, shape (n_suspects, n_columns).

    For one that holds more than half, what is against it is added up by itself: nothing cancels.
    """
    with_it = np.array([weights[rows].sum(axis=0) for rows in members])
    without = weights.sum(axis=0) - with_it
    for suspect in np.flatnonzero((with_it > without).any(axis=1)):
        without[suspect] = np.delete(weights, members[suspect], axis=0).sum(axis=0)
    return np.asarray(np.maximum(with_it, _LEAST) / np.maximum(without, _LEAST))
