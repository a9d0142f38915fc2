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
    written: list[tuple[DocumentPath, str]] = [((*at, name), name) for name in test.outcomes]
    written += [((*at[:2], "unseen", i), name) for i, name in enumerate(test.unseen)]
    missing = [name for name in names if name not in (*test.outcomes, *test.unseen)]
    unknown = [(path, name) for path, name in written if name not in names]
    for path, name in unknown:
        message = f"{at[1]} has no outcome “{name}” in the tree"
        help = nearest(name, missing or names)
        yield Finding("unknown-outcome", path, message, help, on_key=path[-1] == name)
    for name in missing if not unknown else ():
        message = f"nothing says when “{name}” is seen"
        help = "Add it with its sights, or to unseen where nothing on this bench shows it."
        yield Finding("missing-outcome", at, message, help, on_key=True)


def _hidden(test: Test, at: DocumentPath) -> Iterator[Finding]:
    for index, name in enumerate(test.unseen):
        if name in test.outcomes:
            message = f"“{name}” is called unseen, and has sights as well"
            help = "Leave it in one of the two."
            yield Finding("hidden-outcome", (*at[:2], "unseen", index), message, help)
    order = list(test.outcomes)
    always = next((name for name in order if not test.outcomes[name]), order[-1])
    if always != order[-1]:
        hidden = order[order.index(always) + 1]
        message = f"“{hidden}” is never seen: “{always}” above it holds always"
        help = f"Put “{always}” last, or give it sights."
        yield Finding("hidden-outcome", (*at, hidden), message, help, on_key=True)
