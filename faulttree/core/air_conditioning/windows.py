"""What is usual for a good system, by the air outside: gauges, condensing split, vent.

The pressures are published for R-134a at sea level. Refrigerant follows absolute pressure, and the
air outside sets its temperatures, not its pressures: high up the absolute pressures stay as they
are and the gauges show more, by as much as the air there weighs less.
"""

from bisect import bisect_right
from collections.abc import Sequence
from dataclasses import dataclass
from typing import NamedTuple

from faulttree.core.atmosphere import Atmosphere
from faulttree.core.refrigerant.refrigerant import Refrigerant, properties
from faulttree.core.units import ZERO_C

Band = tuple[float, float]
"""Lowest and highest."""

PUBLISHED = "US Army TM 5-3805-291-23-1 table 1, R-134a, sea level"
_CALCULATED = f"calculated: same evaporating and condensing temperatures as in {PUBLISHED}"
SPLIT_SOURCE = f"calculated from {PUBLISHED}"
_VENT_SOURCE = "common practice, ±3 K"
_DRY_VENT_SOURCE = "US Army TM 9-2320-387-24-2, 21 °C and low humidity"

_AMBIENTS = (21.0, 27.0, 32.0, 38.0, 43.0)
"""Air outside in the rows [°C]: 70, 80, 90, 100 and 110 °F, rounded as printed."""
_HIGH_KPA: tuple[Band, ...] = ((820, 1300), (950, 1450), (1175, 1650), (1300, 1850), (1450, 2075))
_LOW_KPA: tuple[Band, ...] = ((70, 138), (70, 173), (105, 210), (105, 210), (105, 210))
_ROUNDED_K = 0.4
"""How far the rounding of the rows reaches: 110 °F is 43.3 °C, and belongs to the last one."""
USUAL_SPLIT_K: Band = (13.0, 32.0)
"""Least and most of the condensing split in the rows."""

_HUMIDITIES = (0.3, 0.5, 0.7)
_VENT_AMBIENTS = (27.0, 32.0, 38.0)
_VENT_C: tuple[tuple[Band, Band, Band], ...] = (
    ((7, 11), (9, 14), (12, 17)),
    ((9, 14), (13, 18), (17, 22)),
    ((12, 18), (17, 23), (22, 28)),
)
"""Air from the vent [°C], a row for each air outside, a column for each humidity."""
_DRY_AMBIENT, _DRY_VENT_C = 21.0, (4.0, 10.0)

GAUGES_KNOWN: Band = (ZERO_C + _AMBIENTS[0], ZERO_C + _AMBIENTS[-1])
"""Air outside that the rows of both gauges reach over [K]."""
VENT_KNOWN: Band = (ZERO_C + _VENT_AMBIENTS[0], ZERO_C + _VENT_AMBIENTS[-1])
"""Air outside that the figures for the vent reach over [K]."""
DRY_VENT_FROM = ZERO_C + _DRY_AMBIENT
"""Air outside from which there is a figure for the vent in dry air [K]."""
DRY, DAMPEST = _HUMIDITIES[0], _HUMIDITIES[-1]
"""Relative humidity up to which air counts as dry, and up to which there are figures."""


@dataclass(frozen=True, slots=True)
class GaugeWindow:
    """Between what both gauges of a good system usually read.

    Attributes:
        low: low side, lowest and highest [Pa gauge].
        high: high side, lowest and highest [Pa gauge].
        source: where the figures come from.
    """

    low: Band
    high: Band
    source: str


class Window(NamedTuple):
    """Between what a figure of a good system usually lies; SI, temperatures in kelvins."""

    low: float
    high: float
    source: str


