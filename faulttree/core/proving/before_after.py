"""Clean cycles after a repair against what was counted before it: exact, and without a prior.

The question is whether the repair changed anything. If it did not, the tries before and after are
alike, and all orders of them are equally likely. With `seen` in `tries` before and then `clean`
cycles without, the chance that all that were seen fall before the repair is

    C(tries, seen) / C(tries + clean, seen)

which is the one-sided exact test of Fisher (The Design of Experiments, 1935) for a table whose
last cell is empty. It holds whatever the chance per try is; nothing has to be guessed.

The tries must be alike: same provocation, heat, load. The promise is kept best when tries are
counted up to and including a number of times seen that was chosen beforehand (3, say): a repair
that did nothing then passes with less than what the confidence leaves, for every chance per try.
Who counts a number of tries chosen beforehand is safe for all but faults that were caught by luck.

The formula ln(1 - confidence)/ln(1 - seen/tries) is not offered. It takes the chance counted for
the true one: at a nominal 5 % it lets 5 to 29 of 100 repairs pass that changed nothing.
"""

from fractions import Fraction
from math import comb

from faulttree.core.proving.demands import (
    USUAL_CONFIDENCE,
    chance_left,
    need_count,
    need_counts,
    need_positive,
)


def chance_if_unchanged(seen: int, tries: int, clean_cycles: int) -> float:
    """Chance of so long a clean run if the repair changed nothing.

    Args:
        seen: tries before the repair in which the complaint showed.
        tries: tries before the repair.
        clean_cycles: clean cycles in a row after it, 0 or more.

    Returns:
        From 0 to 1; 1 where it was never seen, for then a clean run tells nothing.

    Raises:
        ValueError: counts that cannot be.

    Source: C(tries, seen)/C(tries + clean, seen), one-sided exact test of Fisher (1935).
    """
    need_counts(seen, tries)
    need_count("the number of clean cycles", clean_cycles)
    return float(Fraction(comb(tries, seen), comb(tries + clean_cycles, seen)))


def clean_cycles_needed(seen: int, tries: int, confidence: float = USUAL_CONFIDENCE) -> int:
    """Clean cycles in a row after which `chance_if_unchanged` is what the confidence leaves.

    Args:
        seen: tries before the repair in which the complaint showed, at least 1.
        tries: tries before the repair.
        confidence: between 0 and 1.

    Raises:
        ValueError: counts that cannot be, never seen, or a confidence outside 0 to 1.
    """
    need_counts(seen, tries)
    _need_seen(seen)
    wanted = comb(tries, seen) / chance_left(confidence)
    high = 1
    while comb(tries + high, seen) < wanted:
        high *= 2
    low = high // 2
    while low + 1 < high:
        middle = (low + high) // 2
        low, high = (low, middle) if comb(tries + middle, seen) >= wanted else (middle, high)
    return high


def confidence_after_returns(confidence: float, returns: int) -> float:
    """The confidence that a proving run is held to after it had to begin anew.

    Every new beginning is another chance to be lucky. So what is left to luck is halved each time:
    all beginnings together then pass a repair that changed nothing with less than twice what the
    confidence leaves, however many there are. Tries in which it came back, and those before them
    in the run, count as tries before the repair.

    Args:
        confidence: of the first run, between 0 and 1.
        returns: how often the complaint came back in the run, 0 or more.

    Raises:
        ValueError: a negative number of returns, or a confidence outside 0 to 1.

    Source: sum of the geometric series, as an upper bound of the chance of any of several events.
    """
    need_count("the number of returns", returns)
    return float(1 - chance_left(confidence) / 2**returns)


def clean_time_needed(seen: int, watched: float, confidence: float = USUAL_CONFIDENCE) -> float:
    """Clean time so long that it would be luck of what the confidence leaves, were nothing changed.

    Args:
        seen: times the complaint came while it was watched before the repair, at least 1.
        watched: how long that was, in any unit.
        confidence: between 0 and 1.

    Returns:
        T (left^(-1/k) - 1), in the unit of `watched`.

    Raises:
        ValueError: never seen, no time watched, or a confidence outside 0 to 1.

    Source: that luck is (T/(T + t))^k. Under one steady rate each of the k events lies anywhere in
    T + t with equal chance; the conditional test of two Poisson counts (Przyborowski and Wilenski,
    Biometrika 31 (1940) 313).
    """
    need_positive("the time watched", watched)
    _need_seen(seen)
    return float(watched * (float(chance_left(confidence)) ** (-1 / seen) - 1))


def _need_seen(seen: int) -> None:
    if seen < 1:
        raise ValueError("what was never seen before cannot be shown to be gone by not seeing it")
