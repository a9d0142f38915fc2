"""What a compressor pumps, and the work it takes.

Dead space: the gas left in it expands before any is drawn, filled = 1 + c - c ratio^(1/n). Work: an
ideal compression divided by an efficiency. Figures of common size, no source.
"""

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np

from faulttree.core.air_conditioning.cycle import USUAL_EFFICIENCY
from faulttree.core.loop.columns import Columns, column
from faulttree.core.loop.curves import sigmoid
from faulttree.core.loop.ends import Ends
from faulttree.core.loop.fluid import Floats, Fluid
from faulttree.core.loop.parts import Loop, Metering, Run

CLEARANCE, FILLING, STRAIN, FULL_SPEED = 0.05, 0.92, 0.06, 30.0
"""Dead space by swept volume, share that is left by heated gas, loss with speed, and the speed
[1/s] at which that is counted from."""
LEAK_AREA = 3e-6
"""Open area of plainly worn valves [m2]."""
_REEXPANSION, _LEAST_FILLED = 1.12, 0.02
_MOST_RISE = 110e3
"""Most that it heats its gas [J/kg]; above it the oil burns."""
_DRIEST = 0.98
"""Share of vapour that an accumulator lets through at least."""
_RELIEF_K, _LEAST = 2.0, 1e-6


@dataclass(frozen=True, slots=True)
class Pumped:
    """Flow that gets through [kg/s], work on the shaft [W], enthalpy before and behind [J/kg], and
    density of what is breathed [kg/m3]."""

    flow: Floats
    work: Floats
    breathed: Floats
    behind: Floats
    density: Floats


class Compressors(Columns):
    """The compressors of some loops."""

    def __init__(self, loops: Sequence[Loop], runs: Sequence[Run]) -> None:
        self._swept = column(loops, "displacement")
        self._keeps_liquid = np.array([loop.metering is Metering.TUBE for loop in loops])
        self._speed, self._leak = column(runs, "speed"), column(runs, "leak")
        self._turns = self._speed * (1.0 - column(runs, "slip"))

    def pumped(self, f: Fluid, at: Ends) -> Pumped:
        """What they pump."""
        dry = at.cold.dry
        driest = np.maximum(at.vapour_out, _DRIEST)
        vapour = np.where(self._keeps_liquid, driest, at.vapour_out)
        kept = dry + np.maximum(at.leaving - dry, (_DRIEST - 1.0) * at.cold.latent)
        breathed = np.where(self._keeps_liquid, kept, at.leaving)
        density = at.cold.dry_density * at.boiling / (at.boiling + at.superheat) / vapour

        ratio, power = at.high / at.low, (f.exponent - 1.0) / f.exponent
        drawn = self._filled(f, at, ratio) * density * self._swept * self._turns
        gas = 2.0 * at.hot.dry_density
        back = self._leak * LEAK_AREA * np.sqrt(gas * np.maximum(at.high - at.low, 1.0))
        flow = drawn**2 / (drawn + back) + _LEAST
        each = at.low / density / power * (ratio**power - 1.0) / USUAL_EFFICIENCY
        work = np.minimum(each * drawn, _MOST_RISE * flow)
        return Pumped(flow, work, breathed, breathed + work / flow, density)

    def _filled(self, f: Fluid, at: Ends, ratio: Floats) -> Floats:
        """Share of the swept volume that is filled; nothing at the end of what is known."""
        filled = FILLING * (1.0 + CLEARANCE - CLEARANCE * ratio ** (1.0 / _REEXPANSION))
        filled = filled * (1.0 - STRAIN * (self._speed / FULL_SPEED - 1.0))
        gives_up = sigmoid((at.condensing - (f.hottest - _RELIEF_K)) / 0.5)
        return np.asarray(np.maximum(filled, _LEAST_FILLED) * (1.0 - 0.99 * gives_up))
