"""unknown-reading, condition-kind: a condition reads nothing, or cannot stand where it is."""

from collections.abc import Iterator

from faulttree.core.checks.finding import DocumentPath, Finding, nearest
from faulttree.core.circuit.conditions import Condition
from faulttree.core.circuit.document import CircuitModel
from faulttree.core.circuit.elements import ControlInput, ControlOutput
from faulttree.core.circuit.walks import conditions_in


def check(model: CircuitModel) -> Iterator[Finding]:
    """One finding for each condition that cannot be told where it stands."""
    for name, element in model.elements.items():
        for path, condition in conditions_in(element):
            at: DocumentPath = ("elements", name, *path)
            if (condition.node or condition.reads) and not isinstance(element, ControlOutput):
                message = "only inputs of the car may stand here, no voltages"
                yield Finding(
                    "condition-kind", at, message, "Use input, with is or from and below."
                )
            yield from _names(model, condition, at)


def _names(model: CircuitModel, condition: Condition, at: DocumentPath) -> Iterator[Finding]:
    inputs = [n for n, e in model.elements.items() if isinstance(e, ControlInput)]
    if condition.reads and condition.reads not in inputs:
        message = f"no control-input is called {condition.reads}"
        yield Finding("unknown-reading", (*at, "reads"), message, nearest(condition.reads, inputs))
    for key, node in (("node", condition.node), ("against", condition.against)):
        if node and node not in model.nodes:
            help = nearest(node, model.nodes)
            yield Finding("unknown-node", (*at, key), f"no node is called {node}", help)
