"""One line of a trace file: its reading and its time, or what is wrong with it."""

import math
from collections.abc import Sequence

from faulttree.core.trace.header import Columns
from faulttree.core.trace.layout import Layout
from faulttree.core.trace.lines import QUOTE, TraceRefused, cells_of
from faulttree.core.trace.moments import FORMS, TimeKind, moment_in
from faulttree.core.trace.numbers import COMMA, LARGEST_READING, LARGEST_TIME_S, number_in

_MOST_SHOWN = 40


class LineCutShort(TraceRefused):
    """A line has fewer cells than the others."""


class LineReader:
    """Reads the lines of one file."""

    def __init__(self, layout: Layout, columns: Columns) -> None:
        self._separator = layout.style.separator
        self._decimal = layout.style.decimal
        self._count = len(layout.kinds)
        self._columns = columns

    def read(self, line: str, number: int) -> tuple[float, float, bool, int] | None:
        """Time [s], reading, whether its cell is empty, and the line's number.

        The reading is NaN where it is missing. None for a line that holds neither time nor reading.

        Raises:
            TraceRefused: too few or too many cells, or one that cannot be read.
        """
        texts = self._texts(line)
        if len(texts) != self._count and (len(texts) < self._count or any(texts[self._count :])):
            raise self._misfit(line, number, texts)
        value = number_in(texts[self._columns.value], self._decimal)
        if value is None or abs(value) > LARGEST_READING:
            raise self._no_reading(line, number, texts)
        time = self._time(line, number, texts)
        if not math.isnan(time):
            return time, value, not texts[self._columns.value], number
        if math.isnan(value):
            return None
        message = "A reading without a time; take the line out, or give --rate in place of times."
        raise self._refused(message, line, number, self._columns.time or 0)

    def _texts(self, line: str) -> Sequence[str]:
        if QUOTE in line:
            return [cell.text for cell in cells_of(line, self._separator)]
        parts = line.split(self._separator) if self._separator else [line]
        return [part.strip() for part in parts]

    def _time(self, line: str, number: int, texts: Sequence[str]) -> float:
        """The time [s]; NaN where there is none."""
        columns = self._columns
        text = "0" if columns.time is None else texts[columns.time]
        if not text:
            return math.nan
        if columns.time is None or columns.time_kind is TimeKind.NUMBER:
            told = number_in(text, self._decimal)
            time = None if told is None or math.isnan(told) else columns.in_seconds(told)
            expected = "a number"
        else:
            time = moment_in(text, columns.time_kind, columns.origin)
            expected = f"one such as {FORMS}"
        if time is None or abs(time) > LARGEST_TIME_S:
            message = f"“{_short(text)}” is no time; expected {expected}."
            raise self._refused(message, line, number, columns.time or 0)
        return time

    def _no_reading(self, line: str, number: int, texts: Sequence[str]) -> TraceRefused:
        text = _short(texts[self._columns.value])
        message = (
            f"“{text}” is no reading; expected a number, or nothing, NaN or OL where one is "
            "missing."
        )
        return self._refused(message, line, number, self._columns.value)

    def _misfit(self, line: str, number: int, texts: Sequence[str]) -> TraceRefused:
        message = f"This line has {_columns(len(texts))} where the others have {self._count}."
        if len(texts) < self._count:
            hint = "If the log was cut off here, take the line out."
            return LineCutShort(f"{message} {hint}", number, len(line) + 1)
        if self._separator == COMMA:
            message += " With decimal commas, columns must be parted by semicolons or tabs."
        return self._refused(message, line, number, self._count)

    def _refused(self, message: str, line: str, number: int, column: int) -> TraceRefused:
        start = cells_of(line, self._separator)[column].start
        return TraceRefused(message, number, start + 1)


def _columns(count: int) -> str:
    return f"{count} column{'' if count == 1 else 's'}"


def _short(text: str) -> str:
    shown = "".join(letter if letter.isprintable() else "?" for letter in text)
    return shown if len(shown) <= _MOST_SHOWN else f"{shown[:_MOST_SHOWN]}…"
