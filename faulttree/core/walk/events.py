"""What can happen in a walk. An event is a fact: it is recorded once and never changed.

Times are text with date and offset (`2026-11-25T09:30:00+00:00`), put in by whoever records the
event; the fold trusts the order of events, not their times, so a clock set back does no harm.
"""

from enum import StrEnum
from typing import Annotated, Any, Literal

from pydantic import BaseModel, BeforeValidator, ConfigDict, Field, TypeAdapter, model_validator

from faulttree.core.instruments import Instrument
from faulttree.core.units import Quantity, UnitSystem
from faulttree.core.walk.trace_summary import TraceSummary


class Complaint(StrEnum):
    """Whether the complaint shows itself at the moment."""

    UNKNOWN = "unknown"
    PRESENT = "present"
    PROVOKED = "provoked"
    ABSENT = "absent"

    @property
    def shows(self) -> bool:
        """True when a reading taken now sees the fault at work."""
        return self in (Complaint.PRESENT, Complaint.PROVOKED)


def _legible(value: object) -> object:
    return value.encode("utf-8", "replace").decode() if isinstance(value, str) else value


Words = Annotated[str, BeforeValidator(_legible)]
"""What a person wrote; bytes that were no text when they were typed become question marks."""


class _Record(BaseModel):
    model_config = ConfigDict(frozen=True, extra="ignore", defer_build=True)


class _Event(_Record):
    seq: int = 0
    at: str = ""


class Intake(_Record):
    """What is known of a car and its owner. Everything may be left empty."""

    words: Words = ""
    car: Words = ""
    registration: Words = ""
    odometer: Words = ""
    customer: Words = ""
    technician: Words = ""
    weather: Words = ""


INTAKE_LABELS: dict[str, str] = {
    "words": "Customer's words",
    "car": "Car",
    "registration": "Registration or VIN",
    "odometer": "Odometer",
    "customer": "Customer",
    "technician": "Technician",
    "weather": "Weather, temperature",
}
"""How each part of the intake is asked for."""


class Reference(_Record):
    """An earlier reading that a later one was judged by."""

    name: str
    seq: int


class BatteryAge(_Record):
    """The battery voltage that stood beside a reading: its event, value [V] and age [s].

    The age is None when the clock was set back in between.
    """

    seq: int
    value: float
    age_s: float | None


class Place(_Record):
    """Where and under which conditions a test was made, with the car's own names filled in."""

    instrument: str | None = None
    red_lead: str | None = None
    black_lead: str | None = None
    spot: str | None = None
    key: str | None = None
    engine: str | None = None
    load: str | None = None
    connector: str | None = None
    other: str | None = None


class Started(_Event):
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


class Aside(_Record):
    """That a test was taken aside from the tree, because advice put it before the tree's own.

    `instead_of` is the step that the tree stood at; `saves_min` is how many minutes more on average
    that one was said to take [min], where the two were compared.
    """

    instead_of: str
    saves_min: float | None = None


class _Answer(_Event):
    """An answer to a step. `replaces` is the earlier answer it changes."""

    step: str
    replaces: int | None = None
    aside: Aside | None = None


class ReadingTaken(_Answer):
    """A reading. `slot` is the step itself, or the battery voltage it was asked together with."""

    event: Literal["reading"] = "reading"
    slot: Literal["step", "battery-voltage"] = "step"
    text: str
    quantity: Quantity
    value: float | Literal["OL"]
    digit: float
    unit: str
    place: Place = Field(default_factory=Place)
    complaint: Complaint
    battery: BatteryAge | None = None
    references: tuple[Reference, ...] = ()
    kept_though_implausible: bool = False


class Observed(_Answer):
    """One of the outcomes of an observation; None means “none of these”."""

    event: Literal["observation"] = "observation"
    outcome: str | None
    place: Place = Field(default_factory=Place)
    complaint: Complaint


