"""Opening trees and cases for the screens: what cannot be opened comes back as text to show."""

from collections.abc import Mapping
from dataclasses import dataclass

from faulttree.core.tree import Tree
from faulttree.core.units import UnitSystem
from faulttree.core.vehicle import VehicleSheet
from faulttree.core.walk.events import Intake
from faulttree.files import cases, places
from faulttree.files.documents import DocumentError, Loaded, load_tree, load_vehicle
from faulttree.files.library import NoSuchTreeError, find_tree, sheets_beside
from faulttree.files.shop import own_instruments
from faulttree.render.problems import problems_as_text
from faulttree.session import Beginning, Session


@dataclass(frozen=True, slots=True)
class Opened:
    """A tree and the vehicle sheet to walk it with."""

    tree: Loaded[Tree]
    vehicle: Loaded[VehicleSheet] | None


def open_for_beginning(name: str) -> tuple[Opened | None, str]:
    """A tree by id with the only sheet beside it; or None and why not."""
    try:
        path = find_tree(name)
        sheets = sheets_beside(path)
        vehicle = load_vehicle(sheets[0]) if len(sheets) == 1 else None
        return Opened(load_tree(path), vehicle), ""
    except DocumentError as error:
        return None, problems_as_text([error.problems])
    except (NoSuchTreeError, OSError) as error:
        return None, str(error)


def begin_case(
    opened: Opened, intake: Mapping[str, str], units: UnitSystem
) -> tuple[Session | None, str]:
    """A new case on disk; or None and why not."""
    try:
        instruments = own_instruments()
    except (DocumentError, OSError):
        instruments = ()
    beginning = Beginning(
        opened.tree, opened.vehicle, Intake.model_validate(intake), units, instruments
    )
    try:
        return Session.begin(places.cases_folder(), beginning), ""
    except cases.CaseError as error:
        return None, str(error)


def resume_case(case_id: str) -> tuple[Session | None, str]:
    """A case opened again; or None and why not."""
    try:
        return Session.resume(cases.find(places.cases_folder(), case_id)), ""
    except DocumentError as error:
        return None, problems_as_text([error.problems])
    except cases.CaseError as error:
        return None, str(error)
