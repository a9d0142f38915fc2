"""Lower bounds of the least minutes for a whole set of kinds: by entropy, and by pairs.

Kinds that a swapped part ends the search for together need not be told apart; so finds that share
such an end are taken as one. That never makes a bound greater.
"""

import heapq
from collections.abc import Sequence

import numpy as np
from numpy.typing import NDArray

from faulttree.core.order.board import Board, bits
from faulttree.core.order.clusters import Floats, outcomes, separation


def best_bound(board: Board, kinds: int, way: int = 0) -> float:
    """The greatest of the bounds here, minutes times weight."""
    return max(
        levelled(board, kinds), pair_separation(board, kinds, way), pair_sharing(board, kinds)
    )


def levelled(board: Board, kinds: int) -> float:
    """By the shortest code for the finds, with the cheapest tests at its levels.

    No plan needs fewer tests on average than a Huffman code for the weights of the finds has
    signs, with as many signs as a test has outcomes; and no test twice on one way. Source:
    Pattipati and Alexandridis, IEEE Trans. SMC 20 (1990) 872.
    """
    found = _loose_finds(board)
    weights: dict[int, float] = {}
    for bit in bits(kinds):
        weights[found[bit]] = weights.get(found[bit], 0.0) + board.kinds[bit].weight
    useful = [move for move in board.moves if board.splits(move, kinds)]
    minutes = sorted(move.test.minutes for move in useful)
    signs = max((len(move.parts) for move in useful), default=2)
    whole = sum(weights.values())
    if len(weights) < 2 or whole <= 0:
        return 0.0
    length = code_length([w / whole for w in weights.values()], max(2, signs))
    # A length that should be whole may come out a little below.
    levels = min(int(length + 1e-9), len(minutes))
    rest = minutes[levels] * max(length - levels, 0.0) if levels < len(minutes) else 0.0
    return (sum(minutes[:levels]) + rest) * whole


def code_length(weights: Sequence[float], signs: int) -> float:
    """Mean length of a Huffman code with so many different signs, for weights that make 1."""
    heap = [*weights, *[0.0] * (-(len(weights) - 1) % (signs - 1))]
    heapq.heapify(heap)
    length = 0.0
    while len(heap) > 1:
        merged = sum(heapq.heappop(heap) for _ in range(signs))
        length += merged
        heapq.heappush(heap, merged)
    return length


def pair_separation(board: Board, kinds: int, way: int = 0) -> float:
    """By the find that is dearest to tell apart: each kind pays at least the cheapest test for it.

    What must be set up for that test is paid on the way as well.
    """
    chosen = bits(kinds)
    if not chosen:
        return 0.0
    least = separation(board, way)[np.ix_(chosen, chosen)]
    dearest = np.where(_apart(board, chosen), least, 0.0).max(axis=1)
    return float((_weights(board, chosen) * dearest).sum())


def pair_sharing(board: Board, kinds: int) -> float:
    """By pairs, each of which must be told apart somewhere, and shares a test with few others.

    A test t that splits a set of m kinds into parts costs c_t p_i for kind i, which it tells apart
    from m - a_i others at most, a_i being the size of i's part. Shared out among them, each pair
    pays at least the least of c_t (p_i / (m - a_i) + p_j / (m - a_j)) over the tests that tell it
    apart. In a smaller set m - a is smaller, and the share greater. Derived here.
    """
    chosen = bits(kinds)
    weights = _weights(board, chosen)
    least = np.full((len(chosen), len(chosen)), np.inf)
    for move in board.moves:
        shown = outcomes(board, move.open, move.ended)[chosen]
        apart = shown[:, None] != shown[None, :]
        others = apart.sum(axis=1)
        if others.any():
            share = move.test.minutes * weights / np.maximum(others, 1)
            both = np.where(apart, share[:, None] + share[None, :], np.inf)
            np.minimum(least, both, out=least)
    return float(np.where(_apart(board, chosen), least, 0.0).sum() / 2)


def _weights(board: Board, chosen: Sequence[int]) -> Floats:
    return np.array([board.kinds[bit].weight for bit in chosen], float)


def _apart(board: Board, chosen: Sequence[int]) -> NDArray[np.bool_]:
    """Which pairs of kinds must be told apart in any case."""
    loose = _loose_finds(board)
    found = np.array([loose[bit] for bit in chosen], int)
    return np.asarray(found[:, None] != found[None, :])


def _loose_finds(board: Board) -> list[int]:
    """The finds of the kinds, those that may end together as one."""
    found = list(board.finds)
    for move in board.moves:
        together = {found[bit] for bit in bits(move.ended)}
        if len(together) > 1:
            one = min(together)
            found = [one if each in together else each for each in found]
    return found
