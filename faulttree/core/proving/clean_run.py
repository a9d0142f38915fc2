"""What a run without the complaint lets one promise, by itself: no count from before is needed."""

from enum import Enum

from faulttree.core.proving.demands import (
    USUAL_CONFIDENCE,
    chance_left,
    need_count,
    need_positive,
    need_rate,
)
from faulttree.core.proving.special import beta_share


class RunConvention(Enum):
    """How a clean run of n cycles is turned into a chance per cycle: 1 - (1 - confidence)^(1/m).

    Two conventions are printed in tables. For 95 % reliability at 95 % confidence the first asks
    for 59 cycles and the second for 58.
    """

    LIMIT = "exact limit"
    """m = n. The exact upper limit for no event in n tries (Clopper and Pearson 1934). It is true
    for every chance there may be, and the one this program uses."""
    UNIFORM_PRIOR = "uniform prior"
    """m = n + 1. The posterior limit where every chance from 0 to 1 was thought equally likely
    before (the Bayesian form of the success-run theorem)."""

    @property
    def more(self) -> int:
        """Cycles counted besides those that were run."""
        return 1 if self is RunConvention.UNIFORM_PRIOR else 0


def largest_rate(
    clean_cycles: int,
    confidence: float = USUAL_CONFIDENCE,
    convention: RunConvention = RunConvention.LIMIT,
) -> float:
    """Largest chance per cycle that still fits `clean_cycles` clean cycles in a row.

    A complaint that returned with a greater chance would have shown itself in the run with at
    least the given confidence. Cycles must be alike and independent. About 3/n for 95 %: the rule
    of three (Hanley and Lippman-Hand, JAMA 249 (1983) 1743).

    Args:
        clean_cycles: clean cycles in a row, at least 1.
        confidence: between 0 and 1.
        convention: see `RunConvention`.

    Returns:
        The chance per cycle, between 0 and 1.

    Raises:
        ValueError: no cycle, or a confidence outside 0 to 1.

    Source: exact binomial bound for no event in n trials, 1 - (1 - confidence)^(1/n); Clopper and
    Pearson, Biometrika 26 (1934), for zero events.
    """
    need_positive("the number of clean cycles", clean_cycles)
    left = float(chance_left(confidence))
    return float(1 - left ** (1 / (clean_cycles + convention.more)))


def clean_cycles_for_rate(
    rate: float,
    confidence: float = USUAL_CONFIDENCE,
    convention: RunConvention = RunConvention.LIMIT,
) -> int:
    """Clean cycles in a row after which `largest_rate` is no more than `rate`.

    Args:
        rate: chance per cycle that is to be excluded, above 0 and at most 1; the reliability that
            tables speak of is 1 - rate.
        confidence: between 0 and 1.
        convention: see `RunConvention`.

    Raises:
        ValueError: a rate or a confidence that is none.

    Source: success-run theorem, n = ln(1 - confidence)/ln(1 - rate), rounded up.
    """
    return max(1, cycles_with_returns(rate, 0, confidence) - convention.more)


def cycles_with_returns(rate: float, returns: int, confidence: float = USUAL_CONFIDENCE) -> int:
    """Cycles after which `rate` is excluded although the complaint came back in some of them.

    The number of returns allowed must be fixed before the run begins.

    Args:
        rate: chance per cycle that is to be excluded, above 0 and at most 1.
        returns: cycles of the run in which the complaint may show, 0 or more.
        confidence: between 0 and 1.

    Raises:
        ValueError: a rate or a confidence that is none, or a negative number of returns.

    Source: inversion of the exact binomial limit of Clopper and Pearson (1934).
    """
    need_rate(rate)
    need_count("the number of returns", returns)
    left = float(chance_left(confidence))
    high = returns + 1
    while not _is_reached(rate, returns, high, left):
        high *= 2
    low = high // 2
    while low + 1 < high:
        middle = (low + high) // 2
        low, high = (low, middle) if _is_reached(rate, returns, middle, left) else (middle, high)
    return high


def _is_reached(rate: float, returns: int, cycles: int, left: float) -> bool:
    """True when no more than `returns` in `cycles` would be luck of at most `left`.

    What is equal but for the rounding of the computer counts as reached.
    """
    if cycles <= returns:
        return False
    luck = (
        (1 - rate) ** cycles if not returns else beta_share(1 - rate, cycles - returns, returns + 1)
    )
    return luck <= left * (1 + 1e-12)
