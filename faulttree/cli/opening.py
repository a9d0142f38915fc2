"""Opening what a command line names: a tree, a vehicle sheet, a case. Shared by the commands."""

import sys
from dataclasses import dataclass
from pathlib import Path

from faulttree.core.instruments import Instrument
from faulttree.core.tree import Tree
from faulttree.core.vehicle import VehicleSheet
from faulttree.files.documents import (
    DocumentError,
    Loaded,
    load_instruments,
    load_tree,
    load_vehicle,
)
from faulttree.files.library import NoSuchTreeError, find_tree, sheets_beside
from faulttree.files.places import instrument_sheet
from faulttree.render.problems import problems_as_text

NO_SHEET = "none"
"""Said in place of a vehicle sheet when there is none for this car."""


class CannotOpenError(Exception):
    """What was named cannot be opened; the message is for the person."""


@dataclass(frozen=True, slots=True)
class Opened:
    """A tree and the vehicle sheet to walk it with."""

    tree: Loaded[Tree]
    vehicle: Loaded[VehicleSheet] | None


def open_tree(name: str, vehicle: str | None) -> Opened:
    """A tree by id or file, with the sheet named, or the only one beside it.

    Raises:
        CannotOpenError: with every problem of the document.
    """
    try:
        path = find_tree(name)
        tree = load_tree(path)
        sheet = _sheet(path, vehicle)
    except NoSuchTreeError as error:
        raise CannotOpenError(str(error)) from error
    except DocumentError as error:
        text = problems_as_text([error.problems])
        raise CannotOpenError(f"{text}{error}; faulttree check shows the same.") from error
    except OSError as error:
        raise CannotOpenError(f"{error.filename}: {error.strerror or error}") from error
    return Opened(tree, sheet)


def own_instruments() -> tuple[Instrument, ...]:
    """The technician's own instruments; a sheet with mistakes is told on stderr and left out."""
    path = instrument_sheet()
    if not path.exists():
        return ()
    try:
        return load_instruments(path).document.instruments
    except (DocumentError, OSError) as error:
        if isinstance(error, DocumentError):
            sys.stderr.write(problems_as_text([error.problems]))
        print(f"{path} is left out; the usual instruments are used.", file=sys.stderr)
        return ()


def _sheet(tree: Path, vehicle: str | None) -> Loaded[VehicleSheet] | None:
    if vehicle == NO_SHEET:
        return None
    if vehicle is not None:
        return load_vehicle(Path(vehicle))
    beside = sheets_beside(tree)
    return load_vehicle(beside[0]) if len(beside) == 1 else None
