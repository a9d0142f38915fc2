"""Moist air: water in it, dew point, wet bulb, enthalpy, by the psychrometric library.

The formulas are those of ASHRAE Handbook Fundamentals (2017), chapter 1, as PsychroLib has them.
The library keeps one system of units for the whole process; nothing else here may set it.
"""

from dataclasses import dataclass
from functools import cache
from types import ModuleType

from faulttree.core.atmosphere import Atmosphere
from faulttree.core.units import ZERO_C


@dataclass(frozen=True, slots=True)
class MoistAir:
    """Air with water vapour in it.

    Attributes:
        temperature: of the dry bulb [K].
        water: mass of water for each mass of dry air [kg/kg].
        pressure: of the air outside [Pa].
    """

    temperature: float
    water: float
    pressure: float

    @classmethod
    def of_humidity(cls, temperature: float, humidity: float, atmosphere: Atmosphere) -> "MoistAir":
        """Air of a temperature [K] and a relative humidity, 0 to 1."""
        water = _library().GetHumRatioFromRelHum(
            temperature - ZERO_C, min(max(humidity, 0.0), 1.0), atmosphere.pressure
        )
        return cls(temperature, water, atmosphere.pressure)

    @classmethod
    def of_wet_bulb(cls, temperature: float, wet_bulb: float, atmosphere: Atmosphere) -> "MoistAir":
        """Air of a dry and a wet bulb temperature [K].

        Raises:
            ValueError: the wet bulb is warmer than the dry one.
        """
        if wet_bulb > temperature:
            raise ValueError("a wet bulb is never warmer than a dry one")
        water = _library().GetHumRatioFromTWetBulb(
            temperature - ZERO_C, wet_bulb - ZERO_C, atmosphere.pressure
        )
        return cls(temperature, water, atmosphere.pressure)

    @classmethod
    def saturated(cls, temperature: float, pressure: float) -> "MoistAir":
        """Air that holds all the water it can at a temperature [K] and a pressure [Pa]."""
        water = _library().GetSatHumRatio(temperature - ZERO_C, pressure)
        return cls(temperature, water, pressure)

    @property
    def enthalpy(self) -> float:
        """Of one kilogram of dry air with its water, from dry air at 0 °C [J/kg]."""
        found: float = _library().GetMoistAirEnthalpy(self.temperature - ZERO_C, self.water)
        return found

    @property
    def humidity(self) -> float:
        """Relative humidity, 0 to 1."""
        found: float = _library().GetRelHumFromHumRatio(
            self.temperature - ZERO_C, self.water, self.pressure
        )
        return found

    @property
    def dew_point(self) -> float:
        """Where dew begins to form [K]; no warmer than the air itself."""
        found: float = _library().GetTDewPointFromHumRatio(
            self.temperature - ZERO_C, self.water, self.pressure
        )
        return found + ZERO_C

    @property
    def wet_bulb(self) -> float:
        """What a thermometer in a wet sock shows in a draught [K]."""
        found: float = _library().GetTWetBulbFromHumRatio(
            self.temperature - ZERO_C, self.water, self.pressure
        )
        return found + ZERO_C


def vapour_pressure(temperature: float) -> float:
    """Pressure of water vapour in saturated air [Pa] at a temperature [K]; over ice below 0 °C."""
    found: float = _library().GetSatVapPres(temperature - ZERO_C)
    return found


@cache
def _library() -> ModuleType:
    import psychrolib

    psychrolib.SetUnitSystem(psychrolib.SI)
    return psychrolib  # type: ignore[no-any-return]
