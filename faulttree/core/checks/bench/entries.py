"""unknown-step, step-kind, missing-entry: tests and verdicts of the sheet are not the tree's."""

from collections.abc import Collection, Iterator

from faulttree.core.bench.document import BenchSheet
from faulttree.core.checks.finding import Finding, nearest
from faulttree.core.tree import Conclude, Measure, Observe, Tree


def check(sheet: BenchSheet, tree: Tree) -> Iterator[Finding]:
    """Tests belong to steps that are measured or seen, verdicts to conclusions; none is missing."""
    tests = [n for n, step in tree.steps.items() if isinstance(step, Measure | Observe)]
    conclusions = {n: step for n, step in tree.steps.items() if isinstance(step, Conclude)}
    faults = [n for n, step in conclusions.items() if step.result == "fault"]
    yield from _entries("tests", sheet.tests, tree, tests, tests)
    yield from _entries("verdicts", sheet.verdicts, tree, conclusions, faults)


def _entries(
    part: str,
    written: Collection[str],
    tree: Tree,
    fitting: Collection[str],
    wanted: Collection[str],
) -> Iterator[Finding]:
    """A step is missing only where no entry is wrong: it is mostly that one misspelled."""
    wrong = list(_wrong(part, written, tree, fitting))
    yield from wrong
    for name in wanted if not wrong else ():
        if name not in written:
            message = f"{name} of the tree has no entry under {part}"
            help = f"Add {name}: {_EXAMPLES[part]}."
            yield Finding("missing-entry", (part,), message, help, on_key=True)


_EXAMPLES = {"tests": "{} where nothing is to be said", "verdicts": "{names: [...]}"}
_KINDS = {"tests": "measure and observe", "verdicts": "conclude"}


def _wrong(
    part: str, written: Collection[str], tree: Tree, fitting: Collection[str]
) -> Iterator[Finding]:
    for name in written:
        step = tree.steps.get(name)
        if step is None:
            message = f"the tree has no step {name}"
            help = nearest(name, fitting)
            yield Finding("unknown-step", (part, name), message, help, on_key=True)
        elif name not in fitting:
            message = f"{name} is a {step.kind} step; {part} belong to {_KINDS[part]} steps"
            help = "Take it out, or give it the name of the step that is meant."
            yield Finding("step-kind", (part, name), message, help, on_key=True)
