"""Probabilities of suspects from what was read, exactly.

One suspect is there, or two, or none of these. A permanent one is there at every reading. One that
comes and goes is there with a chance of its own in each stretch of readings that were taken
together: all of a stretch see it, or none does. A stretch tells whether the complaint showed.

Sources: exact inference by enumeration; intermittency as a parameter of a component, de Kleer,
Diagnosing multiple persistent and intermittent faults, IJCAI 2009 (read as abstract).
"""

from dataclasses import dataclass

import numpy as np

from faulttree.core.suspects.density import Floats
from faulttree.core.suspects.hypotheses import Evidence, Hypotheses, Ints, Pairs, Sighting, Stretch
from faulttree.core.suspects.modes import Columns

_LEAST = 1e-300


@dataclass(frozen=True, slots=True, eq=False)
class Posterior:
    """Probabilities; all of them add up to 1.

    Attributes:
        single: that a suspect alone is the fault, shape (n_suspects,).
        forms: the same for each hypothesis, shape (n,).
        pairs: for each pair, shape (n_pairs,).
        none: that it is none of these.
        log_evidence: logarithm of the probability of all that was read; constants left out.
    """

    single: Floats
    forms: Floats
    pairs: Floats
    none: float
    log_evidence: float

    def involved(self, pairs: Pairs | None, hypotheses: Hypotheses) -> Floats:
        """That a suspect is there, alone or as one of two, shape (n_suspects,)."""
        found, count = self.single, len(self.single)
        for side in () if pairs is None else (pairs.first, pairs.second):
            found = found + _by_suspect(hypotheses.suspect[side], self.pairs, count)
        return found


def posterior(
    hypotheses: Hypotheses,
    evidence: Evidence,
    none_prior: float,
    pairs: Pairs | None = None,
    n_suspects: int | None = None,
) -> Posterior:
    """The probability of every suspect after all readings.

    Args:
        hypotheses: single suspects.
        evidence: what was read.
        none_prior: weight of “none of these”, on the scale of the priors.
        pairs: two at once, where they are to be thought of.
        n_suspects: how many suspects there are; as many as the hypotheses name by default.
    """
    columns = Columns(evidence, evidence.stretches)
    singles = log_prior(hypotheses.prior) + columns.singles(hypotheses).total()
    both = np.zeros(0)
    if pairs is not None:
        both = log_prior(pairs.prior) + columns.pairs(hypotheses, pairs).total()
    none = log_prior(np.array([none_prior])) + columns.none().total()
    every = np.concatenate([singles, both, none])
    top = every.max()
    weights = np.exp(every - top)
    total = weights.sum()
    shares, n = weights / total, len(singles)
    single = _by_suspect(hypotheses.suspect, shares[:n], n_suspects or hypotheses.n_suspects)
    log_evidence = float(top + np.log(total))
    return Posterior(single, shares[:n], shares[n:-1], float(shares[-1]), log_evidence)


def log_prior(weight: Floats) -> Floats:
    """Logarithms of weights; what has none is as good as impossible."""
    return np.asarray(np.log(np.maximum(weight, _LEAST)))


def _by_suspect(suspect: Ints, shares: Floats, count: int) -> Floats:
    return np.asarray(np.bincount(suspect, shares, count), np.float64)


__all__ = [
    "Evidence",
    "Hypotheses",
    "Pairs",
    "Posterior",
    "Sighting",
    "Stretch",
    "log_prior",
    "posterior",
]
