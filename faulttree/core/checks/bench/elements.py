"""unknown-element, unknown-reading: a name is no element, or none of the kind that it must be."""

import math
from collections.abc import Collection, Iterator, Mapping

from faulttree.core.bench.document import BenchSheet, Sight
from faulttree.core.checks.bench.walks import set_ups_in, sights_in
from faulttree.core.checks.finding import DocumentPath, Finding, nearest
from faulttree.core.circuit.circuit import Circuit
from faulttree.core.circuit.document import CircuitModel
from faulttree.core.circuit.elements import ControlInput, Lamp, Led, Relay


def check(sheet: BenchSheet, model: CircuitModel) -> Iterator[Finding]:
    """Currents flow in branches, lamps light, relays pull, fuses blow, inputs are read."""
    parts = _Parts(model)
    for at, set_up in set_ups_in(sheet):
        for index, name in enumerate(set_up.removes):
            yield from parts.removed((*at, "removes", index), name)
    for name, test in sheet.tests.items():
        if test.current:
            yield from parts.current(("tests", name, "current"), test.current)
    for at, sight in sights_in(sheet):
        yield from _of_sight(parts, at, sight)


def _of_sight(parts: "_Parts", at: DocumentPath, sight: Sight) -> Iterator[Finding]:
    if sight.current:
        yield from parts.current((*at, "current"), sight.current)
    for key, kind in (("light", "lamp or led"), ("pulls", "relay"), ("blown", "fuse")):
        name = getattr(sight, key)
        if name and name not in parts.of_kind[kind]:
            message = f"no {kind} is called {name}{parts.what_it_is(name)}"
            help = nearest(name, parts.of_kind[kind])
            yield Finding("unknown-element", (*at, key), message, help)
    inputs = parts.of_kind["control-input"]
    if sight.reads and sight.reads not in inputs:
        message = f"no control-input is called {sight.reads}{parts.what_it_is(sight.reads)}"
        yield Finding("unknown-reading", (*at, "reads"), message, nearest(sight.reads, inputs))


class _Parts:
    """What a circuit offers by name: elements, their branches, and those of certain kinds."""

    def __init__(self, model: CircuitModel) -> None:
        self._elements = model.elements
        self._branches: dict[str, list[str]] = {}
        netlist = Circuit.from_document(model).netlist
        for branch in netlist.branches:
            self._branches.setdefault(branch.element, []).append(branch.name)
        self._names = {b.name for b in netlist.branches}
        self.of_kind: Mapping[str, Collection[str]] = {
            "lamp or led": self._of(Lamp, Led),
            "relay": self._of(Relay),
            "control-input": self._of(ControlInput),
            "fuse": [b.name for b in netlist.branches if math.isfinite(b.opens_above_a)],
        }

    def _of(self, *kinds: type) -> list[str]:
        return [name for name, element in self._elements.items() if isinstance(element, kinds)]

    def what_it_is(self, name: str) -> str:
        """For the end of a sentence; empty for a name that is nothing."""
        known = self._elements.get(name)
        return f"; it is a {known.kind}" if known else ""

    def removed(self, path: DocumentPath, name: str) -> Iterator[Finding]:
        """An element, or one branch of it."""
        if name not in self._branches and name not in self._names:
            known = {*self._branches, *self._names}
            message = f"the circuit has no element {name} that could be taken out"
            yield Finding("unknown-element", path, message, nearest(name, known))

    def current(self, path: DocumentPath, name: str) -> Iterator[Finding]:
        """A branch, or an element of one branch."""
        of_element = self._branches.get(name, [])
        if len(of_element) > 1:
            message = f"{name} has several currents"
            help = f"Name one of {', '.join(of_element)}."
            yield Finding("unknown-element", path, message, help)
        elif name not in self._names and not of_element:
            message = f"no element or part of one is called {name}"
            yield Finding("unknown-element", path, message, nearest(name, self._current_names()))

    def _current_names(self) -> set[str]:
        single = {name for name, branches in self._branches.items() if len(branches) == 1}
        return single | self._names
