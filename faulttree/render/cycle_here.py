"""The cycle of this car on the chart of pressure and enthalpy, and the figures it tells."""

from collections.abc import Iterator

from faulttree.core.air_conditioning.cycle import Cycle as CycleRead
from faulttree.core.air_conditioning.cycle import cycle, usual_cycle
from faulttree.core.air_conditioning.figures import Figure, figures
from faulttree.core.air_conditioning.on_gauges import AMBIENT, OnGauges
from faulttree.core.figures import show, show_measured
from faulttree.core.refrigerant.refrigerant import Properties, properties
from faulttree.core.units import Quantity, UnitSystem
from faulttree.render.gauge_words import Verdict
from faulttree.render.ph_cycle import POINT_NAMES, Cycle, CyclePoint, PhChart
from faulttree.render.span import span

CYCLE = "cycle"
"""Name of the drawing."""
_ZERO = "Enthalpy counts from boiling liquid at 0 °C, put at 200 kJ/kg."
_USUAL = (
    "Usual cycle: the middle of the pressures expected, of usual superheat and of usual "
    "subcooling, with the usual losses (calculated)."
)
_DOME_ROWS = 48
_BELOW_K = 12.0
"""How far below the coldest corner the dome begins [K]."""
_TOLD_TO = {Quantity.TEMPERATURE: 1.0, Quantity.TEMPERATURE_DIFFERENCE: 0.1, Quantity.COUNT: 0.1}
"""Last digits of figures whose error is not known [SI]."""


def ph_chart(on: OnGauges, units: UnitSystem) -> PhChart:
    """The chart.

    Args:
        on: what was read.
        units: the units wanted.

    Raises:
        CannotWorkOut: these readings make no cycle; it says why.
    """
    read, usual = cycle(on), usual_cycle(on)
    assert on.refrigerant is not None
    known = properties(on.refrigerant)
    compared = None
    if usual is not None:
        air = on.value(AMBIENT)
        assert air is not None
        compared = _drawn(f"Usual at {show(air.value, Quantity.TEMPERATURE, units, 1.0)}", usual)
    liquid, vapour = _dome(
        known, min(each.compressor_in.pressure for each in (read, usual or read))
    )
    notes = (*read.notes, *((_USUAL,) if usual else ()), _ZERO)
    return PhChart(
        on.refrigerant.value, liquid, vapour, _drawn("This car", read), compared, units, notes
    )


def figure_lines(on: OnGauges, units: UnitSystem) -> Iterator[Verdict]:
    """Superheat, subcooling, condensing split and pressure ratio, as far as they are known."""
    for figure in figures(on):
        if figure.quantity is not Quantity.TEMPERATURE:  # the gauges tell those
            yield _told(figure, units)


def _told(figure: Figure, units: UnitSystem) -> Verdict:
    value, quantity = figure.value, figure.quantity
    step = None if value.radius else _TOLD_TO[quantity]
    number = show_measured(value.value, value.radius, quantity, units, step)
    text = f"{figure.name.capitalize()}: {number}"
    if figure.usual is None:
        return Verdict(text)
    usual = span(figure.usual, quantity, units, _TOLD_TO[Quantity.TEMPERATURE])
    text = f"{text}, {figure.place} the usual {usual}"
    if not figure.is_clear:
        return Verdict(f"{text}, but too close to call ({figure.source})", "unclear")
    return Verdict(f"{text} ({figure.source})", "good" if figure.place == "inside" else "fault")


def _drawn(name: str, read: CycleRead) -> Cycle:
    corners = zip(POINT_NAMES, read.corners, strict=True)
    return Cycle(
        name, tuple(CyclePoint(n, c.pressure, c.enthalpy, c.temperature) for n, c in corners)
    )


def _dome(
    known: Properties, lowest: float
) -> tuple[tuple[tuple[float, float], ...], tuple[tuple[float, float], ...]]:
    """Both saturation lines as (enthalpy, pressure), from a little below a pressure [Pa]."""
    first = max(known.coldest, known.temperature(lowest) - _BELOW_K)
    step = (known.hottest - first) / _DOME_ROWS
    rows = [first + step * i for i in range(_DOME_ROWS)] + [known.hottest]
    lines = ((side(t) for t in rows) for side in (known.boiling, known.dry))
    liquid, vapour = (tuple((s.enthalpy, s.pressure) for s in line) for line in lines)
    return liquid, vapour
