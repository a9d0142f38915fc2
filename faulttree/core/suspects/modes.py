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
        self._member = np.zeros((len(evidence.healthy), len(self._stretches)))
        for place, stretch in enumerate(self._stretches):
            self._member[list(stretch.readings), place] = 1.0
        self._evidence = evidence

    def singles(self, hypotheses: Hypotheses) -> Modes:
        """Each hypothesis: for good, and coming and going."""
        there = self._there(hypotheses.likelihood, hypotheses.shows)
        away = np.broadcast_to(self._away(), there.shape)
        p = hypotheses.chance[:, None]
        comes = _mixed((p, there), (1.0 - p, away))
        good = hypotheses.for_good
        return Modes(_log(np.array([good, 1.0 - good])), np.array([there, comes]))

    def pairs(self, hypotheses: Hypotheses, pairs: Pairs) -> Modes:
        """Each pair: both for good, one of them, none."""
        alone = self._there(hypotheses.likelihood, hypotheses.shows)
        both = self._there(pairs.likelihood, pairs.shows)
        one, two = alone[pairs.first], alone[pairs.second]
        p, q = (hypotheses.chance[side][:, None] for side in (pairs.first, pairs.second))
        away = np.broadcast_to(self._away(), both.shape)
        terms = np.array(
            [
                both,
                _mixed((q, both), (1.0 - q, one)),
                _mixed((p, both), (1.0 - p, two)),
                _mixed(
                    (p * q, both),
                    (p * (1.0 - q), one),
                    ((1.0 - p) * q, two),
                    ((1.0 - p) * (1.0 - q), away),
                ),
            ]
        )
        a, b = hypotheses.for_good[pairs.first], hypotheses.for_good[pairs.second]
        shares = np.array([a * b, a * (1.0 - b), (1.0 - a) * b, (1.0 - a) * (1.0 - b)])
        return Modes(_log(shares), terms)

    def none(self) -> Modes:
        """A fault that nobody thought of: it shows the complaint or not as it likes."""
        healthy, anything = self._evidence.healthy, self._evidence.anything
        odd = np.array(ODD_SHARES)[:, None]
        read = _safe_log((1.0 - odd) * healthy + odd * anything) @ self._member
        known = [s.sighting is not Sighting.UNKNOWN for s in self._stretches]
        seen = np.where(np.array(known, bool), np.log(0.5), 0.0)
        weights = np.full((len(ODD_SHARES), 1), -np.log(len(ODD_SHARES)))
        return Modes(weights, (read + seen)[:, None, :])

    def _there(self, likelihood: Floats, shows: Floats) -> Floats:
        """While a fault is there, shape (n, n_columns)."""
        return np.asarray(_safe_log(likelihood) @ self._member + self._seen(shows))

    def _away(self) -> Floats:
        """While no fault is there, shape (1, n_columns)."""
        read = _safe_log(self._evidence.healthy[None, :]) @ self._member
        return np.asarray(read + self._seen(np.array([FALSE_SIGHT])))

    def _seen(self, shows: Floats) -> Floats:
        """Log chance of what is known of the complaint, shape (n, n_columns)."""
        chance = np.clip(shows, FALSE_SIGHT, 1.0 - FALSE_SIGHT)
        told = {
            Sighting.PRESENT: np.log(chance),
            Sighting.ABSENT: np.log1p(-chance),
            Sighting.UNKNOWN: np.zeros_like(chance),
        }
        columns = [told[stretch.sighting] for stretch in self._stretches]
        return np.array(columns).reshape(len(columns), len(chance)).T


def log_of_sum(logs: Floats) -> Floats:
    """Log of the sum of what is given as logarithms, along the first axis."""
    top = logs.max(axis=0)
    return np.asarray(top + np.log(np.exp(logs - top).sum(axis=0)))


def _mixed(*parts: tuple[Floats, Floats]) -> Floats:
    """Log of a weighted sum of what is given as logarithms; the weights add up to 1."""
    logs = [_log(weight) + log for weight, log in parts]
    top = np.maximum.reduce(logs)
    return np.asarray(np.log(sum(np.exp(log - top) for log in logs)) + top)


def _safe_log(values: Floats) -> Floats:
    return np.asarray(np.log(np.maximum(values, _LEAST)))


def _log(values: Floats) -> Floats:
    """Minus infinity for nothing."""
    with np.errstate(divide="ignore"):
        return np.asarray(np.log(values))
