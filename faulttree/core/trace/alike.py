"""A block of lines that are all alike, made into arrays at once.

Nothing is told here of what is wrong with a line: where anything is out of the ordinary, None is
given back, and the block is read line by line.
"""

import warnings

import numpy as np

from faulttree.core.trace.alike_times import times_alike
from faulttree.core.trace.arrays import Bools, Bytes, Floats, Ints, Rows
from faulttree.core.trace.header import Columns
from faulttree.core.trace.layout import Layout, Style
from faulttree.core.trace.lines import Block, text_of
from faulttree.core.trace.moments import TimeKind, to_seconds
from faulttree.core.trace.numbers import COMMA, number_in

_LINE_FEED, _SPACE = 10, 32
_OF_NUMBERS = np.zeros(256, bool)
_OF_NUMBERS[list(b"0123456789+-.eE\n")] = True
_MOST_ODD = 0.05
"""Share of cells that are no plain numbers, above which reading line by line is as quick."""


def read_alike(block: Block, layout: Layout, columns: Columns) -> Rows | None:
    """The rows of a block of lines that are all alike; None where one is not.

    Times are zero where there is no column of times.
    """
    data = block.data
    if b'"' in data or b"#" in data:
        return None
    text = np.frombuffer(data, np.uint8)
    ends = _cell_ends(text, layout.style.separator, len(layout.kinds))
    if ends is None:
        return None
    begins = _cell_begins(ends)
    values = numbers_alike(text, begins[:, columns.value], ends[:, columns.value], layout.style)
    times = _times(text, begins, ends, layout, columns)
    if values is None or times is None:
        return None
    is_empty = begins[:, columns.value] == ends[:, columns.value]
    lines = np.arange(block.line, block.line + len(values), dtype=np.intp)
    return Rows(times, values, is_empty if is_empty.any() else None, lines)


def numbers_alike(text: Bytes, begins: Ints, ends: Ints, style: Style) -> Floats | None:
    """The numbers of a column's cells, NaN where one is missing; None where one is none.

    Args:
        text: a block.
        begins, ends: where each cell begins and ends in it.
        style: how numbers are written.
    """
    is_full = ends > begins
    if not is_full.all():
        numbers = np.full(len(begins), np.nan)
        full = numbers_alike(text, begins[is_full], ends[is_full], style)
        if full is None:
            return None
        numbers[is_full] = full
        return numbers
    cells = _cells(text, begins, ends, style)
    is_plain = _OF_NUMBERS[cells]
    if is_plain.all():
        return _parsed(cells, len(begins))
    odd = np.unique(np.searchsorted(np.flatnonzero(cells == _LINE_FEED), np.flatnonzero(~is_plain)))
    return _with_odd(text, begins, ends, style, odd)


def _cell_ends(text: Bytes, separator: str, count: int) -> Ints | None:
    """Where each cell ends, shape (lines, count); None where lines have other numbers of cells."""
    is_line_end = text == _LINE_FEED
    is_end = is_line_end | (text == ord(separator)) if separator else is_line_end
    ends = np.flatnonzero(is_end)
    if not len(ends) or len(ends) % count:
        return None
    table: Ints = ends.reshape(-1, count)
    fits = len(table) == np.count_nonzero(is_line_end) and is_line_end[table[:, -1]].all()
    is_blank = count == 1 and (np.diff(ends, prepend=-1) == 1).any()
    return table if fits and not is_blank else None


def _cell_begins(ends: Ints) -> Ints:
    before = ends.ravel()[:-1] + 1
    return np.concatenate(([0], before)).reshape(ends.shape)


def _cells(text: Bytes, begins: Ints, ends: Ints, style: Style) -> Bytes:
    """The cells alone, each with a line feed behind it, with decimal points and no blanks."""
    edges = np.zeros(len(text) + 1, np.int8)
    edges[begins] = 1
    edges[ends + 1] -= 1
    cells = text[np.cumsum(edges[:-1], dtype=np.int8).view(bool)]
    if style.separator:
        cells[cells == ord(style.separator)] = _LINE_FEED
    if style.decimal == COMMA:
        was_point = cells == ord(".")
        cells[cells == ord(",")] = ord(".")
        cells[was_point] = ord(",")
    return cells


def _parsed(cells: Bytes, count: int) -> Floats | None:
    """Plain numbers, each with a line feed behind it; None where it is not so many.

    Numbers that are written badly end the parsing or count twice, so that the count tells.
    """
    with warnings.catch_warnings():
        warnings.simplefilter("error")
        try:
            numbers = np.fromstring(cells.tobytes(), sep=" ")
        except (DeprecationWarning, ValueError):
            return None
    return numbers if len(numbers) == count and np.isfinite(numbers).all() else None


def _with_odd(text: Bytes, begins: Ints, ends: Ints, style: Style, odd: Ints) -> Floats | None:
    """The numbers of cells some of which are no plain numbers: blanks around them, NaN, OL."""
    if len(odd) > _MOST_ODD * len(begins) + 10:
        return None
    numbers = np.empty(len(begins))
    is_odd: Bools = np.zeros(len(begins), bool)
    is_odd[odd] = True
    plain = numbers_alike(text, begins[~is_odd], ends[~is_odd], style) if len(odd) < len(begins) else numbers[:0]
    told = [number_in(text_of(text[b:e].tobytes()).strip(), style.decimal) for b, e in zip(begins[odd], ends[odd], strict=True)]
    if plain is None or None in told:
        return None
    numbers[~is_odd] = plain
    numbers[is_odd] = told
    return numbers
