"""reference-kind: a step gives its reading a name that stands for another quantity."""

from collections.abc import Iterator

from faulttree.core.checks.finding import Finding
from faulttree.core.tree import Measure, Tree, WorkOut


def check(tree: Tree) -> Iterator[Finding]:
    """Every step that gives a name gives the same quantity; battery-voltage is a voltage."""
    for step_id, step in tree.steps.items():
        if not isinstance(step, Measure | WorkOut) or step.as_ is None:
            continue
        stands_for = tree.quantities[step.as_]
        if stands_for is not step.quantity:
            yield Finding(
                "reference-kind",
                ("steps", step_id, "as"),
                f"{step.as_} is {stands_for.words}, this step reads {step.quantity.words}",
                "Use another name, or read the same quantity.",
            )
