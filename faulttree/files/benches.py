"""A tree with what it takes to prove it: circuit model, bench sheet and vehicle sheet beside it."""

from dataclasses import dataclass
from pathlib import Path
from typing import TYPE_CHECKING

from faulttree.core.tree import Tree
from faulttree.core.vehicle import VehicleSheet
from faulttree.files.documents import Loaded, load_bench, load_circuit, load_tree
from faulttree.files.library import files_beside
from faulttree.files.opening import vehicle_for

if TYPE_CHECKING:
    from faulttree.core.bench.document import BenchSheet
    from faulttree.core.circuit.document import CircuitModel

CIRCUIT_FORMAT = "circuit/1"
BENCH_FORMAT = "bench/1"


class NoBenchError(Exception):
    """A tree has no circuit model or no bench sheet; the message says what is missing."""


@dataclass(frozen=True, slots=True)
class OnBench:
    """A tree and all that a proof needs."""

    path: Path
    tree: Loaded[Tree]
    circuit: "Loaded[CircuitModel]"
    sheet: "Loaded[BenchSheet]"
    vehicle: Loaded[VehicleSheet] | None


def open_bench(path: Path, vehicle: str | None = None) -> OnBench:
    """A tree with its circuit model, its bench sheet and a vehicle sheet.

    Args:
        path: file of the tree.
        vehicle: a vehicle sheet, or else the only one beside the tree.

    Raises:
        NoBenchError: the tree names no circuit, or one of the two is not there.
        SeveralSheetsError: no sheet is named and several lie beside the tree.
        DocumentError: a document has errors.
        OSError: a file cannot be read.
    """
    tree = load_tree(path)
    wanted = tree.document.circuit
    if wanted is None:
        raise NoBenchError(
            f"{path} names no circuit model, so what its tests would read is not known. "
            "docs/circuit-format.md says how to write one."
        )
    circuits = [load_circuit(p) for p in files_beside(path, CIRCUIT_FORMAT)]
    circuit = next((c for c in circuits if c.document.id == wanted), None)
    if circuit is None:
        raise NoBenchError(f"No circuit model called {wanted} lies beside {path}.")
    sheets = [
        load_bench(p, tree.document, circuit.document) for p in files_beside(path, BENCH_FORMAT)
    ]
    sheet = next((s for s in sheets if s.document.tree == tree.document.id), None)
    if sheet is None:
        raise NoBenchError(f"No bench sheet for {tree.document.id} lies beside {path}.")
    return OnBench(path, tree, circuit, sheet, vehicle_for(path, vehicle))
