"""What may be wrong with the car of a sheet, and what the names in it stand for."""

from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass

from faulttree.core.bench.document import BenchSheet
from faulttree.core.circuit.document import CircuitModel
from faulttree.core.circuit.fault_kinds import kinds_of
from faulttree.core.circuit.faults import faults_of, rails_of
from faulttree.core.circuit.loop_faults import faults_of_loop, kinds_of_loop


@dataclass(frozen=True, slots=True)
class Suspects:
    """Everything that may be wrong.

    Attributes:
        parts: every fault and situation, to the part that is replaced.
        occur: those that have a weight, in the order of the documents.
        elements: every element of the circuit; `shorts` stands for all shorts between wires.
    """

    parts: Mapping[str, str]
    occur: tuple[str, ...]
    elements: frozenset[str]

    def named(self, name: str) -> frozenset[str]:
        """The faults and situations that a name stands for, of whatever weight."""
        return frozenset(s for s in self.parts if s == name or s.startswith(f"{name}."))

    def all_named(self, names: Iterable[str]) -> frozenset[str]:
        """The faults and situations that some names stand for."""
        return frozenset().union(*(self.named(name) for name in names))

    def has(self, name: str) -> bool:
        """Whether it is an element, a fault or a situation."""
        return name in self.parts or name in self.elements


def suspects_of(sheet: BenchSheet, model: CircuitModel) -> Suspects:
    """The faults of the circuit and the situations of the sheet."""
    parts = dict(_parts(model))
    occurring = {fault.id: fault.part for fault in faults_of(model)}
    if model.loop:
        occurring |= {fault.id: fault.part for fault in faults_of_loop(model.loop)}
    situations = {name: each.part for name, each in sheet.situations.items()}
    weighty = [name for name, each in sheet.situations.items() if each.weight > 0]
    shorts = (*(("shorts",) if model.shorts else ()), *(("loop",) if model.loop else ()))
    return Suspects(
        {**parts, **occurring, **situations},
        (*occurring, *weighty),
        frozenset((*model.elements, *shorts)),
    )


def _parts(model: CircuitModel) -> Iterator[tuple[str, str]]:
    """Faults that have weight 0 are told by no other function; they have the part of the others."""
    rails = rails_of(model)
    for name, element in model.elements.items():
        part = element.part_for(name)
        yield from ((f"{name}.{kind.id}", part) for kind in kinds_of(name, element, rails))
    for name, short in model.shorts.items():
        yield f"shorts.{name}", short.words or name
    if model.loop:
        yield from ((f"loop.{kind.id}", kind.part) for kind in kinds_of_loop(model.loop))
