"""The ways of the current through a circuit, as drawn at the head of each shipped tree."""

from itertools import pairwise, permutations
from random import Random

import pytest
from benches import TREES, opened

from faulttree.core.bench.strands import Section, Strand, strands_of
from faulttree.core.bench.suspects import suspects_of
from faulttree.core.bench.ways import Way, Ways
from faulttree.core.circuit.circuit import Circuit
from faulttree.core.circuit.netlist import Branch, Law, Terms

DRAWN = {
    "blower-some-speeds": (
        "link-joint relay-supply-wire socket-30 relay.main.make socket-87 board-wire fuse-clip "
        "blower-fuse feed-wire connector-feed motor connector-return return-wire high-wire "
        "speed-switch.high switch-plug ground-wire eyelet-joint body-strap"
    ),
    "ac-clutch-request": (
        "fuse-f7 supply-wire socket-30 relay.main.make socket-87 clutch-wire clutch-plug-feed "
        "clutch-coil clutch-plug-return ground-g6"
    ),
    "no-crank-intermittent": (
        "cell-link clamp-positive positive-cable solenoid.main.make brushes starter-mounting "
        "engine-strap negative-cable clamp-negative"
    ),
}
"""What may be at fault on the way of the heavy current, from battery positive to the reference, as
the circuit is drawn at the head of the tree."""
BESIDE = {
    "blower-some-speeds": "coil-fuse coil-wire relay.coil coil-ground-wire coil-ground-screw",
    "ac-clutch-request": (
        "ground-wire blower-contact.ac switch-wire panel-switch.main panel-wire fin-thermostat "
        "bulkhead-wire high-cut-out bay-wire low-cut-out request-wire"
    ),
    "no-crank-intermittent": (
        "ignition-switch.start signal-wire pn-switch.pass coil-feed socket-86 relay.coil socket-85"
    ),
}
"""What lies in line on another way: coil side, request line, start signal; either way round."""


def _circuit(name: str) -> tuple[Circuit, tuple[Strand, ...], set[str]]:
    found = opened(name)
    model, sheet = found.circuit.document, found.sheet.document
    circuit = Circuit.from_document(model)
    elements = {s.id.partition(".")[0] for s in suspects_of(model, sheet)}
    wanted = {b.name for b in circuit.netlist.branches if b.element in elements - {"battery"}}
    return circuit, strands_of(circuit, sheet, wanted), wanted


def _order(strand: Strand) -> list[str]:
    return [branch for section in strand.sections for branch in section.branches]


def _in_line(strand: Strand, branches: str) -> bool:
    wanted = branches.split()
    found = [branch for branch in _order(strand) if branch in wanted]
    return wanted in (found, found[::-1])


@pytest.mark.parametrize("name", DRAWN)
def test_the_main_way_is_the_one_drawn(name):
    _, strands, _ = _circuit(name)
    assert _in_line(strands[0], DRAWN[name]), _order(strands[0])
    assert strands[0].sections[-1].end == "battery-negative"


@pytest.mark.parametrize("name", BESIDE)
def test_coil_side_and_request_line_are_ways_of_their_own(name):
    _, strands, _ = _circuit(name)
    assert any(_in_line(strand, BESIDE[name]) for strand in strands[1:])


@pytest.mark.parametrize("name", TREES)
def test_every_branch_that_is_asked_for_lies_in_one_section_and_sections_join(name):
    circuit, strands, wanted = _circuit(name)
    found = [branch for strand in strands for branch in _order(strand)]
    assert wanted <= set(found)
    assert len(found) == len(set(found))
    for strand in strands:
        for one, other in pairwise(strand.sections):
            assert one.end == other.start
        assert wanted & set(_order(strand))
    ends = {each for strand in strands for s in strand.sections for each in (s.start, s.end)}
    assert ends <= set(circuit.netlist.nodes)


@pytest.mark.parametrize("name", TREES)
def test_sections_end_where_the_tree_puts_a_probe(name):
    circuit, strands, _ = _circuit(name)
    points = {n for n, node in circuit.model.nodes.items() if node.point}
    for strand in strands:
        inner = {section.end for section in strand.sections[:-1]}
        others = inner - points - set(opened(name).sheet.document.leads.values())
        tests = opened(name).sheet.document.tests.values()
        assert others <= {n for t in tests for n in (t.red, t.black)} | _told(name), others


def _told(name: str) -> set[str]:
    """Nodes of points that depend on a switch."""
    points = opened(name).sheet.document.points.values()
    return {n for each in points for n in ([each] if isinstance(each, str) else each.values())}


def test_a_diode_beside_a_coil_is_no_way_of_its_own():
    _, strands, _ = _circuit("ac-clutch-request")
    (section,) = [s for strand in strands for s in strand.sections if "relay.coil" in s.branches]
    assert section == Section("blade-86", "blade-85", ("relay.coil", "relay.diode"))


def _branch(name: str, a: int, b: int) -> Branch:
    return Branch(name, name, a, b, Law.LINEAR, lambda _car, _changes: Terms(1.0))


@pytest.mark.parametrize("seed", range(30))
def test_the_cheapest_way_is_the_cheapest_of_all_ways(seed):
    """Against every simple path, by trying them all."""
    random = Random(seed)
    ends = [tuple(random.sample(range(6), 2)) for _ in range(9)]
    branches = [_branch(f"b{i}", a, b) for i, (a, b) in enumerate(ends)]
    found = Ways(branches, frozenset(b.name for b in branches)).way(0, (5,))
    shortest = min(_lengths(ends), default=None)
    assert (len(found.steps) if found else None) == shortest


def _lengths(ends: list[tuple[int, ...]]) -> list[int]:
    joined = {frozenset(each) for each in ends}
    return [
        len(inner) + 1
        for count in range(5)
        for inner in permutations(range(1, 5), count)
        if all(frozenset(pair) in joined for pair in pairwise((0, *inner, 5)))
    ]


def test_a_way_turned_round_has_the_same_branches_in_the_other_order():
    branches = [_branch("a", 0, 1), _branch("b", 1, 2)]
    way = Ways(branches, frozenset()).way(0, (2,))
    assert isinstance(way, Way)
    assert (way.nodes, way.names) == ((0, 1, 2), ("a", "b"))
    assert (way.reversed().nodes, way.reversed().names) == ((2, 1, 0), ("b", "a"))


def test_a_wire_that_comes_back_nowhere_is_a_way_with_a_loose_end():
    branches = [
        _branch("feed", 0, 1),
        _branch("load", 1, 2),
        _branch("a", 1, 3),
        _branch("b", 3, 4),
    ]
    ways = Ways(branches, frozenset(b.name for b in branches))
    main = ways.way(0, (2,))
    assert main is not None
    (ear,) = ways.ears([main])
    assert ear.names == ("a", "b")
