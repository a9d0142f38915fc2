"""placeholder: a text names vehicle data that the tree does not ask for."""

from collections.abc import Iterator

from faulttree.core.checks.finding import DocumentPath, Finding, nearest
from faulttree.core.texts import placeholders
from faulttree.core.tree import Tree


def check(tree: Tree) -> Iterator[Finding]:
    """Every {name} in a text stands under needs."""
    if tree.placeholders <= tree.needs.names:
        return
    for path, text in _texts((), tree.model_dump(mode="json", by_alias=True, exclude={"needs"})):
        for name in placeholders(text):
            if name not in tree.needs.names:
                yield Finding(
                    "placeholder",
                    path,
                    f"{{{name}}} does not stand under needs",
                    nearest(name, tree.needs.names),
                )


def _texts(path: DocumentPath, part: object) -> Iterator[tuple[DocumentPath, str]]:
    """Every text of a part of the document, with its path."""
    if isinstance(part, str):
        yield path, part
    elif isinstance(part, dict):
        for key, value in part.items():
            yield from _texts((*path, key), value)
    elif isinstance(part, list):
        for index, value in enumerate(part):
            yield from _texts((*path, index), value)
