"""What the benchmarks work on: trees, cases and private places, made once for a run."""

from dataclasses import dataclass
from pathlib import Path

from . import documents
from .child import environment

WALKED = 200
"""Steps behind the walk whose keys are timed."""


@dataclass(frozen=True, slots=True)
class Prepared:
    """Files in a folder of their own.

    Attributes:
        environment: for every program that is started; its cases and settings lie in the folder.
        tree_60, tree_1000: trees of so many steps, each alone in its folder.
        short_case: id of a case in which five steps of the 60 were answered; a reading is next.
        long_case: id of a case in which 200 steps of a chain of 250 were answered; the same.
    """

    environment: dict[str, str]
    tree_60: Path
    tree_1000: Path
    short_case: str
    long_case: str


def prepare(folder: Path) -> Prepared:
    """Make everything in an empty folder."""
    env = environment(folder)
    cases = Path(env["FAULTTREE_DATA"]) / "cases"
    return Prepared(
        env,
        _tree(folder, 60),
        _tree(folder, 1000),
        documents.case(cases, documents.tree_bytes(60), 5),
        documents.case(cases, documents.chain_bytes(250), WALKED),
    )


def _tree(folder: Path, steps: int) -> Path:
    path = folder / f"{steps}-steps" / "tree.yaml"
    path.parent.mkdir()
    path.write_bytes(documents.tree_bytes(steps))
    return path
