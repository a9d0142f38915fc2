"""What a chart of pressure and enthalpy shows: the saturation lines and one or two cycles.

Pressures are absolute, in pascals; enthalpies in joules per kilogram; temperatures in kelvins.
"""

import math
from dataclasses import dataclass

from faulttree.core.units import UnitSystem

POINT_NAMES = ("compressor in", "compressor out", "condenser out", "evaporator in")
"""The usual points of a cycle, in the order of the flow."""
_MOST_POINTS = 9


@dataclass(frozen=True, slots=True)
class CyclePoint:
    """The refrigerant at one place of the loop.

    Attributes:
        name: the place in words: `compressor in`.
        pressure: absolute pressure [Pa], above 0.
        enthalpy: specific enthalpy [J/kg].
        temperature: temperature [K]; None where it is not told.

    Raises:
        ValueError: a value is no number, or the pressure not above 0.
    """

    name: str
    pressure: float
    enthalpy: float
    temperature: float | None = None

    def __post_init__(self) -> None:
        _check(self.enthalpy, self.pressure)


@dataclass(frozen=True, slots=True)
class Cycle:
    """A cycle: its points in the order of the flow, the last joined to the first.

    Raises:
        ValueError: it has fewer than 3 points or more than 9.
    """

    name: str
    points: tuple[CyclePoint, ...]

    def __post_init__(self) -> None:
        if not 3 <= len(self.points) <= _MOST_POINTS:
            raise ValueError(f"a cycle has 3 to {_MOST_POINTS} points")

    @property
    def places(self) -> tuple[tuple[float, float], ...]:
        """The points as (enthalpy, pressure)."""
        return tuple((point.enthalpy, point.pressure) for point in self.points)


@dataclass(frozen=True, slots=True)
class PhChart:
    """A chart.

    Attributes:
        refrigerant: its name: `R-134a`.
        liquid, vapour: the saturation lines as (enthalpy, pressure), from low pressure to high;
            the dome is closed where both end at the critical point.
        cycle: the cycle of this car.
        healthy: a cycle to compare with; None without one.
        units: units that values are told in; the axes are in the first of them.
        notes: further lines: conditions, source, where enthalpy is counted from.

    Raises:
        ValueError: a value is no number, or a pressure not above 0.
    """

    refrigerant: str
    liquid: tuple[tuple[float, float], ...]
    vapour: tuple[tuple[float, float], ...]
    cycle: Cycle
    healthy: Cycle | None = None
    units: UnitSystem = UnitSystem.US
    notes: tuple[str, ...] = ()

    def __post_init__(self) -> None:
        for enthalpy, pressure in (*self.liquid, *self.vapour):
            _check(enthalpy, pressure)

    @property
    def cycles(self) -> tuple[Cycle, ...]:
        """The cycle of this car, then the healthy one where there is one."""
        return (self.cycle,) if self.healthy is None else (self.cycle, self.healthy)


def _check(enthalpy: float, pressure: float) -> None:
    if not (math.isfinite(enthalpy) and math.isfinite(pressure) and pressure > 0):
        raise ValueError("a point has an enthalpy and an absolute pressure above 0")
