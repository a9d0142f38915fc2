"""The ways of the current through a circuit, cut where a probe can be put.

The first strand goes from battery positive through the load that the complaint is about to the
reference. Every other one leaves a strand that is known and comes back to one: the coil side of a
relay, a request line, another speed. A wire that comes back nowhere is a strand with a loose end.
"""

from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass, replace

from faulttree.core.bench.document import BenchSheet, Sight
from faulttree.core.bench.leads import spot_of
from faulttree.core.bench.ways import Step, Way, Ways
from faulttree.core.circuit.circuit import Circuit
from faulttree.core.circuit.elements import Battery, Lamp, Motor
from faulttree.core.circuit.figures import branches_named
from faulttree.core.circuit.netlist import Branch


@dataclass(frozen=True, slots=True)
class Section:
    """A piece of a strand between two places for a probe.

    Attributes:
        start, end: nodes.
        branches: what lies between, in the order of the way.
    """

    start: str
    end: str
    branches: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class Strand:
    """A way, in pieces: the end of each is the start of the next."""

    sections: tuple[Section, ...]


def strands_of(circuit: Circuit, sheet: BenchSheet, wanted: Iterable[str]) -> tuple[Strand, ...]:
    """The strands of a circuit that hold some branches, the main one first.

    Args:
        circuit: of a document that has been checked.
        sheet: says where probes are put and what the complaint is about.
        wanted: branches that shall be on a strand; strands without any are left out.
    """
    names = frozenset(wanted)
    batteries = {n for n, e in circuit.model.elements.items() if isinstance(e, Battery)}
    branches = [b for b in circuit.netlist.branches if b.element not in batteries]
    ways = Ways(branches, names)
    known = [*_main_way(ways, circuit, sheet)]
    probes = frozenset(_probes(circuit, sheet))
    cut = [
        _trimmed(list(_cut(way, circuit.netlist.nodes, probes)), names)
        for way in (*known, *ways.ears(known))
    ]
    return tuple(Strand(sections) for sections in _merged(cut))


def _main_way(ways: Ways, circuit: Circuit, sheet: BenchSheet) -> Iterator[Way]:
    """From battery positive through the load to the reference; nothing where there is no way."""
    netlist = circuit.netlist
    battery = circuit.model.battery
    if battery is None:
        return
    plus, reference = netlist.node(battery.plus), len(netlist.nodes) - 1
    for load in _loads(circuit, sheet):
        for first, second in ((load.a, load.b), (load.b, load.a)):
            feed = ways.way(plus, (first,), (reference, second))
            back = ways.way(second, (reference,), feed.nodes) if feed else None
            if feed and back:
                yield feed.joined_by(Way(first, (Step(load, second),))).joined_by(back)
                return
    straight = ways.way(plus, (reference,))
    if straight:
        yield straight


def _loads(circuit: Circuit, sheet: BenchSheet) -> Iterator[Branch]:
    """What the complaint looks at, then motors and lamps in the order of the document."""
    netlist, model = circuit.netlist, circuit.model
    for sight in _flat(sheet.complaint):
        name = sight.current or sight.light
        if name is not None:
            yield netlist.branches[branches_named(circuit, name)[0]]
        elif sight.voltage is not None:
            ends = {netlist.node(sight.voltage[0]), netlist.node(sight.voltage[1])}
            yield from (b for b in netlist.branches if {b.a, b.b} == ends)
    for name, element in model.elements.items():
        if isinstance(element, Motor | Lamp):
            yield netlist.branches[netlist.branches_of(name)[0]]


def _flat(sights: Iterable[Sight]) -> Iterator[Sight]:
    for sight in sights:
        inner = sight.any or sight.all or sight.not_
        if inner:
            yield from _flat(inner)
        else:
            yield sight


def _probes(circuit: Circuit, sheet: BenchSheet) -> Iterator[str]:
    """Nodes where the tree puts a probe."""
    yield from (name for name, node in circuit.model.nodes.items() if node.point)
    yield from sheet.leads.values()
    yield from sheet.posts or ()
    for where in sheet.points.values():
        spot = spot_of(where)
        nodes: Mapping[str, str] = spot.nodes or {"": spot.node}
        yield from nodes.values()
    for test in sheet.tests.values():
        yield from (node for node in (test.red, test.black) if node)


def _cut(way: Way, names: Sequence[str], probes: frozenset[str]) -> Iterator[Section]:
    """A way in pieces, each from one place for a probe to the next."""
    start, branches = names[way.start], []
    for index, step in enumerate(way.steps, 1):
        branches.append(step.branch.name)
        if names[step.to] in probes or index == len(way.steps):
            yield Section(start, names[step.to], tuple(branches))
            start, branches = names[step.to], []


def _trimmed(sections: Sequence[Section], wanted: frozenset[str]) -> tuple[Section, ...]:
    """The sections from the first to the last one that holds something wanted."""
    places = [i for i, each in enumerate(sections) if wanted.intersection(each.branches)]
    return tuple(sections[places[0] : places[-1] + 1]) if places else ()


def _merged(cut: Iterable[tuple[Section, ...]]) -> list[tuple[Section, ...]]:
    """The strands, but what lies beside a section alone, as a diode beside a coil, is put to it."""
    found: list[tuple[Section, ...]] = []
    for sections in cut:
        ends = {sections[0].start, sections[0].end} if len(sections) == 1 else None
        places = [
            (i, k)
            for i, known in enumerate(found)
            for k, each in enumerate(known)
            if {each.start, each.end} == ends
        ]
        if places:
            i, k = places[0]
            there = found[i][k]
            joined = replace(there, branches=there.branches + sections[0].branches)
            found[i] = (*found[i][:k], joined, *found[i][k + 1 :])
        elif sections:
            found.append(sections)
    return found
