"""The arrays that a trace is held in."""

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

Floats = NDArray[np.float64]
Bools = NDArray[np.bool_]
Ints = NDArray[np.intp]
Bytes = NDArray[np.uint8]


@dataclass(frozen=True, slots=True, eq=False)
class Rows:
    """What some lines of a file hold, in order.

    Attributes:
        times: as the file tells them [s].
        values: readings in the unit of their column; NaN where one is missing.
        is_empty: where the cell of a missing reading is empty; None where no cell is.
        lines: the line of each, counted from 1.
    """

    times: Floats
    values: Floats
    is_empty: Bools | None
    lines: Ints

    def only(self, kept: Bools) -> "Rows":
        """Some of the rows."""
        empty = None if self.is_empty is None else self.is_empty[kept]
        return Rows(self.times[kept], self.values[kept], empty, self.lines[kept])


@dataclass(frozen=True, slots=True, eq=False)
class Samples:
    """Samples in order; none is missing.

    Attributes:
        times: since the first row of the trace [s]; they never fall.
        values: readings in the unit of the trace.
        breaks: indices of samples that do not follow on the one before, rising.
    """

    times: Floats
    values: Floats
    breaks: Ints
