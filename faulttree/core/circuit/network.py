"""The linear step: node voltages from the slopes and currents of all branches, in batch.

Nodal analysis with conductances only (every source has resistance, so none is ideal; open branches
are absent), assembled and solved afresh for every case. Floating islands are tied to the reference
at one node each by 1 S: no current flows in the tie, so it changes nothing.

Source: nodal analysis with Norton equivalents, as in Ho, Ruehli, Brennan, IEEE Trans. CAS 22 (1975)
504 (from memory).
"""

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from faulttree.core.circuit.islands import End, islands, representatives
from faulttree.core.circuit.netlist import Netlist

Floats = NDArray[np.float64]
Ints = NDArray[np.intp]
Term = tuple[int, int, float]
"""A column, a branch, and the sign with which the branch goes into the column."""


@dataclass(frozen=True, slots=True, eq=False)
class Network:
    """Where the branches of a netlist go.

    Attributes:
        n_nodes: number of nodes with the reference, which is the last one.
        a, b: ends of each branch, shape (n_b,).
        places: entries of the flattened nodal matrix that branches touch, shape (n_entries,).
        stamp: (entry, branch, sign): what each branch adds to them for each siemens it has.
        order: branches as one meets them from the reference on, shape (n_b,).
        leaving: (node, branch, sign): +1 where current leaves a node into a branch, -1 where it
            enters; the reference is left out.
    """

    n_nodes: int
    a: Ints
    b: Ints
    order: tuple[int, ...]
    places: Ints
    stamp: tuple[Term, ...]
    leaving: tuple[Term, ...]

    @classmethod
    def of(cls, netlist: Netlist) -> "Network":
        """The network of a netlist."""
        n_nodes, size = len(netlist.nodes), len(netlist.nodes) - 1
        a = np.array([branch.a for branch in netlist.branches])
        b = np.array([branch.b for branch in netlist.branches])
        rows = np.arange(len(a))
        leaving = np.zeros((len(a), n_nodes))
        leaving[rows, a] += 1.0
        leaving[rows, b] -= 1.0
        leaving[:, size] = 0.0
        full = (leaving[:, :, None] * leaving[:, None, :]).reshape(len(a), n_nodes * n_nodes)
        places = np.flatnonzero(full.any(axis=0))
        order = _outwards(a, b, size)
        return cls(n_nodes, a, b, order, places, _terms(full[:, places]), _terms(leaving))


def _terms(table: Floats) -> tuple[Term, ...]:
    """The entries of a sparse table of +1 and -1, shape (n_b, n_columns), by column."""
    columns, branches = np.nonzero(table.T)
    return tuple(
        (int(column), int(branch), float(table[branch, column]))
        for column, branch in zip(columns, branches, strict=True)
    )


def _outwards(a: Ints, b: Ints, reference: int) -> tuple[int, ...]:
    """Branches by how many others lie between them and the reference."""
    reached, order, left = {reference}, [], list(range(len(a)))
    while left:
        next_ones = [k for k in left if a[k] in reached or b[k] in reached] or left
        order += next_ones
        reached |= {int(end) for k in next_ones for end in (a[k], b[k])}
        left = [k for k in left if k not in next_ones]
    return tuple(order)


@dataclass(frozen=True, slots=True, eq=False)
class Added:
    """Ends of branches that differ from case to case: faults' paths, leads, the instrument.

    Attributes:
        a, b: shape (n_cases, n_added).
    """

    a: Ints
    b: Ints


def find_islands(network: Network, added: Added, slope: Floats) -> NDArray[np.uint16]:
    """The island of each node, shape (n_nodes, n_cases), by the slopes of all branches [S]."""
    conducts = np.ascontiguousarray(slope.T > 0.0)
    ends: list[tuple[End, End]] = [
        (int(a), int(b)) for a, b in zip(network.a, network.b, strict=True)
    ]
    ends += zip(added.a.T, added.b.T, strict=True)
    order = [*network.order, *range(len(network.a), len(ends))]
    return islands(conducts, ends, order, network.n_nodes)


def _added_up(values: Floats, terms: tuple[Term, ...], n_columns: int) -> Floats:
    """Sums of branches' values, shape (n_cases, n_columns).

    A matrix product would do the same, but it wakes the threads of the linear algebra library,
    which then are in the way of the many small systems that follow.
    """
    by_branch = np.ascontiguousarray(values.T)
    found = np.zeros((n_columns, len(values)))
    for column, branch, sign in terms:
        if sign > 0:
            found[column] += by_branch[branch]
        else:
            found[column] -= by_branch[branch]
    return found.T


def node_voltages(
    network: Network, added: Added, slope: Floats, amps: Floats, labels: NDArray[np.uint16]
) -> Floats:
    """Voltages of all nodes against the reference [V], shape (n_cases, n_nodes).

    Args:
        network: the branches that are the same in all cases.
        added: the ends of the others.
        slope: conductance of each branch [S], shape (n_cases, n_b + n_added).
        amps: current from a to b at no voltage [A], same shape.
        labels: what `find_islands` says for these slopes.
    """
    n_cases, n_nodes, n_b = len(slope), network.n_nodes, len(network.a)
    size = n_nodes - 1
    flat = np.zeros((n_cases, n_nodes * n_nodes))
    flat[:, network.places] = _added_up(slope, network.stamp, len(network.places))
    matrix = flat.reshape(n_cases, n_nodes, n_nodes)
    current = -_added_up(amps, network.leaving, n_nodes)
    cases = np.arange(n_cases)
    for k in range(added.a.shape[1]):
        a, b, g, j = added.a[:, k], added.b[:, k], slope[:, n_b + k], amps[:, n_b + k]
        matrix[cases, a, a] += g
        matrix[cases, b, b] += g
        matrix[cases, a, b] -= g
        matrix[cases, b, a] -= g
        current[cases, a] -= j
        current[cases, b] += j
    nodes, rows = np.nonzero(representatives(labels))
    matrix[rows, nodes, nodes] += 1.0
    found = np.zeros((n_cases, n_nodes))
    found[:, :size] = (
        np.linalg.solve(matrix[:, :size, :size], current[:, :size, None])[..., 0] + 0.0
    )
    return found
