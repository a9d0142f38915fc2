"""The car that expressions are worked out for: its refrigerant, the air outside, saturation."""

from collections.abc import Callable
from dataclasses import replace

from faulttree.core.atmosphere import Atmosphere, NoSuchPlace
from faulttree.core.expression_values import ALTITUDE, REFRIGERANT_WORD, Values
from faulttree.core.moist_air import MoistAir
from faulttree.core.refrigerant.refrigerant import Properties, Refrigerant, properties
from faulttree.core.refrigerant.spelled import refrigerant_spelled
from faulttree.core.refrigerant.table import OutOfTable
from faulttree.core.uncertain import CannotWorkOut, Uncertain, bent, within

_KNOWN = ", ".join(Refrigerant)
_LONGEST = 40
"""How much of what was typed is repeated [characters]."""
_DRIEST = 0.01
"""Relative humidity below which no dew point is told."""


def refrigerant_of(values: Values) -> Refrigerant:
    """The refrigerant of the car.

    Raises:
        CannotWorkOut: it was not told, or is none of those known.
    """
    told = values.get(REFRIGERANT_WORD)
    if not isinstance(told, str):
        raise CannotWorkOut(f"the refrigerant is not told; known are {_KNOWN}")
    found = refrigerant_spelled(told)
    if found is None:
        named = " ".join(told.split())[:_LONGEST]
        raise CannotWorkOut(f"“{named}” is no refrigerant known here; known are {_KNOWN}")
    return found


def atmosphere_of(values: Values) -> Atmosphere:
    """The air outside; that of sea level where the altitude is not known.

    Raises:
        CannotWorkOut: no car is at that altitude.
    """
    altitude = values.get(ALTITUDE)
    if not isinstance(altitude, Uncertain):
        return Atmosphere()
    try:
        return Atmosphere.at_altitude(altitude.value)
    except NoSuchPlace as error:
        raise CannotWorkOut(str(error)) from None


def absolute(values: Values, gauge: Uncertain) -> Uncertain:
    """Absolute pressure of a gauge reading [Pa]."""
    return replace(gauge, value=atmosphere_of(values).absolute(gauge.value))


def saturation(values: Values, pressure: Uncertain) -> Uncertain:
    """Saturation temperature [K] at an absolute pressure [Pa]."""
    return _in_table(_properties(values).temperature, pressure)


def saturation_of_gauge(values: Values, gauge: Uncertain) -> Uncertain:
    """Saturation temperature [K] at a gauge reading [Pa]."""
    return saturation(values, absolute(values, gauge))


def saturation_pressure(values: Values, temperature: Uncertain) -> Uncertain:
    """What a gauge shows [Pa] of saturated refrigerant at a temperature [K]."""
    pressure = _in_table(_properties(values).pressure, temperature)
    return replace(pressure, value=atmosphere_of(values).gauge(pressure.value))


def _properties(values: Values) -> Properties:
    return properties(refrigerant_of(values))


def _in_table(curve: Callable[[float], float], value: Uncertain) -> Uncertain:
    """A value of a saturation curve, which bends one way only."""
    try:
        return bent(curve, value)
    except OutOfTable as error:
        raise CannotWorkOut(str(error)) from None


def dew_point(_values: Values, temperature: Uncertain, humidity: Uncertain) -> Uncertain:
    """Dew point [K] of air of a temperature [K] and a relative humidity, 0 to 1."""
    if humidity.low < _DRIEST or humidity.value > 1.0:
        raise CannotWorkOut("a dew point needs a relative humidity between 1 and 100 %")
    try:
        low, middle, high = (
            _dew(t, min(h, 1.0))
            for t, h in (
                (temperature.low, humidity.low),
                (temperature.value, humidity.value),
                (temperature.high, humidity.high),
            )
        )
    except ValueError:
        raise CannotWorkOut("no dew point is known for air so hot or so cold") from None
    return within(middle, low, high)


def _dew(temperature: float, humidity: float) -> float:
    """Dew point [K]; it is the same whatever the air outside weighs."""
    return MoistAir.of_humidity(temperature, humidity, Atmosphere()).dew_point
