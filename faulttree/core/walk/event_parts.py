"""What events are made of: their bases, and the records that several of them carry."""

from enum import StrEnum
from typing import Annotated

from pydantic import BaseModel, BeforeValidator, ConfigDict


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


class Part(BaseModel):
    """What never changes once it is made; fields that a later version added are passed over."""

    model_config = ConfigDict(frozen=True, extra="ignore", defer_build=True)


class Happening(Part):
    """Any event: its number in the case, from 1, and when it was recorded."""

    seq: int = 0
    at: str = ""


class Intake(Part):
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


class Reference(Part):
    """An earlier reading that a later one was judged by."""

    name: str
    seq: int


class BatteryAge(Part):
    """The battery voltage that stood beside a reading: its event, value [V] and age [s].

    The age is None when the clock was set back in between.
    """

    seq: int
    value: float
    age_s: float | None


class Place(Part):
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


class Aside(Part):
    """That a test was taken aside from the tree, because advice put it before the tree's own.

    `instead_of` is the step that the tree stood at; `saves_min` is how many minutes more on average
    that one was said to take [min], where the two were compared.
    """

    instead_of: str
    saves_min: float | None = None
