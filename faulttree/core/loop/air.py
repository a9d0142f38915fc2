"""Moist air for many loops at once: a fit through the psychrometric library's figures."""

from collections.abc import Callable
from functools import cache

import numpy as np
from numpy.polynomial import Chebyshev

from faulttree.core.loop.fluid import Floats
from faulttree.core.moist_air import vapour_pressure
from faulttree.core.units import ZERO_C

HEAT = 1006.0
"""Heat capacity of dry air [J/(kg K)]. Source: ASHRAE Handbook Fundamentals (2017), chapter 1."""
_VAPOUR_J, _VAPOUR_HEAT = 2501e3, 1860.0
"""Enthalpy of water vapour at 0 °C [J/kg], and its heat capacity [J/(kg K)]; the same source."""
_MASSES = 0.621945
"""Mass of water by mass of air; the same source."""
_COLDEST, _HOTTEST, _DEGREE = ZERO_C - 60.0, ZERO_C + 60.0, 16


def water(t: Floats, humidity: Floats, pressure: Floats) -> Floats:
    """Water in air of a temperature [K] and relative humidity at a pressure [Pa]: [kg/kg]."""
    vapour = humidity * np.exp(_fit()(np.clip(t, _COLDEST, _HOTTEST)))
    return _MASSES * vapour / (pressure - vapour)


def enthalpy(t: Floats, mixed: Floats) -> Floats:
    """Enthalpy of a kilogram of dry air [J/kg] of a temperature [K] with so much water in it."""
    celsius = t - ZERO_C
    return HEAT * celsius + mixed * (_VAPOUR_J + _VAPOUR_HEAT * celsius)


def saturated(t: Floats, pressure: Floats) -> Floats:
    """Enthalpy of saturated air [J/kg] of a temperature [K] at a pressure [Pa]."""
    return enthalpy(t, water(t, np.ones_like(t), pressure))


@cache
def _fit() -> Callable[[Floats], Floats]:
    grid = np.linspace(_COLDEST, _HOTTEST, 121)
    logs = [np.log(vapour_pressure(t)) for t in grid]
    return Chebyshev.fit(grid, logs, _DEGREE)
