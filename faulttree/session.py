"""A case being worked on: what the faces of the program hold.

It decides with the core, records with the store, and only then shows the new state. What was
answered is on disk before the next question can be seen.
"""

from collections.abc import Callable, Sequence
from dataclasses import dataclass
from datetime import UTC, datetime
from pathlib import Path

from faulttree import __version__
from faulttree.core.instruments import Instrument
from faulttree.core.tree import Tree
from faulttree.core.units import UnitSystem
from faulttree.core.vehicle import VehicleSheet
from faulttree.core.walk import respond
from faulttree.core.walk.asks import Ask, ask_step, next_ask
from faulttree.core.walk.events import (
    Complaint,
    Event,
    Intake,
    Started,
    event_from_json,
    event_to_json,
)
from faulttree.core.walk.path import Position, position
from faulttree.core.walk.respond import Confirm, NeedsReason, Recorded, Refused, Typed
from faulttree.core.walk.state import WalkState, fold
from faulttree.files import cases, journal
from faulttree.files.documents import Loaded, tree_from_bytes, vehicle_from_bytes

Clock = Callable[[], datetime]
Outcome = Recorded | Confirm | NeedsReason | Refused
"""What became of an answer; Recorded means it is on disk."""


def wall_clock() -> datetime:
    """The time of this machine."""
    return datetime.now(UTC)


@dataclass(frozen=True, slots=True)
class Beginning:
    """What a new case begins with."""

    tree: Loaded[Tree]
    vehicle: Loaded[VehicleSheet] | None = None
    intake: Intake = Intake()
    units: UnitSystem = UnitSystem.METRIC
    instruments: tuple[Instrument, ...] = ()


