"""A tree with what it takes to prove it: circuit model, bench sheet and vehicle sheet beside it."""

from dataclasses import dataclass
from pathlib import Path
from typing import TYPE_CHECKING

from faulttree.core.checks.finding import Finding
from faulttree.core.tree import Tree
from faulttree.core.vehicle import VehicleSheet
from faulttree.files.beside import bench_beside, find_beside
from faulttree.files.documents import Loaded, load_bench, load_circuit, load_tree
from faulttree.files.opening import vehicle_for

if TYPE_CHECKING:
    from faulttree.core.bench.document import BenchSheet
    from faulttree.core.circuit.document import CircuitModel


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
    model_path = _found(find_beside(path, "circuit", wanted), path)
    sheet_path = _found(bench_beside(path, tree.document.id), path)
    circuit = load_circuit(model_path)
    sheet = load_bench(sheet_path, tree.document, circuit.document)
    return OnBench(path, tree, circuit, sheet, vehicle_for(path, vehicle))


def _found(beside: Path | Finding, tree: Path) -> Path:
    if isinstance(beside, Finding):
        raise NoBenchError(f"{tree}: {beside.message}. {beside.help}")
    return beside
