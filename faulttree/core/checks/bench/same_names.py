"""same-name: a choice is called like a state, or a situation like an element."""

from collections.abc import Iterator

from faulttree.core.bench.document import BenchSheet
from faulttree.core.checks.finding import Finding
from faulttree.core.circuit.document import CircuitModel


def check(sheet: BenchSheet, model: CircuitModel) -> Iterator[Finding]:
    """What a name stands for can be told."""
    for name, choice in sheet.choices.items():
        known = model.inputs.get(choice.input)
        if known and name in (known.states or ()):
            message = f"{name} is a state of {choice.input} as well"
            help = "Rename the choice: inputs could mean either."
            yield Finding("same-name", ("choices", name), message, help, on_key=True)
    for name in sheet.situations:
        if name in model.elements:
            message = f"{name} is an element of the circuit as well"
            help = "Rename the situation: a verdict could mean either."
            yield Finding("same-name", ("situations", name), message, help, on_key=True)
