"""Refrigerant as smooth functions of saturation temperature, for many loops at once.

The tables of core.refrigerant are exact to a few millionths but have a kink at every row, which a
solver that follows slopes does not like. Here each property is one polynomial over the whole range.
"""

from collections.abc import Callable
from functools import cache

import numpy as np
from numpy.polynomial import Chebyshev
from numpy.typing import NDArray

from faulttree.core.refrigerant.refrigerant import Properties, Refrigerant, properties

Floats = NDArray[np.float64]
_DEGREE = 12
_NEAR_K = 20.0
"""Superheat over which the heat capacity of vapour is taken [K]."""
_FROM_C, _TO_C, _HOT_K = 0.0, 55.0, 15.0
"""Saturation between which the exponent of compression is found."""
ZERO_C = 273.15


class Fluid:
    """One refrigerant; every function takes and gives arrays of one shape.

    Attributes:
        coldest, hottest: saturation temperatures that are known [K].
        exponent: of compression without loss, as of an ideal gas; found so that the work from 0 to
            55 °C saturation is that of the table.
    """

    def __init__(self, known: Properties) -> None:
        self.coldest, self.hottest = known.coldest, known.hottest
        grid = np.linspace(self.coldest, self.hottest, 80)
        boiling = [known.boiling(t) for t in grid]
        dry = [known.dry(t) for t in grid]
        near = [
            known.superheated(t, t + _NEAR_K, d.pressure) for t, d in zip(grid, dry, strict=True)
        ]
        self._log_pressure = _fitted(grid, [np.log(b.pressure) for b in boiling])
        self._liquid = _fitted(grid, [b.enthalpy for b in boiling])
        self._dry = _fitted(grid, [d.enthalpy for d in dry])
        self._log_liquid_density = _fitted(grid, [np.log(b.density) for b in boiling])
        self._log_dry_density = _fitted(grid, [np.log(d.density) for d in dry])
        rises = [(n.enthalpy - d.enthalpy) / _NEAR_K for n, d in zip(near, dry, strict=True)]
        self._vapour_heat = _fitted(grid, rises)
        self._by_log_pressure = _fitted(
            np.array([np.log(b.pressure) for b in boiling]), [1.0 / t for t in grid]
        )
        self.exponent = _exponent(known)

    def pressure(self, t: Floats) -> Floats:
        """Saturation pressure [Pa absolute]."""
        return np.exp(self._log_pressure(t))

    def temperature(self, pressure: Floats) -> Floats:
        """Saturation temperature [K] of a pressure [Pa absolute]."""
        return 1.0 / self._by_log_pressure(np.log(pressure))

    def liquid(self, t: Floats) -> Floats:
        """Enthalpy of boiling liquid [J/kg]."""
        return self._liquid(t)

    def dry(self, t: Floats) -> Floats:
        """Enthalpy of dry vapour [J/kg]."""
        return self._dry(t)

    def liquid_density(self, t: Floats) -> Floats:
        """Density of boiling liquid [kg/m3]."""
        return np.exp(self._log_liquid_density(t))

    def dry_density(self, t: Floats) -> Floats:
        """Density of dry vapour [kg/m3]."""
        return np.exp(self._log_dry_density(t))

    def vapour_heat(self, t: Floats) -> Floats:
        """Heat capacity of vapour just above saturation [J/(kg K)]."""
        return self._vapour_heat(t)

    def liquid_heat(self, t: Floats) -> Floats:
        """Heat capacity of liquid just below saturation [J/(kg K)]."""
        return self.liquid(t) / 10.0 - self.liquid(t - 10.0) / 10.0


def _fitted(x: Floats, y: list[float]) -> Callable[[Floats], Floats]:
    return Chebyshev.fit(x, y, _DEGREE)


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
