"""Opening trees and cases for the screens: what cannot be opened comes back as text to show."""

from collections.abc import Mapping

from faulttree.beginning import Beginning
from faulttree.core.units import UnitSystem
from faulttree.core.walk.events import Intake
from faulttree.files import cases, places
from faulttree.files.documents import DocumentError
from faulttree.files.library import NoSuchTreeError
from faulttree.files.opening import Opened, open_tree
from faulttree.files.shop import own_instruments
from faulttree.render.troubles import why_not
from faulttree.session import Session

_TROUBLES = (DocumentError, NoSuchTreeError, cases.CaseError, OSError)


def open_for_beginning(name: str, vehicle: str | None = None) -> tuple[Opened | None, str]:
    """A tree by id with the sheet named, or the only one beside it; or None and why not.

    Raises:
        SeveralSheetsError: none is named and several lie beside the tree.
    """
    try:
        return open_tree(name, vehicle), ""
    except _TROUBLES as error:
        return None, why_not(error)


def begin_case(
    opened: Opened, intake: Mapping[str, str], units: UnitSystem
) -> tuple[Session | None, str]:
    """A new case on disk; or None and why not. Own instruments with mistakes are left out."""
    try:
        instruments = own_instruments()
    except (DocumentError, OSError):
        instruments = ()
    beginning = Beginning(
        opened.tree,
        opened.vehicle,
        Intake.model_validate(intake),
        units,
        instruments,
        opened.circuit,
    )
    try:
        return Session.begin(places.cases_folder(), beginning), ""
    except _TROUBLES as error:
        return None, why_not(error)


def resume_case(case_id: str) -> tuple[Session | None, str]:
    """A case opened again; or None and why not."""
    try:
        return Session.resume(cases.find(places.cases_folder(), case_id)), ""
    except _TROUBLES as error:
        return None, why_not(error)
