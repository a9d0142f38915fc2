"""Levenberg and Marquardt's method for many small systems of equations at once."""

from collections.abc import Callable

import numpy as np
from numpy.typing import NDArray

from faulttree.core.loop.fluid import Floats

_STEP, _LONGEST = 1e-5, 0.6
_ENOUGH = 1e-14
_LEAST_DAMPING, _DAMPING, _MOST_DAMPING = 1e-10, 1e-3, 1e8
_ROUNDS = 80


Off = Callable[[Floats, NDArray[np.intp]], Floats]
"""By how much each equation is missed, shape (n_equations, n): for unknowns, shape (n_unknowns, n),
and the indexes of the systems they belong to."""


def solved(off: Off, start: Floats) -> tuple[Floats, Floats]:
    """Unknowns for which all equations hold, as nearly as they come.

    Args:
        off: by how much each equation is missed.
        start: first guess, shape (n_unknowns, n_systems).

    Returns:
        The unknowns, and the sum of squares that is left of each system; infinite where the
        equations have no number.
    """
    search = _Search(off, start)
    for _ in range(_ROUNDS):
        open_ones = search.open_ones()
        if not open_ones.size:
            break
        search.improve(open_ones)
    return search.best, search.left


class _Search:
    """The best unknowns so far, what is missed and left with them, and how short steps are kept."""

    def __init__(self, off: Off, start: Floats) -> None:
        every = np.arange(start.shape[1])
        self._off, self.best = off, start.copy()
        self._missed = off(self.best, every)
        self.left = _squares(self._missed)
        self._damping = np.full(len(every), _DAMPING)

    def open_ones(self) -> NDArray[np.intp]:
        """The systems that are worth another step."""
        return np.flatnonzero((self.left > _ENOUGH) & (self._damping < _MOST_DAMPING))

    def improve(self, which: NDArray[np.intp]) -> None:
        """Takes one step in some systems, and keeps it where it brought them nearer."""
        here = self.best[:, which]
        step = _step(self._off, here, self._missed[:, which], which, self._damping[which])
        tried = here + np.clip(step, -_LONGEST, _LONGEST)
        then = self._off(tried, which)
        squares = _squares(then)
        better = squares < self.left[which]
        gained = which[better]
        self.best[:, gained], self._missed[:, gained] = tried[:, better], then[:, better]
        self.left[gained] = squares[better]
        self._damping[gained] = np.maximum(self._damping[gained] * 0.2, _LEAST_DAMPING)
        self._damping[which[~better]] *= 5.0


def _squares(missed: Floats) -> Floats:
    """Sum of squares; no number is as far off as can be."""
    return np.asarray(np.nan_to_num((missed**2).sum(axis=0), nan=np.inf))


def _step(
    off: Off, here: Floats, there: Floats, which: NDArray[np.intp], damping: Floats
) -> Floats:
    count, systems = here.shape
    beside = np.tile(here, count)
    for index in range(count):
        beside[index, index * systems : (index + 1) * systems] += _STEP
    missed = off(beside, np.tile(which, count)).reshape(len(there), count, systems)
    slopes = np.asarray((missed - there[:, None, :]) / _STEP).transpose(2, 0, 1)
    downhill = np.einsum("nij,ni->nj", slopes, there.T)
    curved = np.einsum("nij,nik->njk", slopes, slopes)
    own = np.einsum("njj->nj", curved) + 1e-9
    curved += (damping[:, None] * own)[:, :, None] * np.eye(count)
    return np.asarray(-np.linalg.solve(curved, downhill[:, :, None])[:, :, 0].T)
