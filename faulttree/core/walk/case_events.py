"""Events of the case around its answers: how it begins, and what is told, noted or chosen."""

from typing import Literal

from pydantic import Field

from faulttree.core.instruments import Instrument
from faulttree.core.units import UnitSystem
from faulttree.core.walk.event_parts import Complaint, Happening, Intake, Words
from faulttree.core.walk.trace_summary import TraceSummary


class Started(Happening):
    """A case begins; the tree and the vehicle sheet are pinned by version and hash."""

    event: Literal["started"] = "started"
    tree_id: str
    tree_version: str
    tree_hash: str
    vehicle_id: str | None = None
    vehicle_hash: str | None = None
    vehicle_name: str = ""
    intake: Intake = Field(default_factory=Intake)
    units: UnitSystem = UnitSystem.METRIC
    instruments: tuple[Instrument, ...] = ()
    program: str = ""


class DetailsChanged(Happening):
    """What is known of the car and its owner, as told later; it takes the intake's place."""

    event: Literal["details-changed"] = "details-changed"
    intake: Intake


class VehicleDataGiven(Happening):
    """Vehicle data the sheet did not give; no text means it is not known."""

    event: Literal["vehicle-data-given"] = "vehicle-data-given"
    name: str
    text: Words | None
    value: float | None = None


class ComplaintChanged(Happening):
    """The complaint came, went, or was brought on; `how` says by what."""

    event: Literal["complaint-changed"] = "complaint-changed"
    complaint: Complaint
    how: Words = ""


class InstrumentChosen(Happening):
    """Another instrument is used from here on."""

    event: Literal["instrument-changed"] = "instrument-changed"
    instrument: Instrument


class NoteAdded(Happening):
    """A note of the technician."""

    event: Literal["note"] = "note"
    step: str
    text: Words


class TraceAttached(Happening):
    """A logged trace was looked through; what was found belongs to the case."""

    event: Literal["trace"] = "trace"
    step: str
    trace: TraceSummary
