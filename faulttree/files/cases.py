"""The case store: one folder a case, with its events, its tree and its vehicle sheet.

    <cases>/2026-11-25-no-crank-intermittent-k3f9/
        events.jsonl     the journal: what happened
        tree.yaml        the tree as it was when the case began
        vehicle.yaml     the vehicle sheet as it was, if there was one
        circuit.yaml     the circuit model as it was, if the tree names one
        bench.yaml       the bench sheet as it was, beside the circuit model
        likelihoods.yaml the author's table as it was, for a tree without a circuit model

A case can be copied, sent and read on its own. Why a journal and not a database is told in
docs/decisions/case-store.md.
"""

import os
import secrets
import shutil
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from pathlib import Path
from types import MappingProxyType
from typing import Any

from faulttree.files import journal

EVENTS = "events.jsonl"
TREE = "tree.yaml"
VEHICLE = "vehicle.yaml"
CIRCUIT = "circuit.yaml"
BENCH = "bench.yaml"
LIKELIHOODS = "likelihoods.yaml"
_TELLS_INTAKE = ("started", "details-changed")
_LETTERS = "abcdefghjkmnpqrstuvwxyz23456789"


class CaseError(Exception):
    """A case cannot be used; the message says what was found and what to do."""


@dataclass(frozen=True, slots=True)
class CaseSummary:
    """One line of the list of cases.

    Attributes:
        id: name of the case's folder.
        tree_id, tree_title, car, words: from the beginning of the case; may be empty.
        begun, last: time of the first and the last event.
        events: how many there are.
        closed: the case is finished.
        trouble: what is wrong with its files; empty when nothing is.
    """

    id: str
    tree_id: str = ""
    car: str = ""
    words: str = ""
    begun: str = ""
    last: str = ""
    events: int = 0
    closed: bool = False
    trouble: str = ""


@dataclass(frozen=True, slots=True)
class StoredCase:
    """What a case folder holds."""

    id: str
    folder: Path
    journal: journal.Journal
    records: tuple[dict[str, Any], ...]
    tree: bytes
    vehicle: bytes | None
    found: tuple[str, ...]
    """What was found when it was opened, in plain words: a torn line set aside, for example."""


def create(
    cases: Path,
    tree_id: str,
    date: str,
    tree: bytes,
    vehicle: bytes | None,
    first: Sequence[dict[str, Any]],
    more: Mapping[str, bytes] = MappingProxyType({}),
) -> StoredCase:
    """Begin a case: all its files are on disk, whole, before it appears under its name.

    Args:
        cases: the folder of all cases; made if need be.
        tree_id: id of the tree.
        date: the day, year first.
        tree: bytes of the tree document.
        vehicle: bytes of the vehicle sheet, if there is one.
        first: the first records.
        more: bytes of what else is kept, by file: CIRCUIT and BENCH.

    Raises:
        CaseError: the files cannot be written.
    """
    try:
        cases.mkdir(parents=True, exist_ok=True)
        unfinished = cases / f".new-{secrets.token_hex(6)}"
        unfinished.mkdir()
        try:
            _write(unfinished / TREE, tree)
            if vehicle is not None:
                _write(unfinished / VEHICLE, vehicle)
            for name, data in more.items():
                _write(unfinished / name, data)
            _write(unfinished / EVENTS, journal.first_lines(first))
            _sync_folder(unfinished)
            folder = _rename(unfinished, cases, f"{date}-{tree_id}")
        except OSError:
            shutil.rmtree(unfinished, ignore_errors=True)
            raise
        _sync_folder(cases)
    except OSError as error:
        raise CaseError(
            f"The case cannot be begun in {cases}: {error.strerror or error}."
        ) from error
    return open_case(folder)


def open_case(folder: Path) -> StoredCase:
    """Open a case for writing; a torn last line is set aside and told.

    Raises:
        CaseError: there is no such case, or it is damaged beyond the last line.
    """
    try:
        opened, contents = journal.open_journal(folder / EVENTS)
        tree = (folder / TREE).read_bytes()
        vehicle_path = folder / VEHICLE
        vehicle = vehicle_path.read_bytes() if vehicle_path.exists() else None
    except FileNotFoundError as error:
        raise CaseError(
            f"There is no whole case in {folder}: {error.filename} is missing."
        ) from error
    except OSError as error:
        raise CaseError(f"{folder} cannot be opened: {error.strerror or error}.") from error
    return StoredCase(
        folder.name, folder, opened, contents.records, tree, vehicle, _found(contents, folder)
    )


