"""Kinds in blocks that are dear to tell apart from each other."""

from collections.abc import Sequence

import numpy as np
from numpy.typing import NDArray

from faulttree.core.order.board import Board, bits

Floats = NDArray[np.float64]


def separation(board: Board, way: int = 0) -> Floats:
    """Minutes of the cheapest test that tells two kinds apart or ends with both, shape (n, n).

    Infinite where none does; with what must be set up for it.
    """
    size = len(board.kinds)
    minutes, _ = board.prices(way)
    least = np.full((size, size), np.inf)
    for move in board.moves:
        shown = outcomes(board, move.open, move.ended)
        apart = (shown[:, None] != shown[None, :]) | (shown[:, None] == ENDED)
        np.minimum(least, np.where(apart, minutes[move.index], np.inf), out=least)
    return least


ENDED = -1


def outcomes(board: Board, masks: Sequence[int], ended: int) -> NDArray[np.int64]:
    """Which of the masks each kind is in, ENDED where the search ends with it, shape (n,)."""
    shown = np.full(len(board.kinds), len(masks), np.int64)
    for number, mask in enumerate(masks):
        shown[bits(mask)] = number
    shown[bits(ended)] = ENDED
    return shown


def blocks_of(board: Board, size: int) -> list[list[int]]:
    """The kinds in blocks of at most so many, each dear to tell apart within.

    Two blocks with the greatest mean of minutes times weight over their pairs become one, until
    none fit together. Average linkage: Sokal and Michener, Univ. Kansas Sci. Bull. 38 (1958) 1409
    (from memory).
    """
    blocks = {n: [n] for n in range(len(board.kinds))}
    link = _links(board)
    sizes = np.ones(len(blocks), np.int64)
    while len(blocks) > 1:
        fits = np.where(sizes[:, None] + sizes[None, :] <= size, link, -1.0)
        first, second = divmod(int(fits.argmax()), len(link))
        if fits[first, second] < 0:
            break
        mine, its = sizes[first], sizes[second]
        link[first] = link[:, first] = (link[first] * mine + link[second] * its) / (mine + its)
        link[first, first] = -1.0
        link[second] = link[:, second] = -1.0
        sizes[first], sizes[second] = mine + its, size + 1
        blocks[first] += blocks.pop(second)
    return [sorted(block) for block in blocks.values()]


def _links(board: Board) -> Floats:
    weight = np.array([kind.weight for kind in board.kinds])
    finds = np.array(board.finds)
    least = separation(board)
    same = (finds[:, None] == finds[None, :]) | ~np.isfinite(least)
    links = np.where(same, 0.0, least) * (weight[:, None] + weight[None, :])
    np.fill_diagonal(links, -1.0)
    return np.asarray(links)
