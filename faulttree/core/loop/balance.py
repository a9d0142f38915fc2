"""The balances of mass, heat and charge that a running loop settles at, for many loops at once.

Four unknowns describe a loop: how far it boils below and condenses above the air, how far liquid is
cooled below saturation, and how far vapour is heated above it. Each is stretched so that any number
is allowed: the first two between nothing and all that the tables know, the others as lengths of
heat exchanger in transfer units, where a negative one stands for liquid, or vapour, left over.

Heat exchangers: effectiveness by transfer units, one side at constant temperature (Incropera and
DeWitt, Fundamentals of Heat and Mass Transfer, chapter 11). Wet coil: enthalpy of the air against
that of saturated air at the coil (ASHRAE Handbook Fundamentals, chapter on mass transfer). Void
fraction: Zivi 1964. Laws from memory where no edition is named. Other figures: of common size,
chosen so that a healthy car reads within the published windows.
"""

import math
from collections.abc import Sequence
from copy import copy
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from faulttree.core.loop import air
from faulttree.core.loop.fluid import ZERO_C, Floats, fluid
from faulttree.core.loop.parts import Loop, Metering, Run

CLEARANCE, FILLING, STRAIN, FULL_SPEED = 0.05, 0.92, 0.06, 30.0
"""Of the compressor: dead space by swept volume, share that heated gas leaves, loss with speed."""
EFFICIENCY = 0.68
"""Ideal work by shaft work."""
_REEXPANSION = 1.12
_MOST_RISE = 110e3
"""Most that a compressor heats its gas [J/kg]; above it the oil burns."""
LEAK_AREA = 3e-6
"""Open area of plainly worn compressor valves [m2]."""
COILS = {"condenser": 0.60, "liquid line": 0.10, "evaporator": 0.55, "suction line": 0.35}
VESSEL = {Metering.VALVE: 0.30, Metering.TUBE: 0.35}
"""Volumes in proportion: coils and pipes, and receiver or accumulator."""
KEPT_BELOW, KEPT_WIDTH = 5.0, 1.5
"""Where a receiver is half full, the liquid leaving it is so much below saturation; how sharply it
fills and drains [K]."""
NOMINAL_OPENING, STEEPNESS = 0.6, 4.0
"""How far the valve of a new car stands open; how sharply it answers superheat."""
_TUBE_SUBCOOLING, _TUBE_GAIN = 8.0, 0.02
_LIQUID_SIDE, _VAPOUR_SIDE = 0.7, 0.35
"""Transfer units where pure liquid or vapour flows, by those where it boils or condenses."""
_LEAST = 1e-6
_RELIEF_K = 2.0
"""Below the hottest row of the table, where the compressor is taken to give up [K]."""


@dataclass(frozen=True, slots=True)
class Sized:
    """A loop with what its label leaves open: area of its valve or tube, and its volume."""

    loop: Loop
    area: float = 1.0
    volume: float = 1.0


@dataclass(frozen=True, slots=True)
class Settled:
    """Everything about loops for some unknowns; arrays of shape (n,), in SI units.

    `boiling`, `condensing`: saturation temperatures. `low`, `high`: absolute pressures.
    `h1` to `h3`: enthalpy before and behind the compressor and behind the condenser. `wet_out`,
    `wet_in`: shares of vapour at the ends of evaporator and condenser. `level`: of the vessel.
    `valve_pressure`: absolute, behind the liquid line.
    """

    boiling: Floats
    condensing: Floats
    low: Floats
    high: Floats
    flow: Floats
    work: Floats
    h1: Floats
    h2: Floats
    h3: Floats
    superheat: Floats
    subcooling: Floats
    drop: Floats
    boiling_share: Floats
    hot_share: Floats
    level: Floats
    charge: Floats
    metered: Floats
    valve_pressure: Floats
    off: Floats


