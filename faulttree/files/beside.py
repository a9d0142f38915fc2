"""What lies beside a document in its folder: trees, circuit models, bench sheets, by their heads.

A head is taken from the text line by line, not from YAML: it is found quickly, and also where the
document further down cannot be read.
"""

import re
from collections.abc import Iterator
from contextlib import suppress
from dataclasses import dataclass
from pathlib import Path
from typing import Literal

from faulttree.core.checks.finding import Finding, nearest
from faulttree.core.tree import Tree
from faulttree.files.places import yaml_beside

_LINE = re.compile(r"^(format|id|tree):[ \t]*[\"']?([a-z0-9/-]+)", re.MULTILINE)
_FORMATS = {
    "tree": "tree/1",
    "circuit": "circuit/1",
    "bench": "bench/1",
    "likelihoods": "likelihoods/1",
}
_WORDS = {"tree": "tree", "circuit": "circuit model"}

Named = Literal["tree", "circuit"]
"""A kind of document that another one names, and the key it names it under."""


@dataclass(frozen=True, slots=True)
class Head:
    """What a document says of itself.

    Attributes:
        path: its file.
        id: its id; empty where it has none.
        tree: the tree that a bench sheet is for; empty in other documents.
    """

    path: Path
    id: str
    tree: str


def trees_beside(path: Path) -> Iterator[Path]:
    """The files of the trees in the folder of a file."""
    return (head.path for head in _heads(path, "tree"))


def find_beside(path: Path, kind: Named, name: str) -> Path | Finding:
    """The one document of a kind in the folder of a file that has a name as its id.

    Where there is none, or there are several, it is the finding that says so.
    """
    heads = list(_heads(path, kind))
    found = [head.path for head in heads if head.id == name]
    if len(found) == 1:
        return found[0]
    if found:
        return _several(kind, f"the {_WORDS[kind]} {name}", found)
    message = f"no {_WORDS[kind]} called {name} lies in this folder"
    help = nearest(name, (head.id for head in heads)) if heads else f"Put the {_WORDS[kind]} there."
    return Finding("not-beside", (kind,), message, help)


def bench_beside(path: Path, tree: str) -> Path | Finding:
    """The one bench sheet of a tree in the folder of a file, or the finding that says why not."""
    sheets = [head.path for head in _heads(path, "bench") if head.tree == tree]
    if len(sheets) == 1:
        return sheets[0]
    if sheets:
        return _several("circuit", "a bench sheet of this tree", sheets)
    message = f"no bench sheet with tree: {tree} lies in this folder"
    help = "Write one, as docs/bench-format.md says, or take circuit out."
    return Finding("not-beside", ("circuit",), message, help)


def likelihoods_beside(path: Path, tree: str) -> Path | None:
    """The one table of likelihoods of a tree in the folder of a file; None where there is none."""
    found = [head.path for head in _heads(path, "likelihoods") if head.tree == tree]
    return found[0] if len(found) == 1 else None


def missing_for(tree: Tree, path: Path) -> Iterator[Finding]:
    """What a tree that names a circuit lacks in its folder: the model, or the bench sheet."""
    if tree.circuit is not None:
        found = find_beside(path, "circuit", tree.circuit), bench_beside(path, tree.id)
        yield from (each for each in found if isinstance(each, Finding))


def _several(kind: Named, what: str, paths: list[Path]) -> Finding:
    names = " and ".join(path.name for path in paths)
    message, help = f"{names} are each {what}", "Leave one of them in this folder."
    return Finding("not-beside", (kind,), message, help)


def _heads(path: Path, kind: str) -> Iterator[Head]:
    for beside in yaml_beside(path):
        with suppress(OSError):
            text = beside.read_bytes().decode("utf-8", errors="replace").removeprefix("\ufeff")
            found = dict(_LINE.findall(text))
            if found.get("format") == _FORMATS[kind]:
                yield Head(beside, found.get("id", ""), found.get("tree", ""))
