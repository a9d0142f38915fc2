"""What is said of a chart of pressure and enthalpy: legend, values of the points, notes."""

from collections.abc import Iterator
from dataclasses import dataclass

from faulttree.core.figures import show
from faulttree.core.units import Quantity, UnitSystem
from faulttree.render.ph_axes import PhAxes, enthalpy_units
from faulttree.render.ph_cycle import Cycle, CyclePoint, PhChart

REGIONS = "Left of the dome there is liquid, under it liquid and vapour, right of it vapour."
_KELVIN_STEP, _PASCAL_STEP = 0.5, 5e3


@dataclass(frozen=True, slots=True)
class PointRow:
    """The values of a point: the sign it has on the chart, its name, and each value in words."""

    sign: str
    name: str
    pressure: str
    temperature: str
    enthalpy: str

    @property
    def as_sentence(self) -> str:
        """The same on one line."""
        told = [text for text in (self.pressure, self.temperature, self.enthalpy) if text]
        return f"{self.sign} {self.name}: {', '.join(told)}"


def title(chart: PhChart) -> str:
    """What the chart is."""
    return f"{chart.refrigerant}: pressure and enthalpy"


def point_signs(chart: PhChart) -> tuple[str, ...]:
    """The signs of the points of each cycle, a letter each: digits for this car, then letters."""
    return tuple("123456789abcdefghi"[i * 9 :][: len(c.points)] for i, c in enumerate(chart.cycles))


def point_rows(chart: PhChart) -> list[tuple[Cycle, list[PointRow]]]:
    """The values of every point, cycle by cycle."""
    return [
        (cycle, [_row(s, p, chart.units) for s, p in zip(signs, cycle.points, strict=True)])
        for signs, cycle in zip(point_signs(chart), chart.cycles, strict=True)
    ]


def axis_words(axes: PhAxes) -> tuple[str, str]:
    """What stands beside the axes: pressure, enthalpy."""
    return f"{axes.pressure_unit} absolute", f"enthalpy, {axes.enthalpy_unit}"


def said(chart: PhChart) -> Iterator[str]:
    """The chart in sentences, for a reader who does not see it."""
    for cycle, rows in point_rows(chart):
        yield f"{cycle.name}: " + "; ".join(row.as_sentence for row in rows)
    yield from lines_below(chart)


def lines_below(chart: PhChart) -> Iterator[str]:
    """What the regions are, where a dome is drawn, and the notes."""
    if chart.liquid and chart.vapour:
        yield REGIONS
    yield from chart.notes


def _row(sign: str, point: CyclePoint, units: UnitSystem) -> PointRow:
    pressure = show(point.pressure, Quantity.ABSOLUTE_PRESSURE, units, _PASCAL_STEP)
    kelvins = point.temperature
    warmth = "" if kelvins is None else show(kelvins, Quantity.TEMPERATURE, units, _KELVIN_STEP)
    return PointRow(sign, point.name, pressure, warmth, _enthalpy(point.enthalpy, units))


def _enthalpy(value: float, units: UnitSystem) -> str:
    texts = [
        f"{value / factor:.{decimals}f} {symbol}"
        for symbol, factor, decimals in enthalpy_units(units)
    ]
    return texts[0] if len(texts) == 1 else f"{texts[0]} ({texts[1]})"
