"""The circuit document: inputs of the car, nodes, elements, and faults between elements."""

from collections.abc import Iterator, Mapping
from functools import cached_property
from typing import Annotated, Any, Literal

from pydantic import Field, model_validator

from faulttree.core.circuit.elements import (
    AnyElement,
    Battery,
    ControlInput,
    FaultEntry,
    Relay,
    ResistorPack,
    Splice,
    Switch,
    TwoPole,
)
from faulttree.core.circuit.loop_document import SHOWN, Loop
from faulttree.core.document import Document, Id, Line, Text, Version
from faulttree.core.expression import Expression
from faulttree.core.units import Quantity

Path = tuple[str | int, ...]
"""Keys and indexes from the document's root."""


class Input(Document):
    """Something that is set on the car or acts on it: named states, or a measured quantity."""

    words: Line | None = None
    states: Annotated[tuple[Id, ...], Field(min_length=2)] | None = None
    quantity: Quantity | None = None
    usual: Expression

    @model_validator(mode="after")
    def _one_kind(self) -> "Input":
        if (self.states is None) == (self.quantity is None):
            raise ValueError("needs states or quantity, one of them")
        return self


class Node(Document):
    """A place a technician could put a probe; `point` is the tree's name for it."""

    words: Line | None = None
    point: Id | None = None


class Short(FaultEntry):
    """Two wires that touch, or leak into each other."""

    words: Line | None = None
    between: tuple[Id, Id]


class CircuitModel(Document):
    """A whole circuit model."""

    format: Literal["circuit/1"]
    id: Id
    version: Version
    title: Line
    note: Text | None = None
    sources: dict[Id, Text] = {}
    inputs: dict[Id, Input] = {}
    reference: Id
    nodes: Annotated[dict[Id, Node], Field(min_length=2)]
    elements: Annotated[dict[Id, AnyElement], Field(min_length=1)]
    shorts: dict[Id, Short] = {}
    loop: Loop | None = None

    @model_validator(mode="before")
    @classmethod
    def _with_what_a_loop_shows(cls, written: Any) -> Any:
        """What the loop shows stands beside the inputs, as if it were written there."""
        if not isinstance(written, dict) or not isinstance(written.get("loop"), dict):
            return written
        shown = {n: {"quantity": s.quantity, "usual": s.usual} for n, s in SHOWN.items()}
        inputs = written.get("inputs", {})
        return written | {"inputs": {**shown, **inputs}} if isinstance(inputs, dict) else written

    @cached_property
    def quantities(self) -> Mapping[str, Quantity]:
        """The quantity of every measured input; amounts may use them by name."""
        return {n: i.quantity for n, i in self.inputs.items() if i.quantity is not None}

    @property
    def battery(self) -> Battery | None:
        """The first battery, whose posts are those of the car."""
        return next((e for e in self.elements.values() if isinstance(e, Battery)), None)


def node_references(element: AnyElement) -> Iterator[tuple[Path, str]]:
    """Every node an element names, with its place inside the element."""
    if isinstance(element, TwoPole):
        yield from _pair(("between",), element.between)
    elif isinstance(element, Battery):
        yield from ((("plus",), element.plus), (("minus",), element.minus))
    elif isinstance(element, Splice):
        yield from ((("joins", i), node) for i, node in enumerate(element.joins))
    elif isinstance(element, Switch):
        for name, contact in element.contacts.items():
            yield from _pair(("contacts", name, "between"), contact.between)
    elif isinstance(element, Relay):
        yield from _of_relay(element)
    elif isinstance(element, ResistorPack):
        yield from ((("taps", i), node) for i, node in enumerate(element.taps))
        if element.thermal_fuse:
            yield from _pair(("thermal-fuse", "between"), element.thermal_fuse.between)
    elif isinstance(element, ControlInput):
        yield from ((("pin",), element.pin), (("ground",), element.ground))


def _pair(path: Path, pair: tuple[str, str]) -> Iterator[tuple[Path, str]]:
    yield from (((*path, i), node) for i, node in enumerate(pair))


def _of_relay(relay: Relay) -> Iterator[tuple[Path, str]]:
    yield from _pair(("coil", "between"), relay.coil.between)
    for name, contact in relay.contacts.items():
        named = {"common": contact.common, "make": contact.make, "break": contact.break_}
        yield from ((("contacts", name, key), node) for key, node in named.items() if node)
