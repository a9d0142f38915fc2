"""One reading as likelihoods, wherever they come from."""

from dataclasses import dataclass

from faulttree.core.suspects.density import Floats


@dataclass(frozen=True, slots=True, eq=False)
class Likely:
    """One reading, as likelihoods.

    Attributes:
        cells: under each cell, shape (n_cells,).
        healthy: on a healthy car.
        anything: where a fault that nobody thought of shows: as some fault would, or anything.
        slip: if it has nothing to do with the car, times the chance of that.
    """

    cells: Floats
    healthy: float
    anything: float
    slip: float
