"""The refrigerant between the parts of loops, for some values of the four unknowns."""

from dataclasses import dataclass

import numpy as np

from faulttree.core.loop.curves import lengthened, used
from faulttree.core.loop.fluid import Floats, Fluid, Saturated


@dataclass(frozen=True, slots=True)
class Ends:
    """What flows in and out of the parts; arrays of shape (n,), in SI units.

    Attributes:
        boiling, condensing: saturation temperatures of the low and the high side.
        cold, hot: the refrigerant where it boils and where it condenses.
        drop, lift: how far they lie below the air at the evaporator, and above that outside.
        low, high: absolute pressures; the high one with that of air left in the loop.
        cooling, heating: transfer units where liquid is cooled, and vapour heated; below zero where
            mixture is left over.
        vapour_in, vapour_out: shares of vapour that leave condenser and evaporator.
        subcooling: of the liquid, below zero where mixture leaves the condenser.
        superheat: of the vapour, zero where mixture leaves the evaporator.
        leaving: enthalpy behind the evaporator.
        liquid: enthalpy behind the condenser.
    """

    boiling: Floats
    condensing: Floats
    cold: Saturated
    hot: Saturated
    drop: Floats
    lift: Floats
    low: Floats
    high: Floats
    cooling: Floats
    heating: Floats
    vapour_in: Floats
    vapour_out: Floats
    subcooling: Floats
    superheat: Floats
    leaving: Floats
    liquid: Floats


def ends(
    f: Fluid, boiling: Floats, condensing: Floats, drop: Floats, lift: Floats, more: Floats
) -> Ends:
    """What flows between the parts.

    Args:
        f: the refrigerant.
        boiling, condensing, drop, lift: as in Ends.
        more: the unknowns of cooling and heating, and the pressure that air adds [Pa].
    """
    cooling, heating = lengthened(more[0]), lengthened(more[1])
    cold, hot = f.saturated(boiling), f.saturated(condensing)
    vapour_in, offset = _behind_condenser(hot, lift, cooling)
    vapour_out, superheat, rise = _behind_evaporator(cold, drop, heating)
    return Ends(
        boiling,
        condensing,
        cold,
        hot,
        drop,
        lift,
        low=cold.pressure,
        high=hot.pressure + more[2],
        cooling=cooling,
        heating=heating,
        vapour_in=vapour_in,
        vapour_out=vapour_out,
        subcooling=-offset / hot.liquid_heat,
        superheat=superheat,
        leaving=cold.dry + rise,
        liquid=hot.liquid + offset,
    )


def _behind_condenser(hot: Saturated, lift: Floats, cooling: Floats) -> tuple[Floats, Floats]:
    """Share of vapour, and enthalpy above that of boiling liquid [J/kg].

    How much mixture is left over goes on with the slope that it has at the border.
    """
    vapour = -np.expm1(np.minimum(cooling, 0.0) * hot.liquid_heat * lift / hot.latent)
    offset = hot.latent * vapour - hot.liquid_heat * lift * used(cooling)
    return np.asarray(vapour), offset


def _behind_evaporator(
    cold: Saturated, drop: Floats, heating: Floats
) -> tuple[Floats, Floats, Floats]:
    """Share of vapour, its superheat [K], and enthalpy above that of dry vapour [J/kg].

    How much mixture is left over goes on with the slope that it has at the border.
    """
    vapour = np.exp(np.minimum(heating, 0.0) * cold.vapour_heat * drop / cold.latent)
    superheat = drop * used(heating)
    rise = cold.vapour_heat * superheat - cold.latent * (1.0 - vapour)
    return np.asarray(vapour), superheat, rise
