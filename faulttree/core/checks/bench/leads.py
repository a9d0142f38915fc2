"""lead-place, same-node: a lead of the tree has no place on the circuit, or that of the other."""

from collections.abc import Iterator, Sequence

from faulttree.core.bench.document import BenchSheet, Test
from faulttree.core.bench.leads import Spot, Spots
from faulttree.core.checks.bench.points import stray_leads, stray_points
from faulttree.core.checks.bench.readings import is_read_by_leads
from faulttree.core.checks.finding import Finding
from faulttree.core.circuit.document import CircuitModel
from faulttree.core.texts import placeholders
from faulttree.core.tree import Measure, SetUp, Tree


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
            elif spot and _goes_by_states(spot, model):
                states = _states(spot.by, sheet, test, step.set_up, model)
                yield from _positions(test_id, spot, states)
        yield from _same(test_id, found)
    for text, tests in missing.items():
        stray = stray_points if placeholders(text) else stray_leads
        if not stray(sheet, tree):  # one of those is this one misspelled, and is told
            yield _nowhere(text, tests)


def _nowhere(text: str, tests: Sequence[str]) -> Finding:
    """One finding, however many tests have a lead there."""
    more = f" and {len(tests) - 1} more" if len(tests) > 1 else ""
    message = f"no node is given for “{text}”, a lead of {tests[0]}{more}"
    points = placeholders(text)
    if len(points) == 1:
        help = f"Add {points[0]}: NODE under points, or point: {points[0]} to the circuit's node."
    else:
        help = "Add this text with its node under leads, or red or black: NODE to the test."
    return Finding("lead-place", ("tests", tests[0]), message, help, on_key=True)


def _same(test_id: str, spots: Sequence[Spot | None]) -> Iterator[Finding]:
    red, black = spots
    if red and black and red.node and red.node == black.node:
        message = f"both leads of {test_id} are at {red.node}, which would always read nothing"
        help = "Add what lies between the two places to the circuit model."
        yield Finding("same-node", ("tests", test_id), message, help, "warning", on_key=True)


def _goes_by_states(spot: Spot, model: CircuitModel) -> bool:
    """Whether its node depends on an input whose states it names right."""
    known = model.inputs[spot.by].states if spot.by in model.inputs else None
    return known is not None and set(spot.nodes or ()) <= set(known)


def _positions(test_id: str, spot: Spot, states: Sequence[str]) -> Iterator[Finding]:
    nodes = spot.nodes or {}
    for state in states:
        if state not in nodes:
            message = f"a lead of {test_id} has no node with {spot.by} at {state}"
            help = "Give its point a node for that too, or set the input otherwise."
            yield Finding("lead-place", ("tests", test_id), message, help, on_key=True)


def _states(
    name: str, sheet: BenchSheet, test: Test, set_up: SetUp, model: CircuitModel
) -> Sequence[str]:
    """The states that an input may have in a test."""
    known, usual = model.inputs[name].states or (), model.inputs[name].usual.text
    own = {"key": set_up.key, "engine": set_up.engine.value}.get(name)
    written = test.inputs[name].text if name in test.inputs else None
    choice = sheet.choices.get(written or "")
    if name in test.over:
        found = test.over[name]
    elif choice and choice.input == name:
        found = choice.of
    else:
        found = (written or (own if own in known else None) or usual,)
    return [state for state in found if state in known]
