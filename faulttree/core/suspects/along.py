"""What is suspect along the circuit, stretch by stretch between the places for a probe."""

from collections.abc import Iterator
from dataclasses import dataclass

from faulttree.core.bench.document import BenchSheet
from faulttree.core.bench.strands import Section, Strand, strands_of
from faulttree.core.bench.suspects import Suspect
from faulttree.core.circuit.circuit import Circuit
from faulttree.core.circuit.edits import Change, Ohm, Open, Series, Stuck, Threshold
from faulttree.core.circuit.elements import Battery
from faulttree.core.suspects.ranking import Suspicion
from faulttree.core.suspects.shares import Share, share_of


@dataclass(frozen=True, slots=True)
class Reach:
    """A stretch of the circuit between two places for a probe.

    Attributes:
        start, end: nodes.
        share: that something is wrong in it.
        elements: ids of the elements in it that may be at fault, in the order of the way.
    """

    start: str
    end: str
    share: Share
    elements: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class Along:
    """What is suspect along the circuit.

    Attributes:
        strands: the ways of the current, each in stretches; the main one first.
        aside: ids of suspects that lie on none of them.
    """

    strands: tuple[tuple[Reach, ...], ...]
    aside: tuple[str, ...]


class Layout:
    """A circuit as strands, with its suspects in their places; worked out once."""

    def __init__(self, circuit: Circuit, sheet: BenchSheet, suspects: tuple[Suspect, ...]) -> None:
        self._suspects = suspects
        branches = _Branches(circuit)
        self._branch = {s.id: branches.of(s) for s in suspects}
        wanted = [branch for branch in self._branch.values() if branch]
        self._strands = strands_of(circuit, sheet, wanted)

    def with_shares(self, suspicion: Suspicion) -> Along:
        """The circuit with what the readings say of it."""
        strands = tuple(self._told(strand, suspicion) for strand in self._strands)
        placed = {b for strand in self._strands for s in strand.sections for b in s.branches}
        aside = (s.id for s in self._suspects if self._branch[s.id] not in placed)
        return Along(strands, tuple(aside))

    def _told(self, strand: Strand, suspicion: Suspicion) -> tuple[Reach, ...]:
        return tuple(self._reach(section, suspicion) for section in strand.sections)

    def _reach(self, section: Section, suspicion: Suspicion) -> Reach:
        there = [s.id for b in section.branches for s in self._suspects if self._branch[s.id] == b]
        elements = dict.fromkeys(name.partition(".")[0] for name in there)
        return Reach(section.start, section.end, share_of(suspicion, there), tuple(elements))


class _Branches:
    """The branch that a suspect is in."""

    def __init__(self, circuit: Circuit) -> None:
        self._netlist, self._elements = circuit.netlist, circuit.model.elements
        self._names = {branch.name for branch in circuit.netlist.branches}

    def of(self, suspect: Suspect) -> str:
        """Its name; empty for a short between wires, a situation, and the battery."""
        element = suspect.id.partition(".")[0]
        known = self._elements.get(element)
        if known is None or isinstance(known, Battery):
            return ""
        named = (name for name in self._named(suspect) if name in self._names)
        branches = self._netlist.branches
        own = [branches[i].name for i in self._netlist.branches_of(element)]
        return next(named, own[0])

    def _named(self, suspect: Suspect) -> Iterator[str]:
        for injected in suspect.forms[0].injected:
            for edit in injected.edits:
                if isinstance(edit, Open | Ohm | Series | Stuck):
                    yield edit.branch
                elif isinstance(edit, Threshold):
                    yield edit.control
                elif isinstance(edit, Change):
                    yield f"{edit.element}.{edit.key.rpartition('-')[0]}"