def read_case(folder: Path) -> StoredCase:
    """A case for reading only: nothing is changed, not even a torn last line."""
    try:
        contents = journal.read(folder / EVENTS)
        tree = (folder / TREE).read_bytes()
        vehicle_path = folder / VEHICLE
        vehicle = vehicle_path.read_bytes() if vehicle_path.exists() else None
    except OSError as error:
        raise CaseError(f"{folder} cannot be read: {error.strerror or error}.") from error
    as_read = journal.Journal(folder / EVENTS, contents.end, contents.checksum)
    return StoredCase(
        folder.name, folder, as_read, contents.records, tree, vehicle, _found(contents, folder)
    )


def find(cases: Path, name: str) -> Path:
    """The folder of a case by its id, or by the end or beginning of it if only one fits.

    Raises:
        CaseError: none fits, or several do.
    """
    ids = [folder.name for folder in _folders(cases)]
    if name in ids:
        return cases / name
    fitting = [i for i in ids if i.endswith(name) or i.startswith(name)] if name else []
    if len(fitting) == 1:
        return cases / fitting[0]
    if fitting:
        raise CaseError(f"Several cases fit “{name}”: {', '.join(sorted(fitting)[:6])}.")
    raise CaseError(f"No case fits “{name}”; faulttree cases lists them.")


def summaries(cases: Path) -> Iterator[CaseSummary]:
    """All cases, newest first, each told from its journal alone."""
    for folder in sorted(_folders(cases), key=lambda f: f.name, reverse=True):
        yield _summary(folder)


def _summary(folder: Path) -> CaseSummary:
    try:
        contents = journal.read(folder / EVENTS)
    except OSError as error:
        return CaseSummary(folder.name, trouble=error.strerror or str(error))
    records = contents.records
    if not records:
        return CaseSummary(folder.name, trouble="nothing was recorded")
    first, last = records[0], records[-1]
    told = (r.get("intake", {}) for r in reversed(records) if r.get("event") in _TELLS_INTAKE)
    intake: dict[str, Any] = next(told, {})
    return CaseSummary(
        id=folder.name,
        tree_id=str(first.get("tree_id", "")),
        car=str(intake.get("car") or first.get("vehicle_name", "")),
        words=str(intake.get("words", "")),
        begun=str(first.get("at", "")),
        last=str(last.get("at", "")),
        events=len(records),
        closed=any(r.get("event") == "closed" for r in records),
        trouble="; ".join(_found(contents, folder)),
    )


def _found(contents: journal.Contents, folder: Path) -> tuple[str, ...]:
    found: list[str] = []
    if contents.damaged:
        listed = ", ".join(str(n) for n in contents.damaged)
        found.append(
            f"Line {listed} of {folder.name}/{EVENTS} is not as it was written and is left out; "
            f"the other {len(contents.records)} events are whole."
        )
    if contents.torn:
        found.append(f"{_torn(contents.torn)} The {len(contents.records)} events before it count.")
    return tuple(found)


def _torn(torn: bytes) -> str:
    if torn.endswith(b"\n"):
        return "The last entry is not as it was written; it is kept in events.set-aside."
    return (
        "The last entry was cut off while it was being written and was never confirmed; it is kept "
        "in events.set-aside."
    )


def _folders(cases: Path) -> list[Path]:
    if not cases.is_dir():
        return []
    return [f for f in cases.iterdir() if f.is_dir() and not f.name.startswith(".")]


def _rename(unfinished: Path, cases: Path, stem: str) -> Path:
    while True:
        folder = cases / f"{stem}-{''.join(secrets.choice(_LETTERS) for _ in range(4))}"
        if not folder.exists():
            unfinished.rename(folder)
            return folder


def _write(path: Path, data: bytes) -> None:
    with path.open("xb") as file:
        file.write(data)
        file.flush()
        os.fsync(file.fileno())


def _sync_folder(folder: Path) -> None:
    if os.name == "nt":
        return
    handle = os.open(folder, os.O_RDONLY)
    try:
        os.fsync(handle)
    finally:
        os.close(handle)
