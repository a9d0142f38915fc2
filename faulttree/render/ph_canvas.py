"""A sheet of signs to draw lines on, each sign with a tone."""

from collections.abc import Iterator, Sequence
from itertools import groupby, pairwise

from faulttree.render.scale import Row, Segment

Cell = tuple[int, int]
"""Column and row; row 0 is the top one."""
_UPPER, _LOWER, _BOTH = "'", ".", ":"
_LEVEL, _UPRIGHT = "─", "│"


class Canvas:
    """Columns and rows of signs, blank at first. Places are shares: 0 to 1, right and up."""

    def __init__(self, columns: int, rows: int) -> None:
        self.columns, self.rows = columns, rows
        self._cells: dict[Cell, tuple[str, str]] = {}

    def cell(self, x: float, y: float) -> Cell:
        """The cell of a place."""
        return round(x * (self.columns - 1)), round((1 - y) * (self.rows - 1))

    def put(self, cell: Cell, sign: str, tone: str) -> None:
        """A sign over whatever there was."""
        self._cells[cell] = (sign, tone)

    def curve(self, places: Sequence[tuple[float, float]], tone: str) -> None:
        """A dotted line that tells the upper half of a cell from its lower half."""
        for start, end in pairwise(places):
            for x, y in _between(start, end, 4 * (self.columns + self.rows)):
                self._dot(x, y, tone)

    def _dot(self, x: float, y: float, tone: str) -> None:
        down = (1 - y) * (self.rows - 1)
        cell = self.cell(x, y)
        sign = _UPPER if down < cell[1] else _LOWER
        there = self._cells.get(cell, (sign, tone))[0]
        self.put(cell, sign if there in (sign, " ") else _BOTH, tone)

    def stroke(
        self, start: tuple[float, float], end: tuple[float, float], sign: str, tone: str
    ) -> None:
        """A straight line in one sign; in lines along its way where `sign` is empty."""
        cells = _steps(self.cell(*start), self.cell(*end))
        for here, there in zip(cells, [*cells[1:], cells[-1]], strict=True):
            before = cells[-2] if there == here and len(cells) > 1 else here
            self.put(here, sign or _along(before, there), tone)

    def lines(self) -> Iterator[Row]:
        """The rows from top to bottom, as wide as the sheet."""
        for row in range(self.rows):
            cells = [self._cells.get((c, row), (" ", "plain")) for c in range(self.columns)]
            yield tuple(
                Segment("".join(sign for sign, _ in group), tone)
                for tone, group in groupby(cells, key=lambda cell: cell[1])
            )


def _between(
    start: tuple[float, float], end: tuple[float, float], count: int
) -> Iterator[tuple[float, float]]:
    span = max(abs(end[0] - start[0]), abs(end[1] - start[1]))
    steps = max(1, round(span * count))
    for step in range(steps + 1):
        share = step / steps
        yield (
            start[0] + share * (end[0] - start[0]),
            start[1] + share * (end[1] - start[1]),
        )


def _steps(start: Cell, end: Cell) -> list[Cell]:
    """The cells of a straight line, each beside the one before."""
    across, down = end[0] - start[0], end[1] - start[1]
    count = max(abs(across), abs(down), 1)
    return [
        (start[0] + round(i * across / count), start[1] + round(i * down / count))
        for i in range(count + 1)
    ]


def _along(here: Cell, there: Cell) -> str:
    """The sign of a line from one cell to the next."""
    across, down = there[0] - here[0], there[1] - here[1]
    if down == 0:
        return _LEVEL
    if across == 0:
        return _UPRIGHT
    return "\\" if (across > 0) == (down > 0) else "/"
