"""unreachable-step: no path from the start leads to a step."""

from collections.abc import Iterator

from faulttree.core.checks.finding import Finding
from faulttree.core.graph import reachable
from faulttree.core.tree import Tree


def check(tree: Tree) -> Iterator[Finding]:
    """One finding for each step that no walk can reach."""
    found = reachable(tree)
    for step_id in tree.steps:
        if step_id not in found and tree.start in tree.steps:
            yield Finding(
                "unreachable-step",
                ("steps", step_id),
                f"no walk reaches {step_id}",
                "Lead a band, an outcome or an exit to it, or take it out.",
                on_key=True,
            )
