"""Which nodes hang together: a part of a circuit without a path to the reference floats."""

from collections.abc import Callable, Sequence

import numpy as np
from numpy.typing import NDArray

Labels = NDArray[np.uint16]
End = int | NDArray[np.intp]
"""The node at an end of a branch: one for all cases, or one for each, shape (n_cases,)."""

_BARRED = np.uint16(0xFFFF)
"""Larger than any label: what is seen through a branch that does not conduct."""


def islands(
    conducts: NDArray[np.bool_], ends: Sequence[tuple[End, End]], order: Sequence[int], n_nodes: int
) -> Labels:
    """The island of each node.

    Args:
        conducts: whether a branch carries current, shape (n_branches, n_cases).
        ends: both nodes of each branch.
        order: the branches in an order that spreads labels fast.
        n_nodes: number of nodes; the last one is the reference.

    Returns:
        shape (n_nodes, n_cases): 0 for nodes that have a path to the reference; otherwise one
        more than the smallest index of a node in the same island.
    """
    always: list[bool] = np.all(conducts, axis=1).tolist()
    of = _joined([pair for pair, does in zip(ends, always, strict=True) if does], n_nodes)
    labels = np.empty((n_nodes, conducts.shape[1]), np.uint16)
    labels[:] = np.arange(1, n_nodes + 1, dtype=np.uint16)[:, None]
    labels[of[-1]] = 0
    sometimes = [k for k in order if _is_told_by_case(ends[k]) or not always[k]]
    barred = np.where(conducts, np.uint16(0), _BARRED)
    way = [_path(conducts[k], barred[k], of[ends[k][0]], of[ends[k][1]]) for k in sometimes]
    while True:
        before = labels.copy()
        for share in way:
            share(labels)
        if np.array_equal(before, labels):
            return labels[of]
        way.reverse()


def _is_told_by_case(ends: tuple[End, End]) -> bool:
    return not isinstance(ends[0], int)


def _joined(ends: Sequence[tuple[End, End]], n_nodes: int) -> NDArray[np.intp]:
    """Node to the one of smallest index among those that branches join in every case."""
    of = list(range(n_nodes))

    def found(node: int) -> int:
        while of[node] != node:
            of[node] = node = of[of[node]]
        return node

    for a, b in ends:
        if isinstance(a, int) and isinstance(b, int):
            here, there = found(a), found(b)
            of[max(here, there)] = min(here, there)
    return np.array([found(node) for node in range(n_nodes)], np.intp)


Share = Callable[[Labels], None]
"""Gives both ends of one branch the smaller number of the two, where it conducts."""


def _path(conducts: NDArray[np.bool_], barred: Labels, a: End, b: End) -> Share:
    if not isinstance(a, np.ndarray):
        return lambda labels: _between_rows(labels[a], labels[b], barred)
    cases = np.flatnonzero(conducts)
    first, second = (a[cases], cases), (np.asarray(b)[cases], cases)
    return lambda labels: _between_entries(labels, first, second)


def _between_rows(here: Labels, there: Labels, barred: Labels) -> None:
    np.minimum(here, there | barred, out=here)
    np.minimum(there, here | barred, out=there)


Entries = tuple[NDArray[np.intp], NDArray[np.intp]]


def _between_entries(labels: Labels, first: Entries, second: Entries) -> None:
    least = np.minimum(labels[first], labels[second])
    labels[first] = least
    labels[second] = least


def representatives(labels: Labels) -> NDArray[np.bool_]:
    """One node of each floating island, to be tied down; shape (n_nodes - 1, n_cases)."""
    own = np.arange(1, len(labels), dtype=np.uint16)[:, None]
    return np.asarray(labels[:-1] == own)
