"""test-reading: a test does not say how its step is read, or says what the step has no use for."""

from collections.abc import Iterator, Mapping

from faulttree.core.bench.document import BenchSheet, Test
from faulttree.core.checks.finding import DocumentPath, Finding
from faulttree.core.tree import Measure, Observe, Tree
from faulttree.core.units import Quantity

_OF_READINGS = ("current", "of", "value", "adds", "red", "black", "over", "keep")
_BY_LEADS = (Quantity.VOLTAGE, Quantity.RESISTANCE, Quantity.CURRENT)


def check(sheet: BenchSheet, tree: Tree) -> Iterator[Finding]:
    """A measure step is read in a way that gives its quantity, an observe step has outcomes."""
    for name, test in sheet.tests.items():
        step, at = tree.steps.get(name), ("tests", name)
        if isinstance(step, Observe):
            yield from _observed(test, at)
        elif isinstance(step, Measure):
            yield from _measured(test, step, at)


def is_read_by_leads(test: Test, step: Measure) -> bool:
    """Whether two leads touch the circuit, in place of a clamp, an input or a value."""
    others = test.current or test.of or test.value or test.outcomes or test.anything
    return not others and step.quantity in _BY_LEADS


def _observed(test: Test, at: DocumentPath) -> Iterator[Finding]:
    extra = [key for key in _OF_READINGS if getattr(test, key)]
    if extra:
        message = f"{at[-1]} is an observe step and reads nothing; {extra[0]} has no use there"
        help = "Say what is seen under outcomes."
        yield Finding("test-reading", (*at, extra[0]), message, help, on_key=True)
    elif test.unseen and test.anything:
        message = "any outcome may be seen, and unseen has no say in it"
        help = "Give outcomes in place of anything, or take unseen out."
        yield Finding("test-reading", (*at, "unseen"), message, help, on_key=True)
    elif not test.outcomes and not test.anything:
        message = f"{at[-1]} does not say when each outcome is seen"
        help = "Add outcomes, or anything: true where the circuit cannot tell."
        yield Finding("test-reading", at, message, help, on_key=True)


def _measured(test: Test, step: Measure, at: DocumentPath) -> Iterator[Finding]:
    quantity = step.quantity.words
    if test.outcomes or test.unseen:
        key = "outcomes" if test.outcomes else "unseen"
        message = f"{at[-1]} is a measure step and has bands, no outcomes"
        help = f"Take {key} out; the tree's bands say what the reading means."
        yield Finding("test-reading", (*at, key), message, help, on_key=True)
    elif test.current and step.quantity is not Quantity.CURRENT:
        message = f"{at[-1]} reads {quantity}, no current"
        help = "Take current out: " + _ways(step.quantity)
        yield Finding("test-reading", (*at, "current"), message, help, on_key=True)
    elif (test.red or test.black) and step.quantity not in _BY_LEADS:
        key = "red" if test.red else "black"
        message = f"{at[-1]} reads {quantity}, which no leads give"
        yield Finding("test-reading", (*at, key), message, _ways(step.quantity), on_key=True)
    elif not _is_read(test, step):
        message = f"{at[-1]} does not say how {quantity} is read"
        yield Finding("test-reading", at, message, _ways(step.quantity), on_key=True)
    else:
        yield from _repeated(test, at)


def _is_read(test: Test, step: Measure) -> bool:
    if not is_read_by_leads(test, step):
        return bool(test.current or test.of or test.value or test.anything)
    has_leads = test.red or step.red_lead, test.black or step.black_lead
    return step.quantity is not Quantity.CURRENT or all(has_leads)


_WAYS: Mapping[Quantity, str] = {
    Quantity.VOLTAGE: "It is read between two leads.",
    Quantity.RESISTANCE: "It is read between two leads.",
    Quantity.CURRENT: "Add current: BRANCH for a clamp, or red and black for an ammeter.",
}


def _ways(quantity: Quantity) -> str:
    return _WAYS.get(quantity, "Add of: INPUT, or value: AMOUNT where the circuit has no part.")


def _repeated(test: Test, at: DocumentPath) -> Iterator[Finding]:
    """`over` and `keep` say something only where several readings differ."""
    states = [len(set(each)) for each in test.over.values()]
    if test.over and (test.value or test.of or test.anything):
        message = "the reading is the same however the car is set"
    elif test.over and max(states) < 2:
        message = "one reading is taken, and keep has nothing to choose from"
    else:
        return
    help = "Give two states or more to read in, or take over and keep out."
    yield Finding("test-reading", (*at, "over"), message, help, on_key=True)
