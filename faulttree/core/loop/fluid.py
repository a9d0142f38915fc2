"""Refrigerant as smooth functions of saturation temperature, for many loops at once.

The tables of core.refrigerant are exact to a few millionths but have a kink at every row, which a
solver that follows slopes does not like. Here each property is one polynomial over the whole range,
and all of them are worked out together.
"""

from functools import cache
from typing import NamedTuple

import numpy as np
from numpy.polynomial import Chebyshev, chebyshev
from numpy.typing import NDArray

from faulttree.core.refrigerant.refrigerant import Properties, Refrigerant, properties
from faulttree.core.units import ZERO_C

Floats = NDArray[np.float64]
_DEGREE, _POINTS = 12, 80
_NEAR_K = 20.0
"""Superheat over which the heat capacity of vapour is taken [K]."""
_COOLER_K = 10.0
"""Cooling over which the heat capacity of liquid is taken [K]."""
_FROM_C, _TO_C, _HOT_K = 0.0, 55.0, 15.0
"""Saturation between which the exponent of compression is found, and the superheat it starts at."""


class Saturated(NamedTuple):
    """A refrigerant where it boils; arrays of one shape.

    Attributes:
        pressure: absolute [Pa].
        liquid, dry: enthalpy of boiling liquid and dry vapour [J/kg].
        liquid_density, dry_density: their densities [kg/m3].
        liquid_heat, vapour_heat: heat capacity of liquid just below saturation and of vapour just
            above it [J/(kg K)].
    """

    pressure: Floats
    liquid: Floats
    dry: Floats
    liquid_density: Floats
    dry_density: Floats
    liquid_heat: Floats
    vapour_heat: Floats

    @property
    def latent(self) -> Floats:
        """Heat that boils it [J/kg]."""
        return self.dry - self.liquid


class Fluid:
    """One refrigerant.

    Attributes:
        coldest, hottest: saturation temperatures that are known [K].
        exponent: of compression without loss, as of an ideal gas; found so that the work from 0 to
            55 °C saturation is that of the table.
    """

    def __init__(self, known: Properties) -> None:
        self.coldest, self.hottest = known.coldest, known.hottest
        grid = np.linspace(self.coldest, self.hottest, _POINTS)
        rows = [_row(known, float(t)) for t in grid]
        columns = [Chebyshev.fit(grid, values, _DEGREE).coef for values in zip(*rows, strict=True)]
        self._coefficients = np.array(columns).T
        logs = np.array([row[0] for row in rows])
        self._inverse_by_log = Chebyshev.fit(logs, 1.0 / grid, _DEGREE)
        self.exponent = _exponent(known)

    def saturated(self, t: Floats) -> Saturated:
        """Everything at saturation temperatures [K]."""
        found = chebyshev.chebval(self._place(t), self._coefficients)
        log_pressure, liquid, dry, log_liquid, log_dry, liquid_heat, vapour_heat = found
        pressure, liquid_density, dry_density = np.exp([log_pressure, log_liquid, log_dry])
        return Saturated(
            pressure, liquid, dry, liquid_density, dry_density, liquid_heat, vapour_heat
        )

    def pressure(self, t: Floats) -> Floats:
        """Saturation pressure [Pa absolute]."""
        return np.asarray(np.exp(chebyshev.chebval(self._place(t), self._coefficients[:, 0])))

    def temperature(self, pressure: Floats) -> Floats:
        """Saturation temperature [K] of a pressure [Pa absolute]."""
        return np.asarray(1.0 / self._inverse_by_log(np.log(pressure)))

    def _place(self, t: Floats) -> Floats:
        """Where a temperature lies, from -1 at the coldest to 1 at the hottest."""
        return (2.0 * t - self.coldest - self.hottest) / (self.hottest - self.coldest)


def _row(known: Properties, t: float) -> tuple[float, ...]:
    """What is fitted at one temperature."""
    boiling, dry = known.boiling(t), known.dry(t)
    near = known.superheated(t, t + _NEAR_K, dry.pressure)
    cooler = max(t - _COOLER_K, known.coldest)
    warmer = cooler + _COOLER_K
    liquid_heat = (known.boiling(warmer).enthalpy - known.boiling(cooler).enthalpy) / _COOLER_K
    return (
        float(np.log(boiling.pressure)),
        boiling.enthalpy,
        dry.enthalpy,
        float(np.log(boiling.density)),
        float(np.log(dry.density)),
        liquid_heat,
        (near.enthalpy - dry.enthalpy) / _NEAR_K,
    )


def _exponent(known: Properties) -> float:
    start = known.pressure(ZERO_C + _FROM_C)
    low = known.vapour(start, ZERO_C + _FROM_C + _HOT_K)
    high = known.pressure(ZERO_C + _TO_C)
    wanted = known.vapour_of_entropy(high, low.entropy).enthalpy - low.enthalpy
    flow_work, ratio = low.pressure / low.density, high / low.pressure
    least, most = 1.001, 1.4
    for _ in range(60):
        middle = (least + most) / 2
        power = (middle - 1.0) / middle
        if flow_work / power * (ratio**power - 1.0) < wanted:
            least = middle
        else:
            most = middle
    return least


@cache
def fluid(refrigerant: Refrigerant) -> Fluid:
    """The functions of a refrigerant, made when it is first asked for."""
    return Fluid(properties(refrigerant))
