"""unknown-fault, fault-left-out: a name is no fault, or a verdict has none that may occur."""

from collections.abc import Iterator

from faulttree.core.bench.document import BenchSheet
from faulttree.core.checks.bench.suspects import Suspects, suspects_of
from faulttree.core.checks.bench.walks import sights_in
from faulttree.core.checks.finding import DocumentPath, Finding, nearest
from faulttree.core.circuit.document import CircuitModel


def check(sheet: BenchSheet, model: CircuitModel) -> Iterator[Finding]:
    """Names are elements, single faults or situations; a verdict may be right for one of them."""
    suspects = suspects_of(sheet, model)
    for at, names in _names_in(sheet):
        for index, name in enumerate(names):
            if not suspects.has(name):
                yield _unknown((*at, index), name, suspects)
    for verdict_id, verdict in sheet.verdicts.items():
        named = suspects.all_named(verdict.names)
        if all(map(suspects.has, verdict.names)) and named.isdisjoint(suspects.occur):
            at = ("verdicts", verdict_id, "names")
            message = f"{verdict_id} is never right: all that it names has weight 0"
            help = "Give it a weight in the circuit model, or name another fault."
            yield Finding("fault-left-out", at, message, help, severity="warning", on_key=True)


def _names_in(sheet: BenchSheet) -> Iterator[tuple[DocumentPath, tuple[str, ...]]]:
    for name, verdict in sheet.verdicts.items():
        yield ("verdicts", name, "names"), verdict.names
        if verdict.proof:
            yield ("verdicts", name, "proof", "replaces"), verdict.proof.replaces
    for name, group in sheet.groups.items():
        yield ("groups", name, "faults"), group.faults
    for path, sight in sights_in(sheet):
        yield (*path, "faulty"), sight.faulty or ()


def _unknown(path: DocumentPath, name: str, suspects: Suspects) -> Finding:
    element, _, fault = name.partition(".")
    if fault and element in suspects.elements:
        message, help = f"{element} has no fault {fault}", nearest(name, suspects.named(element))
    else:
        message = f"{name} is no element, no fault and no situation"
        help = nearest(name, (*suspects.elements, *suspects.parts))
    return Finding("unknown-fault", path, message, help)