class Balance:
    """Loops with one refrigerant in them, built for one, with how they are run."""

    def __init__(self, sized: Sequence[Sized], runs: Sequence[Run]) -> None:
        """Arrays of both; the first ones say which refrigerant is in all of them."""
        self._loops = [each.loop for each in sized]
        self._bulb = fluid(self._loops[0].refrigerant)
        self.fluid = fluid(runs[0].charged_with or self._loops[0].refrigerant)
        self._area = np.array([each.area for each in sized])
        self._volume = np.array([each.volume for each in sized])
        self._label = self._of_loop("charge")
        self._is_tube = np.array([loop.metering is Metering.TUBE for loop in self._loops])
        self._vessel = np.array([vessel_of(loop) for loop in self._loops])
        self._swept = self._of_loop("displacement")
        self._spring = np.array([_spring(loop) for loop in self._loops])
        self.ambient = np.array([run.ambient for run in runs])
        self._inlet = np.array([run.inlet for run in runs])
        self.atmosphere = np.array([run.atmosphere for run in runs])
        self._charge = np.array([run.charge for run in runs])
        self._air = np.array([run.air for run in runs])
        self._blocked = np.array([run.restriction for run in runs])
        self._turns = np.array([run.speed * (1.0 - run.slip) for run in runs])
        self._speed = np.array([run.speed for run in runs])
        self._held_open = np.array([run.valve_held for run in runs])
        self._free = np.array([run.metering_area for run in runs])
        self._leak = np.array([run.leak for run in runs])
        self._condenser(runs)
        self._evaporator(runs)

    def part(self, which: NDArray[np.intp]) -> "Balance":
        """Some of them."""
        found = copy(self)
        for name, value in vars(self).items():
            if isinstance(value, np.ndarray):
                setattr(found, name, value[which])
        return found

    def settled(self, unknowns: Floats) -> Settled:
        """The loops for some unknowns, shape (4, n); `off` says how far each balance is missed."""
        below, above = unknowns[0], unknowns[1]
        cooling, heating = _lengthened(unknowns[2]), _lengthened(unknowns[3])
        f = self.fluid
        drop, lift = self.drop(below), self.lift(above)
        boiling, condensing = self._inlet - drop, self.ambient + lift
        low, saturated = f.pressure(boiling), f.pressure(condensing)
        high = saturated + self._of_air(condensing)

        liquid_heat, vapour_heat = f.liquid_heat(condensing), f.vapour_heat(boiling)
        latent_low = f.dry(boiling) - f.liquid(boiling)
        latent_high = f.dry(condensing) - f.liquid(condensing)
        # Where mixture is left over, how much goes on with the slope that it has at the border.
        vapour_in = -np.expm1(np.minimum(cooling, 0.0) * liquid_heat * lift / latent_high)
        offset = latent_high * vapour_in - liquid_heat * lift * _used(cooling)
        vapour_out = np.exp(np.minimum(heating, 0.0) * vapour_heat * drop / latent_low)
        superheat = drop * _used(heating)
        rise = vapour_heat * superheat - latent_low * (1.0 - vapour_out)
        h3, leaving = f.liquid(condensing) + offset, f.dry(boiling) + rise

        # An accumulator keeps liquid back; the compressor breathes what is nearly dry.
        breathed = np.where(self._is_tube, np.maximum(vapour_out, 0.98), vapour_out)
        h1 = np.where(self._is_tube, f.dry(boiling) + np.maximum(rise, -0.02 * latent_low), leaving)
        density = f.dry_density(boiling) * boiling / (boiling + superheat) / breathed
        flow, work = self._compressed(low, high, density, condensing)
        h2 = h1 + work / flow
        metered, line_loss = self._metered(
            boiling + superheat, low, high, vapour_in, condensing, offset
        )

        filled, cooled = self._condensed(flow, h2, h3, lift, liquid_heat, cooling, condensing)
        boiled, heated = self._evaporated(flow, h3, leaving, boiling, vapour_heat, heating, drop)
        level = np.where(
            self._is_tube,
            _sigmoid(-rise / vapour_heat),
            _sigmoid((-offset / liquid_heat - KEPT_BELOW) / KEPT_WIDTH),
        )
        charge = self._inventory(
            boiling,
            condensing,
            vapour_in,
            vapour_out,
            h3,
            cooled / (filled + cooled),
            heated / (boiled + heated),
            density,
            level,
        )
        off = np.array(
            [
                np.log(flow / metered),
                filled + cooled - 1.0,
                boiled + heated - 1.0,
                np.log(np.maximum(charge, _LEAST) / (self._label * self._charge)),
            ]
        )
        return Settled(
            boiling, condensing, low, high, flow, work, h1, h2, h3,
            superheat, -offset / liquid_heat,
            drop, boiled, heated, level, charge, metered, high - line_loss, off,
        )  # fmt: skip

    def drop(self, unknown: Floats) -> Floats:
        """How far it boils below the air at the evaporator [K]; never colder than is known."""
        return np.asarray((self._inlet - self.fluid.coldest - 2.0) * _sigmoid(unknown))

    def lift(self, unknown: Floats) -> Floats:
        """How far it condenses above the air outside [K]; never hotter than is known."""
        return np.asarray((self.fluid.hottest - 0.5 - self.ambient) * _sigmoid(unknown))

    def coil_out(self, at: Settled) -> Floats:
        """Temperature of the air behind the evaporator [K]."""
        cooled = np.clip(at.boiling_share, 0.0, 1.0) * self._effective * at.drop
        by_vapour = np.maximum(at.h1 - self.fluid.dry(at.boiling), 0.0) * at.flow
        return np.asarray(self._inlet - cooled - by_vapour / (air.HEAT * self._cold_air))

    def _of_loop(self, name: str) -> Floats:
        return np.array([getattr(loop, name) for loop in self._loops])

    def _condenser(self, runs: Sequence[Run]) -> None:
        share = np.array([run.condenser_air for run in runs])
        units = self._of_loop("condenser_units") * share**-0.5
        self._rejecting = air.HEAT * self._of_loop("condenser_air") * share
        self._condensing = self._rejecting * (1.0 - np.exp(-units))
        self._cooling = self._rejecting * (1.0 - np.exp(-_LIQUID_SIDE * units))

    def _evaporator(self, runs: Sequence[Run]) -> None:
        share = np.array([run.evaporator_air for run in runs])
        units = self._of_loop("evaporator_units") * share**-0.45
        self._cold_air = self._of_loop("evaporator_air") * share
        self._effective = 1.0 - np.exp(-units)
        self._heating = air.HEAT * self._cold_air * (1.0 - np.exp(-_VAPOUR_SIDE * units))
        humidity = np.array([run.humidity for run in runs])
        mixed = air.water(self._inlet, humidity, self.atmosphere)
        self._entering = air.enthalpy(self._inlet, mixed)

    def _of_air(self, condensing: Floats) -> Floats:
        """Partial pressure of air that was left in; all of it gathers on the high side [Pa]."""
        whole = sum(COILS.values()) + self._vessel
        high_side = 0.6 * COILS["condenser"] + np.where(self._is_tube, 0.1, 0.5 * self._vessel)
        return np.asarray(
            self._air * self.atmosphere * whole / high_side * condensing / (ZERO_C + 20.0)
        )

    def _compressed(
        self, low: Floats, high: Floats, density: Floats, condensing: Floats
    ) -> tuple[Floats, Floats]:
        """Flow that gets through [kg/s] and work on the shaft [W]."""
        ratio, power = high / low, (self.fluid.exponent - 1.0) / self.fluid.exponent
        filled = FILLING * (1.0 + CLEARANCE - CLEARANCE * ratio ** (1.0 / _REEXPANSION))
        filled = filled * (1.0 - STRAIN * (self._speed / FULL_SPEED - 1.0))
        gives_up = _sigmoid((condensing - (self.fluid.hottest - _RELIEF_K)) / 0.5)
        swept = density * self._swept * self._turns
        drawn = np.maximum(filled, 0.02) * swept * (1.0 - 0.99 * gives_up)
        gas = self.fluid.dry_density(condensing)
        back = self._leak * LEAK_AREA * np.sqrt(2.0 * gas * np.maximum(high - low, 1.0))
        flow = drawn**2 / (drawn + back) + _LEAST
        each = low / density / power * (ratio**power - 1.0) / EFFICIENCY
        return flow, np.minimum(each * drawn, _MOST_RISE * flow)

    def _metered(
        self,
        suction: Floats,
        low: Floats,
        high: Floats,
        vapour_in: Floats,
        condensing: Floats,
        offset: Floats,
    ) -> tuple[Floats, Floats]:
        """Flow through line and valve or tube [kg/s], and the pressure lost in the line [Pa]."""
        f = self.fluid
        density = 1.0 / (
            vapour_in / f.dry_density(condensing) + (1.0 - vapour_in) / f.liquid_density(condensing)
        )
        subcooling = np.maximum(-offset / f.liquid_heat(condensing), 0.0)
        gain = np.where(self._is_tube, 1.0 + _TUBE_GAIN * subcooling, 1.0)
        free = self._area * self._opening(suction, low) * self._free * gain
        line = self._area * LINE_AREA * (1.0 - self._blocked)
        area = 1.0 / np.sqrt(1.0 / free**2 + 1.0 / line**2)
        driving = np.maximum(high - low, 1.0)
        return area * np.sqrt(density * driving), (area / line) ** 2 * driving

    def _opening(self, suction: Floats, low: Floats) -> Floats:
        """How far the valve stands open: by the pressure in its bulb against spring and suction."""
        bulb = self._bulb.pressure(suction)
        answer = _sigmoid(STEEPNESS * ((bulb - low) / self._spring - 1.0) - _AT_NOMINAL)
        follows = 0.02 + 0.98 * answer
        held = np.where(np.isnan(self._held_open), follows, np.maximum(self._held_open, 0.005))
        return np.where(self._is_tube, 1.0, held)

    def _condensed(
        self,
        flow: Floats,
        h2: Floats,
        h3: Floats,
        lift: Floats,
        liquid_heat: Floats,
        cooling: Floats,
        condensing: Floats,
    ) -> tuple[Floats, Floats]:
        """Shares of the condenser that are needed to condense, and to cool the liquid."""
        heat = flow * (h2 - np.maximum(h3, self.fluid.liquid(condensing)))
        to_condense = heat / (self._condensing * lift)
        to_cool = flow * liquid_heat / self._cooling * np.maximum(cooling, 0.0)
        return to_condense, to_cool

    def _evaporated(
        self,
        flow: Floats,
        h3: Floats,
        leaving: Floats,
        boiling: Floats,
        vapour_heat: Floats,
        heating: Floats,
        drop: Floats,
    ) -> tuple[Floats, Floats]:
        """Shares of the evaporator that are needed to boil the liquid, and to heat the vapour."""
        wet = self._entering - air.saturated(boiling, self.atmosphere)
        whole = self._cold_air * self._effective * np.maximum(wet, air.HEAT * drop)
        heat = flow * (np.minimum(leaving, self.fluid.dry(boiling)) - h3)
        to_heat = flow * vapour_heat / self._heating * np.maximum(heating, 0.0)
        return heat / whole, to_heat

    def _inventory(
        self,
        boiling: Floats,
        condensing: Floats,
        vapour_in: Floats,
        vapour_out: Floats,
        h3: Floats,
        cooled: Floats,
        heated: Floats,
        suction_density: Floats,
        level: Floats,
    ) -> Floats:
        """Refrigerant in all parts [kg]."""
        f = self.fluid
        gas_high, liquid_high = f.dry_density(condensing), f.liquid_density(condensing)
        gas_low, liquid_low = f.dry_density(boiling), f.liquid_density(boiling)
        slip_high, slip_low = (gas_high / liquid_high) ** (2 / 3), (gas_low / liquid_low) ** (2 / 3)
        void = _mean_void(np.ones_like(vapour_in), vapour_in, slip_high)
        mixed = liquid_high * (1.0 - void) + gas_high * void
        condenser = (1.0 - cooled) * mixed + cooled * liquid_high
        in_line = vapour_in / (vapour_in + slip_high * (1.0 - vapour_in))
        line = liquid_high * (1.0 - in_line) + gas_high * in_line
        entering = np.clip((h3 - f.liquid(boiling)) / (f.dry(boiling) - f.liquid(boiling)), 0, 0.98)
        void = _mean_void(entering, vapour_out, slip_low)
        boiled = liquid_low * (1.0 - void) + gas_low * void
        evaporator = (1.0 - heated) * boiled + heated * gas_low
        liquid = np.where(self._is_tube, liquid_low, liquid_high)
        gas = np.where(self._is_tube, gas_low, gas_high)
        vessel = level * liquid + (1.0 - level) * gas
        whole = (
            COILS["condenser"] * condenser
            + COILS["liquid line"] * line
            + COILS["evaporator"] * evaporator
            + COILS["suction line"] * suction_density
            + self._vessel * vessel
        )
        return np.asarray(whole * self._volume * 1e-3)


