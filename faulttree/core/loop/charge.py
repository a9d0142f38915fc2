"""How much refrigerant is where, and what air that was left in adds to the pressure."""

from collections.abc import Sequence

import numpy as np

from faulttree.core.loop.columns import Columns, column
from faulttree.core.loop.compressor import Pumped
from faulttree.core.loop.curves import mean_void, sigmoid
from faulttree.core.loop.ends import Ends
from faulttree.core.loop.fluid import Floats
from faulttree.core.loop.parts import Loop, Metering, Run
from faulttree.core.units import ZERO_C

CONDENSER, LIQUID_LINE, EVAPORATOR, SUCTION_LINE = 0.60, 0.10, 0.55, 0.35
COILS = CONDENSER + LIQUID_LINE + EVAPORATOR + SUCTION_LINE
VESSEL = {Metering.VALVE: 0.30, Metering.TUBE: 0.22}
"""Volumes in proportion: coils and pipes, and receiver or accumulator; common size, no source."""
KEPT_BELOW, KEPT_WIDTH = 5.0, 1.5
"""Where a receiver is half full, the liquid leaving it is so much below saturation; how sharply it
fills and drains [K]. Common size, no source."""
_LITRE, _WETTEST = 1e-3, 0.98
_GAS_OF_CONDENSER, _GAS_OF_RECEIVER, _GAS_OF_TUBE = 0.6, 0.5, 0.1
"""Shares of condenser and receiver that hold gas, and so air; with a tube, beside the condenser."""


class Charges(Columns):
    """The volumes of some loops, and what was filled into them."""

    def __init__(self, loops: Sequence[Loop], volumes: Floats, runs: Sequence[Run]) -> None:
        self._volume = volumes
        self._is_tube = np.array([loop.metering is Metering.TUBE for loop in loops])
        self._vessel = np.array([vessel_of(loop) for loop in loops])
        self._air, self._atmosphere = column(runs, "air"), column(runs, "atmosphere")
        self.filled = column(loops, "charge") * column(runs, "charge")

    def pressure_of_air(self, condensing: Floats) -> Floats:
        """Partial pressure of air that was left in; all of it gathers on the high side [Pa]."""
        receiver = np.where(self._is_tube, _GAS_OF_TUBE, _GAS_OF_RECEIVER * self._vessel)
        gas = _GAS_OF_CONDENSER * CONDENSER + receiver
        squeezed = (COILS + self._vessel) / gas
        return np.asarray(self._air * self._atmosphere * squeezed * condensing / (ZERO_C + 20.0))

    def held(self, at: Ends, pumped: Pumped, cooled: Floats, heated: Floats) -> Floats:
        """Refrigerant in all parts [kg]; the last two: shares of the coils with liquid, vapour."""
        whole = (
            _on_the_high_side(at, cooled)
            + EVAPORATOR * _in_evaporator(at, heated)
            + SUCTION_LINE * pumped.density
            + self._vessel * self._in_vessel(at)
        )
        return np.asarray(whole * self._volume * _LITRE)

    def _in_vessel(self, at: Ends) -> Floats:
        """A receiver fills as liquid cools, an accumulator as mixture leaves the evaporator."""
        wet = (at.cold.dry - at.leaving) / at.cold.vapour_heat
        level = np.where(
            self._is_tube, sigmoid(wet), sigmoid((at.subcooling - KEPT_BELOW) / KEPT_WIDTH)
        )
        gas = np.where(self._is_tube, at.cold.dry_density, at.hot.dry_density)
        liquid = np.where(self._is_tube, at.cold.liquid_density, at.hot.liquid_density)
        return np.asarray(gas + level * (liquid - gas))


def vessel_of(loop: Loop) -> float:
    """Volume of the receiver or accumulator, beside that of the coils and pipes."""
    return VESSEL[loop.metering] if loop.vessel is None else loop.vessel


def _on_the_high_side(at: Ends, cooled: Floats) -> Floats:
    gas, liquid = at.hot.dry_density, at.hot.liquid_density
    slip = (gas / liquid) ** (2 / 3)
    void = mean_void(np.ones_like(gas), at.vapour_in, slip)
    condensing = liquid + void * (gas - liquid)
    condenser = condensing + cooled * (liquid - condensing)
    in_line = at.vapour_in / (at.vapour_in + slip * (1.0 - at.vapour_in))
    return np.asarray(CONDENSER * condenser + LIQUID_LINE * (liquid + in_line * (gas - liquid)))


def _in_evaporator(at: Ends, heated: Floats) -> Floats:
    gas, liquid = at.cold.dry_density, at.cold.liquid_density
    entering = np.clip((at.liquid - at.cold.liquid) / at.cold.latent, 0, _WETTEST)
    void = mean_void(entering, at.vapour_out, (gas / liquid) ** (2 / 3))
    boiled = liquid + void * (gas - liquid)
    return np.asarray(boiled + heated * (gas - boiled))
