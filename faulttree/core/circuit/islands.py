"""Which nodes hang together: a part of a circuit without a path to the reference floats."""

import numpy as np
from numpy.typing import NDArray


def islands(
    conducts: NDArray[np.bool_], a: NDArray[np.intp], b: NDArray[np.intp], n_nodes: int
) -> NDArray[np.uint16]:
    """The island of each node.

    Args:
        conducts: whether a branch carries current, shape (n_branches, n_cases).
        a, b: ends of each branch, shape (n_branches,), or (n_branches, n_cases) where they differ
            from case to case.
        n_nodes: number of nodes; the last one is the reference.

    Returns:
        shape (n_nodes, n_cases): the smallest number of a node in the same island, where nodes
        are numbered from the reference (0) upwards: 0 says that a node is tied to it.
    """
    n_cases = conducts.shape[1]
    labels = np.empty((n_nodes, n_cases), np.uint16)
    labels[:] = np.arange(1, n_nodes + 1, dtype=np.uint16)[:, None]
    labels[-1] = 0
    barred = np.where(conducts, np.uint16(0), np.uint16(0xFFFF))
    order = list(range(len(barred)))
    while True:
        before = labels.copy()
        for k in order:
            _share(labels, barred[k], a[k], b[k])
        if np.array_equal(before, labels):
            return labels
        order.reverse()


def _share(labels: NDArray[np.uint16], barred: NDArray[np.uint16], a: object, b: object) -> None:
    """Both ends of one branch take the smaller number of the two, where it conducts."""
    if np.ndim(a) == 0:  # type: ignore[arg-type]
        here, there = labels[a], labels[b]  # type: ignore[call-overload]
        np.minimum(here, there | barred, out=here)
        np.minimum(there, here | barred, out=there)
        return
    columns = np.arange(labels.shape[1])
    ends = (a, columns), (b, columns)
    least = np.minimum(labels[ends[0]] | barred, labels[ends[1]] | barred)
    for end in ends:
        labels[end] = np.minimum(labels[end], least)


def representatives(labels: NDArray[np.uint16]) -> NDArray[np.bool_]:
    """One node of each floating island, to be tied to the reference; shape (n_nodes - 1, n_cases)."""
    own = np.arange(1, len(labels), dtype=np.uint16)[:, None]
    return labels[:-1] == own
