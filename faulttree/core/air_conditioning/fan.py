"""When the pressure switch has the condenser fan run.

It closes when the high side has risen far enough and opens when it has fallen well below; between
the two it stays as it is. Common practice, no source: vehicle data go before it.
"""

from enum import StrEnum

CLOSES_PA = (1.5e6, 1.8e6)
"""Where such switches close as the high side rises [Pa gauge]; common practice."""
OPENS_PA = (1.0e6, 1.3e6)
"""Where they open as it falls [Pa gauge]; common practice."""
Band = tuple[float, float]
"""Lowest and highest."""


class Fan(StrEnum):
    """What a good condenser fan does."""

    RUNS = "the fan should run"
    EITHER = "the fan may run or stand"
    STANDS = "the fan may stand"


def points(rising: bool) -> Band:
    """Between which pressures the switch acts [Pa gauge], on the way up or down."""
    return CLOSES_PA if rising else OPENS_PA


def fan(high: Band, rising: bool, asked: bool = False) -> Fan:
    """What a good fan does.

    Args:
        high: the high side, least and most by the error of the gauge [Pa gauge].
        rising: it comes from below the opening point; else it falls from above the closing point.
        asked: something else has it run: the air-conditioning request or the coolant switch, in
            cars wired so.
    """
    lowest, highest = points(rising)
    if asked or high[0] >= highest:
        return Fan.RUNS
    return Fan.STANDS if high[1] < lowest else Fan.EITHER
