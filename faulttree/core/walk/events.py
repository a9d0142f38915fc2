"""What can happen in a walk. An event is a fact: it is recorded once and never changed.

Times are text with date and offset (`2026-11-25T09:30:00+00:00`), put in by whoever records the
event; the fold trusts the order of events, not their times, so a clock set back does no harm.
"""

from typing import Annotated, Any

from pydantic import ConfigDict, Field, TypeAdapter

from faulttree.core.walk.answer_events import (
    ActionDone,
    Answer,
    BandDecided,
    Observed,
    OtherTestTaken,
    ReadingTaken,
    Skipped,
    WentBack,
    WorkedOut,
)
from faulttree.core.walk.case_events import (
    ComplaintChanged,
    DetailsChanged,
    InstrumentChosen,
    NoteAdded,
    Started,
    TraceAttached,
    VehicleDataGiven,
)
from faulttree.core.walk.event_parts import (
    INTAKE_LABELS,
    Aside,
    BatteryAge,
    Complaint,
    Intake,
    Place,
    Reference,
    Words,
)
from faulttree.core.walk.proving_events import (
    Closed,
    Concluded,
    CycleRun,
    ProofGiven,
    RepairChosen,
    TriesCounted,
)

__all__ = [
    "INTAKE_LABELS",
    "ActionDone",
    "Answer",
    "Aside",
    "BandDecided",
    "BatteryAge",
    "Closed",
    "Complaint",
    "ComplaintChanged",
    "Concluded",
    "CycleRun",
    "DetailsChanged",
    "Event",
    "InstrumentChosen",
    "Intake",
    "NoteAdded",
    "Observed",
    "OtherTestTaken",
    "Place",
    "ProofGiven",
    "ReadingTaken",
    "Reference",
    "RepairChosen",
    "Skipped",
    "Started",
    "TraceAttached",
    "TriesCounted",
    "VehicleDataGiven",
    "WentBack",
    "Words",
    "WorkedOut",
    "event_from_json",
    "event_to_json",
]

Event = Annotated[
    Started
    | ReadingTaken
    | Observed
    | ActionDone
    | WorkedOut
    | Skipped
    | BandDecided
    | OtherTestTaken
    | WentBack
    | NoteAdded
    | TraceAttached
    | DetailsChanged
    | ComplaintChanged
    | TriesCounted
    | InstrumentChosen
    | VehicleDataGiven
    | Concluded
    | ProofGiven
    | RepairChosen
    | CycleRun
    | Closed,
    Field(discriminator="event"),
]
"""Anything that can happen."""

_ADAPTER: TypeAdapter[Any] = TypeAdapter(Event, config=ConfigDict(defer_build=True))


def event_from_json(data: dict[str, Any]) -> "Event":
    """An event from its recorded form.

    Raises:
        pydantic.ValidationError: it is none.
    """
    event: Event = _ADAPTER.validate_python(data)
    return event


def event_to_json(event: "Event") -> dict[str, Any]:
    """An event in its recorded form; fields at their usual value are left out."""
    fields = event.model_dump(mode="json", by_alias=True, exclude_defaults=True)
    return {"event": event.event, **fields}
