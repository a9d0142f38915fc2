"""Blocks of lines made into arrays.

Most lines of most files are alike: `read_alike` makes arrays of a whole block of such lines at
once. Where it finds anything else, `read_each` reads the block line by line and names the place of
what cannot be read. Both give the same rows.
"""

import numpy as np

from faulttree.core.trace.alike import read_alike
from faulttree.core.trace.arrays import Rows
from faulttree.core.trace.header import Columns
from faulttree.core.trace.layout import Layout
from faulttree.core.trace.line import LineCutShort, LineReader
from faulttree.core.trace.lines import Block, is_passed_over, text_of


class BlockReader:
    """Makes rows of the blocks of one file, taken in order.

    Attributes:
        cut_line: the number of the last line, where it was cut off and left out; 0 otherwise.
    """

    def __init__(self, layout: Layout, columns: Columns) -> None:
        self._layout = layout
        self._columns = columns
        self._count = 0
        self.cut_line = 0

    def read(self, block: Block) -> Rows:
        """The rows of the next block; lines above the first line of numbers are passed over.

        Raises:
            TraceRefused: a line has too few cells, or a cell is neither reading nor missing.
        """
        block = _from_line(block, self._layout.first_line)
        alike = read_alike(block, self._layout, self._columns)
        rows = alike or self._read_each(block)
        if self._columns.time is not None:
            return rows
        count = self._count
        self._count += len(rows.values)
        times = np.arange(count, self._count) / self._columns.rate_hz
        return Rows(times, rows.values, rows.is_empty, rows.lines)

    def _read_each(self, block: Block) -> Rows:
        try:
            return read_each(block, self._layout, self._columns)
        except LineCutShort as error:
            if not block.is_cut or error.line != block.line + block.data.count(b"\n") - 1:
                raise
            self.cut_line = error.line
            before = block.data.rfind(b"\n", 0, -1) + 1
            return read_each(Block(block.data[:before], block.line), self._layout, self._columns)


def read_each(block: Block, layout: Layout, columns: Columns) -> Rows:
    """The rows of a block, line by line; times are zero where there is no column of times.

    Raises:
        TraceRefused: as `BlockReader.read`.
    """
    reader = LineReader(layout, columns)
    rows: list[tuple[float, float, bool, int]] = []
    for number, line in enumerate(text_of(block.data).split("\n"), block.line):
        if not is_passed_over(line) and (row := reader.read(line, number)):
            rows.append(row)
    if not rows:
        return Rows(np.empty(0), np.empty(0), None, np.empty(0, np.intp))
    times, values, empty, lines = zip(*rows, strict=True)
    is_empty = np.array(empty) if any(empty) else None
    return Rows(np.array(times), np.array(values), is_empty, np.array(lines, np.intp))


def _from_line(block: Block, first: int) -> Block:
    """The block without lines before line `first`."""
    at = 0
    for _ in range(first - block.line):
        at = block.data.find(b"\n", at) + 1
        if at == 0:
            return Block(b"", first)
    return Block(block.data[at:], max(block.line, first), block.is_cut)
