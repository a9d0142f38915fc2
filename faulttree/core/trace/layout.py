"""How a trace file is laid out: separator, decimal sign, header, where the numbers begin.

It is told from the beginning of the file alone. Where two readings of it are as good, the one whose
header has as many names as the lines below have numbers is taken.
"""

import math
from collections import Counter
from collections.abc import Sequence
from dataclasses import dataclass

from faulttree.core.trace.lines import Cell, TraceRefused, cells_of, is_passed_over
from faulttree.core.trace.moments import TimeKind, kind_of
from faulttree.core.trace.names import is_units_row
from faulttree.core.trace.numbers import COMMA, POINT, decimals_of, is_missing, number_in

SEPARATORS = {"tab": "\t", "semicolon": ";", "comma": ","}
"""What may stand between two columns, by name; the first that fits is taken."""
DECIMALS = {"point": POINT, "comma": COMMA}
"""The decimal signs, by name."""
_ONE_COLUMN = ""
_LINES_RANKED = 200
_LINES_LOOKED_AT = 1000


@dataclass(frozen=True, slots=True)
class Style:
    """How the numbers of a file are written: what parts columns, and what parts decimals."""

    separator: str
    decimal: str


@dataclass(frozen=True, slots=True)
class Layout:
    """What stands where in a trace file.

    Attributes:
        style: how its numbers are written.
        names: the header's name of each column; empty texts where there is none.
        units: what a row of units below the header says, likewise.
        kinds: what each column holds; None for text, or where nothing is told.
        decimals: the most decimals that its numbers have at the beginning of the file.
        first_line: the line that the numbers begin in, counted from 1.
        sample: the cells of that line.
        above: lines above the header that are no comments and were passed over.
    """

    style: Style
    names: tuple[str, ...]
    units: tuple[str, ...]
    kinds: tuple[TimeKind | None, ...]
    decimals: tuple[int, ...]
    first_line: int
    sample: tuple[str, ...]
    above: int


@dataclass(frozen=True, slots=True)
class _Line:
    number: int
    cells: Sequence[Cell]

    @property
    def texts(self) -> tuple[str, ...]:
        return tuple(cell.text for cell in self.cells)


def layout_of(head: str, separator: str | None = None, decimal: str | None = None) -> Layout:
    """The layout of a file, told from its first lines.

    Args:
        head: the first lines, whole.
        separator, decimal: where they are known; found out otherwise.

    Raises:
        TraceRefused: no line of numbers is found, or the header does not fit the lines below it.
    """
    lines = [(n, line) for n, line in enumerate(head.split("\n"), 1) if not is_passed_over(line)]
    if not lines:
        raise TraceRefused("The file is empty; expected a header and lines of numbers below it.")
    first = lines[:_LINES_RANKED]
    ranked = [(_worth(_split(first, style), style), style) for style in _styles(separator, decimal)]
    worth, style = max(ranked, key=lambda each: each[0])
    if worth <= (0, 0):
        raise _no_numbers(lines[0][0])
    return _laid_out(_split(lines[:_LINES_LOOKED_AT], style), style)


def _split(lines: Sequence[tuple[int, str]], style: Style) -> list[_Line]:
    return [_Line(number, cells_of(line, style.separator)) for number, line in lines]


def _styles(separator: str | None, decimal: str | None) -> list[Style]:
    separators = [*SEPARATORS.values(), _ONE_COLUMN] if separator is None else [separator]
    decimals = (POINT, COMMA) if decimal is None else (decimal,)
    return [Style(s, d) for s in separators for d in decimals]


def _worth(rows: Sequence[_Line], style: Style) -> tuple[float, int]:
    """How much of the lines is numbers if read so, and whether a header fits them."""
    count = _usual_count(rows)
    if count < 2 and style.separator:
        return 0, 0
    fitting = [row for row in rows if len(row.cells) == count]
    shares = [_share_of_numbers(row, style) for row in fitting]
    first = next((i for i, share in enumerate(shares) if share), 0)
    begins = rows.index(fitting[first])
    has_header = begins > 0 and len(rows[begins - 1].cells) == count
    return round(math.fsum(shares) / len(rows), 9), int(has_header)


