"""Trees on the bench for tests: the small example, with pieces replaced, and the shipped ones."""

from functools import cache
from pathlib import Path

from faulttree.core.bench.bench import Bench
from faulttree.core.proof.judged import Judge
from faulttree.core.proof.set_up import set_up
from faulttree.core.proof.tree_proof import TreeProof, prove
from faulttree.files.benches import OnBench, open_bench
from faulttree.files.documents import bench_from_bytes, circuit_from_bytes, tree_from_bytes

GATE = Path(__file__).parent / "data" / "bench"
SHIPPED = Path(__file__).parents[1] / "trees"
TREES = (
    "ac-airflow-fades",
    "ac-clutch-cycles-fast",
    "ac-clutch-drops-out-hot",
    "ac-clutch-request",
    "ac-poor-cooling",
    "ac-warm-at-idle",
    "blower-some-speeds",
    "heater-no-heat",
    "no-crank-intermittent",
    "temperature-stays-the-same",
)

Changes = tuple[tuple[str, str], ...]
"""Pieces of a text and what stands in their place; each must be there once."""


def gate_text(name: str, changes: Changes = ()) -> str:
    """One of the example's documents, with pieces replaced."""
    text = (GATE / f"{name}.yaml").read_text("utf-8")
    for old, new in changes:
        assert text.count(old) == 1, f"{old!r} is there {text.count(old)} times"
        text = text.replace(old, new)
    return text


def gate(tree: Changes = (), circuit: Changes = (), bench: Changes = ()) -> tuple[Bench, Judge]:
    """The example on the bench."""
    found = tree_from_bytes(gate_text("tree", tree).encode(), "tree").document
    model = circuit_from_bytes(gate_text("circuit", circuit).encode(), "circuit").document
    data = gate_text("bench", bench).encode()
    return set_up(found, model, bench_from_bytes(data, "bench", found, model).document, None)


@cache
def gate_proof(tree: Changes = (), circuit: Changes = (), bench: Changes = ()) -> TreeProof:
    """The example proved."""
    return prove(*gate(tree, circuit, bench))


@cache
def opened(name: str) -> OnBench:
    """A shipped tree with all that a proof needs."""
    return open_bench(SHIPPED / name / "tree.yaml")


def on_bench(name: str) -> tuple[Bench, Judge]:
    """A shipped tree on the bench."""
    found = opened(name)
    vehicle = found.vehicle.document if found.vehicle else None
    return set_up(found.tree.document, found.circuit.document, found.sheet.document, vehicle)


@cache
def proof_of(name: str) -> TreeProof:
    """A shipped tree proved."""
    return prove(*on_bench(name))
