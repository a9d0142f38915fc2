"""How likely what was read is, in every way in which a hypothesis may have been there.

A hypothesis has modes: there for good, or coming and going; for two suspects each combination. In
a mode the stretches are independent, so a mode is one logarithm for each stretch, and a stretch
with a reading less changes one of them. A *column* is a stretch, or such a variant of one.
"""

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np

from faulttree.core.suspects.density import Floats
from faulttree.core.suspects.hypotheses import Evidence, Hypotheses, Ints, Pairs, Sighting, Stretch

FALSE_SIGHT = 0.02
"""Chance that the complaint is said to show while no fault is there, or not to show where it surely
does: nobody noticed that it went. Common practice, no source."""
ODD_SHARES = (0.0, 0.1, 0.3, 0.6, 1.0)
"""How many of the readings a fault that nobody thought of may change: one mode each, all as likely.
None of them: what is wrong lies outside of all that is read, or nothing is wrong."""
_LEAST = 1e-300


@dataclass(frozen=True, slots=True, eq=False)
class Modes:
    """Log likelihoods of columns.

    Attributes:
        weights: log of the share of each mode, shape (n_modes, n).
        terms: of each column in each mode, shape (n_modes, n, n_columns).
    """

    weights: Floats
    terms: Floats

    def total(self) -> Floats:
        """Log likelihood of all columns together, shape (n,)."""
        return log_of_sum(self.weights + self.terms.sum(axis=2))

    def replaced(self, column: Ints, by: "Modes") -> Floats:
        """Log likelihood with one column after the other in another variant, shape (n, n_variants).

        Args:
            column: the column that each variant stands for, shape (n_variants,).
            by: the variants.
        """
        whole = self.weights + self.terms.sum(axis=2)
        return log_of_sum(whole[:, :, None] - self.terms[:, :, column] + by.terms)


class Columns:
    """Some stretches of the same readings."""

    def __init__(self, evidence: Evidence, stretches: Sequence[Stretch]) -> None:
        self._stretches = tuple(stretches)
        self._evidence = evidence

    def singles(self, hypotheses: Hypotheses) -> Modes:
        """Each hypothesis: for good, and coming and going."""
        there = self._there(hypotheses.likelihood, hypotheses.shows)
        top, (is_there, is_away) = _scaled(there, self._away())
        p = hypotheses.chance[:, None]
        comes = _log_at(p * is_there + (1.0 - p) * is_away, top)
        good = hypotheses.for_good
        return Modes(_log(np.array([good, 1.0 - good])), np.array([there, comes]))

    def pairs(self, hypotheses: Hypotheses, pairs: Pairs) -> Modes:
        """Each pair: both for good, one of them, none."""
        alone = self._there(hypotheses.likelihood, hypotheses.shows)
        both = self._there(pairs.likelihood, pairs.shows)
        top, (is_alone, is_both, is_away) = _scaled(alone, both, self._away())
        one, two = is_alone[pairs.first], is_alone[pairs.second]
        p, q = (hypotheses.chance[side][:, None] for side in (pairs.first, pairs.second))
        with_one = q * is_both + (1.0 - q) * one
        with_two = p * is_both + (1.0 - p) * two
        neither = q * two + (1.0 - q) * is_away
        terms = [with_one, with_two, p * with_one + (1.0 - p) * neither]
        a, b = hypotheses.for_good[pairs.first], hypotheses.for_good[pairs.second]
        shares = np.array([a * b, a * (1.0 - b), (1.0 - a) * b, (1.0 - a) * (1.0 - b)])
        return Modes(_log(shares), np.array([both, *(_log_at(t, top) for t in terms)]))

    def none(self) -> Modes:
        """A fault that nobody thought of: it shows the complaint or not as it likes."""
        healthy, anything = self._evidence.healthy, self._evidence.anything
        odd = np.array(ODD_SHARES)[:, None]
        read = self._read((1.0 - odd) * healthy + odd * anything)
        known = [s.sighting is not Sighting.UNKNOWN for s in self._stretches]
        seen = np.where(np.array(known, bool), np.log(0.5), 0.0)
        weights = np.full((len(ODD_SHARES), 1), -np.log(len(ODD_SHARES)))
        return Modes(weights, (read + seen)[:, None, :])

    def _there(self, likelihood: Floats, shows: Floats) -> Floats:
        """While a fault is there, shape (n, n_columns)."""
        return np.asarray(self._read(likelihood) + self._seen(shows))

    def _away(self) -> Floats:
        """While no fault is there, shape (1, n_columns)."""
        read = self._read(self._evidence.healthy[None, :])
        return np.asarray(read + self._seen(np.array([FALSE_SIGHT])))

    def _read(self, likelihood: Floats) -> Floats:
        """Log likelihood of the readings of each column, shape (n, n_columns).

        Sums and no matrix product: that would wait for the threads of the linear algebra library.
        """
        logs = _safe_log(likelihood)
        found = np.empty((len(logs), len(self._stretches)))
        for place, stretch in enumerate(self._stretches):
            found[:, place] = logs[:, list(stretch.readings)].sum(axis=1)
        return found

    def _seen(self, shows: Floats) -> Floats:
        """Log chance of what is known of the complaint, shape (n, n_columns)."""
        chance = np.clip(shows, FALSE_SIGHT, 1.0 - FALSE_SIGHT)
        told = {
            Sighting.PRESENT: np.log(chance),
            Sighting.ABSENT: np.log1p(-chance),
            Sighting.UNKNOWN: np.zeros_like(chance),
        }
        found = np.empty((len(chance), len(self._stretches)))
        for place, stretch in enumerate(self._stretches):
            found[:, place] = told[stretch.sighting]
        return found


def log_of_sum(logs: Floats) -> Floats:
    """Log of the sum of what is given as logarithms, along the first axis."""
    top = logs.max(axis=0)
    return np.asarray(top + np.log(np.exp(logs - top).sum(axis=0)))


def _scaled(*logs: Floats) -> tuple[Floats, list[Floats]]:
    """The greatest of each column, and what was given as logarithms over that.

    What is less by more than a float holds becomes nothing: some 690 in the logarithm, which a
    stretch of 25 readings or more reaches where every one of them is a slip.
    """
    top = np.max([log.max(axis=0, initial=-np.inf) for log in logs], axis=0)
    top = np.where(np.isfinite(top), top, 0.0)
    return top, [np.exp(log - top) for log in logs]


def _log_at(shares: Floats, top: Floats) -> Floats:
    """Logarithms of sums over the greatest of each column."""
    return np.asarray(_safe_log(shares) + top)


def _safe_log(values: Floats) -> Floats:
    return np.asarray(np.log(np.maximum(values, _LEAST)))


def _log(values: Floats) -> Floats:
    """Minus infinity for nothing."""
    with np.errstate(divide="ignore"):
        return np.asarray(np.log(values))