class ActionDone(_Answer):
    """An action was done; `went_wrong` when something happened that should not."""

    event: Literal["action-done"] = "action-done"
    went_wrong: bool = False


class WorkedOut(_Answer):
    """A worked-out value was accepted; `value` is what it was then [SI]."""

    event: Literal["worked-out"] = "worked-out"
    value: float | Literal["OL"] | None
    complaint: Complaint
    references: tuple[Reference, ...] = ()


class Skipped(_Answer):
    """A step could not be done."""

    event: Literal["skipped"] = "skipped"
    reason: Words


class BandDecided(_Event):
    """A reading too close to call was given to a band by the technician."""

    event: Literal["band-decided"] = "band-decided"
    step: str
    answer: int
    band: str
    reason: Words = ""


class OtherTestTaken(_Event):
    """A reading too close to call is settled by the author's other test."""

    event: Literal["other-test-taken"] = "other-test-taken"
    step: str
    answer: int


class WentBack(_Event):
    """The last answer is withdrawn; it stays visible in the record."""

    event: Literal["gone-back"] = "gone-back"
    step: str
    answer: int


class DetailsChanged(_Event):
    """What is known of the car and its owner, as told later; it takes the intake's place."""

    event: Literal["details-changed"] = "details-changed"
    intake: Intake


class NoteAdded(_Event):
    """A note of the technician."""

    event: Literal["note"] = "note"
    step: str
    text: Words


class TraceAttached(_Event):
    """A logged trace was looked through; what was found belongs to the case."""

    event: Literal["trace"] = "trace"
    step: str
    trace: TraceSummary


class ComplaintChanged(_Event):
    """The complaint came, went, or was brought on; `how` says by what."""

    event: Literal["complaint-changed"] = "complaint-changed"
    complaint: Complaint
    how: Words = ""


class TriesCounted(_Event):
    """How often the complaint showed before the repair: `seen` times in `tries` tries.

    A later one takes its place; `tries` is 0 where a count is taken back. `confidence` is what a
    repair is to be proved with.
    """

    event: Literal["tries-counted"] = "tries-counted"
    step: str
    seen: int = Field(ge=0)
    tries: int = Field(ge=0)
    confidence: float = Field(default=0.95, gt=0, lt=1)

    @model_validator(mode="after")
    def _seen_in_tries(self) -> "TriesCounted":
        if self.seen > self.tries:
            raise ValueError("seen more often than tried")
        return self


class InstrumentChosen(_Event):
    """Another instrument is used from here on."""

    event: Literal["instrument-changed"] = "instrument-changed"
    instrument: Instrument


class VehicleDataGiven(_Event):
    """Vehicle data the sheet did not give; no text means it is not known."""

    event: Literal["vehicle-data-given"] = "vehicle-data-given"
    name: str
    text: Words | None
    value: float | None = None


class Concluded(_Event):
    """A conclusion was accepted; `uncleared` are the readings it was accepted in spite of."""

    event: Literal["concluded"] = "concluded"
    step: str
    uncleared: tuple[int, ...] = ()
    missing: tuple[str, ...] = ()


class ProofGiven(_Event):
    """How the proof of a verdict came out."""

    event: Literal["proof-result"] = "proof-result"
    step: str
    result: Literal["held", "failed", "not-done"]
    reason: Words = ""


class RepairChosen(_Event):
    """The repair that was made, or None when none was."""

    event: Literal["repair-chosen"] = "repair-chosen"
    step: str
    repair: str | None
    note: Words = ""


class CycleRun(_Event):
    """One cycle of the proving run."""

    event: Literal["verification-cycle"] = "verification-cycle"
    step: str
    clean: bool
    note: Words = ""


class Closed(_Event):
    """The case is finished."""

    event: Literal["closed"] = "closed"
    note: Words = ""


Answer = ReadingTaken | Observed | ActionDone | WorkedOut | Skipped
"""Events that answer a step."""
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
