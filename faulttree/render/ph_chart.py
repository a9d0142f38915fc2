"""A chart of pressure and enthalpy drawn in signs, with the values of its points below.

The saturation dome is dotted, this car's cycle drawn in lines with digits at its points, a healthy
cycle in plus signs with letters. All of them are letters that every terminal has.
"""

import textwrap
from collections.abc import Iterator

from faulttree.render.axis import label_starts
from faulttree.render.charset import in_ascii
from faulttree.render.page import WIDTH, column
from faulttree.render.ph_axes import axes_for
from faulttree.render.ph_canvas import Canvas
from faulttree.render.ph_cycle import Cycle, PhChart
from faulttree.render.ph_words import (
    PointRow,
    axis_words,
    lines_below,
    point_rows,
    point_signs,
    title,
)
from faulttree.render.plain_text import safe_line
from faulttree.render.scale import Row, Segment

HEIGHT = 20
"""Rows of the drawing with its axes."""
NARROWEST = 40
"""Columns below which nothing is drawn; the words stand alone."""
_HEALTHY = "+"
_CYCLES = (("", "mark"), (_HEALTHY, "good"))
"""Sign and tone of each cycle; no sign of its own for lines along its way."""
_ROWS_OF_AXES = 4


def ph_rows(
    chart: PhChart, width: int = WIDTH, only_ascii: bool = False, height: int = HEIGHT
) -> tuple[Row, ...]:
    """The chart as rows of text that a screen may tint.

    Args:
        chart: what is drawn; its words may hold anything.
        width: columns at hand.
        only_ascii: other letters are replaced by what stands for them.
        height: rows of the drawing with its axes; the words come below it.
    """
    drawn = _Chart(chart, width, only_ascii)
    return tuple(drawn.rows(height))


class _Chart:
    def __init__(self, chart: PhChart, width: int, only_ascii: bool) -> None:
        self.chart, self.width, self.only_ascii = chart, width, only_ascii
        self.axes = axes_for(chart)

    def rows(self, height: int) -> Iterator[Row]:
        yield from self._wrapped(title(self.chart))
        if self.width >= NARROWEST:
            yield from self._picture(max(4, height - _ROWS_OF_AXES))
            yield from self._wrapped("; ".join(self._legend()))
        for index, (cycle, rows) in enumerate(point_rows(self.chart)):
            yield from self._values(cycle, rows, _CYCLES[index][1])
        yield ()
        for line in lines_below(self.chart):
            yield from self._wrapped(line)

    def _picture(self, height: int) -> Iterator[Row]:
        ticks = self.axes.pressure_ticks()
        margin = column((label for _, label in ticks), self.width) + 1
        yield (Segment(axis_words(self.axes)[0]),)
        canvas = Canvas(self.width - margin - 1, height)
        self._draw(canvas)
        labels = {canvas.cell(0, self.axes.y(pressure))[1]: label for pressure, label in ticks}
        for number, row in enumerate(canvas.lines()):
            begin = Segment(f"{labels.get(number, ''):>{margin - 1}} │")
            yield tuple(Segment(self._letters(s.text), s.tone) for s in (begin, *row))
        yield from self._enthalpy_axis(canvas, margin)

    def _draw(self, canvas: Canvas) -> None:
        for branch in (self.chart.liquid, self.chart.vapour):
            canvas.curve([self._share(place) for place in branch], "plain")
        drawn = zip(self.chart.cycles, _CYCLES, point_signs(self.chart), strict=False)
        for cycle, (sign, tone), names in reversed(list(drawn)):
            places = [self._share(place) for place in cycle.places]
            for start, end in zip(places, [*places[1:], places[0]], strict=True):
                canvas.stroke(start, end, sign, tone)
            for place, name in zip(places, names, strict=True):
                canvas.put(canvas.cell(*place), name, tone)

    def _share(self, place: tuple[float, float]) -> tuple[float, float]:
        return self.axes.x(place[0]), self.axes.y(place[1])

    def _enthalpy_axis(self, canvas: Canvas, margin: int) -> Iterator[Row]:
        ticks = self.axes.enthalpy_ticks(max(2, canvas.columns // 7))
        columns = [canvas.cell(self.axes.x(at), 0)[0] for at, _ in ticks]
        line = ["─"] * canvas.columns
        for at in columns:
            line[at] = "┴"
        yield (Segment(self._letters(" " * margin + "┴" + "".join(line))),)
        texts = [label for _, label in ticks]
        wanted = [(c + 0.5, len(t)) for c, t in zip(columns, texts, strict=True)]
        numbers = " " * canvas.columns
        for text, start in zip(texts, label_starts(wanted, 0, canvas.columns, 1), strict=True):
            if start is not None:
                at = int(start)
                numbers = numbers[:at] + text + numbers[at + len(text) :]
        yield (Segment(" " * (margin + 1) + numbers.rstrip()),)
        yield (Segment(" " * (margin + 1) + axis_words(self.axes)[1].rjust(canvas.columns)),)

    def _legend(self) -> Iterator[str]:
        yield f"─│ {self.chart.cycle.name}"
        if self.chart.healthy:
            yield f"{_HEALTHY} {self.chart.healthy.name}"
        if self.chart.liquid or self.chart.vapour:
            yield ".' saturation"

    def _values(self, cycle: Cycle, rows: list[PointRow], tone: str) -> Iterator[Row]:
        """The points of a cycle in columns; one after the other where those have no room."""
        yield ()
        yield from self._wrapped(cycle.name, tone)
        texts = [[self._text(t) for t in _cells(row)] for row in rows]
        widths = [column(cells, self.width) for cells in zip(*texts, strict=True)]
        if sum(widths) + 2 * (len(widths) - 1) > self.width:
            for row in rows:
                yield from self._wrapped(row.as_sentence)
            return
        for cells in texts:
            first, *others = (
                t.ljust(w) if i == 0 else t.rjust(w)
                for i, (t, w) in enumerate(zip(cells, widths, strict=True))
            )
            yield (Segment("  ".join([first, *others])),)

    def _wrapped(self, text: str, tone: str = "plain") -> Iterator[Row]:
        lines = textwrap.wrap(self._text(text), max(1, self.width), subsequent_indent="  ")
        yield from ((Segment(line, tone),) for line in lines)

    def _text(self, text: str) -> str:
        return self._letters(safe_line(text))

    def _letters(self, text: str) -> str:
        return in_ascii(text) if self.only_ascii else text


def _cells(row: PointRow) -> tuple[str, ...]:
    return f"{row.sign} {row.name}", row.pressure, row.temperature, row.enthalpy
