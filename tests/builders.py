"""What many tests begin with: the example tree, its sheet, and a walk kept in memory alone."""

from dataclasses import dataclass, field
from datetime import UTC, datetime, timedelta
from functools import cache
from pathlib import Path
from typing import Any

from faulttree.beginning import Beginning
from faulttree.core.tree import Tree
from faulttree.core.units import UnitSystem
from faulttree.core.vehicle import VehicleSheet
from faulttree.core.walk import respond
from faulttree.core.walk.asks import Ask, ask_again, next_ask
from faulttree.core.walk.events import Complaint, Event, Intake, Started
from faulttree.core.walk.path import Position, position
from faulttree.core.walk.respond import Recorded, Result, Typed
from faulttree.core.walk.state import WalkState, fold
from faulttree.files.documents import load_tree, load_vehicle, tree_from_bytes
from faulttree.session import Session

LAMP = Path(__file__).parent / "data" / "lamp"
BEGUN = datetime(2026, 11, 25, 9, 30, tzinfo=UTC)


@cache
def lamp() -> Tree:
    """The example tree."""
    return load_tree(LAMP / "tree.yaml").document


@cache
def lamp_sheet() -> VehicleSheet:
    """Its vehicle sheet, which leaves out the drop allowed and the lamp's type."""
    return load_vehicle(LAMP / "vehicle.yaml").document


def lamp_with(*changes: tuple[str, str]) -> Tree:
    """The example tree with pieces of its text replaced; each piece must be there once."""
    return tree_from_bytes(lamp_text(*changes).encode(), "lamp").document


def lamp_text(*changes: tuple[str, str]) -> str:
    """The text of the example tree with pieces replaced."""
    text = (LAMP / "tree.yaml").read_text("utf-8")
    for old, new in changes:
        assert text.count(old) == 1, f"{old!r} is there {text.count(old)} times"
        text = text.replace(old, new)
    return text


@dataclass
class Clock:
    """A clock that stands still until it is moved."""

    time: datetime = BEGUN

    def __call__(self) -> datetime:
        return self.time

    @property
    def now(self) -> str:
        """The time as it is recorded."""
        return self.time.isoformat(timespec="seconds")

    def move(self, minutes: float) -> None:
        """Let time pass; a negative number sets the clock back."""
        self.time += timedelta(minutes=minutes)


@dataclass
class Walk:
    """A walk in memory: what the session does, without its files."""

    tree: Tree = field(default_factory=lamp)
    sheet: VehicleSheet | None = field(default_factory=lamp_sheet)
    clock: Clock = field(default_factory=Clock)
    units: UnitSystem = UnitSystem.METRIC
    started: dict[str, Any] = field(default_factory=dict)
    changing: str | None = None

    def __post_init__(self) -> None:
        self.events: list[Event] = []
        self.state: WalkState = fold(self.tree, self.sheet, [])
        fields = {"tree_id": "lamp", "tree_version": "1.1.0", "tree_hash": "0", "intake": Intake()}
        self.record(Started.model_validate({**fields, "units": self.units, **self.started}))

    @property
    def at(self) -> Position:
        """Where it stands."""
        return position(self.state)

    @property
    def path(self) -> list[str]:
        """Ids of the steps behind it."""
        return [visit.step_id for visit in self.at.path]

    @property
    def labels(self) -> list[str]:
        """What was taken at each of them."""
        return [visit.label for visit in self.at.path]

    @property
    def ask(self) -> Ask:
        """The question now."""
        if self.changing is not None:
            return ask_again(self.state, self.changing, self.clock.now, self.at.step_id)
        return next_ask(self.state, self.clock.now)

    def record(self, *events: Event) -> None:
        """Put events down and fold again."""
        for event in events:
            stamp = {"seq": len(self.events) + 1, "at": self.clock.now}
            self.events.append(event.model_copy(update=stamp))
        self.state = fold(self.tree, self.sheet, self.events)

    def take(self, result: Result) -> Result:
        """Record what was decided, if anything was."""
        if isinstance(result, Recorded):
            self.record(*result.events)
        return result

    def answer(self, text: str, confirmed: bool = False, reason: str = "") -> Result:
        """Answer the question."""
        typed = Typed(text, self.clock.now, confirmed, reason)
        result = self.take(respond.respond(self.state, self.ask, typed))
        if isinstance(result, Recorded) and any(
            getattr(e, "replaces", None) is not None for e in result.events
        ):
            self.changing = None
        return result

    def go(self, *texts: str) -> "Walk":
        """Answer questions that must all be accepted."""
        for text in texts:
            result = self.answer(text)
            assert isinstance(result, Recorded), (text, self.ask, result)
        return self

    def change(self, step_id: str, text: str) -> Result:
        """Change the answer to an earlier step."""
        self.changing = step_id
        return self.answer(text)

    def skip(self, reason: str) -> Result:
        """The step cannot be done."""
        return self.take(respond.skip(self.state, self.at.step_id, reason))

    def back(self) -> Result:
        """Withdraw the last answer."""
        return self.take(respond.go_back(self.state, confirmed=True))

    def complaint(self, complaint: Complaint, how: str = "") -> Result:
        """Say how the complaint is."""
        return self.take(respond.set_complaint(self.state, complaint, how))

    def count(self, text: str) -> Result:
        """Say how often the complaint showed, in how many tries."""
        return self.take(respond.count_tries(self.state, self.at.step_id, text))


def at_feed(battery: str = "12.60", **options: Any) -> Walk:
    """A walk that stands at the feed of the lamp, with the complaint present."""
    walk = Walk(**options)
    walk.complaint(Complaint.PRESENT)
    return walk.go(battery, "glows dim")


def at_verdict(battery: str = "12.60", **options: Any) -> Walk:
    """A walk that stands at the verdict on the ground, earned while the complaint showed."""
    return at_feed(battery, **options).go("12.50", "1.20")


def lamp_case(folder: Path, clock: Clock | None = None, **beginning: Any) -> Session:
    """A new case of the example tree in a folder of cases."""
    tree, vehicle = load_tree(LAMP / "tree.yaml"), load_vehicle(LAMP / "vehicle.yaml")
    return Session.begin(folder, Beginning(tree, vehicle, **beginning), clock or Clock())


def answered(session: Session, *texts: str) -> Session:
    """Answer the questions of a case; each answer must be accepted."""
    for text in texts:
        outcome = session.answer(text)
        assert isinstance(outcome, Recorded), (text, session.ask, outcome)
    return session
