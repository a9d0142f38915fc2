"""Blocks of lines made into arrays.

Most lines of most files are alike: `read_alike` makes arrays of a whole block of such lines at
once. Where it finds anything else, `read_each` reads the block line by line and names the place of
what cannot be read. Both give the same rows.
"""

import math
from collections.abc import Sequence

import numpy as np

from faulttree.core.trace.alike import read_alike
from faulttree.core.trace.arrays import Rows
from faulttree.core.trace.header import Columns
from faulttree.core.trace.layout import Layout
from faulttree.core.trace.lines import (
    Block,
    Cell,
    TraceRefused,
    cells_of,
    is_passed_over,
    text_of,
)
from faulttree.core.trace.moments import FORMS, TimeKind, moment_in
from faulttree.core.trace.numbers import COMMA, number_in


class BlockReader:
    """Makes rows of the blocks of one file, taken in order."""

    def __init__(self, layout: Layout, columns: Columns) -> None:
        self._layout = layout
        self._columns = columns
        self._count = 0

    def read(self, block: Block) -> Rows:
        """The rows of the next block; lines above the first line of numbers are passed over.

        Raises:
            TraceRefused: a line has too few cells, or a cell is neither reading nor missing.
        """
        block = _from_line(block, self._layout.first_line)
        alike = read_alike(block, self._layout, self._columns)
        rows = alike or read_each(block, self._layout, self._columns)
        if self._columns.time is not None:
            return rows
        count = self._count
        self._count += len(rows.values)
        times = np.arange(count, self._count) / self._columns.rate_hz
        return Rows(times, rows.values, rows.is_empty, rows.lines)


def read_each(block: Block, layout: Layout, columns: Columns) -> Rows:
    """The rows of a block, line by line; times are zero where there is no column of times.

    Raises:
        TraceRefused: as `BlockReader.read`.
    """
    times: list[float] = []
    values: list[float] = []
    empty: list[bool] = []
    lines: list[int] = []
    for number, line in enumerate(text_of(block.data).split("\n"), block.line):
        if is_passed_over(line):
            continue
        cells = _enough(cells_of(line, layout.style.separator), layout, number, line)
        value, time = _value(cells, layout, columns, number), _time(cells, layout, columns, number)
        if math.isnan(time):
            if math.isnan(value):
                continue
            raise TraceRefused("A reading without a time.", number, cells[columns.time or 0].start + 1)
        times.append(time)
        values.append(value)
        empty.append(not cells[columns.value].text)
        lines.append(number)
    is_empty = np.array(empty, bool) if any(empty) else None
    return Rows(np.array(times), np.array(values), is_empty, np.array(lines, np.intp))


def _from_line(block: Block, first: int) -> Block:
    """The block without lines before line `first`."""
    at = 0
    for _ in range(first - block.line):
        at = block.data.find(b"\n", at) + 1
        if at == 0:
            return Block(b"", first)
    return Block(block.data[at:], max(block.line, first))


def _enough(cells: Sequence[Cell], layout: Layout, number: int, line: str) -> Sequence[Cell]:
    """The cells; a line with more or fewer than the others cannot be trusted."""
    count = len(layout.kinds)
    if len(cells) == count or (len(cells) > count and not any(c.text for c in cells[count:])):
        return cells
    message = f"This line has {len(cells)} columns where the others have {count}."
    if len(cells) < count:
        raise TraceRefused(f"{message} Was the log cut off here? Take the line out.", number, len(line) + 1)
    hint = " A decimal comma needs other separators, or quotes." if layout.style.separator == COMMA else ""
    raise TraceRefused(f"{message}{hint}", number, cells[count].start + 1)


def _value(cells: Sequence[Cell], layout: Layout, columns: Columns, line: int) -> float:
    cell = cells[columns.value]
    value = number_in(cell.text, layout.style.decimal)
    if value is None:
        raise TraceRefused(
            f"“{_short(cell.text)}” is no reading; expected a number, or nothing, NaN or OL where "
            "the reading is missing.",
            line,
            cell.start + 1,
        )
    return value


def _time(cells: Sequence[Cell], layout: Layout, columns: Columns, line: int) -> float:
    if columns.time is None:
        return 0.0
    cell = cells[columns.time]
    if not cell.text:
        return math.nan
    if columns.time_kind is TimeKind.NUMBER:
        told = number_in(cell.text, layout.style.decimal)
        time = None if told is None or math.isnan(told) else float(to_seconds(told, columns))
    else:
        time = moment_in(cell.text, columns.time_kind)
    if time is None:
        expected = "a number" if columns.time_kind is TimeKind.NUMBER else f"one such as {FORMS}"
        raise TraceRefused(
            f"“{_short(cell.text)}” is no time; expected {expected}.", line, cell.start + 1
        )
    return time


def _short(text: str) -> str:
    shown = "".join(letter if letter.isprintable() else "?" for letter in text)
    return shown if len(shown) <= 40 else f"{shown[:40]}…"
