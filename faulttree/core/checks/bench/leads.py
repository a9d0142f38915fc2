"""lead-place, unused-lead, same-node: a lead of the tree has no place, or that of the other one."""

from collections.abc import Iterator, Mapping, Sequence
from difflib import SequenceMatcher

from faulttree.core.bench.document import BenchSheet
from faulttree.core.bench.leads import Spot, Spots, plain
from faulttree.core.checks.bench.points import stray_points
from faulttree.core.checks.bench.positions import positions
from faulttree.core.checks.bench.readings import is_read_by_leads
from faulttree.core.checks.finding import Finding, nearest
from faulttree.core.circuit.document import CircuitModel
from faulttree.core.texts import placeholders
from faulttree.core.tree import Measure, Observe, Tree


def check(sheet: BenchSheet, tree: Tree, model: CircuitModel) -> Iterator[Finding]:
    """Both leads of every reading are found, at two nodes, however the car is set."""
    spots = Spots(sheet, model)
    missing: dict[str, list[str]] = {}
    for test_id, test in sheet.tests.items():
        step = tree.steps.get(test_id)
        if not isinstance(step, Measure) or not is_read_by_leads(test, step):
            continue
        leads = ((test.red, step.red_lead), (test.black, step.black_lead))
        found = [Spot(node) if node else spots.find(text) for node, text in leads]
        for spot, (_, text) in zip(found, leads, strict=True):
            if spot is None and text:
                missing.setdefault(text, []).append(test_id)
            elif spot:
                yield from positions(sheet, model, test_id, step.set_up, spot)
        yield from _same(test_id, found)
    yield from _nowhere(sheet, tree, missing)


def _nowhere(
    sheet: BenchSheet, tree: Tree, missing: Mapping[str, Sequence[str]]
) -> Iterator[Finding]:
    """One finding for each lead, however many tests have it.

    A text that nothing has is told only where no lead is missing: it is mostly one of these.
    """
    stray = _stray_leads(sheet, tree)
    for text, tests in missing.items():
        if placeholders(text) and stray_points(sheet, tree):
            continue  # the point is there under a wrong name, which is told
        more = f" and {len(tests) - 1} more" if len(tests) > 1 else ""
        message = f"no node is given for “{text}”, a lead of {tests[0]}{more}"
        help = _help(text, stray)
        yield Finding("lead-place", ("tests", tests[0]), message, help, on_key=True)
    for text in stray if not missing else ():
        message = f"no step of the tree has its lead at “{text}”"
        help = nearest(text, _leads_of(tree))
        yield Finding("unused-lead", ("leads", text), message, help, "warning", on_key=True)


def _help(text: str, stray: Sequence[str]) -> str:
    points = placeholders(text)
    if len(points) == 1:
        return f"Add {points[0]}: NODE under points, or point: {points[0]} to the circuit's node."
    if stray:
        closest = max(stray, key=lambda known: SequenceMatcher(None, known, text).ratio())
        return f"Write it under leads as the tree does; there it is “{closest}”."
    return "Add this text with its node under leads, or red or black: NODE to the test."


def _same(test_id: str, spots: Sequence[Spot | None]) -> Iterator[Finding]:
    red, black = spots
    if red and black and red.node and red.node == black.node:
        message = f"both leads of {test_id} are at {red.node}, which would always read nothing"
        help = "Add what lies between the two places to the circuit model."
        yield Finding("same-node", ("tests", test_id), message, help, "warning", on_key=True)


def _stray_leads(sheet: BenchSheet, tree: Tree) -> list[str]:
    """Lead texts of the sheet that the tree does not have."""
    used = {plain(text) for text in _leads_of(tree)}
    return [text for text in sheet.leads if plain(text) not in used]


def _leads_of(tree: Tree) -> list[str]:
    probing = [step for step in tree.steps.values() if isinstance(step, Measure | Observe)]
    return [t for step in probing for t in (step.red_lead, step.black_lead, step.at) if t]
