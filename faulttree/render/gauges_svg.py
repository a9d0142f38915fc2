"""Two pressure gauges as a drawing: the same scales, marks and words as in the terminal."""

from faulttree.core.units import UnitSystem
from faulttree.render.axis import label_starts
from faulttree.render.gauge_pair import Gauge, GaugePair
from faulttree.render.gauge_words import (
    TITLE,
    legend,
    lines_below,
    reading_label,
    verdict,
)
from faulttree.render.page import cut
from faulttree.render.svg import WIDTH, Drawing, Point, data, length

LEFT, RIGHT = 80, WIDTH - 40
"""Where the scales begin and end."""
_MARGIN = 20
_BAR = 24
_ROW = 17
_SMALL = 12
_GREY = "#d0d0d0"
_DOTS = "2 4"
_LONGEST = 12


def gauges_svg(pair: GaugePair) -> str:
    """The gauges as an SVG document."""
    drawing = Drawing()
    told = [verdict(gauge, pair.units) for gauge in pair.gauges]
    y = 30.0
    for gauge, each in zip(pair.gauges, told, strict=True):
        y = drawing.wrapped((_MARGIN, y), each.signed, font_weight="bold")
        y = _DrawnGauge(drawing, gauge, y + 22).draw(pair.units) + 30
    y = _legend(drawing, pair, y)
    for line in lines_below(pair):
        y = drawing.wrapped((_MARGIN, y), line, _SMALL + 1)
    said = ". ".join([*(each.text for each in told), *lines_below(pair)])
    return drawing.as_svg(TITLE, said, y)


class _DrawnGauge:
    """One gauge: marker, bar and rows of labels, from the top of its bar downwards."""

    def __init__(self, drawing: Drawing, gauge: Gauge, top: float) -> None:
        self.drawing, self.gauge, self.top = drawing, gauge, top
        self.bottom = top + _BAR

    def draw(self, units: UnitSystem) -> float:
        """All of it; returns where it ends."""
        self._bar()
        self._expected()
        self._ticks()
        self._marker(units)
        for index, name in enumerate(self.gauge.scale.row_names):
            self._labels(index, name)
        return self.bottom + 6 + _ROW * len(self.gauge.scale.row_names)

    def x(self, value: float) -> float:
        """Where a pressure lies, in proportion; the nearest end for one off the scale."""
        share = min(1.0, max(0.0, self.gauge.scale.share(value)))
        return LEFT + share * (RIGHT - LEFT)

    def _bar(self) -> None:
        self.drawing.box((LEFT, self.top), RIGHT - LEFT, _BAR)
        if self.gauge.scale.low_end < 0:
            middle = self.top + _BAR / 2
            _vacuum(self.drawing, (LEFT + 4, middle), self.x(0) - 2)

    def _expected(self) -> None:
        expected, scale = self.gauge.expected, self.gauge.scale
        if expected is None or expected.high < scale.low_end or expected.low > scale.high_end:
            return
        left, right = self.x(expected.low), self.x(expected.high)
        self.drawing.box(
            (left, self.top), right - left, _BAR, fill=_GREY, stroke="none", class_="expected"
        )
        for edge, at in ((expected.low, left), (expected.high, right)):
            if scale.holds(edge):
                self.drawing.line((at, self.top), (at, self.bottom + 4), 3)

    def _ticks(self) -> None:
        for tick in self.gauge.scale.drawn_ticks:
            x = self.x(tick.at)
            self.drawing.line((x, self.bottom - 8), (x, self.bottom + 5), 1)

    def _marker(self, units: UnitSystem) -> None:
        reading, scale = self.gauge.reading, self.gauge.scale
        if reading is None:
            return
        x, y = self.x(reading.value), self.top - 1
        if scale.holds(reading.value):
            _pointer(self.drawing, (x, y))
            self.drawing.line((x, self.top), (x, self.bottom), 1.5)
        else:
            self._off_scale(x, 1 if reading.value > scale.high_end else -1)
        self._error(self.x(reading.value - reading.error), self.x(reading.value + reading.error))
        label = data(reading_label(reading, units))
        is_left = x + 14 + length(label) > WIDTH - _MARGIN
        at, anchor = (x - 14, "end") if is_left else (x + 14, "start")
        self.drawing.words((at, y - 4), label, text_anchor=anchor, font_weight="bold")

    def _error(self, low: float, high: float) -> None:
        """How far the reading may be off, across the bar."""
        middle = self.top + _BAR / 2
        if low < high:
            self.drawing.line((low, middle), (high, middle), 1.5, class_="error")
            for end in (low, high):
                self.drawing.line((end, middle - 5), (end, middle + 5), 1.5)

    def _off_scale(self, x: float, way: int) -> None:
        middle = self.top + _BAR / 2
        base = x + way * 6
        points = [(base, middle - 9), (base + way * 14, middle), (base, middle + 9)]
        self.drawing.path(points, closed=True, fill="black", class_="off-scale")

    def _labels(self, row: int, name: str) -> None:
        y = self.bottom + 5 + _SMALL + row * _ROW
        self.drawing.words((_MARGIN, y), cut(name, 8), _SMALL)
        ticks = self.gauge.scale.drawn_ticks
        texts = [cut(data(tick.labels[row]), _LONGEST) for tick in ticks]
        lengths = [length(text, _SMALL) for text in texts]
        wanted = [(self.x(t.at), long) for t, long in zip(ticks, lengths, strict=True)]
        starts = label_starts(wanted, LEFT - 20, WIDTH - 4, 4)
        for text, start, (x, _) in zip(texts, starts, wanted, strict=True):
            if start is not None:
                self.drawing.words((x, y), text, _SMALL, text_anchor="middle")


def _pointer(drawing: Drawing, tip: Point) -> None:
    x, y = tip
    points = [(x, y), (x - 7, y - 14), (x + 7, y - 14)]
    drawing.path(points, closed=True, fill="black", class_="reading")


def _vacuum(drawing: Drawing, start: Point, end_x: float) -> None:
    drawing.line(start, (end_x, start[1]), 2, stroke_dasharray=_DOTS)


def _legend(drawing: Drawing, pair: GaugePair, y: float) -> float:
    """The signs of the drawing, each with its words; returns the baseline after them."""
    x = float(_MARGIN)
    entries = list(legend(pair))
    for sign, words in entries:
        if sign == "expected":
            drawing.box((x, y - 12), 28, 14, fill=_GREY, stroke="none")
            drawing.line((x, y - 12), (x, y + 5), 3)
            drawing.line((x + 28, y - 12), (x + 28, y + 5), 3)
        elif sign == "reading":
            _pointer(drawing, (x + 14, y + 1))
        else:
            _vacuum(drawing, (x, y - 5), x + 28)
        drawing.words((x + 36, y), words, _SMALL + 1)
        x += 36 + length(words) + 24
    return y + 26 if entries else y
