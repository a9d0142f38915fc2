"""Lines of a trace file as they come from the disk, and what is told where they cannot be used."""

import re
from dataclasses import dataclass

QUOTE = '"'
_COMMENT = ("#", "%", "//")
_QUOTED = re.compile(r'\s*"((?:[^"]|"")*)"\s*')


class TraceRefused(ValueError):
    """A trace cannot be used; the message says what is wrong, what was expected, what to do.

    Attributes:
        line: where in the file, counted from 1; 0 where no line is to blame.
        column: where in the line, counted from 1 in characters; 0 where the whole line is.
        source: the file, where it is another than that of the trace.
    """

    def __init__(self, message: str, line: int = 0, column: int = 0, source: str = "") -> None:
        super().__init__(message)
        self.line = line
        self.column = column
        self.source = source


@dataclass(frozen=True, slots=True)
class Block:
    """Some whole lines of a file.

    Attributes:
        data: the lines, each with a line feed at its end; UTF-8, or one byte a letter.
        line: number of the first of them, counted from 1.
        is_cut: the last one had no end in the file; it may have been cut off.
    """

    data: bytes
    line: int
    is_cut: bool = False


@dataclass(frozen=True, slots=True)
class Cell:
    """What stands between two separators, without blanks and quotes around it.

    Attributes:
        text: what stands there.
        start: where it begins, counted from 0 in characters of the line.
    """

    text: str
    start: int


def text_of(data: bytes) -> str:
    """Bytes as text: UTF-8, or Latin-1 where they are none."""
    try:
        return data.decode("utf-8")
    except UnicodeDecodeError:
        return data.decode("latin-1")


def is_passed_over(line: str) -> bool:
    """Whether a line is blank or a comment."""
    bare = line.lstrip().removeprefix(QUOTE)
    return not bare or bare.isspace() or bare.startswith(_COMMENT)


def cells_of(line: str, separator: str) -> list[Cell]:
    """The cells of a line; a separator between quotes does not count.

    Args:
        line: without its end.
        separator: one letter; empty where a line is one cell.
    """
    if QUOTE in line:
        return _quoted_cells(line, separator)
    parts = line.split(separator) if separator else [line]
    cells, at = [], 0
    for part in parts:
        cells.append(Cell(part.strip(), at + len(part) - len(part.lstrip())))
        at += len(part) + 1
    return cells


def _quoted_cells(line: str, separator: str) -> list[Cell]:
    cells: list[Cell] = []
    at = 0
    while at <= len(line):
        quoted = _QUOTED.match(line, at)
        end = quoted.end() if quoted else -1
        if quoted and (end == len(line) or line[end] == separator):
            cells.append(Cell(quoted[1].replace('""', QUOTE).strip(), quoted.start(1)))
        else:
            end = line.find(separator, at) if separator else -1
            end = len(line) if end < 0 else end
            part = line[at:end]
            cells.append(Cell(part.strip(), at + len(part) - len(part.lstrip())))
        at = end + 1
    return cells
