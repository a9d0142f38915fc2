"""What two pressure gauges show: their scales, what is expected today, and what was read.

All pressures are gauge pressures in pascals; below 0 is vacuum.
"""

import math
from collections.abc import Callable
from dataclasses import dataclass

from faulttree.core.units import Quantity, UnitSystem, display_units
from faulttree.render.axis import even_steps

Saturation = Callable[[float], float | None]
"""Saturation temperature [K] at a gauge pressure [Pa]; None where there is none."""
_MOST_TICKS = 9


@dataclass(frozen=True, slots=True)
class Tick:
    """A place on a scale [Pa] and its labels, one for each row of the scale: `30`, `35`."""

    at: float
    labels: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class GaugeScale:
    """A linear scale of pressure.

    Attributes:
        low_end, high_end: its ends [Pa]; a low end below 0 makes it a scale with vacuum.
        row_names: what each row of labels is: `psi`, `°F`.
        ticks: its ticks; those beyond its ends are not drawn.

    Raises:
        ValueError: the ends are not in order, or a tick has not one label for each row.
    """

    low_end: float
    high_end: float
    row_names: tuple[str, ...] = ()
    ticks: tuple[Tick, ...] = ()

    def __post_init__(self) -> None:
        _all_numbers("scale", self.low_end, self.high_end, *(tick.at for tick in self.ticks))
        if not self.low_end < self.high_end:
            raise ValueError("the scale of a gauge begins below its end")
        if any(len(tick.labels) != len(self.row_names) for tick in self.ticks):
            raise ValueError("a tick has one label for each row of the scale")

    def share(self, value: float) -> float:
        """How far along the scale a pressure lies: 0 at its low end, 1 at its high end."""
        return (value - self.low_end) / (self.high_end - self.low_end)

    def holds(self, value: float) -> bool:
        """Whether a pressure lies on the scale."""
        return self.low_end <= value <= self.high_end

    @property
    def drawn_ticks(self) -> tuple[Tick, ...]:
        """The ticks that lie on the scale."""
        return tuple(tick for tick in self.ticks if self.holds(tick.at))


@dataclass(frozen=True, slots=True)
class Expected:
    """The pressures expected today, both ends among them [Pa], and where they are published.

    Raises:
        ValueError: the ends are not in order.
    """

    low: float
    high: float
    source: str = ""

    def __post_init__(self) -> None:
        _all_numbers("expected pressure", self.low, self.high)
        if self.low > self.high:
            raise ValueError("the lower end of what is expected is not above its upper end")


@dataclass(frozen=True, slots=True)
class GaugeReading:
    """A pressure read from a gauge.

    Attributes:
        value: what was read [Pa].
        error: its limit of error [Pa]; 0 where none is stated.
        step: smallest step of the reading [Pa], so that no more digits are shown; 0 if unknown.
        note: what is said beside it: `R-134a boils at 34 °F`.

    Raises:
        ValueError: one of them is no number.
    """

    value: float
    error: float = 0.0
    step: float = 0.0
    note: str = ""

    def __post_init__(self) -> None:
        _all_numbers("reading", self.value, self.error, self.step)


@dataclass(frozen=True, slots=True)
class Gauge:
    """One gauge.

    Attributes:
        name: which it is, in words: `Low side`.
        scale: its scale.
        expected: what is expected; None where nothing is published for today.
        reading: what was read; None before measuring.
        why_none_expected: said in its place.
    """

    name: str
    scale: GaugeScale
    expected: Expected | None = None
    reading: GaugeReading | None = None
    why_none_expected: str = "no figure is published for today's conditions"


@dataclass(frozen=True, slots=True)
class GaugePair:
    """Both gauges, and under what conditions they are read.

    Attributes:
        low, high: the gauges of the low side and of the high side.
        units: units that readings are told in.
        conditions: one line: ambient temperature, humidity, refrigerant, altitude.
        notes: further lines: what the rows of the scales are.
    """

    low: Gauge
    high: Gauge
    units: UnitSystem = UnitSystem.US
    conditions: str = ""
    notes: tuple[str, ...] = ()

    @property
    def gauges(self) -> tuple[Gauge, Gauge]:
        """Low side, high side."""
        return self.low, self.high


def even_scale(
    low_end: float,
    high_end: float,
    units: UnitSystem,
    saturation: Saturation | None = None,
    most: int = _MOST_TICKS,
) -> GaugeScale:
    """A scale with ticks at round pressures in the first of the units.

    Its rows are the pressure in each unit, then the saturation temperature in each.

    Args:
        low_end, high_end: its ends [Pa].
        units: the units wanted.
        saturation: gives the temperatures; no such rows without it.
        most: how many ticks there may be.
    """
    pressures = display_units(Quantity.GAUGE_PRESSURE, units)
    temperatures = display_units(Quantity.TEMPERATURE, units) if saturation else ()
    main = pressures[0]
    ticks = [
        Tick(min(max(at, low_end), high_end), _labels(at, units, saturation))
        for at in map(main.to_si, even_steps(main.from_si(low_end), main.from_si(high_end), most))
    ]
    names = tuple(unit.symbol for unit in (*pressures, *temperatures))
    return GaugeScale(low_end, high_end, names, tuple(ticks))


def _labels(at: float, units: UnitSystem, saturation: Saturation | None) -> tuple[str, ...]:
    """The labels of a tick: the round number that it stands at, everything else to whole units."""
    main, *others = display_units(Quantity.GAUGE_PRESSURE, units)
    labels = [f"{round(main.from_si(at), 6):g}", *(str(round(u.from_si(at))) for u in others)]
    if saturation is not None:
        kelvins = saturation(at)
        temperatures = display_units(Quantity.TEMPERATURE, units)
        labels += ["" if kelvins is None else str(round(u.from_si(kelvins))) for u in temperatures]
    return tuple(labels)


def _all_numbers(what: str, *numbers: float) -> None:
    if not all(map(math.isfinite, numbers)):
        raise ValueError(f"the {what} of a gauge is a number")