LINE_AREA = 6.0
"""Flow area of a free liquid line, beside that of valve or tube."""
_AT_NOMINAL = -float(np.log(NOMINAL_OPENING / (1 - NOMINAL_OPENING)))
NOMINAL_SUPERHEAT = {Metering.VALVE: 6.0, Metering.TUBE: 0.05}
NOMINAL_SUBCOOLING = {Metering.VALVE: KEPT_BELOW, Metering.TUBE: _TUBE_SUBCOOLING}
"""What a new car settles at in the test run that its sizes are taken from [K]."""


def vessel_of(loop: Loop) -> float:
    """Volume of the receiver or accumulator, beside that of the coils and pipes."""
    return VESSEL[loop.metering] if math.isnan(loop.vessel) else loop.vessel


def _spring(loop: Loop) -> float:
    """Pressure that the spring of the valve stands for [Pa]."""
    bulb = fluid(loop.refrigerant)
    zero = np.array(ZERO_C)
    return float(bulb.pressure(zero + loop.superheat) - bulb.pressure(zero))


def _lengthened(unknown: Floats) -> Floats:
    """Transfer units by an unknown: the same below one, growing fast above; any length is near."""
    return np.where(unknown > 1.0, np.exp(np.minimum(unknown, 12.0) - 1.0), unknown)


def _used(length: Floats) -> Floats:
    """How much of the way to the air's temperature a stretch of heat exchanger goes, 0 to 1."""
    return np.asarray(-np.expm1(-np.maximum(length, 0.0)))


def _sigmoid(x: Floats) -> Floats:
    return 1.0 / (1.0 + np.exp(-np.clip(x, -40.0, 40.0)))


def _mean_void(start: Floats, end: Floats, slip: Floats) -> Floats:
    """Mean share of volume that is vapour between two shares of vapour by mass."""
    low, high = np.minimum(start, end), np.maximum(start, end)
    high = np.maximum(high, low + 1e-4)
    slip = np.minimum(slip, 0.9)

    def integral(x: Floats) -> Floats:
        rest = 1.0 - slip
        return np.asarray(x / rest - slip / rest**2 * np.log(slip + rest * x))

    return np.asarray((integral(high) - integral(low)) / (high - low))
