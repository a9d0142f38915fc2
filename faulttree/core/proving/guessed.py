"""Clean cycles for planning, where something is guessed beforehand: a prior on the chance per try,
and the chance that the repair hit the fault.

What is seen is judged by Bayes' rule, so the numbers are as good as the guess. They are smaller
than those of `before_after`, and for a fault that shows rarely they promise more than they keep:
with a uniform prior a repair that did nothing passes in up to 21 of 100 cases at a nominal 5 %.
Good for planning an afternoon; the record of a repair rests on `before_after`.
"""

import math
from dataclasses import dataclass

from faulttree.core.proving.demands import (
    USUAL_CONFIDENCE,
    chance_left,
    need_count,
    need_counts,
    need_positive,
)

_ROUNDING = 1e-12
"""What is equal but for the rounding of the computer counts as reached (relative)."""
_MOST_CYCLES = 10**12
"""Cycles beyond which a run is called endless."""


@dataclass(frozen=True, slots=True)
class ChancePrior:
    """What is thought of the chance per try before counting: a beta distribution.

    Attributes:
        seen, not_seen: its two parameters, both above 0: as if the complaint had shown, and not
            shown, so often in earlier tries. 1 and 1 hold every chance for equally likely.
    """

    seen: float = 1.0
    not_seen: float = 1.0

    def __post_init__(self) -> None:
        need_positive("a parameter of the prior", min(self.seen, self.not_seen))


UNIFORM = ChancePrior()
"""Every chance per try equally likely."""


def chance_clean_if_missed(
    seen: int, tries: int, clean_cycles: int, prior: ChancePrior = UNIFORM
) -> float:
    """Chance of so long a clean run if the repair missed the fault.

    Args:
        seen: tries before the repair in which the complaint showed.
        tries: tries before the repair; 0 where none was counted.
        clean_cycles: clean cycles in a row after it, 0 or more.
        prior: what was thought of the chance per try before counting.

    Raises:
        ValueError: counts that cannot be.

    Source: beta-binomial distribution, B(a + k, b + n - k + m)/B(a + k, b + n - k) for k of n
    before and m clean (Raiffa and Schlaifer, Applied Statistical Decision Theory, 1961; from
    memory).
    """
    if tries:
        need_counts(seen, tries)
    need_count("the number of clean cycles", clean_cycles)
    good, all_ = prior.not_seen + tries - seen, prior.seen + prior.not_seen + tries
    log_chance = math.lgamma(good + clean_cycles) - math.lgamma(good)
    log_chance += math.lgamma(all_) - math.lgamma(all_ + clean_cycles)
    return math.exp(min(0.0, log_chance))


def chance_repaired(
    hit: float, seen: int, tries: int, clean_cycles: int, prior: ChancePrior = UNIFORM
) -> float:
    """Chance that the fault is gone, after a clean run.

    Args:
        hit: chance that the repair hit the fault, as judged before the run, from 0 to 1.
        seen, tries, clean_cycles, prior: as for `chance_clean_if_missed`.

    Raises:
        ValueError: counts that cannot be, or a chance outside 0 to 1.

    Source: Bayes' rule, r/(r + (1 - r) q) with r = `hit` and q = `chance_clean_if_missed`; a fault
    that was hit does not come back.
    """
    _need_share(hit)
    missed = (1 - hit) * chance_clean_if_missed(seen, tries, clean_cycles, prior)
    return hit / (hit + missed) if hit else 0.0


def clean_cycles_for_belief(
    hit: float,
    seen: int,
    tries: int,
    confidence: float = USUAL_CONFIDENCE,
    prior: ChancePrior = UNIFORM,
) -> int:
    """Clean cycles in a row after which `chance_repaired` reaches the confidence.

    Args:
        hit: chance that the repair hit the fault, above 0 and at most 1.
        seen, tries, prior: as for `chance_clean_if_missed`.
        confidence: between 0 and 1.

    Returns:
        0 where the repair was sure enough without a run.

    Raises:
        ValueError: counts that cannot be, a chance outside 0 to 1, or no end of cycles.
    """
    _need_share(hit)
    need_positive("the chance that the repair hit", hit)
    left = float(chance_left(confidence))
    if hit >= 1:
        return 0
    return _first_below(hit * left / ((1 - hit) * (1 - left)), seen, tries, prior)


def _need_share(hit: float) -> None:
    if not 0 <= hit <= 1:
        raise ValueError(f"the chance that the repair hit lies between 0 and 1, not at {hit:g}")


def _first_below(wanted: float, seen: int, tries: int, prior: ChancePrior) -> int:
    """Fewest clean cycles whose chance, if the repair missed, is no more than wanted."""
    enough = wanted * (1 + _ROUNDING)
    high = 1
    while chance_clean_if_missed(seen, tries, high, prior) > enough:
        high *= 2
        if high > _MOST_CYCLES:
            raise ValueError("no run is long enough for this: see the complaint first")
    low = -1 if high == 1 else high // 2
    while low + 1 < high:
        middle = (low + high) // 2
        is_enough = chance_clean_if_missed(seen, tries, middle, prior) <= enough
        low, high = (low, middle) if is_enough else (middle, high)
    return high
