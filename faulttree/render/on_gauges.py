"""Gauges, figures and cycle of one car in signs, one below the other."""

import textwrap
from collections.abc import Iterator

from faulttree.core.air_conditioning.on_gauges import OnGauges
from faulttree.core.cautions import CAUTIONS
from faulttree.core.uncertain import CannotWorkOut
from faulttree.core.units import UnitSystem
from faulttree.render.charset import in_ascii
from faulttree.render.cycle_here import figure_lines, ph_chart
from faulttree.render.gauges import gauge_rows
from faulttree.render.gauges_here import gauge_pair
from faulttree.render.page import WIDTH
from faulttree.render.ph_chart import HEIGHT, ph_rows
from faulttree.render.plain_text import safe_line
from faulttree.render.scale import Row, Segment, as_text

_FIRST, _LAST = ("refrigerant-mix", "refrigerant-contact"), "refrigerant-law"


def on_gauges_rows(
    on: OnGauges,
    units: UnitSystem,
    width: int = WIDTH,
    only_ascii: bool = False,
    height: int = HEIGHT,
) -> tuple[Row, ...]:
    """All of it as rows of text that a screen may tint.

    Args:
        on: what was read.
        units: the units wanted.
        width: columns at hand.
        only_ascii: other letters are replaced by what stands for them.
        height: rows of the chart with its axes.
    """
    page = _Page(width, only_ascii, height)
    return (
        *(row for name in _FIRST for row in page.caution(name)),
        (),
        *gauge_rows(gauge_pair(on, units), width, only_ascii),
        *page.figures(on, units),
        (),
        *page.chart(on, units),
        (),
        *page.caution(_LAST),
    )


def on_gauges_text(
    on: OnGauges, units: UnitSystem, width: int = WIDTH, only_ascii: bool = False
) -> str:
    """The same as plain text."""
    return "\n".join(as_text(on_gauges_rows(on, units, width, only_ascii))) + "\n"


def why_no_cycle(error: CannotWorkOut) -> str:
    """Why no cycle is drawn, as a sentence."""
    return f"No cycle is drawn: {error}."


class _Page:
    """What is written on: its width, which letters it takes, and how high a chart may be."""

    def __init__(self, width: int, only_ascii: bool, height: int) -> None:
        self._width, self._only_ascii, self._height = width, only_ascii, height

    def wrapped(self, text: str, tone: str = "plain") -> Iterator[Row]:
        line = safe_line(text)
        line = in_ascii(line) if self._only_ascii else line
        for part in textwrap.wrap(line, max(1, self._width), subsequent_indent="  "):
            yield (Segment(part, tone),)

    def caution(self, name: str) -> Iterator[Row]:
        yield from self.wrapped(f"! Caution: {CAUTIONS[name].text}", "caution")

    def figures(self, on: OnGauges, units: UnitSystem) -> Iterator[Row]:
        told = list(figure_lines(on, units))
        if told:
            yield ()
        for each in told:
            yield from self.wrapped(each.signed, each.tone)

    def chart(self, on: OnGauges, units: UnitSystem) -> Iterator[Row]:
        try:
            chart = ph_chart(on, units)
        except CannotWorkOut as error:
            yield from self.wrapped(why_no_cycle(error))
            return
        yield from ph_rows(chart, self._width, self._only_ascii, self._height)
