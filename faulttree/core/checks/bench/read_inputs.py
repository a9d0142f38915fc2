"""test-reading: a test reads an input of another quantity than its step."""

from collections.abc import Iterator

from faulttree.core.bench.document import BenchSheet
from faulttree.core.checks.finding import Finding
from faulttree.core.circuit.document import CircuitModel
from faulttree.core.tree import Measure, Tree


def check(sheet: BenchSheet, tree: Tree, model: CircuitModel) -> Iterator[Finding]:
    """The input that a test reads is measured, and is what the step measures."""
    for name, test in sheet.tests.items():
        step = tree.steps.get(name)
        if not isinstance(step, Measure) or test.of not in model.inputs:
            continue
        quantity = model.inputs[test.of].quantity
        if quantity is not step.quantity:
            what = quantity.words if quantity else "an input with states"
            message = f"{test.of} is {what}; {name} reads {step.quantity.words}"
            fitting = [n for n, q in model.quantities.items() if q is step.quantity]
            help = f"Read {' or '.join(fitting)}." if fitting else "Give value in place of of."
            yield Finding("test-reading", ("tests", name, "of"), message, help)
