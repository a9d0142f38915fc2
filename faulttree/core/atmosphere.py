"""The air outside, and how gauge and absolute pressure turn into each other by it.

A gauge shows what is above the air outside; refrigerant follows absolute pressure. At 1000 m the
air weighs 11 kPa less, so the same gauge reading means a temperature some 1 K lower.
"""

from dataclasses import dataclass

SEA_LEVEL_PA = 101325.0
"""Standard atmosphere at sea level [Pa]. Source: ISO 2533 (1975)."""
_LAPSE, _POWER = 2.25577e-5, 5.2559
"""Per metre, and the exponent, of the standard atmosphere below 11 km. Source: ASHRAE Handbook
Fundamentals (2017), chapter 1, equation 3."""
LOWEST_M, HIGHEST_M = -500.0, 5000.0
"""Altitudes that a car is met at [m]."""


class NoSuchPlace(ValueError):
    """An altitude where no car is; the message says which are taken."""


@dataclass(frozen=True, slots=True)
class Atmosphere:
    """The air outside.

    Attributes:
        pressure: absolute [Pa].
    """

    pressure: float = SEA_LEVEL_PA

    @classmethod
    def at_altitude(cls, metres: float) -> "Atmosphere":
        """The standard atmosphere at an altitude [m above sea level].

        The weather moves it by up to 4 kPa either way.

        Raises:
            NoSuchPlace: far below the sea or above the roads.
        """
        if not LOWEST_M <= metres <= HIGHEST_M:
            raise NoSuchPlace(f"an altitude lies between {LOWEST_M:.0f} and {HIGHEST_M:.0f} m")
        return cls(SEA_LEVEL_PA * (1.0 - _LAPSE * metres) ** _POWER)

    def absolute(self, gauge: float) -> float:
        """Absolute pressure of a gauge reading [Pa]; below zero gauge is vacuum."""
        return gauge + self.pressure

    def gauge(self, absolute: float) -> float:
        """What a gauge shows of an absolute pressure [Pa]."""
        return absolute - self.pressure
