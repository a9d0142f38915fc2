"""What the pressure of a standing system tells, once all of it has the temperature of the shop.

Where there is liquid, the pressure is that of saturation at the temperature, whatever the amount.
Below it there is vapour alone. Above it something else is in there as well.
"""

from enum import StrEnum

from faulttree.core.refrigerant.refrigerant import Refrigerant, properties

NEAR = 0.05
"""How far off saturation, as a share of absolute pressure, still is saturation: about 1.5 K.

Above it air or another refrigerant is in there (common practice). The same is allowed below, for
thermometer, gauge and a car that is not quite soaked.
"""
Band = tuple[float, float]
"""Lowest and highest."""


class Standing(StrEnum):
    """What a standing system may be."""

    LIQUID = "some liquid is there, how much cannot be told"
    NO_LIQUID = "no liquid is left"
    MIXED = "air or another refrigerant is in it"
    NOT_EQUAL = "both sides are not equal yet"


def above_saturation(refrigerant: Refrigerant, pressure: float, temperature: float) -> float:
    """How far a pressure [Pa absolute] lies above saturation at a temperature [K], as a share.

    Source: US Army TM 9-4120-381-14 has a standing system judged by the pressure of saturation.

    Raises:
        OutOfTable: colder or hotter than the refrigerant is known.
    """
    return pressure / properties(refrigerant).pressure(temperature) - 1.0


def apart(low: float, high: float) -> float:
    """How far the high side lies above the low side [Pa absolute], as a share of their mean."""
    return (high - low) / ((high + low) / 2.0)


def could_be(above: Band, sides_apart: Band = (0.0, 0.0)) -> tuple[Standing, ...]:
    """All that the limits of error leave; it is clear where they leave one.

    Args:
        above: least and most by which the pressure may lie above saturation, as a share.
        sides_apart: the same for the two sides; left out where one gauge hangs.
    """
    nearest, furthest = sorted(map(abs, sides_apart))
    if sides_apart[0] <= 0 <= sides_apart[1]:
        # Two gauges may differ by their errors alone.
        nearest = furthest = 0.0
    if nearest > NEAR:
        return (Standing.NOT_EQUAL,)
    low, high = above
    found = [
        standing
        for standing, is_possible in (
            (Standing.NO_LIQUID, low < -NEAR),
            (Standing.LIQUID, low <= NEAR and high >= -NEAR),
            (Standing.MIXED, high > NEAR),
            (Standing.NOT_EQUAL, furthest > NEAR),
        )
        if is_possible
    ]
    return tuple(found)
