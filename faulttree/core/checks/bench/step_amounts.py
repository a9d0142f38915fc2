"""bench-amount: what the sheet gives for a reading is not of the step's quantity."""

from collections.abc import Iterator

from faulttree.core.bench.document import BenchSheet
from faulttree.core.checks.bench.kinds import misfit, write
from faulttree.core.checks.finding import Finding
from faulttree.core.tree import Measure, Tree


def check(sheet: BenchSheet, tree: Tree) -> Iterator[Finding]:
    """A value, and what is added to a reading, are of the quantity of the step."""
    for name, test in sheet.tests.items():
        step = tree.steps.get(name)
        if not isinstance(step, Measure):
            continue
        for key, amount in (("value", test.value), ("adds", test.adds)):
            wrong = misfit(amount, step.quantity) if amount is not None else ""
            if wrong:
                yield Finding("bench-amount", ("tests", name, key), wrong, write(step.quantity))
