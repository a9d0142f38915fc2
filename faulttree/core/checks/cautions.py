"""unknown-caution: a caution id that neither the catalogue nor the tree defines."""

from collections.abc import Iterator

from faulttree.core.cautions import CAUTIONS
from faulttree.core.checks.finding import DocumentPath, Finding, nearest
from faulttree.core.tree import Tree


def check(tree: Tree) -> Iterator[Finding]:
    """Every caution id has a text."""
    known = {*CAUTIONS, *tree.more_cautions}
    places: list[tuple[DocumentPath, tuple[str, ...]]] = [(("cautions",), tree.cautions)]
    places += [(("steps", s, "cautions"), step.cautions) for s, step in tree.steps.items()]
    for path, ids in places:
        for index, caution in enumerate(ids):
            if caution not in known:
                yield Finding(
                    "unknown-caution",
                    (*path, index),
                    f"no caution is called {caution}",
                    nearest(caution, known),
                )