def gauge_window(
    refrigerant: Refrigerant, ambient: float, atmosphere: Atmosphere | None = None
) -> GaugeWindow | None:
    """What both gauges usually read with air of a temperature [K] at the condenser.

    Straight lines between the rows of the table. For another refrigerant the pressures are those
    that have the same saturation temperatures.

    Args:
        refrigerant: what is in the system.
        ambient: air at the condenser [K].
        atmosphere: the air outside where the gauges hang; sea level if not given.

    Returns:
        Nothing below 21 °C and above 43 °C: nothing is published there.
    """
    row = _row(ambient, _AMBIENTS)
    if row is None:
        return None
    here = atmosphere or Atmosphere()
    low, high = (_band(table, *row) for table in (_LOW_KPA, _HIGH_KPA))
    return GaugeWindow(
        _read(low, refrigerant, here),
        _read(high, refrigerant, here),
        PUBLISHED if refrigerant is Refrigerant.R134A else _CALCULATED,
    )


def condensing_split_window(ambient: float) -> Window | None:
    """By how much the condensing temperature usually lies above the air at the condenser [K].

    13 to 32 K: the least and the most in all rows of the table, whose saturation temperatures are
    compared with the air outside. It is the same for every refrigerant and altitude.

    Returns:
        Nothing where the table holds nothing for an `ambient` [K].
    """
    return Window(*USUAL_SPLIT_K, SPLIT_SOURCE) if _row(ambient, _AMBIENTS) else None


def vent_window(ambient: float, humidity: float) -> Window | None:
    """Air that a good system usually gives at the vent [K]: coldest, blower high, fresh air.

    Straight lines between the figures in both directions. Air drier than 30 % is taken as 30 %.
    Below 27 °C there is but one figure, for dry air at 21 °C.

    Args:
        ambient: the air that goes in [K].
        humidity: its relative humidity, 0 to 1.

    Returns:
        Nothing where there is no figure.
    """
    damp = max(humidity, _HUMIDITIES[0])
    row, column = _row(ambient, _VENT_AMBIENTS), _between(damp, _HUMIDITIES)
    if column is None:
        return None
    if row is not None:
        bands = [_band(each, *column) for each in _VENT_C]
        return _kelvin(_band(bands, *row), _VENT_SOURCE)
    if humidity > _HUMIDITIES[0]:
        return None
    dry = _row(ambient, (_DRY_AMBIENT, _VENT_AMBIENTS[0]))
    if dry is None:
        return None
    source = _DRY_VENT_SOURCE if dry[1] == 0 else f"{_DRY_VENT_SOURCE}; at 27 °C {_VENT_SOURCE}"
    return _kelvin(_band((_DRY_VENT_C, _VENT_C[0][0]), *dry), source)


def _read(band: Band, refrigerant: Refrigerant, here: Atmosphere) -> Band:
    """What gauges here show of a band of the table [kPa gauge, R-134a, sea level]."""
    low, high = (_as_good(Atmosphere().absolute(kpa * 1e3), refrigerant) for kpa in band)
    return here.gauge(low), here.gauge(high)


def _as_good(absolute: float, refrigerant: Refrigerant) -> float:
    """The pressure of a refrigerant that boils as hot as R-134a at a pressure [Pa absolute]."""
    if refrigerant is Refrigerant.R134A:
        return absolute
    return properties(refrigerant).pressure(properties(Refrigerant.R134A).temperature(absolute))


def _row(ambient: float, celsius: Sequence[float]) -> tuple[int, float] | None:
    """The row before a temperature [K], and how far it lies towards the next one."""
    at = ambient - ZERO_C
    near = min(max(at, celsius[0]), celsius[-1])
    return _between(near, celsius) if abs(at - near) <= _ROUNDED_K else None


def _between(at: float, marks: Sequence[float]) -> tuple[int, float] | None:
    """The mark before a number, and how far it lies towards the next one, 0 to 1."""
    if not marks[0] <= at <= marks[-1]:
        return None
    before = min(bisect_right(marks, at), len(marks) - 1) - 1
    return before, (at - marks[before]) / (marks[before + 1] - marks[before])


def _band(bands: Sequence[Band], before: int, share: float) -> Band:
    """The band between two of them."""
    (low, high), (next_low, next_high) = bands[before : before + 2]
    return low + share * (next_low - low), high + share * (next_high - high)


def _kelvin(celsius: Band, source: str) -> Window:
    return Window(celsius[0] + ZERO_C, celsius[1] + ZERO_C, source)
