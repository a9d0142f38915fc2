"""Differences that tell more than a pressure alone: superheat, subcooling, split, ratio.

Pressures are absolute throughout: a gauge reading is none before the air outside is added.
"""

from faulttree.core.refrigerant.refrigerant import Refrigerant, properties

NORMAL_SUPERHEAT_K = (3.0, 8.0)
"""At the outlet of the evaporator [K]; common practice."""
FLOODING_K, STARVED_K = 1.0, 12.0
"""Superheat below which liquid comes back, and from which the evaporator lacks refrigerant [K];
common practice."""
NORMAL_SUBCOOLING_K = (5.0, 12.0)
"""At the outlet of the condenser [K]; common practice."""
SHORT_K, OVERFULL_K = 1.0, 15.0
"""Subcooling below which liquid is short, and from which there is too much of it, or it is held up
behind a restriction [K]; common practice: about 0, and 15."""


def superheat(refrigerant: Refrigerant, low: float, pipe: float) -> float:
    """How much warmer vapour is than where it boiled [K].

    Superheat = temperature of the pipe - saturation temperature of the low side: definition.

    Args:
        refrigerant: what is in the system.
        low: low side [Pa absolute].
        pipe: of the suction pipe where the pressure is taken [K].

    Raises:
        OutOfTable: a pressure that the refrigerant is not known at.
    """
    return pipe - properties(refrigerant).temperature(low)


def subcooling(refrigerant: Refrigerant, high: float, pipe: float) -> float:
    """How much colder liquid is than where it condensed [K].

    Subcooling = saturation temperature of the high side - temperature of the pipe: definition.

    Args:
        refrigerant: what is in the system.
        high: high side [Pa absolute].
        pipe: of the liquid pipe where the pressure is taken [K].

    Raises:
        OutOfTable: a pressure that the refrigerant is not known at.
    """
    return properties(refrigerant).temperature(high) - pipe


def condensing_split(refrigerant: Refrigerant, high: float, ambient: float) -> float:
    """How much hotter the refrigerant condenses than the air that cools it [K].

    Split = saturation temperature of the high side - air at the condenser: definition.

    Args:
        refrigerant: what is in the system.
        high: high side [Pa absolute].
        ambient: air that goes into the condenser [K].

    Raises:
        OutOfTable: a pressure that the refrigerant is not known at.
    """
    return properties(refrigerant).temperature(high) - ambient


def pressure_ratio(low: float, high: float) -> float:
    """By how many times a compressor raises the pressure; both absolute, both alike in unit."""
    return high / low
