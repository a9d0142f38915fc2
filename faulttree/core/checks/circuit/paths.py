"""circuit-apart: a part of the circuit is joined to the rest by nothing."""

from collections.abc import Iterator

from faulttree.core.checks.finding import Finding
from faulttree.core.circuit.document import CircuitModel, node_references


def check(model: CircuitModel) -> Iterator[Finding]:
    """One finding for each part without any element between it and the reference.

    Elements count as joining all their nodes, coil and contacts alike: what is found is apart
    whatever is closed.
    """
    group = {node: node for node in model.nodes}

    def top(node: str) -> str:
        while group[node] != node:
            node = group[node]
        return node

    for element in model.elements.values():
        ends = [node for _, node in node_references(element)]
        for end in ends[1:]:
            group[top(end)] = top(ends[0])
    home = top(model.reference)
    told = {home}
    for node in model.nodes:
        if top(node) not in told:
            told.add(top(node))
            message = f"nothing joins {node} with {model.reference}"
            help = "Add what is missing between them: a ground, a wire, the battery's minus."
            yield Finding("circuit-apart", ("nodes", node), message, help, on_key=True)
