"""A chart of pressure and enthalpy as a drawing: the same lines, points and words as in signs."""

from collections.abc import Sequence

from faulttree.render.page import cut
from faulttree.render.ph_axes import PhAxes, axes_for
from faulttree.render.ph_cycle import PhChart
from faulttree.render.ph_words import (
    PointRow,
    axis_words,
    lines_below,
    point_rows,
    point_signs,
    said,
    title,
)
from faulttree.render.svg import WIDTH, Drawing, Point

LEFT, RIGHT, TOP, BOTTOM = 70, WIDTH - 30, 70, 420
"""The frame that the axes run along."""
_MARGIN = 20
_SMALL = 12
_GRID = "#cccccc"
_DASHES, _DOTS = "8 5", "1.5 4"
_MOST_TICKS = 8
_COLUMNS = (44, 230, 390, 520)
"""Where the columns of the table begin."""
_LONGEST_NAME = 24
_ROW = 18


def ph_chart_svg(chart: PhChart) -> str:
    """The chart as an SVG document."""
    drawing, axes = Drawing(), axes_for(chart)
    drawing.words((_MARGIN, 28), cut(title(chart), 70), 16, font_weight="bold")
    plot = _Plot(drawing, chart, axes)
    plot.draw()
    y = _legend(drawing, chart, BOTTOM + 70)
    for index, (cycle, rows) in enumerate(point_rows(chart)):
        y = _table(drawing, cycle.name, rows, y, is_first=index == 0)
    for line in lines_below(chart):
        y = drawing.wrapped((_MARGIN, y), line, _SMALL + 1)
    return drawing.as_svg(title(chart), " ".join(said(chart)), y)


class _Plot:
    """What lies inside the frame."""

    def __init__(self, drawing: Drawing, chart: PhChart, axes: PhAxes) -> None:
        self.drawing, self.chart, self.axes = drawing, chart, axes

    def draw(self) -> None:
        """Axes, dome, the healthy cycle, and this car's over it."""
        self._pressure_axis()
        self._enthalpy_axis()
        self.drawing.box((LEFT, TOP), RIGHT - LEFT, BOTTOM - TOP, fill="none")
        for branch in (self.chart.liquid, self.chart.vapour):
            if len(branch) > 1:
                places = [self.place(each) for each in branch]
                self.drawing.path(
                    places, 2, stroke_dasharray=_DOTS, stroke_linecap="round", class_="dome"
                )
        is_this_car = [True, False]
        drawn = zip(self.chart.cycles, point_signs(self.chart), is_this_car, strict=False)
        for cycle, signs, is_first in reversed(list(drawn)):
            self._cycle([self.place(each) for each in cycle.places], signs, is_first)

    def place(self, of: tuple[float, float]) -> Point:
        """Where an enthalpy and a pressure lie."""
        x, y = self.axes.x(of[0]), self.axes.y(of[1])
        return LEFT + x * (RIGHT - LEFT), BOTTOM - y * (BOTTOM - TOP)

    def _pressure_axis(self) -> None:
        self.drawing.words((_MARGIN, TOP - 12), axis_words(self.axes)[0], _SMALL)
        for pressure, label in self.axes.pressure_ticks():
            y = BOTTOM - self.axes.y(pressure) * (BOTTOM - TOP)
            self.drawing.line((LEFT, y), (RIGHT, y), 1, stroke=_GRID)
            self.drawing.words((LEFT - 8, y + 4), label, _SMALL, text_anchor="end")

    def _enthalpy_axis(self) -> None:
        for enthalpy, label in self.axes.enthalpy_ticks(_MOST_TICKS):
            x = LEFT + self.axes.x(enthalpy) * (RIGHT - LEFT)
            self.drawing.line((x, TOP), (x, BOTTOM), 1, stroke=_GRID)
            self.drawing.words((x, BOTTOM + 17), label, _SMALL, text_anchor="middle")
        where = (RIGHT, BOTTOM + 36)
        self.drawing.words(where, axis_words(self.axes)[1], _SMALL, text_anchor="end")

    def _cycle(self, places: Sequence[Point], signs: str, is_first: bool) -> None:
        _stroke(self.drawing, [*places, places[0]], is_first)
        for place, sign in zip(places, signs, strict=True):
            _point(self.drawing, place, sign, is_first)


def _stroke(drawing: Drawing, places: Sequence[Point], is_first: bool) -> None:
    """This car in one thick line, the healthy one in dashes."""
    if is_first:
        drawing.path(places, 3, class_="cycle")
    else:
        drawing.path(places, 1.5, stroke_dasharray=_DASHES, class_="healthy")


def _point(drawing: Drawing, at: Point, sign: str, is_first: bool) -> None:
    """A sign in a disc: white on black for this car, black on white for the healthy one."""
    ground, ink = ("black", "white") if is_first else ("white", "black")
    drawing.circle(at, 9, fill=ground)
    x, y = at
    drawing.words((x, y + 4), sign, _SMALL, text_anchor="middle", font_weight="bold", fill=ink)


def _legend(drawing: Drawing, chart: PhChart, y: float) -> float:
    """Each line with what it is, one below the other; returns the baseline after them."""
    for index, cycle in enumerate(chart.cycles):
        _stroke(drawing, [(_MARGIN, y - 4), (_MARGIN + 44, y - 4)], index == 0)
        drawing.words((_MARGIN + 54, y), cut(cycle.name, 60), _SMALL + 1)
        y += _ROW
    if chart.liquid or chart.vapour:
        ends = [(_MARGIN, y - 4), (_MARGIN + 44, y - 4)]
        drawing.path(ends, 2, stroke_dasharray=_DOTS, stroke_linecap="round")
        drawing.words((_MARGIN + 54, y), "saturation", _SMALL + 1)
        y += _ROW
    return y + 10


def _table(
    drawing: Drawing, name: str, rows: Sequence[PointRow], y: float, is_first: bool
) -> float:
    """The values of a cycle's points; returns the baseline after them."""
    drawing.words((_MARGIN, y), cut(name, 60), _SMALL + 1, font_weight="bold")
    for row in rows:
        y += _ROW + 4
        _point(drawing, (_MARGIN + 9, y - 4), row.sign, is_first)
        cells = (cut(row.name, _LONGEST_NAME), row.pressure, row.temperature, row.enthalpy)
        for x, text in zip(_COLUMNS, cells, strict=True):
            drawing.words((x, y), text, _SMALL + 1)
    return y + 2 * _ROW
