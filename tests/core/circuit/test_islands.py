"""Islands against a search from node to node, on random networks."""

import numpy as np
from hypothesis import given, settings
from hypothesis import strategies as st

from faulttree.core.circuit.islands import islands, representatives

MOST = settings(derandomize=True, max_examples=200, deadline=None)


@st.composite
def networks(draw):
    n_nodes, n_branches = draw(st.integers(2, 12)), draw(st.integers(1, 16))
    node = st.integers(0, n_nodes - 1)
    ends = [(draw(node), draw(node)) for _ in range(n_branches)]
    cases = draw(st.integers(1, 4))
    flags = draw(st.lists(st.booleans(), min_size=n_branches * cases, max_size=n_branches * cases))
    return n_nodes, ends, np.array(flags).reshape(n_branches, cases)


def searched(n_nodes, ends, conducts):
    """Node to the nodes it hangs together with, by plain search."""
    found = []
    for start in range(n_nodes):
        seen, left = {start}, [start]
        while left:
            node = left.pop()
            for (a, b), open_way in zip(ends, conducts, strict=True):
                for here, there in ((a, b), (b, a)):
                    if open_way and here == node and there not in seen:
                        seen.add(there)
                        left.append(there)
        found.append(frozenset(seen))
    return found


@MOST
@given(networks(), st.booleans())
def test_nodes_share_a_number_when_they_hang_together(network, by_case):
    n_nodes, ends, conducts = network
    given_ends = [
        (np.full(conducts.shape[1], a), np.full(conducts.shape[1], b)) if by_case else (a, b)
        for a, b in ends
    ]
    labels = islands(conducts, given_ends, range(len(ends)), n_nodes)
    tied = representatives(labels)
    for case in range(conducts.shape[1]):
        groups = searched(n_nodes, ends, conducts[:, case])
        for i in range(n_nodes):
            for j in range(n_nodes):
                assert (labels[i, case] == labels[j, case]) == (groups[i] == groups[j])
            assert (labels[i, case] == 0) == (n_nodes - 1 in groups[i])
        floating = {group for group in groups if n_nodes - 1 not in group}
        assert tied[:, case].sum() == len(floating)
