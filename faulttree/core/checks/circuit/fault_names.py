"""unknown-fault, fault-size: a fault the element cannot have, or a size that says nothing."""

from collections.abc import Iterator
from contextlib import suppress

from faulttree.core.checks.finding import DocumentPath, Finding, nearest
from faulttree.core.circuit.amounts import si
from faulttree.core.circuit.document import CircuitModel
from faulttree.core.circuit.elements import FaultEntry
from faulttree.core.circuit.fault_kinds import FaultKind, kinds_of
from faulttree.core.circuit.faults import rails_of
from faulttree.core.expression import ExpressionError
from faulttree.core.uncertain import CannotWorkOut
from faulttree.core.units import Quantity


def check(model: CircuitModel) -> Iterator[Finding]:
    """One finding for each entry under faults that could never be put into the circuit."""
    rails = rails_of(model)
    for name, element in model.elements.items():
        kinds = {kind.id: kind for kind in kinds_of(name, element, rails)}
        for fault, entry in element.faults.items():
            at: DocumentPath = ("elements", name, "faults", fault)
            if fault not in kinds:
                message = f"{name} has no fault {fault}"
                yield Finding("unknown-fault", at, message, nearest(fault, kinds), on_key=True)
            else:
                yield from sizes_of_entry(entry, kinds[fault].quantity, at)
                yield from _turned_round(entry, kinds[fault], at)
    for name, short in model.shorts.items():
        yield from sizes_of_entry(short, Quantity.RESISTANCE, ("shorts", name))


def _turned_round(entry: FaultEntry, kind: FaultKind, at: DocumentPath) -> Iterator[Finding]:
    """A shift downwards has sizes below zero; above it, it is the other fault."""
    if not kind.sizes or max(kind.sizes) >= 0.0 or kind.quantity is None:
        return
    for index, size in enumerate(entry.sizes or ()):
        with suppress(ExpressionError, CannotWorkOut):
            if si(size, kind.quantity) > 0.0:
                message = f"{size.text} is a shift the other way"
                help = f"Write it below zero: -{size.text}."
                yield Finding("fault-size", (*at, "sizes", index), message, help)


def sizes_of_entry(
    entry: FaultEntry, quantity: Quantity | None, at: DocumentPath
) -> Iterator[Finding]:
    """Whether the sizes that an entry gives are what sizes of this fault are."""
    if entry.sizes is None:
        return
    if quantity is None:
        message, help = "this fault has no size", "Take sizes out."
        yield Finding("fault-size", (*at, "sizes"), message, help, on_key=True)
        return
    for index, size in enumerate(entry.sizes):
        try:
            si(size, quantity)
        except (ExpressionError, CannotWorkOut) as error:
            yield Finding(
                "fault-size", (*at, "sizes", index), str(error), f"Write {quantity.words}."
            )
