"""Levenberg and Marquardt's method for many small systems of equations at once."""

from collections.abc import Callable

import numpy as np
from numpy.typing import NDArray

from faulttree.core.loop.fluid import Floats

_STEP, _LONGEST = 1e-5, 0.6
_ENOUGH = 1e-14
_ROUNDS = 80


def solved(
    off: Callable[[Floats, NDArray[np.intp]], Floats], start: Floats
) -> tuple[Floats, Floats]:
    """Unknowns for which all equations hold, as nearly as they come.

    Args:
        off: by how much each equation is missed, shape (n_equations, n), for unknowns of shape
            (n_unknowns, n) and the indexes of the systems they belong to.
        start: first guess, shape (n_unknowns, n_systems).

    Returns:
        The unknowns, and the sum of squares that is left of each system; infinite where the
        equations have no number.
    """
    best = start.copy()
    every = np.arange(start.shape[1])
    missed = off(best, every)
    left = _squares(missed)
    damping = np.full(len(every), 1e-3)
    for _ in range(_ROUNDS):
        open_ones = np.flatnonzero((left > _ENOUGH) & (damping < 1e8))
        if not open_ones.size:
            break
        here, there = best[:, open_ones], missed[:, open_ones]
        step = _step(off, here, there, open_ones, damping[open_ones])
        tried = here + np.clip(step, -_LONGEST, _LONGEST)
        then = off(tried, open_ones)
        squares = _squares(then)
        better = squares < left[open_ones]
        gained = open_ones[better]
        best[:, gained], missed[:, gained] = tried[:, better], then[:, better]
        left[gained] = squares[better]
        damping[gained] = np.maximum(damping[gained] * 0.2, 1e-10)
        damping[open_ones[~better]] *= 5.0
    return best, left


def _squares(missed: Floats) -> Floats:
    """Sum of squares; no number is as far off as can be."""
    return np.asarray(np.nan_to_num((missed**2).sum(axis=0), nan=np.inf))


def _step(
    off: Callable[[Floats, NDArray[np.intp]], Floats],
    here: Floats,
    there: Floats,
    which: NDArray[np.intp],
    damping: Floats,
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
