"""unused-need: the tree asks for vehicle data that no text and no band uses."""

from collections.abc import Iterator

from faulttree.core.checks.finding import DocumentPath, Finding
from faulttree.core.tree import Measure, Tree, WorkOut


def check(tree: Tree) -> Iterator[Finding]:
    """One finding for each name under needs that nothing uses."""
    used = set(tree.placeholders)
    for step in tree.steps.values():
        if isinstance(step, Measure | WorkOut):
            used |= step.names_used | step.car_data
    for group, names in _groups(tree).items():
        for name in names:
            if name not in used:
                path: DocumentPath = ("needs", group, name)
                yield Finding(
                    "unused-need",
                    path,
                    f"nothing uses {name}",
                    f"Write {{{name}}} where it belongs, or take it out.",
                    severity="warning",
                    on_key=True,
                )


def _groups(tree: Tree) -> dict[str, tuple[str, ...]]:
    needs = tree.needs
    return {
        "points": tuple(needs.points),
        "values": tuple(needs.values),
        "facts": tuple(needs.facts),
    }
