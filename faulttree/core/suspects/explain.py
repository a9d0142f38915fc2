"""Which readings speak for and against a suspect, and by how much."""

from dataclasses import dataclass

import numpy as np

from faulttree.core.suspects.bayes import Evidence, Hypotheses, Pairs, posterior
from faulttree.core.suspects.density import Floats


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

    The odds of the suspect with all readings, over its odds as if the one had not been taken.
    """
    n_readings = len(evidence.healthy)
    whole = posterior(hypotheses, evidence, none_prior, pairs, n_suspects)
    with_all = _odds(whole.involved(pairs, hypotheses))
    found = np.ones((n_readings, n_suspects))
    for reading in range(n_readings):
        less = posterior(hypotheses, evidence.without(reading), none_prior, pairs, n_suspects)
        found[reading] = with_all / _odds(less.involved(pairs, hypotheses))
    return found


def speaks_of(times: Floats, suspect: int) -> tuple[Speaks, ...]:
    """What the readings do to one suspect, the strongest first; those that matter only."""
    every = [Speaks(reading, float(t)) for reading, t in enumerate(times[:, suspect])]
    return tuple(sorted((s for s in every if s.matters), key=lambda s: -abs(np.log(s.times))))


def _odds(share: Floats) -> Floats:
    bounded = np.clip(share, 1e-15, 1.0 - 1e-12)
    return np.asarray(bounded / (1.0 - bounded))
