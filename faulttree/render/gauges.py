"""Two pressure gauges drawn in signs: low side above, high side below, each on a scale of its own.

What is expected is drawn on the scale, the reading marked above it. Words before each gauge say
which it is and how the reading lies, so that neither colour nor place has to tell it.
"""

import textwrap
from collections.abc import Iterator
from dataclasses import dataclass
from itertools import groupby

from faulttree.core.units import UnitSystem
from faulttree.render.axis import label_starts
from faulttree.render.charset import in_ascii
from faulttree.render.gauge_pair import Gauge, GaugePair
from faulttree.render.gauge_words import legend, lines_below, reading_label, verdict
from faulttree.render.page import WIDTH, column, cut
from faulttree.render.plain_text import safe_line
from faulttree.render.scale import Row, Segment, as_text

NARROWEST = 40
"""Columns below which no scale is drawn; the words stand alone."""
_LINE, _VACUUM, _EXPECTED, _TICK, _MARK = "─", ".", "═", "│", "v"
_LEGEND = {"expected": f"[{_EXPECTED * 2}]", "reading": _MARK, "vacuum": _VACUUM * 3}
_LONGEST_NAME = 8


def gauge_lines(pair: GaugePair, width: int = WIDTH, only_ascii: bool = False) -> tuple[str, ...]:
    """The gauges as plain lines, none longer than `width`."""
    return tuple(as_text(gauge_rows(pair, width, only_ascii)))


def gauge_rows(pair: GaugePair, width: int = WIDTH, only_ascii: bool = False) -> tuple[Row, ...]:
    """The gauges as rows of text that a screen may tint.

    Args:
        pair: what is drawn; its words may hold anything.
        width: columns at hand.
        only_ascii: other letters are replaced by what stands for them.
    """
    return tuple(_rows(pair, _Paper(width, only_ascii)))


@dataclass(frozen=True, slots=True)
class _Paper:
    """What is written on: its width, and which letters it takes."""

    width: int
    only_ascii: bool

    def text(self, text: str) -> str:
        line = safe_line(text)
        return in_ascii(line) if self.only_ascii else line

    def wrapped(self, text: str, tone: str = "plain") -> Iterator[Row]:
        for line in textwrap.wrap(self.text(text), max(1, self.width), subsequent_indent="  "):
            yield (Segment(line, tone),)


def _rows(pair: GaugePair, paper: _Paper) -> Iterator[Row]:
    for gauge in pair.gauges:
        told = verdict(gauge, pair.units)
        yield from paper.wrapped(told.signed, told.tone)
        if paper.width >= NARROWEST:
            yield from _Drawn(gauge, paper).rows(pair.units)
        yield ()
    signs = "; ".join(f"{_LEGEND[sign]} {words}" for sign, words in legend(pair))
    if paper.width >= NARROWEST:
        yield from paper.wrapped(signs)
    for line in lines_below(pair):
        yield from paper.wrapped(line)


class _Drawn:
    """One gauge on paper: names of rows before it, its scale in the columns that are left."""

    def __init__(self, gauge: Gauge, paper: _Paper) -> None:
        self.gauge, self.paper = gauge, paper
        self.names = [cut(paper.text(name), _LONGEST_NAME) for name in gauge.scale.row_names]
        self.margin = column(self.names, _LONGEST_NAME) + 1
        self.columns = paper.width - self.margin

    def rows(self, units: UnitSystem) -> Iterator[Row]:
        blank = Segment(" " * self.margin)
        if self.gauge.reading:
            yield blank, Segment(self._marker(units), "mark")
        yield (blank, *self._bar())
        for index, name in enumerate(self.names):
            yield (Segment(f"{name:<{self.margin}}{self._labels(index)}"),)

    def column(self, value: float) -> int:
        """The column of a pressure, in proportion; the nearest end for one off the scale."""
        share = min(1.0, max(0.0, self.gauge.scale.share(value)))
        return round(share * (self.columns - 1))

    def _bar(self) -> Iterator[Segment]:
        cells = [(_LINE, "plain")] * self.columns
        if self.gauge.scale.low_end < 0:
            zero = self.column(0)
            cells[:zero] = [(_VACUUM, "plain")] * zero
        for tick in self.gauge.scale.drawn_ticks:
            cells[self.column(tick.at)] = (_TICK, "plain")
        self._draw_expected(cells)
        for cell_tone, group in groupby(cells, key=lambda cell: cell[1]):
            line = "".join(sign for sign, _ in group)
            yield Segment(in_ascii(line) if self.paper.only_ascii else line, cell_tone)

    def _draw_expected(self, cells: list[tuple[str, str]]) -> None:
        """What is expected, over the ticks' line; its ends in brackets where they are in sight."""
        expected, scale = self.gauge.expected, self.gauge.scale
        if expected is None or expected.high < scale.low_end or expected.low > scale.high_end:
            return
        first, last = self.column(expected.low), self.column(expected.high)
        for at in range(first, last + 1):
            sign = cells[at][0]
            cells[at] = (_TICK if sign == _TICK else _EXPECTED, "good")
        if first < last:
            if scale.holds(expected.low):
                cells[first] = ("[", "good")
            if scale.holds(expected.high):
                cells[last] = ("]", "good")

    def _marker(self, units: UnitSystem) -> str:
        """The reading above its place, its error to both sides, its value beside it."""
        reading, scale = self.gauge.reading, self.gauge.scale
        assert reading is not None
        line = [" "] * self.columns
        low, high = (self.column(reading.value + e) for e in (-reading.error, reading.error))
        line[low : high + 1] = "-" * (high + 1 - low)
        off = ">" if reading.value > scale.high_end else "<"
        line[self.column(reading.value)] = _MARK if scale.holds(reading.value) else off
        label = cut(self.paper.text(reading_label(reading, units)), self.columns)
        start = high + 2 if high + 2 + len(label) <= self.columns else low - 1 - len(label)
        if start >= 0:
            line[start : start + len(label)] = label
        return "".join(line).rstrip()

    def _labels(self, row: int) -> str:
        """One row of labels, each under its tick; those left out that have no room."""
        ticks = self.gauge.scale.drawn_ticks
        texts = [self.paper.text(tick.labels[row]) for tick in ticks]
        wanted = [(self.column(t.at) + 0.5, len(s)) for t, s in zip(ticks, texts, strict=True)]
        line = " " * self.columns
        for text, start in zip(texts, label_starts(wanted, 0, self.columns, 1), strict=True):
            if start is not None:
                line = line[: int(start)] + text + line[int(start) + len(text) :]
        return line.rstrip()
