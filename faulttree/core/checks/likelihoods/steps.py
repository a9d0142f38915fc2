"""unknown-step, step-kind: a table speaks of steps that its tree does not measure or look at."""

from collections.abc import Iterator

from faulttree.core.checks.finding import Finding, nearest
from faulttree.core.likelihoods import LikelihoodTable
from faulttree.core.tree import Measure, Observe, Tree


def check(table: LikelihoodTable, tree: Tree) -> Iterator[Finding]:
    """Each step is measured or seen; a sum says nothing that its readings do not."""
    fitting = [n for n, step in tree.steps.items() if isinstance(step, Measure | Observe)]
    for name in table.readings:
        step = tree.steps.get(name)
        if step is None:
            message = f"the tree has no step {name}"
            help = nearest(name, fitting)
            yield Finding("unknown-step", ("readings", name), message, help, on_key=True)
        elif name not in fitting:
            message = f"{name} is a {step.kind} step; likelihoods belong to what is read or seen"
            help = "Take it out, or give it the name of the step that is meant."
            yield Finding("step-kind", ("readings", name), message, help, on_key=True)
