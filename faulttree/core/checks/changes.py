"""change-list: the newest line of the change list is not about this version."""

from collections.abc import Iterator

from faulttree.core.checks.finding import Finding
from faulttree.core.tree import Tree


def check(tree: Tree) -> Iterator[Finding]:
    """The first change names the version of the document."""
    newest = tree.changes[0].version
    if newest != tree.version:
        yield Finding(
            "change-list",
            ("changes", 0, "version"),
            f"the document is version {tree.version}, its newest change {newest}",
            "Add a line for this version at the top of changes.",
        )
