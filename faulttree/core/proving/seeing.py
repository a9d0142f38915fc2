"""How many tries, or how long, it takes to see a complaint whose chance or rate is known.

The chance must be known from elsewhere. One counted in a few tries is no known chance: to plan
from a count use `clean_cycles_predicted`, to prove a repair `clean_cycles_needed`.
"""

import math

from faulttree.core.proving.clean_run import clean_cycles_for_rate
from faulttree.core.proving.demands import (
    USUAL_CONFIDENCE,
    chance_left,
    need_positive,
    need_rate,
)


def expected_tries(rate: float) -> float:
    """Tries until the complaint shows for the first time, on average.

    Args:
        rate: chance per try, above 0 and at most 1.

    Raises:
        ValueError: a rate that is none.

    Source: mean of the geometric distribution, 1/rate.
    """
    need_rate(rate)
    return 1 / rate


def tries_to_see(rate: float, confidence: float = USUAL_CONFIDENCE) -> int:
    """Tries in which the complaint shows at least once with this confidence.

    Args:
        rate: chance per try, above 0 and at most 1.
        confidence: between 0 and 1.

    Raises:
        ValueError: a rate or a confidence that is none.

    Source: geometric distribution, ln(1 - confidence)/ln(1 - rate), rounded up.
    """
    return clean_cycles_for_rate(rate, confidence)


def expected_wait(rate: float) -> float:
    """Time until the complaint comes for the first time, on average.

    Args:
        rate: times per unit of time, above 0.

    Returns:
        1/rate, in that unit.

    Raises:
        ValueError: no rate.
    """
    need_positive("a rate", rate)
    return 1 / rate


def time_to_see(rate: float, confidence: float = USUAL_CONFIDENCE) -> float:
    """Time in which the complaint comes at least once with this confidence.

    Args:
        rate: times per unit of time, above 0; steady, and each time independent of the others.
        confidence: between 0 and 1.

    Returns:
        -ln(1 - confidence)/rate, in that unit.

    Raises:
        ValueError: no rate, or a confidence outside 0 to 1.

    Source: exponential distribution, P(none in t) = exp(-rate t).
    """
    need_positive("a rate", rate)
    return -math.log(float(chance_left(confidence))) / rate
