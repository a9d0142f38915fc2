"""A refrigerant loop as it was built, and how it is run for one look."""

import math
from dataclasses import dataclass
from enum import StrEnum

from faulttree.core.atmosphere import SEA_LEVEL_PA
from faulttree.core.refrigerant.refrigerant import Refrigerant


class Metering(StrEnum):
    """What lets liquid into the evaporator. The value of a member is its name in a document."""

    VALVE = "expansion-valve"
    TUBE = "orifice-tube"


@dataclass(frozen=True, slots=True)
class Loop:
    """A loop as it left the works. Figures without a source are those of common size.

    Attributes:
        refrigerant: what it was built for.
        charge: on the label [kg].
        metering: expansion valve with receiver-drier, or orifice tube with accumulator.
        displacement: of the compressor, each turn of its shaft [m3].
        superheat: above which the valve opens [K].
        condenser_air: mass flow at full airflow [kg/s].
        condenser_units: heat transfer units of the condenser then: conductance over the heat
            capacity flow of the air.
        evaporator_air, evaporator_units: the same for the evaporator with the blower on high.
        vessel: volume of receiver or accumulator beside that of all coils and pipes; None for one
            of common size.
    """

    refrigerant: Refrigerant = Refrigerant.R134A
    charge: float = 0.8
    metering: Metering = Metering.VALVE
    displacement: float = 160e-6
    superheat: float = 5.0
    condenser_air: float = 0.5
    condenser_units: float = 1.6
    evaporator_air: float = 0.144
    evaporator_units: float = 1.3
    vessel: float | None = None


@dataclass(frozen=True, slots=True)
class Run:
    """How a loop is run, and what is wrong with it.

    Attributes:
        ambient: temperature of the air outside, at the condenser [K].
        humidity: relative, 0 to 1, of the air at the evaporator.
        entering: temperature of the air at the evaporator [K]; None for the air outside.
        atmosphere: pressure of the air outside [Pa].
        speed: turns of the compressor's shaft each second [1/s].
        condenser_air, evaporator_air: share of the full airflow, 1 for all of it.
        charged_with: the refrigerant in it; None for the one it was built for.
        charge: refrigerant in it, as a share of the label.
        air: air left in it, as a share of what fills it when it stands open.
        restriction: share of the liquid line's free area that is blocked.
        valve_held: how far the valve stands open, 0 to 1, where it no longer follows; None else.
        metering_area: share of the valve's or tube's area that is free.
        leak: gas that the compressor lets back from its high side, 1 for plainly worn valves.
        slip: share of turns that the clutch loses.
        through_heater: share of the air that goes through the heater core.
        heater_gain: how far the core brings that air towards the coolant's temperature, 0 to 1.
        coolant: temperature of the coolant [K].
    """

    ambient: float = 303.15
    humidity: float = 0.5
    entering: float | None = None
    atmosphere: float = SEA_LEVEL_PA
    speed: float = 30.0
    condenser_air: float = 1.0
    evaporator_air: float = 1.0
    charged_with: Refrigerant | None = None
    charge: float = 1.0
    air: float = 0.0
    restriction: float = 0.0
    valve_held: float | None = None
    metering_area: float = 1.0
    leak: float = 0.0
    slip: float = 0.0
    through_heater: float = 0.0
    heater_gain: float = 0.9
    coolant: float = 363.15

    def mixed(self, air: float) -> float:
        """Temperature of air [K] once a part of it has gone through the heater core."""
        return air + self.through_heater * self.heater_gain * (self.coolant - air)

    @property
    def inlet(self) -> float:
        """Temperature of the air at the evaporator [K]."""
        return self.ambient if self.entering is None else self.entering


@dataclass(frozen=True, slots=True)
class Corner:
    """Refrigerant at one corner of the cycle: absolute pressure [Pa] and enthalpy [J/kg]."""

    pressure: float
    enthalpy: float


@dataclass(frozen=True, slots=True)
class Readings:
    """What instruments show on a loop.

    Attributes:
        low_side, high_side: gauge pressure at the service ports [Pa].
        evaporator_in, suction_pipe, discharge_pipe, liquid_pipe: temperature of the pipes at the
            evaporator's inlet and outlet and behind compressor and condenser [K].
        valve_in: temperature of the liquid line behind a restriction, just before the valve [K].
        fin: of the coldest fins of the evaporator [K].
        vent: of the air at the middle vent [K].
        superheat, subcooling: true ones, zero where the pipe carries a mixture [K].
        flow: of refrigerant [kg/s].
        capacity: heat taken out of the air [W].
        power: on the compressor's shaft [W].
        is_beyond: the high side would rise further than the tables hold; a relief valve would blow.
        corners: compressor in and out, condenser out, evaporator in; empty where nothing flows.
    """

    low_side: float
    high_side: float
    evaporator_in: float
    suction_pipe: float
    discharge_pipe: float
    liquid_pipe: float
    valve_in: float
    fin: float
    vent: float
    superheat: float = math.nan
    subcooling: float = math.nan
    flow: float = 0.0
    capacity: float = 0.0
    power: float = 0.0
    is_beyond: bool = False
    corners: tuple[Corner, ...] = ()
