"""Events that answer a step, and those that settle or withdraw an answer."""

from typing import Literal

from pydantic import Field

from faulttree.core.units import Quantity
from faulttree.core.walk.event_parts import (
    Aside,
    BatteryAge,
    Complaint,
    Happening,
    Place,
    Reference,
    Words,
)


class _Answer(Happening):
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


Answer = ReadingTaken | Observed | ActionDone | WorkedOut | Skipped
"""Events that answer a step."""


class BandDecided(Happening):
    """A reading too close to call was given to a band by the technician."""

    event: Literal["band-decided"] = "band-decided"
    step: str
    answer: int
    band: str
    reason: Words = ""


class OtherTestTaken(Happening):
    """A reading too close to call is settled by the author's other test."""

    event: Literal["other-test-taken"] = "other-test-taken"
    step: str
    answer: int


class WentBack(Happening):
    """The last answer is withdrawn; it stays visible in the record."""

    event: Literal["gone-back"] = "gone-back"
    step: str
    answer: int
