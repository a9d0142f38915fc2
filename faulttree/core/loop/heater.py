"""The heater: coolant through its core, and the air that the blend door sends through it."""

import math
from dataclasses import dataclass

from faulttree.core.loop.air import HEAT

WATER_HEAT = 3600.0
"""Heat capacity of coolant, half water and half glycol, at 80 °C [J/(kg K)]; from memory."""


@dataclass(frozen=True, slots=True)
class Heater:
    """A heater core and what goes through it.

    Attributes:
        coolant: temperature of the coolant at its inlet [K].
        flow: coolant through it [kg/s]; zero where nothing flows.
        air: through it with the door on hot [kg/s].
        conductance: of a clean core at full flow [W/K].
    """

    coolant: float
    flow: float = 0.15
    air: float = 0.10
    conductance: float = 160.0


@dataclass(frozen=True, slots=True)
class Heat:
    """What a heater does.

    Attributes:
        gain: how far the air comes towards the temperature of the coolant, 0 to 1.
        air: temperature of the air behind it [K].
        outlet: temperature of the outlet hose [K].
    """

    gain: float
    air: float
    outlet: float


def heated(heater: Heater, entering: float) -> Heat:
    """Air of a temperature [K] sent through a heater core.

    Effectiveness of a cross-flow exchanger, both sides unmixed, in its usual approximation
    (Incropera and DeWitt, Fundamentals of Heat and Mass Transfer, chapter 11, from memory).
    """
    by_air, by_coolant = HEAT * heater.air, WATER_HEAT * heater.flow
    if by_coolant < 1e-3:
        return Heat(0.0, entering, entering)
    small, large = min(by_air, by_coolant), max(by_air, by_coolant)
    units, ratio = heater.conductance / small, small / large
    grown = math.exp(-ratio * units**0.78) - 1.0
    effective = 1.0 - math.exp(units**0.22 / ratio * grown)
    watts = effective * small * (heater.coolant - entering)
    gain = effective * small / by_air
    return Heat(gain, entering + watts / by_air, heater.coolant - watts / by_coolant)
