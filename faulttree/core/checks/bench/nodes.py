"""unknown-node, same-node: the sheet names a node that is not there, or one node twice."""

from collections.abc import Iterator

from faulttree.core.bench.document import BenchSheet, SetOnCar
from faulttree.core.checks.bench.walks import set_ups_in, sights_in
from faulttree.core.checks.finding import DocumentPath, Finding, nearest
from faulttree.core.circuit.document import CircuitModel

Placed = tuple[DocumentPath, str]


def check(sheet: BenchSheet, model: CircuitModel) -> Iterator[Finding]:
    """Every node named is there, and what lies between two nodes lies between two."""
    pairs = [*_pairs(sheet)]
    places = [((*at, i), node) for at, pair in pairs for i, node in enumerate(pair)]
    for path, node in (*places, *_single(sheet)):
        if node not in model.nodes:
            message, help = f"no node is called {node}", nearest(node, model.nodes)
            yield Finding("unknown-node", path, message, help)
    for path, (a, b) in pairs:
        if a == b:
            message = f"both ends are {a}"
            yield Finding("same-node", path, message, "Give each end its own node.")


def _pairs(sheet: BenchSheet) -> Iterator[tuple[DocumentPath, tuple[str, str]]]:
    for at, set_up in set_ups_in(sheet):
        yield from ((at + path, pair) for path, pair in _joined(set_up))
    for path, sight in sights_in(sheet):
        if sight.voltage:
            yield (*path, "voltage"), sight.voltage


def _joined(set_up: SetOnCar) -> Iterator[tuple[DocumentPath, tuple[str, str]]]:
    yield from ((("bridges", i), pair) for i, pair in enumerate(set_up.bridges))
    yield from ((("loads", i, "between"), each.between) for i, each in enumerate(set_up.loads))


def _single(sheet: BenchSheet) -> Iterator[Placed]:
    yield from ((("leads", text), node) for text, node in sheet.leads.items())
    for point, where in sheet.points.items():
        if isinstance(where, str):
            yield ("points", point), where
        else:
            yield from ((("points", point, k), node) for k, node in where.items() if k != "by")
    for name, test in sheet.tests.items():
        for key, lead in (("red", test.red), ("black", test.black)):
            if lead:
                yield ("tests", name, key), lead
