"""The axes of a chart of pressure and enthalpy: log pressure upwards, enthalpy to the right."""

import math
from collections.abc import Sequence
from dataclasses import dataclass

from faulttree.core.units import BTU_PER_LB, Quantity, UnitSystem, display_units
from faulttree.render.axis import even_steps, log_steps
from faulttree.render.ph_cycle import PhChart

_MARGIN = 0.04
_SMALLEST_SPAN = 1e4, 0.1
"""Axes are not stretched beyond these, in J/kg and in the logarithm of the pressure."""


@dataclass(frozen=True, slots=True)
class PhAxes:
    """The ends of both axes [J/kg, ln Pa] and the units they are labelled in."""

    left: float
    right: float
    bottom: float
    top: float
    units: UnitSystem

    def x(self, enthalpy: float) -> float:
        """How far to the right an enthalpy lies, 0 to 1."""
        return (enthalpy - self.left) / (self.right - self.left)

    def y(self, pressure: float) -> float:
        """How far up an absolute pressure lies, 0 to 1."""
        return (math.log(pressure) - self.bottom) / (self.top - self.bottom)

    @property
    def enthalpy_unit(self) -> str:
        """The unit of the enthalpy axis."""
        return enthalpy_units(self.units)[0][0]

    @property
    def pressure_unit(self) -> str:
        """The unit of the pressure axis."""
        return display_units(Quantity.ABSOLUTE_PRESSURE, self.units)[0].symbol

    def enthalpy_ticks(self, most: int) -> list[tuple[float, str]]:
        """Round enthalpies [J/kg] with their labels, `most` at most."""
        factor = enthalpy_units(self.units)[0][1]
        steps = even_steps(self.left / factor, self.right / factor, most)
        return [(step * factor, f"{step:g}") for step in steps]

    def pressure_ticks(self) -> list[tuple[float, str]]:
        """Round pressures [Pa] with their labels."""
        unit = display_units(Quantity.ABSOLUTE_PRESSURE, self.units)[0]
        low, high = (unit.from_si(math.exp(end)) for end in (self.bottom, self.top))
        return [(unit.to_si(step), f"{step:,.10g}") for step in log_steps(low, high)]


def axes_for(chart: PhChart) -> PhAxes:
    """Axes that hold everything the chart draws, with a little room around."""
    places = [*chart.liquid, *chart.vapour, *(p for c in chart.cycles for p in c.places)]
    enthalpies, logs = [h for h, _ in places], [math.log(p) for _, p in places]
    across, up = (_ends(e, s) for e, s in zip((enthalpies, logs), _SMALLEST_SPAN, strict=True))
    return PhAxes(*across, *up, chart.units)


def enthalpy_units(units: UnitSystem) -> tuple[tuple[str, float, int], ...]:
    """The units of specific enthalpy wanted: symbol, size [J/kg], decimals shown."""
    us, metric = ("Btu/lb", BTU_PER_LB, 1), ("kJ/kg", 1e3, 0)
    return {
        UnitSystem.US: (us,),
        UnitSystem.METRIC: (metric,),
        UnitSystem.BOTH: (us, metric),
    }[units]


def _ends(values: Sequence[float], smallest: float) -> tuple[float, float]:
    low, high = min(values), max(values)
    room = max(_MARGIN * (high - low), (smallest - (high - low)) / 2)
    return low - room, high + room
