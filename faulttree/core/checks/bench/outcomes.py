"""unknown-outcome, missing-outcome, hidden-outcome: what is seen is not what the step asks for."""

from collections.abc import Iterator

from faulttree.core.bench.document import BenchSheet, Test
from faulttree.core.checks.finding import DocumentPath, Finding, nearest
from faulttree.core.tree import Observe, Tree


def check(sheet: BenchSheet, tree: Tree) -> Iterator[Finding]:
    """The outcomes of an observe step, each of them, in an order in which all can be seen."""
    for name, test in sheet.tests.items():
        step = tree.steps.get(name)
        if isinstance(step, Observe) and test.outcomes:
            names = [outcome.name for outcome in step.outcomes]
            yield from _names(test, names, ("tests", name, "outcomes"))
            yield from _hidden(test, ("tests", name, "outcomes"))


def _names(test: Test, names: list[str], at: DocumentPath) -> Iterator[Finding]:
    unknown = [name for name in test.outcomes if name not in names]
    for name in unknown:
        message = f"{at[1]} has no outcome “{name}” in the tree"
        missing = [n for n in names if n not in test.outcomes]
        help = nearest(name, missing or names)
        yield Finding("unknown-outcome", (*at, name), message, help, on_key=True)
    for name in names:
        if name not in test.outcomes and not unknown:
            yield Finding(
                "missing-outcome",
                at,
                f"nothing says when “{name}” is seen",
                "Add it with its sights, or [{faulty: []}] where no fault of the circuit shows it.",
                severity="warning",
                on_key=True,
            )


def _hidden(test: Test, at: DocumentPath) -> Iterator[Finding]:
    order = list(test.outcomes)
    always = next((name for name in order if not test.outcomes[name]), order[-1])
    if always != order[-1]:
        hidden = order[order.index(always) + 1]
        message = f"“{hidden}” is never seen: “{always}” above it holds always"
        help = f"Put “{always}” last, or give it sights."
        yield Finding("hidden-outcome", (*at, hidden), message, help, on_key=True)
