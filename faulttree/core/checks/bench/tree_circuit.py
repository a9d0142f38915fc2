"""other-circuit: the tree names another circuit model than its bench sheet, or none."""

from collections.abc import Iterator

from faulttree.core.bench.document import BenchSheet
from faulttree.core.checks.finding import Finding
from faulttree.core.circuit.document import CircuitModel
from faulttree.core.tree import Tree


def check(sheet: BenchSheet, tree: Tree, model: CircuitModel) -> Iterator[Finding]:
    """Tree and sheet are about the same circuit."""
    help = f"Write circuit: {model.id} at the head of the tree."
    if tree.circuit is None:
        message = f"the tree {tree.id} names no circuit, so nothing will use this sheet"
        yield Finding("other-circuit", ("tree",), message, help, severity="warning")
    elif tree.circuit != model.id:
        message = f"the tree {tree.id} names the circuit {tree.circuit}, not {model.id}"
        yield Finding("other-circuit", ("circuit",), message, help)
