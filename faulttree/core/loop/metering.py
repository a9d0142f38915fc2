"""What lets liquid into the evaporator: liquid line, then expansion valve or orifice tube.

Flow through an opening: area times the root of density and pressure difference. Figures of common
size, no source.
"""

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np

from faulttree.core.loop.columns import Columns, column
from faulttree.core.loop.curves import sigmoid
from faulttree.core.loop.ends import Ends
from faulttree.core.loop.fluid import Floats, fluid
from faulttree.core.loop.parts import Loop, Metering, Run
from faulttree.core.units import ZERO_C

NOMINAL_OPENING, STEEPNESS = 0.6, 4.0
"""How far the valve of a new car stands open; how sharply it answers superheat."""
LINE_AREA = 6.0
"""Flow area of a free liquid line, beside that of valve or tube."""
TUBE_GAIN = 0.02
"""How much more a tube lets through for each kelvin of subcooling."""
_LEAST_OPEN, _LEAST_HELD = 0.02, 0.005
_AT_NOMINAL = float(np.log(NOMINAL_OPENING / (1 - NOMINAL_OPENING)))


@dataclass(frozen=True, slots=True)
class Passed:
    """Flow [kg/s], and absolute pressure behind the liquid line [Pa]."""

    flow: Floats
    valve_pressure: Floats


class Meterings(Columns):
    """The liquid lines, valves and tubes of some loops that are built for one refrigerant."""

    def __init__(self, loops: Sequence[Loop], areas: Floats, runs: Sequence[Run]) -> None:
        self._bulb = fluid(loops[0].refrigerant)
        self._spring = np.array([_spring(loop) for loop in loops])
        self._is_tube = np.array([loop.metering is Metering.TUBE for loop in loops])
        self._area = areas * column(runs, "metering_area")
        self._line = areas * LINE_AREA * (1.0 - column(runs, "restriction"))
        self._held = column(runs, "valve_held")

    def passed(self, at: Ends) -> Passed:
        """What they let through."""
        vapour, liquid = at.vapour_in / at.hot.dry_density, 1.0 / at.hot.liquid_density
        density = 1.0 / (vapour + (1.0 - at.vapour_in) * liquid)
        gain = 1.0 + TUBE_GAIN * np.maximum(at.subcooling, 0.0)
        free = self._area * np.where(self._is_tube, gain, self._opening(at))
        both = 1.0 / np.sqrt(1.0 / free**2 + 1.0 / self._line**2)
        driving = np.maximum(at.high - at.low, 1.0)
        lost = (both / self._line) ** 2 * driving
        return Passed(both * np.sqrt(density * driving), at.high - lost)

    def _opening(self, at: Ends) -> Floats:
        """How far a valve stands open: by the pressure in its bulb against spring and suction."""
        bulb = self._bulb.pressure(at.boiling + at.superheat)
        answer = sigmoid(STEEPNESS * ((bulb - at.low) / self._spring - 1.0) + _AT_NOMINAL)
        follows = _LEAST_OPEN + (1.0 - _LEAST_OPEN) * answer
        return np.where(np.isnan(self._held), follows, np.maximum(self._held, _LEAST_HELD))


def _spring(loop: Loop) -> float:
    """Pressure that the spring of the valve stands for [Pa]."""
    bulb, zero = fluid(loop.refrigerant), np.array(ZERO_C)
    return float(bulb.pressure(zero + loop.superheat) - bulb.pressure(zero))
