"""The lowest and the highest reading in each of some equal stretches of time: a picture's columns.

No dropout is lost in it, however short: a mean or every n-th sample would lose most of them.
"""

import numpy as np

from faulttree.core.trace.arrays import Floats, Samples


class Envelope:
    """Takes in samples in order.

    Attributes:
        lows, highs: by column; NaN where no sample lies.
    """

    def __init__(self, duration_s: float, columns: int) -> None:
        """`duration_s` is the time of the last sample [s]."""
        self._edges = np.linspace(0, duration_s, columns + 1)[1:-1]
        self.lows: Floats = np.full(columns, np.nan)
        self.highs: Floats = np.full(columns, np.nan)

    def add(self, samples: Samples) -> None:
        """Take in the next samples."""
        edges = np.searchsorted(samples.times, self._edges).tolist()
        for column, (begin, end) in enumerate(
            zip([0, *edges], [*edges, len(samples.times)], strict=True)
        ):
            if begin < end:
                values = samples.values[begin:end]
                self.lows[column] = np.fmin(self.lows[column], values.min())
                self.highs[column] = np.fmax(self.highs[column], values.max())