def _usual_count(rows: Sequence[_Line]) -> int:
    """The number of cells that most lines have, of the later half: headers stand above."""
    counted = Counter(len(row.cells) for row in rows[len(rows) // 2 :])
    return max(counted, key=lambda count: (counted[count], count))


def _share_of_numbers(row: _Line, style: Style) -> float:
    told = sum(_kind(cell.text, style) is not None for cell in row.cells)
    return told / len(row.cells)


def _kind(text: str, style: Style) -> TimeKind | None:
    """What a cell holds; None for text, and where nothing is told."""
    number = number_in(text, style.decimal)
    if number is None:
        return kind_of(text)
    return None if math.isnan(number) else TimeKind.NUMBER


def _laid_out(rows: Sequence[_Line], style: Style) -> Layout:
    count = _usual_count(rows)
    kinds = _kinds(rows, count, style)
    first = next((i for i, row in enumerate(rows) if _is_data(row, kinds, style)), None)
    if first is None:
        raise _no_numbers(rows[0].number)
    names, units, used = _header(rows[:first], count)
    if not used and first and 1 < len(rows[first - 1].cells) != count > 1:
        raise _misfit(rows[first - 1], rows[first])
    return Layout(
        style,
        names,
        units,
        kinds,
        _decimals(rows[first:], count, style),
        rows[first].number,
        rows[first].texts,
        above=first - used,
    )


def _kinds(rows: Sequence[_Line], count: int, style: Style) -> tuple[TimeKind | None, ...]:
    """What each column holds, as most of its cells say; where as many say otherwise, the later."""
    fitting = [row.texts for row in reversed(rows) if len(row.cells) == count]
    with_numbers = [texts for texts in fitting if any(_kind(text, style) for text in texts)]
    kinds: list[TimeKind | None] = []
    for column in zip(*with_numbers, strict=True):
        seen = Counter(_kind(text, style) for text in column if not is_missing(text))
        kinds.append(max(seen, key=lambda kind: seen[kind], default=None))
    return tuple(kinds)


def _decimals(rows: Sequence[_Line], count: int, style: Style) -> tuple[int, ...]:
    fitting = [row.texts for row in rows[:_LINES_RANKED] if len(row.cells) == count]
    return tuple(
        max(decimals_of(t[column], style.decimal) for t in fitting) for column in range(count)
    )


def _is_data(row: _Line, kinds: Sequence[TimeKind | None], style: Style) -> bool:
    """Whether a line has numbers and times in the columns that hold them."""
    if len(row.cells) != len(kinds):
        return False
    told = [
        _kind(cell.text, style) is kind
        for cell, kind in zip(row.cells, kinds, strict=True)
        if kind is not None and not is_missing(cell.text)
    ]
    return bool(told) and all(told)


def _header(above: Sequence[_Line], count: int) -> tuple[tuple[str, ...], tuple[str, ...], int]:
    """Names and units of the columns, and how many lines they take.

    A header may lack the last name where every line of numbers ends with a separator.
    """
    nothing = ("",) * count
    fitting = [texts for row in above[-2:] if (texts := _filled(row, count))]
    if not above or not fitting or fitting[-1] != _filled(above[-1], count):
        return nothing, nothing, 0
    if len(fitting) == 2 and is_units_row(fitting[1]):
        return fitting[0], fitting[1], 2
    return fitting[-1], nothing, 1


def _filled(row: _Line, count: int) -> tuple[str, ...] | None:
    texts = row.texts
    if len(texts) == count - 1 and count > 2:
        texts = (*texts, "")
    return texts if len(texts) == count else None


def _no_numbers(line: int) -> TraceRefused:
    return TraceRefused(
        "No lines of numbers were found; expected columns parted by comma, semicolon or tab, with "
        "a header above them.",
        line,
        1,
    )


def _misfit(header: _Line, data: _Line) -> TraceRefused:
    return TraceRefused(
        f"The line above has {len(header.cells)} columns and this one {len(data.cells)}; where "
        "numbers have decimal commas, columns must be parted by semicolons or tabs.",
        data.number,
        1,
    )
