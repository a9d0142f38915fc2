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
    wrong = [
        *_unknown("tests", sheet.tests, tests, tree, "tests belong to measure and observe"),
        *_unknown("verdicts", sheet.verdicts, conclusions, tree, "verdicts belong to conclude"),
    ]
    yield from wrong
    if not any(finding.check == "unknown-step" for finding in wrong):
        yield from _missing("tests", sheet.tests, tests, "{} where nothing is to be said")
        yield from _missing("verdicts", sheet.verdicts, faults, "{names: [...]}")


def _unknown(
    part: str, written: Collection[str], fitting: Collection[str], tree: Tree, rule: str
) -> Iterator[Finding]:
    for name in written:
        step = tree.steps.get(name)
        if step is None:
            message = f"the tree has no step {name}"
            help = nearest(name, fitting)
            yield Finding("unknown-step", (part, name), message, help, on_key=True)
        elif name not in fitting:
            message = f"{name} is a {step.kind} step; {rule} steps"
            yield Finding("step-kind", (part, name), message, "Take it out.", on_key=True)


def _missing(
    part: str, written: Collection[str], wanted: Collection[str], example: str
) -> Iterator[Finding]:
    for name in wanted:
        if name not in written:
            message = f"{name} of the tree has no entry under {part}"
            yield Finding("missing-entry", (part,), message, f"Add {name}: {example}.", on_key=True)
