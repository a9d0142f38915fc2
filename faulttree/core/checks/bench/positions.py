"""lead-place: a point goes by a switch, and has no node in a position that a test is done in."""

from collections.abc import Iterator, Sequence

from faulttree.core.bench.document import BenchSheet
from faulttree.core.bench.leads import Spot
from faulttree.core.checks.finding import Finding
from faulttree.core.circuit.document import CircuitModel
from faulttree.core.tree import SetUp


def positions(
    sheet: BenchSheet, model: CircuitModel, test_id: str, set_up: SetUp, spot: Spot
) -> Iterator[Finding]:
    """One finding for each position without a node.

    Args:
        sheet, model: what says how the car may be set.
        test_id, set_up: the test, and what its step says of key and engine.
        spot: where one of its leads goes; nothing is found where that is one node, or where its
            input or states are wrong, which another rule tells.
    """
    known = model.inputs[spot.by].states if spot.by in model.inputs else None
    nodes = spot.nodes or {}
    if known is None or not set(nodes) <= set(known):
        return
    for state in _states(sheet, model, test_id, set_up, spot.by):
        if state in known and state not in nodes:
            message = f"a lead of {test_id} has no node with {spot.by} at {state}"
            help = "Give its point a node for that too, or set the input otherwise."
            yield Finding("lead-place", ("tests", test_id), message, help, on_key=True)


def _states(
    sheet: BenchSheet, model: CircuitModel, test_id: str, set_up: SetUp, name: str
) -> Sequence[str]:
    """The states that an input may have in a test, as the bench sets it."""
    test = sheet.tests[test_id]
    if name in test.over:
        return test.over[name]
    if name in test.inputs:
        written = test.inputs[name].text
        choice = sheet.choices.get(written)
        return choice.of if choice and choice.input == name else (written,)
    own = {"key": set_up.key, "engine": set_up.engine.value}.get(name)
    is_set = own is not None and own in (model.inputs[name].states or ())
    return (own if own is not None and is_set else model.inputs[name].usual.text,)
