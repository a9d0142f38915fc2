"""The balances of mass, heat and charge that a running loop settles at, for many loops at once.

Four unknowns describe a loop: how far it boils below and condenses above the air, how far liquid is
cooled below saturation, and how far vapour is heated above it. Each is stretched so that any number
is allowed: the first two between nothing and all that the tables know, the others as lengths of
heat exchanger in transfer units, where a negative one stands for liquid, or vapour, left over.
"""

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np

from faulttree.core.loop.charge import Charges
from faulttree.core.loop.coils import Condensers, Evaporators
from faulttree.core.loop.columns import Columns, column
from faulttree.core.loop.compressor import Compressors, Pumped
from faulttree.core.loop.curves import sigmoid
from faulttree.core.loop.ends import Ends, ends
from faulttree.core.loop.fluid import Floats, fluid
from faulttree.core.loop.metering import Meterings, Passed
from faulttree.core.loop.parts import Loop, Run

_LEAST_KG = 1e-6
_FROM_COLDEST, _FROM_HOTTEST = 2.0, 0.5


@dataclass(frozen=True, slots=True)
class Sized:
    """A loop with what its label leaves open: area of its valve or tube, and its volume."""

    loop: Loop
    area: float = 1.0
    volume: float = 1.0


@dataclass(frozen=True, slots=True)
class Settled:
    """Loops for some unknowns; arrays of shape (n,).

    Attributes:
        at: what flows between the parts.
        pumped, passed: what compressor and valve do.
        boiled: share of the evaporator in which liquid boils.
        charge: refrigerant that all parts hold [kg].
        off: by how far each of the four balances is missed, shape (4, n).
    """

    at: Ends
    pumped: Pumped
    passed: Passed
    boiled: Floats
    charge: Floats
    off: Floats


class Balance(Columns):
    """Loops built for one refrigerant, with one in them, and how they are run."""

    def __init__(self, sized: Sequence[Sized], runs: Sequence[Run]) -> None:
        """The first ones say which refrigerants."""
        loops = [each.loop for each in sized]
        self.fluid = fluid(runs[0].charged_with or loops[0].refrigerant)
        self.ambient, self.atmosphere = column(runs, "ambient"), column(runs, "atmosphere")
        self._inlet = column(runs, "inlet")
        self._compressors = Compressors(loops, runs)
        self._meterings = Meterings(loops, column(sized, "area"), runs)
        self._condensers, self._evaporators = Condensers(loops, runs), Evaporators(loops, runs)
        self._charges = Charges(loops, column(sized, "volume"), runs)

    def settled(self, unknowns: Floats) -> Settled:
        """The loops for some unknowns, shape (4, n)."""
        at = self._ends(unknowns)
        pumped = self._compressors.pumped(self.fluid, at)
        passed = self._meterings.passed(at)
        condensed, cooled = self._condensers.needed(at, pumped)
        boiled, heated = self._evaporators.needed(at, pumped)
        charge = self._charges.held(
            at, pumped, cooled / (condensed + cooled), heated / (boiled + heated)
        )
        off = np.array(
            [
                np.log(pumped.flow / passed.flow),
                condensed + cooled - 1.0,
                boiled + heated - 1.0,
                np.log(np.maximum(charge, _LEAST_KG) / self._charges.filled),
            ]
        )
        return Settled(at, pumped, passed, boiled, charge, off)

    def drop(self, unknown: Floats) -> Floats:
        """How far it boils below the air at the evaporator [K]; never colder than is known."""
        most = self._inlet - self.fluid.coldest - _FROM_COLDEST
        return np.asarray(most * sigmoid(unknown))

    def lift(self, unknown: Floats) -> Floats:
        """How far it condenses above the air outside [K]; never hotter than is known."""
        most = self.fluid.hottest - _FROM_HOTTEST - self.ambient
        return np.asarray(most * sigmoid(unknown))

    def air_behind(self, settled: Settled) -> Floats:
        """Temperature of the air behind the evaporator [K]."""
        return self._evaporators.air_behind(settled.at, settled.pumped, settled.boiled)

    def _ends(self, unknowns: Floats) -> Ends:
        drop, lift = self.drop(unknowns[0]), self.lift(unknowns[1])
        condensing = self.ambient + lift
        of_air = self._charges.pressure_of_air(condensing)
        more = np.array([unknowns[2], unknowns[3], of_air])
        return ends(self.fluid, self._inlet - drop, condensing, drop, lift, more)
