"""A block of lines that are all alike, made into arrays at once.

Nothing is told here of what is wrong with a line: where anything is out of the ordinary, None is
given back, and the block is read line by line.
"""

import numpy as np

from faulttree.core.trace.alike_numbers import numbers_alike
from faulttree.core.trace.alike_times import times_alike
from faulttree.core.trace.arrays import Bytes, Floats, Ints, Rows
from faulttree.core.trace.header import Columns
from faulttree.core.trace.layout import Layout, Style
from faulttree.core.trace.lines import Block
from faulttree.core.trace.moments import TimeKind
from faulttree.core.trace.numbers import LARGEST_READING, LARGEST_TIME_S

_LINE_FEED, _BLANK = 10, 32
_OUT_OF_LINE = (b'"', b"#", b"%", b"//")


def read_alike(block: Block, layout: Layout, columns: Columns) -> Rows | None:
    """The rows of a block of lines that are all alike; None where one is not.

    Times are zero where there is no column of times.
    """
    if any(sign in block.data for sign in _OUT_OF_LINE):
        return None
    text = np.frombuffer(block.data, np.uint8)
    ends = _cell_ends(text, layout.style.separator, len(layout.kinds))
    if ends is None:
        return None
    column = _trimmed(text, _cell_begins(ends)[:, columns.value], ends[:, columns.value])
    is_empty = column[0] == column[1]
    if is_empty.any() and _may_be_a_blank_line(layout, columns):
        return None
    values = numbers_alike(text, *column, layout.style.decimal)
    times = _times(text, ends, layout.style, columns)
    if values is None or times is None or _is_any_beyond(values, LARGEST_READING):
        return None
    lines = np.arange(block.line, block.line + len(values), dtype=np.intp)
    return Rows(times, values, is_empty if is_empty.any() else None, lines)


def _times(text: Bytes, ends: Ints, style: Style, columns: Columns) -> Floats | None:
    if columns.time is None:
        return np.zeros(len(ends))
    column = _trimmed(text, _cell_begins(ends)[:, columns.time], ends[:, columns.time])
    if columns.time_kind is TimeKind.NUMBER:
        told = numbers_alike(text, *column, style.decimal)
        times = None if told is None else columns.in_seconds(told)
    else:
        times = times_alike(text, *column, columns.time_kind, columns.origin)
    if times is None or np.isnan(times).any() or _is_any_beyond(times, LARGEST_TIME_S):
        return None
    return times


def _is_any_beyond(numbers: Floats, largest: float) -> bool:
    return bool((np.abs(numbers) > largest).any())


def _may_be_a_blank_line(layout: Layout, columns: Columns) -> bool:
    """Whether a line without a reading may hold nothing at all: one column, or tabs alone."""
    return len(layout.kinds) == 1 or (columns.time is None and layout.style.separator == "\t")


def _cell_ends(text: Bytes, separator: str, count: int) -> Ints | None:
    """Where each cell ends, shape (lines, count); None where lines have other numbers of cells."""
    is_line_end = text == _LINE_FEED
    is_end = is_line_end | (text == ord(separator)) if separator else is_line_end
    ends = np.flatnonzero(is_end)
    if not len(ends) or len(ends) % count:
        return None
    table: Ints = ends.reshape(-1, count)
    fits = len(table) == np.count_nonzero(is_line_end) and is_line_end[table[:, -1]].all()
    return table if fits else None


def _cell_begins(ends: Ints) -> Ints:
    return np.concatenate(([0], ends.ravel()[:-1] + 1)).reshape(ends.shape)


def _trimmed(text: Bytes, begins: Ints, ends: Ints) -> tuple[Ints, Ints]:
    """Begins and ends of cells without the blanks around them."""
    while (is_blank := (text[begins] == _BLANK) & (begins < ends)).any():
        begins = begins + is_blank
    while (is_blank := (text[ends - 1] == _BLANK) & (begins < ends)).any():
        ends = ends - is_blank
    return begins, ends
