"""unknown-node, same-node, dangling-node: an element's end is nowhere, or a node leads nowhere."""

from collections import Counter
from collections.abc import Iterator

from faulttree.core.checks.finding import DocumentPath, Finding, nearest
from faulttree.core.circuit.document import CircuitModel, node_references


def check(model: CircuitModel) -> Iterator[Finding]:
    """One finding for each end that is not under nodes, and for each node that is a dead end."""
    unknown = [(path, node) for path, node in _references(model) if node not in model.nodes]
    for path, node in unknown:
        yield Finding("unknown-node", path, f"no node is called {node}", nearest(node, model.nodes))
    yield from _same(model)
    if not unknown:
        yield from _dangling(model)


def _references(model: CircuitModel) -> Iterator[tuple[DocumentPath, str]]:
    yield ("reference",), model.reference
    for name, element in model.elements.items():
        yield from ((("elements", name, *path), node) for path, node in node_references(element))
    for name, short in model.shorts.items():
        yield from ((("shorts", name, "between", i), n) for i, n in enumerate(short.between))


def _same(model: CircuitModel) -> Iterator[Finding]:
    pairs: dict[DocumentPath, list[str]] = {}
    for path, node in _references(model):
        if isinstance(path[-1], int):
            pairs.setdefault(path[:-1], []).append(node)
    for path, ends in pairs.items():
        if len(set(ends)) < len(ends):
            message = f"{ends[0]} is named twice" if len(ends) > 2 else f"both ends are {ends[0]}"
            yield Finding("same-node", path, message, "Give each end its own node.")


def _dangling(model: CircuitModel) -> Iterator[Finding]:
    ends = Counter(n for e in model.elements.values() for _, n in node_references(e))
    for node in model.nodes:
        if ends[node] >= 2:
            continue
        message = f"only one element ends at {node}" if ends[node] else f"nothing ends at {node}"
        help = "Add what is connected there, or take the node out."
        yield Finding("dangling-node", ("nodes", node), message, help, on_key=True)