class Session:
    """One open case. Every method that answers returns only when the answer is on disk."""

    def __init__(self, stored: cases.StoredCase, clock: Clock = wall_clock) -> None:
        self._stored = stored
        self._journal = stored.journal
        self._clock = clock
        tree = tree_from_bytes(stored.tree, f"{stored.id}/{cases.TREE}").document
        sheet = None
        if stored.vehicle is not None:
            sheet = vehicle_from_bytes(stored.vehicle, f"{stored.id}/{cases.VEHICLE}").document
        events = [event_from_json(record) for record in stored.records]
        self.state: WalkState = fold(tree, sheet, events)
        self.found: tuple[str, ...] = stored.found
        self._changing: Ask | None = None

    @classmethod
    def begin(cls, folder: Path, beginning: Beginning, clock: Clock = wall_clock) -> "Session":
        """Begin a new case in the folder of all cases.

        Raises:
            cases.CaseError: it cannot be written.
        """
        now = clock()
        tree, vehicle = beginning.tree, beginning.vehicle
        started = Started(
            seq=1,
            at=now.isoformat(timespec="seconds"),
            tree_id=tree.document.id,
            tree_version=tree.document.version,
            tree_hash=tree.hash,
            vehicle_id=vehicle.document.id if vehicle else None,
            vehicle_hash=vehicle.hash if vehicle else None,
            vehicle_name=vehicle.document.name if vehicle else "",
            intake=beginning.intake,
            units=beginning.units,
            instruments=beginning.instruments,
            program=__version__,
        )
        stored = cases.create(
            folder,
            tree.document.id,
            now.astimezone().date().isoformat(),
            tree.data,
            vehicle.data if vehicle else None,
            [event_to_json(started)],
        )
        return cls(stored, clock)

    @classmethod
    def resume(cls, folder: Path, clock: Clock = wall_clock) -> "Session":
        """Open a case again.

        Raises:
            cases.CaseError: it cannot be opened.
            DocumentError: its tree or sheet was changed and is no longer one.
        """
        return cls(cases.open_case(folder), clock)

    @property
    def id(self) -> str:
        """The case's id."""
        return self._stored.id

    @property
    def folder(self) -> Path:
        """Where the case is kept."""
        return self._stored.folder

    @property
    def now(self) -> str:
        """The time, as it is recorded."""
        return self._clock().isoformat(timespec="seconds")

    @property
    def position(self) -> Position:
        """Where the walk stands."""
        return position(self.state)

    @property
    def ask(self) -> Ask:
        """The question to answer now."""
        if self._changing is not None:
            return ask_step(self.state, self._changing.step_id, self.now, self._changing.replaces)
        return next_ask(self.state, self.now)

    @property
    def is_changing(self) -> bool:
        """True while an earlier answer is being changed."""
        return self._changing is not None

    def answer(self, text: str, *, confirmed: bool = False, reason: str = "") -> Outcome:
        """Answer the question."""
        typed = Typed(text, self.now, confirmed, reason)
        outcome = self._record(respond.respond(self.state, self.ask, typed))
        changed = isinstance(outcome, Recorded) and any(
            getattr(e, "replaces", None) is not None for e in outcome.events
        )
        if changed:
            self._changing = None
        return outcome

    def begin_change(self, step_id: str) -> Outcome:
        """Ask a step of the path again; the answer given then takes the old one's place."""
        answer = self.state.answers.get(step_id)
        if answer is None or step_id not in {v.step_id for v in self.position.path}:
            return Refused(f"{step_id} has no answer on this path that could be changed.")
        self._changing = ask_step(self.state, step_id, self.now, answer.seq)
        return Recorded(())

    def stop_change(self) -> None:
        """Leave the earlier answer as it is."""
        self._changing = None

    def skip(self, reason: str) -> Outcome:
        """The current step cannot be done."""
        return self._record(respond.skip(self.state, reason))

    def go_back(self) -> Outcome:
        """Withdraw the last answer, or leave off changing one."""
        if self._changing is not None:
            self._changing = None
            return Recorded(())
        return self._record(respond.go_back(self.state))

    def add_note(self, text: str) -> Outcome:
        """Write a note at the current step."""
        return self._record(respond.add_note(self.state, text))

    def set_complaint(self, complaint: Complaint, how: str = "") -> Outcome:
        """Record whether the complaint shows itself."""
        return self._record(respond.set_complaint(self.state, complaint, how))

    def measure_battery(self, text: str, *, confirmed: bool = False) -> Outcome:
        """Record a battery voltage taken now."""
        typed = Typed(text, self.now, confirmed)
        return self._record(respond.measure_battery(self.state, typed))

    def choose_instrument(self, instrument: Instrument) -> Outcome:
        """Use another instrument from here on."""
        return self._record(respond.choose_instrument(self.state, instrument))

    def _record(self, result: respond.Result) -> Outcome:
        """Write what was decided; only then does the state change."""
        if not isinstance(result, Recorded) or not result.events:
            return result
        seq, now = self._last_seq, self.now
        stamped: list[Event] = [
            event.model_copy(update={"seq": seq + n, "at": now})
            for n, event in enumerate(result.events, 1)
        ]
        try:
            self._journal = self._journal.append([event_to_json(e) for e in stamped])
        except journal.JournalMovedOnError:
            return self._taken_up_elsewhere()
        except journal.JournalError as error:
            return Refused(str(error))
        self._take(stamped)
        return Recorded(tuple(stamped))

    @property
    def _last_seq(self) -> int:
        return max((event.seq for event in self.state.events), default=0)

    def _take(self, events: Sequence[Event]) -> None:
        state = self.state
        self.state = fold(state.tree, state.sheet, (*state.events, *events))

    def _taken_up_elsewhere(self) -> Outcome:
        """Another window wrote: take in what it recorded; the answer given here is not recorded."""
        before = len(self.state.events)
        try:
            stored = cases.open_case(self.folder)
        except cases.CaseError as error:
            return Refused(str(error))
        self._journal, self._changing = stored.journal, None
        events = [event_from_json(record) for record in stored.records]
        self.state = fold(self.state.tree, self.state.sheet, events)
        count = len(events) - before
        return Refused(
            f"Another window works on this case and recorded {count} more: they are shown now. "
            "Your answer was not recorded; look where the walk stands and answer again."
        )
