"""evidence: a verdict rests on a step that no path to it takes."""

from collections.abc import Iterator

from faulttree.core.checks.finding import Finding, nearest
from faulttree.core.graph import in_order, maybe_before
from faulttree.core.tree import Conclude, Tree


def check(tree: Tree) -> Iterator[Finding]:
    """Evidence lies on the way to the verdict."""
    order = in_order(tree)
    maybe = maybe_before(tree, order) if order else None
    for step_id, step in tree.steps.items():
        if not isinstance(step, Conclude):
            continue
        for index, name in enumerate(step.evidence):
            path = ("steps", step_id, "evidence", index)
            if name not in tree.steps:
                yield Finding(
                    "evidence", path, f"no step is called {name}", nearest(name, tree.steps)
                )
            elif maybe and not maybe.has_any(step_id, [name]):
                yield Finding(
                    "evidence",
                    path,
                    f"no path to {step_id} takes {name}",
                    "Name a reading that leads to this verdict.",
                )
