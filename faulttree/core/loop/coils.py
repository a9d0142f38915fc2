"""Condenser and evaporator: how much of each is needed for what flows through it.

Effectiveness by transfer units, one side at constant temperature (Incropera and DeWitt,
Fundamentals of Heat and Mass Transfer, chapter 11, from memory). Wet coil: enthalpy of the air
against that of saturated air at the coil (ASHRAE Handbook, from memory). How transfer goes with the
flow of air: of common size, no source.
"""

from collections.abc import Sequence

import numpy as np

from faulttree.core.loop import air
from faulttree.core.loop.columns import Columns, column
from faulttree.core.loop.compressor import Pumped
from faulttree.core.loop.ends import Ends
from faulttree.core.loop.fluid import Floats
from faulttree.core.loop.parts import Loop, Run

LIQUID_SIDE, VAPOUR_SIDE = 0.7, 0.35
"""Transfer units where pure liquid or vapour flows, by those where it boils or condenses."""
_BY_CONDENSER_AIR, _BY_EVAPORATOR_AIR = -0.5, -0.45


class Condensers(Columns):
    """The condensers of some loops."""

    def __init__(self, loops: Sequence[Loop], runs: Sequence[Run]) -> None:
        share = column(runs, "condenser_air")
        units = column(loops, "condenser_units") * share**_BY_CONDENSER_AIR
        flow = air.HEAT * column(loops, "condenser_air") * share
        self._condensing = flow * (1.0 - np.exp(-units))
        self._cooling = flow * (1.0 - np.exp(-LIQUID_SIDE * units))

    def needed(self, at: Ends, pumped: Pumped) -> tuple[Floats, Floats]:
        """Shares of them that it takes to condense, and to cool the liquid."""
        heat = pumped.flow * (pumped.behind - np.maximum(at.liquid, at.hot.liquid))
        to_cool = pumped.flow * at.hot.liquid_heat / self._cooling * np.maximum(at.cooling, 0.0)
        return heat / (self._condensing * at.lift), to_cool


class Evaporators(Columns):
    """The evaporators of some loops."""

    def __init__(self, loops: Sequence[Loop], runs: Sequence[Run]) -> None:
        share = column(runs, "evaporator_air")
        units = column(loops, "evaporator_units") * share**_BY_EVAPORATOR_AIR
        self._flow = column(loops, "evaporator_air") * share
        self._effective = 1.0 - np.exp(-units)
        self._heating = air.HEAT * self._flow * (1.0 - np.exp(-VAPOUR_SIDE * units))
        self._inlet, self._atmosphere = column(runs, "inlet"), column(runs, "atmosphere")
        mixed = air.water(self._inlet, column(runs, "humidity"), self._atmosphere)
        self._entering = air.enthalpy(self._inlet, mixed)

    def needed(self, at: Ends, pumped: Pumped) -> tuple[Floats, Floats]:
        """Shares of them that it takes to boil the liquid, and to heat the vapour."""
        wet = self._entering - air.saturated(at.boiling, self._atmosphere)
        whole = self._flow * self._effective * np.maximum(wet, air.HEAT * at.drop)
        heat = pumped.flow * (np.minimum(at.leaving, at.cold.dry) - at.liquid)
        to_heat = pumped.flow * at.cold.vapour_heat / self._heating * np.maximum(at.heating, 0.0)
        return heat / whole, to_heat

    def air_behind(self, at: Ends, pumped: Pumped, boiled: Floats) -> Floats:
        """Temperature of the air behind them [K], where so much of each boils."""
        cooled = np.clip(boiled, 0.0, 1.0) * self._effective * at.drop
        by_vapour = np.maximum(pumped.breathed - at.cold.dry, 0.0) * pumped.flow
        return np.asarray(self._inlet - cooled - by_vapour / (air.HEAT * self._flow))
