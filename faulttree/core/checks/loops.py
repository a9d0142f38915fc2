"""loop: a walk could come back to a step it has passed."""

from collections.abc import Iterator

from faulttree.core.checks.finding import Finding
from faulttree.core.graph import find_loop
from faulttree.core.tree import Tree


def check(tree: Tree) -> Iterator[Finding]:
    """The first loop of the tree."""
    loop = find_loop(tree)
    if loop:
        yield Finding(
            "loop",
            ("steps", loop[0]),
            f"these steps lead in a circle: {' > '.join(loop)}",
            "Send one of them on to a later step or to a conclusion.",
            on_key=True,
        )
