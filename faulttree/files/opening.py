"""Opening what a person names: a tree with the vehicle sheet to walk it with."""

from collections.abc import Mapping
from contextlib import suppress
from dataclasses import dataclass, field
from pathlib import Path

from faulttree.core.tree import Tree
from faulttree.core.vehicle import VehicleSheet
from faulttree.files import cases
from faulttree.files.beside import bench_beside, find_beside, likelihoods_beside
from faulttree.files.documents import Loaded, load_tree, load_vehicle
from faulttree.files.library import find_tree, sheets_beside

NO_SHEET = "none"
"""Said in place of a vehicle sheet when there is none for this car."""


class SeveralSheetsError(Exception):
    """More than one vehicle sheet lies beside a tree; `sheets` are their files."""

    def __init__(self, tree: str, sheets: list[Path]) -> None:
        names = ", ".join(str(sheet) for sheet in sheets)
        super().__init__(
            f"Several vehicle sheets lie beside {tree}: {names}. "
            f"Name one with --vehicle, or {NO_SHEET} for a car without a sheet."
        )
        self.sheets = tuple(sheets)


@dataclass(frozen=True, slots=True)
class Opened:
    """A tree and the vehicle sheet to walk it with.

    Attributes:
        tree, vehicle: the documents.
        circuit: circuit model and bench sheet of the tree, unread, by their names in a case.
    """

    tree: Loaded[Tree]
    vehicle: Loaded[VehicleSheet] | None
    circuit: Mapping[str, bytes] = field(default_factory=dict)


def open_tree(name: str, vehicle: str | None = None) -> Opened:
    """A tree by id, file or folder, with the sheet named, or else the only one beside it.

    Raises:
        NoSuchTreeError: nothing goes by that name.
        SeveralSheetsError: none is named and several lie beside the tree.
        DocumentError: the tree or the sheet has errors.
        OSError: a file cannot be read.
    """
    path = find_tree(name)
    tree = load_tree(path)
    return Opened(tree, vehicle_for(path, vehicle), circuit_for(path, tree.document))


def vehicle_for(tree: Path, vehicle: str | None) -> Loaded[VehicleSheet] | None:
    """The vehicle sheet named, or else the only one beside a tree; raises as `open_tree` does."""
    if vehicle == NO_SHEET:
        return None
    if vehicle is not None:
        return load_vehicle(Path(vehicle))
    beside = sheets_beside(tree)
    if len(beside) > 1:
        raise SeveralSheetsError(tree.parent.name, beside)
    return load_vehicle(beside[0]) if beside else None


def circuit_for(path: Path, tree: Tree) -> dict[str, bytes]:
    """Circuit model and bench sheet of a tree, or its table of likelihoods, unread, by their names
    in a case.

    Only heads are looked at, so that a walk begins as quickly as without them; a file that has
    mistakes, or cannot be read, keeps nobody from it.
    """
    wanted: dict[str, object] = {cases.LIKELIHOODS: likelihoods_beside(path, tree.id)}
    if tree.circuit is not None:
        wanted = {
            cases.CIRCUIT: find_beside(path, "circuit", tree.circuit),
            cases.BENCH: bench_beside(path, tree.id),
        }
    found = {}
    for name, file in wanted.items():
        with suppress(OSError):
            if isinstance(file, Path):
                found[name] = file.read_bytes()
    return found
