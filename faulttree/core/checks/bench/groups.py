"""group-parts: a group holds one part only, so there is nothing in it to tell apart."""

from collections.abc import Iterator

from faulttree.core.bench.document import BenchSheet
from faulttree.core.checks.bench.suspects import suspects_of
from faulttree.core.checks.finding import Finding
from faulttree.core.circuit.document import CircuitModel


def check(sheet: BenchSheet, model: CircuitModel) -> Iterator[Finding]:
    """Every group holds two parts or more that are replaced each by itself."""
    suspects = suspects_of(sheet, model)
    for name, group in sheet.groups.items():
        parts = {suspects.parts[s] for s in suspects.all_named(group.faults)}
        if len(parts) == 1 and all(map(suspects.has, group.faults)):
            message = f"all of {name} is one part: {', '.join(parts)}"
            help = "Name the other part, or take the group out: one part needs none."
            yield Finding("group-parts", ("groups", name, "faults"), message, help, on_key=True)
