"""The least minutes of every set of a few kinds, worked out from the smallest sets up.

W(S) = min over tests t of  c_t P(S) + sum over parts k of W(S and mask_tk),

with W = 0 where one find is left. P is the weight of a set, c the minutes of a test with what must
be set up for it. All sets of one size are worked out together. Source: dynamic programming over
subsets, as in Held and Karp, J. SIAM 10 (1962) 196 (from memory); the recursion is that of Garey,
SIAM J. Appl. Math. 23 (1972) 173 (from memory).
"""

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

Floats = NDArray[np.float64]
Sets = NDArray[np.int64]


@dataclass(frozen=True, slots=True)
class LatticeMove:
    """A test on a few kinds.

    Attributes:
        masks: the parts after which the search goes on.
        ends: whether the search ends for some of the kinds.
        minutes: with the set-up, for each way that the car is set up before it [min].
        after: the way that it is set up afterwards, for each way before.
    """

    masks: tuple[int, ...]
    ends: bool
    minutes: tuple[float, ...]
    after: tuple[int, ...]


def least_minutes(
    weights: Sequence[float], finds: Sequence[int], moves: Sequence[LatticeMove], ways: int = 1
) -> Floats:
    """The least minutes of every set, times the weight of the set, shape (ways, 2 ** n_kinds).

    Args:
        weights: of the kinds.
        finds: for each kind a number; kinds with the same one need not be told apart.
        moves: the tests, which tell all kinds with different finds apart.
        ways: in how many ways the car can be set up.
    """
    size = 1 << len(weights)
    weight = _weights(weights)
    least = np.full((ways, size), np.inf)
    least[:, _is_found(finds)] = 0.0
    distinct = [_distinct(moves, way) for way in range(ways)]
    for sets in _by_size(len(weights)):
        wanted = sets[least[0, sets] != 0.0]
        if wanted.size:
            for way in range(ways):
                least[way, wanted] = _best(least, wanted, weight[wanted], distinct[way])
    return least


_Distinct = dict[tuple[tuple[int, ...], int], float]
"""Parts and the way afterwards to the least minutes of any test that has them."""


def _distinct(moves: Sequence[LatticeMove], way: int) -> _Distinct:
    found: _Distinct = {}
    for move in moves:
        masks = tuple(sorted(mask for mask in move.masks if mask))
        if len(masks) > 1 or move.ends:
            key = masks, move.after[way]
            found[key] = min(found.get(key, np.inf), move.minutes[way])
    return found


def _best(least: Floats, sets: Sets, weight: Floats, moves: _Distinct) -> Floats:
    # A test that does not split a set leads back to the set, whose minutes are still infinite.
    best = np.full(len(sets), np.inf)
    for (masks, after), minutes in moves.items():
        found = minutes * weight
        for mask in masks:
            found += least[after, sets & mask]
        np.minimum(best, found, out=best)
    return best


def _weights(weights: Sequence[float]) -> Floats:
    table = np.zeros(1 << len(weights))
    for bit, weight in enumerate(weights):
        table[1 << bit : 2 << bit] = table[: 1 << bit] + weight
    return table


def _is_found(finds: Sequence[int]) -> NDArray[np.bool_]:
    """Whether all kinds of a set come to one find; sets of two finds and more are marked by -1."""
    table = np.full(1 << len(finds), -2)
    for bit, find in enumerate(finds):
        before = table[: 1 << bit]
        table[1 << bit : 2 << bit] = np.where((before == -2) | (before == find), find, -1)
    return np.asarray(table != -1)


def _by_size(kinds: int) -> list[Sets]:
    sizes = np.bitwise_count(np.arange(1 << kinds))
    order = np.argsort(sizes, kind="stable")
    return np.split(order, np.cumsum(np.bincount(sizes))[:-1])[2:]
