"""The small lamp of a load bay for tests of proofs: sound as it is, wrong with a piece replaced."""

from functools import cache
from pathlib import Path

from faulttree.core.bench.bench import Bench
from faulttree.core.proof.judged import Judge
from faulttree.core.proof.set_up import set_up
from faulttree.core.proof.tree_proof import TreeProof, prove
from faulttree.core.tree import Tree
from faulttree.core.units import UnitSystem
from faulttree.core.usual_instruments import one_per_class
from faulttree.files.documents import bench_from_bytes, circuit_from_bytes, tree_from_bytes
from faulttree.render.proof_result import Result, result_of
from faulttree.render.proof_words import Words

CARGO = Path(__file__).parent / "data" / "proof"
DOCUMENTS = ("tree", "circuit", "bench")
Changes = tuple[tuple[str, str], ...]
"""Pieces of the documents and what stands in their place."""

SWAPPED: Changes = (
    ("melted through, is: fault, go: fuse-blown", "melted through, is: fault, go: switch-bad"),
    ("whole, is: good, go: switch-bad", "whole, is: good, go: fuse-blown"),
)
"""The answers of one test lead the wrong way: an open switch condemns the fuse."""
ALARMING: Changes = (
    ("lights, is: good, go: no-fault", "lights, is: good, go: bulb-burnt"),
    ("below: 20 ohm, go: not-settled", "below: 20 ohm, go: no-fault"),
)
"""A healthy car's bulb is condemned."""


@cache
def texts(changes: Changes = ()) -> dict[str, str]:
    """The three documents; each piece that is replaced must be there once."""
    found = {name: (CARGO / f"{name}.yaml").read_text("utf-8") for name in DOCUMENTS}
    for old, new in changes:
        (name,) = (name for name in DOCUMENTS for _ in range(found[name].count(old)))
        found[name] = found[name].replace(old, new)
    return found


def write_cargo(folder: Path, changes: Changes = ()) -> Path:
    """The documents in a folder of their own."""
    folder.mkdir(parents=True, exist_ok=True)
    for name, text in texts(changes).items():
        (folder / f"{name}.yaml").write_text(text, "utf-8")
    return folder


@cache
def cargo(changes: Changes = ()) -> tuple[Bench, Judge]:
    """The example on the bench."""
    data = {name: text.encode() for name, text in texts(changes).items()}
    tree = tree_from_bytes(data["tree"], "tree").document
    model = circuit_from_bytes(data["circuit"], "circuit").document
    sheet = bench_from_bytes(data["bench"], "bench", tree, model).document
    return set_up(tree, model, sheet, None)


@cache
def cargo_proof(changes: Changes = ()) -> TreeProof:
    """The example proved."""
    return prove(*cargo(changes))


def words(tree: Tree, only_ascii: bool = False) -> Words:
    """How its things are written, read with the usual instruments."""
    return Words(tree, one_per_class(()), UnitSystem.METRIC, only_ascii)


def result(changes: Changes = (), only_ascii: bool = False) -> Result:
    """The example proved, with all that follows from it."""
    proof = cargo_proof(changes)
    return result_of(proof, cargo(changes)[1], words(proof.tree, only_ascii))
