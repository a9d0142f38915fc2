"""How many tries it takes to see a complaint whose chance is known.

The chance must be known from elsewhere. One counted in a few tries is no known chance: a repair is
proved by `clean_cycles_needed`.
"""

from faulttree.core.proving.clean_run import clean_cycles_for_rate
from faulttree.core.proving.demands import (
    USUAL_CONFIDENCE,
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
