"""Probabilities of suspects from what was read, exactly.

One suspect is there, or two, or none of these. A permanent one is there at every reading. One that
comes and goes is there with a chance of its own in each stretch of readings that were taken
together: all of a stretch see it, or none does. A stretch tells whether the complaint showed.

Sources: exact inference by enumeration; intermittency as a parameter of a component, de Kleer,
Diagnosing multiple persistent and intermittent faults, IJCAI 2009 (read as abstract).
"""

from collections.abc import Sequence
from dataclasses import dataclass
from enum import StrEnum

import numpy as np
from numpy.typing import NDArray

from faulttree.core.suspects.density import Floats

Ints = NDArray[np.intp]

FALSE_SIGHT = 1e-3
"""Chance that the complaint is said to show on a car without an active fault; no source."""


class Sighting(StrEnum):
    """What is known of the complaint while readings were taken."""

    PRESENT = "present"
    ABSENT = "absent"
    UNKNOWN = "unknown"


@dataclass(frozen=True, slots=True)
class Stretch:
    """Readings taken together.

    Attributes:
        sighting: whether the complaint showed.
        readings: indexes of the readings; none for a sighting by itself.
    """

    sighting: Sighting
    readings: tuple[int, ...] = ()


@dataclass(frozen=True, slots=True, eq=False)
class Hypotheses:
    """Single suspects, each in one form.

    Attributes:
        suspect: index of the suspect, shape (n,).
        prior: weight, shape (n,); not normalised.
        chance: chance to be there in a stretch, shape (n,); 1 for a permanent one.
        shows: chance that the complaint shows while it is there, shape (n,).
        likelihood: of each reading while it is there, shape (n, n_readings).
    """

    suspect: Ints
    prior: Floats
    chance: Floats
    shows: Floats
    likelihood: Floats


@dataclass(frozen=True, slots=True, eq=False)
class Pairs:
    """Two suspects at once.

    Attributes:
        first, second: indexes of their hypotheses, shape (n_pairs,).
        prior: weight, shape (n_pairs,).
        shows: chance that the complaint shows while both are there, shape (n_pairs,).
        likelihood: of each reading while both are there, shape (n_pairs, n_readings).
    """

    first: Ints
    second: Ints
    prior: Floats
    shows: Floats
    likelihood: Floats


@dataclass(frozen=True, slots=True, eq=False)
class Evidence:
    """What was read, and what it means without any fault.

    Attributes:
        stretches: the readings, as they were taken together.
        healthy: likelihood of each reading on a healthy car, shape (n_readings,).
        anything: likelihood of each reading if it may be anything, shape (n_readings,).
    """

    stretches: tuple[Stretch, ...]
    healthy: Floats
    anything: Floats

    def without(self, reading: int) -> "Evidence":
        """The same as if one reading had not been taken."""
        kept = tuple(
            Stretch(s.sighting, tuple(r for r in s.readings if r != reading))
            for s in self.stretches
        )
        return Evidence(kept, self.healthy, self.anything)


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

    def involved(self, pairs: "Pairs | None", hypotheses: Hypotheses) -> Floats:
        """That a suspect is there, alone or as one of two, shape (n_suspects,)."""
        found = self.single.copy()
        if pairs is not None:
            for side in (pairs.first, pairs.second):
                np.add.at(found, hypotheses.suspect[side], self.pairs)
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
    singles = np.log(_positive(hypotheses.prior)) + _of_singles(hypotheses, evidence)
    both = np.zeros(0)
    if pairs is not None:
        both = np.log(_positive(pairs.prior)) + _of_pairs(hypotheses, pairs, evidence)
    none = np.log(max(none_prior, 1e-300)) + _of_none(evidence)
    every = np.concatenate([singles, both, [none]])
    top = every.max()
    weights = np.exp(every - top)
    total = weights.sum()
    shares = weights / total
    n = len(singles)
    found = np.zeros(n_suspects or (int(hypotheses.suspect.max()) + 1 if n else 0))
    np.add.at(found, hypotheses.suspect, shares[:n])
    log_evidence = float(top + np.log(total))
    return Posterior(found, shares[:n], shares[n:-1], float(shares[-1]), log_evidence)


def _positive(values: Floats) -> Floats:
    return np.maximum(values, 1e-300)


def _sums(likelihood: Floats, readings: Sequence[int]) -> Floats:
    """Logarithm of the product over some readings, shape (n,)."""
    if not readings:
        return np.zeros(likelihood.shape[0])
    return np.asarray(np.log(_positive(likelihood[:, list(readings)])).sum(axis=1))


def _seen(sighting: Sighting, shows: Floats | float) -> Floats | float:
    """Chance of a sighting, given the chance that the complaint shows."""
    if sighting is Sighting.UNKNOWN:
        return np.ones_like(shows)
    chance = np.clip(shows, FALSE_SIGHT, 1.0 - FALSE_SIGHT)
    return chance if sighting is Sighting.PRESENT else 1.0 - chance


def _of_singles(hypotheses: Hypotheses, evidence: Evidence) -> Floats:
    """Log likelihood of everything under each single hypothesis."""
    total = np.zeros(len(hypotheses.prior))
    for stretch in evidence.stretches:
        there = np.log(_seen(stretch.sighting, hypotheses.shows))
        there = there + _sums(hypotheses.likelihood, stretch.readings)
        away = _away(evidence, stretch)
        total += _either(hypotheses.chance, there, away)
    return total


def _away(evidence: Evidence, stretch: Stretch) -> float:
    """Log likelihood of a stretch on a car whose fault is away."""
    read = float(_sums(evidence.healthy[None, :], stretch.readings)[0])
    return float(np.log(_seen(stretch.sighting, FALSE_SIGHT))) + read


def _either(chance: Floats, there: Floats, away: float | Floats) -> Floats:
    """Log of chance x there + (1 - chance) x away."""
    with np.errstate(divide="ignore"):
        first, second = np.log(chance) + there, np.log1p(-chance) + away
    return np.logaddexp(first, second)


def _of_pairs(hypotheses: Hypotheses, pairs: Pairs, evidence: Evidence) -> Floats:
    """Log likelihood of everything under each pair; each of the two may be away by itself."""
    one, two = pairs.first, pairs.second
    total = np.zeros(len(pairs.prior))
    for stretch in evidence.stretches:
        alone = np.log(_seen(stretch.sighting, hypotheses.shows))
        alone = alone + _sums(hypotheses.likelihood, stretch.readings)
        both = np.log(_seen(stretch.sighting, pairs.shows))
        both = both + _sums(pairs.likelihood, stretch.readings)
        away = _away(evidence, stretch)
        with_first = _either(hypotheses.chance[two], both, alone[one])
        without_first = _either(hypotheses.chance[two], alone[two], away)
        total += _either(hypotheses.chance[one], with_first, without_first)
    return total


def _of_none(evidence: Evidence) -> float:
    """Log likelihood of everything if it is something that nobody thought of.

    It may read anything, and shows the complaint or not as it likes.
    """
    total = 0.0
    for stretch in evidence.stretches:
        if stretch.sighting is not Sighting.UNKNOWN:
            total += float(np.log(0.5))
        total += float(_sums(evidence.anything[None, :], stretch.readings)[0])
    return total
