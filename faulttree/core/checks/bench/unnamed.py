"""unnamed-fault: a fault that may occur, and no verdict is right for it."""

from collections.abc import Iterator

from faulttree.core.bench.document import BenchSheet
from faulttree.core.checks.bench.suspects import suspects_of
from faulttree.core.checks.finding import Finding
from faulttree.core.circuit.document import CircuitModel


def check(sheet: BenchSheet, model: CircuitModel) -> Iterator[Finding]:
    """One finding for each element, or situation, of which something is never concluded."""
    suspects = suspects_of(sheet, model)
    named = suspects.all_named(n for verdict in sheet.verdicts.values() for n in verdict.names)
    unnamed: dict[str, list[str]] = {}
    for suspect in suspects.occur:
        if suspect not in named:
            unnamed.setdefault(suspect.partition(".")[0], []).append(suspect)
    for found in unnamed.values():
        message = f"no verdict names {', '.join(found)}"
        help = "Name it in the verdict that is right for it; weight: 0 leaves a fault out."
        yield Finding(
            "unnamed-fault", ("verdicts",), message, help, severity="warning", on_key=True
        )
