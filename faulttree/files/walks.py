"""The walk of a stored case: its pinned tree and sheet read again, its events folded."""

from collections.abc import Iterator
from dataclasses import dataclass

from pydantic import ValidationError

from faulttree.core.checks.vehicle_fits import check_fit
from faulttree.core.tree import Tree
from faulttree.core.vehicle import VehicleSheet
from faulttree.core.walk.events import Event, event_from_json
from faulttree.core.walk.state import WalkState, fold
from faulttree.files import cases
from faulttree.files.documents import content_hash, tree_from_bytes, vehicle_from_bytes


@dataclass(frozen=True, slots=True)
class StoredWalk:
    """The state of a case, and what was found in its files, in plain words."""

    state: WalkState
    found: tuple[str, ...]


def walk_of(stored: cases.StoredCase) -> StoredWalk:
    """Fold the events of a case over the documents that it pins.

    Raises:
        DocumentError: its tree or sheet was changed and is no longer one.
        cases.CaseError: nothing is recorded, or an entry is none that this version knows.
    """
    tree = tree_from_bytes(stored.tree, f"{stored.id}/{cases.TREE}").document
    sheet = None
    if stored.vehicle is not None:
        sheet = vehicle_from_bytes(stored.vehicle, f"{stored.id}/{cases.VEHICLE}").document
        check_sheet_fits(tree, sheet)
    state = fold(tree, sheet, events_of(stored))
    return StoredWalk(state, (*stored.found, *_changed_since(state, stored)))


def events_of(stored: cases.StoredCase) -> list[Event]:
    """The recorded events of a case.

    Raises:
        cases.CaseError: there is none, or one that this version does not know.
    """
    if not stored.records:
        raise cases.CaseError(
            f"Nothing is recorded in {stored.folder}: take its folder away and begin a new case."
        )
    try:
        return [event_from_json(record) for record in stored.records]
    except ValidationError as error:
        raise cases.CaseError(
            f"{stored.folder / cases.EVENTS} holds an entry that this version of the program does "
            "not know: open the case with the version that wrote it."
        ) from error


def check_sheet_fits(tree: Tree, sheet: VehicleSheet) -> None:
    """Make sure that a sheet gives the kinds of values that a tree asks for.

    Raises:
        cases.CaseError: a value is of another kind; the message names each of them.
    """
    misfits = [f"{finding.path[-1]}: {finding.message}" for finding in check_fit(tree, sheet)]
    if misfits:
        raise cases.CaseError(
            f"The vehicle sheet {sheet.id} does not fit the tree {tree.id}: {'; '.join(misfits)}. "
            "Mend the sheet, or begin without it."
        )


def _changed_since(state: WalkState, stored: cases.StoredCase) -> Iterator[str]:
    """The pinned documents that are not the ones the case began with."""
    started = state.started
    if started is None:
        return
    now = {
        cases.TREE: (started.tree_hash, content_hash(stored.tree)),
        cases.VEHICLE: (started.vehicle_hash, _hash_or_none(stored.vehicle)),
    }
    for name, (then, today) in now.items():
        if then != today:
            yield (
                f"{name} in the folder of this case is not what it was when the case began; "
                "everything shown follows it as it is today."
            )


def _hash_or_none(data: bytes | None) -> str | None:
    return None if data is None else content_hash(data)
