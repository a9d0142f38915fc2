"""left-fitted: a bypass is fitted and never taken out, or taken out and never fitted."""

from collections.abc import Iterator

from faulttree.core.checks.finding import Finding, nearest
from faulttree.core.tree import Do, Tree


def check(tree: Tree) -> Iterator[Finding]:
    """What one step fits, another removes."""
    steps = [(s, step) for s, step in tree.steps.items() if isinstance(step, Do)]
    fitted = {name for _, step in steps for name in step.fits}
    removed = {name for _, step in steps for name in step.removes}
    for step_id, step in steps:
        for name in step.fits:
            if name not in removed:
                yield Finding(
                    "left-fitted",
                    ("steps", step_id, "fits", name),
                    f"{name} is fitted here and no step removes it",
                    f"Add a do step with removes: [{name}].",
                    severity="warning",
                    on_key=True,
                )
        for index, name in enumerate(step.removes):
            if name not in fitted:
                yield Finding(
                    "left-fitted",
                    ("steps", step_id, "removes", index),
                    f"{name} is removed here and no step fits it",
                    nearest(name, fitted),
                )
