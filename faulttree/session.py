"""A case being worked on: what the faces of the program hold.

It decides with the core, records with the store, and only then shows the new state. What was
answered is on disk before the next question can be seen.
"""

from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass, field
from datetime import UTC, datetime
from pathlib import Path

from faulttree import __version__
from faulttree.case_bench.documents import CaseDocuments
from faulttree.case_bench.next_tests import CaseNextTests
from faulttree.case_bench.readings import ExpectedReadings
from faulttree.case_bench.suspects import CaseSuspects
from faulttree.core.instruments import Instrument
from faulttree.core.tree import Conclude, Tree
from faulttree.core.units import UnitSystem
from faulttree.core.vehicle import VehicleSheet
from faulttree.core.walk import respond
from faulttree.core.walk.aside import Taking, marked, may_take
from faulttree.core.walk.asks import Ask, AskKind, ask_again, ask_step, next_ask
from faulttree.core.walk.events import (
    Answer,
    Aside,
    Complaint,
    ComplaintChanged,
    DetailsChanged,
    Event,
    InstrumentChosen,
    Intake,
    NoteAdded,
    Started,
    TraceAttached,
    TriesCounted,
    VehicleDataGiven,
    WentBack,
    event_to_json,
)
from faulttree.core.walk.path import Position, position
from faulttree.core.walk.respond import Confirm, NeedsReason, Recorded, Refused, Typed
from faulttree.core.walk.state import WalkState, fold
from faulttree.core.walk.trace_summary import TraceSummary
from faulttree.files import cases, journal
from faulttree.files.documents import Loaded
from faulttree.files.walks import StoredWalk, check_sheet_fits, events_of, walk_of

Clock = Callable[[], datetime]
Outcome = Recorded | Confirm | NeedsReason | Refused
"""What became of an answer; Recorded means it is on disk."""
_BESIDE_THE_QUESTION = (
    NoteAdded,
    ComplaintChanged,
    TriesCounted,
    TraceAttached,
    InstrumentChosen,
    DetailsChanged,
)
"""Events that leave the question as it stands."""


def wall_clock() -> datetime:
    """The time of this machine."""
    return datetime.now(UTC)


@dataclass(frozen=True, slots=True)
class Beginning:
    """What a new case begins with."""

    tree: Loaded[Tree]
    vehicle: Loaded[VehicleSheet] | None = None
    intake: Intake = field(default_factory=Intake)
    units: UnitSystem = UnitSystem.METRIC
    instruments: tuple[Instrument, ...] = ()
    circuit: Mapping[str, bytes] = field(default_factory=dict)
    """What the case keeps of the tree's circuit, by file: see `opening.Opened`."""


class Session:
    """One open case. Every method that answers returns only when the answer is on disk.

    Attributes:
        state: what is recorded, folded.
        found: what was found in its files when it was opened, in plain words.
        expected: what its steps would read on its circuit.
        suspects: what is suspect after its readings.
        next_tests: the best tests from here, whatever the tree asks.
        shows_expected, shows_suspects, shows_next_tests: whether these may be looked at.
    """

    def __init__(self, stored: cases.StoredCase, walk: StoredWalk, clock: Clock) -> None:
        self._stored = stored
        self._journal = stored.journal
        self._clock = clock
        self.state: WalkState = walk.state
        self.found: tuple[str, ...] = walk.found
        documents = CaseDocuments(stored.folder)
        self.expected = ExpectedReadings(documents)
        self.suspects = CaseSuspects(documents)
        self.next_tests = CaseNextTests(documents, self.suspects)
        self.shows_expected = True
        self.shows_suspects = True
        self.shows_next_tests = True
        self._asked: Ask | None = None
        self._stands: tuple[WalkState, Position] | None = None
        self._changing: str | None = None
        self._taking: Taking | None = None

    @classmethod
    def begin(cls, folder: Path, beginning: Beginning, clock: Clock = wall_clock) -> "Session":
        """Begin a new case in the folder of all cases.

        Raises:
            cases.CaseError: it cannot be written, or the sheet does not fit the tree.
        """
        now = clock()
        tree, vehicle = beginning.tree, beginning.vehicle
        if vehicle is not None:
            check_sheet_fits(tree.document, vehicle.document)
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
            beginning.circuit,
        )
        sheet = vehicle.document if vehicle else None
        return cls(stored, StoredWalk(fold(tree.document, sheet, [started]), ()), clock)

    @classmethod
    def resume(cls, folder: Path, clock: Clock = wall_clock) -> "Session":
        """Open a case again.

        Raises:
            cases.CaseError: it cannot be opened.
            DocumentError: its tree or sheet was changed and is no longer one.
        """
        stored = cases.open_case(folder)
        return cls(stored, walk_of(stored), clock)

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
        if self._stands is None or self._stands[0] is not self.state:
            self._stands = self.state, position(self.state)
        return self._stands[1]

    @property
    def ask(self) -> Ask:
        """The question to answer now.

        It stands until something is answered: a reading is never taken for the battery voltage
        because that grew too old while the technician was probing. The record tells its age.
        """
        if self._asked is None:
            if self._changing is not None:
                self._asked = ask_again(self.state, self._changing, self.now, self.position.step_id)
            elif self._taking is not None:
                self._asked = ask_step(self.state, self._taking.step_id, self.now)
            else:
                self._asked = next_ask(self.state, self.now)
        return self._asked

    @property
    def is_changing(self) -> bool:
        """True while an earlier answer is being changed."""
        return self._changing is not None

    @property
    def is_aside(self) -> bool:
        """True while a test is asked aside from the tree."""
        return self._taking is not None and self._changing is None

    def why_nothing_expected(self) -> str:
        """Why expected readings of the step asked for cannot be looked at; empty where they can."""
        if not self.shows_expected:
            return "Expected readings are not shown in this case."
        return self.expected.why_not(self.state, self.ask.step_id)

    def why_no_suspects(self) -> str:
        """Why suspects cannot be looked at; empty where they can."""
        if not self.shows_suspects:
            return "Suspects are not shown in this case."
        return self.suspects.why_not(self.state)

    def why_no_next_tests(self) -> str:
        """Why the best next tests cannot be looked at; empty where they can."""
        if not self.shows_next_tests:
            return "Next tests are not shown in this case."
        return self.next_tests.why_not(self.state)

    def what_readings_say(self) -> tuple[str, ...]:
        """The section of the report on suspects; it may take a moment. Empty where not shown."""
        return self.suspects.report_lines(self.state) if self.shows_suspects else ()

    def answer(self, text: str, *, confirmed: bool = False, reason: str = "") -> Outcome:
        """Answer the question."""
        ask = self.ask
        typed = Typed(text, self.now, confirmed, reason)
        outcome = self._record(respond.respond(self.state, ask, typed))
        if ask.kind is AskKind.TOO_CLOSE and _withdraws(outcome):
            self._measure_again(ask.step_id)
        return outcome

    def begin_change(self, name: str) -> Outcome:
        """Ask a step of the path, or vehicle data, again: the new answer takes the old one's place.

        Args:
            name: id of the step, or name of the vehicle data.
        """
        refused = respond.may_change(self.state, name)
        if refused is not None:
            return refused
        self._change(name)
        return Recorded(())

    def stop_change(self) -> None:
        """Leave the earlier answer as it is."""
        self._change(None)

    def aside(self, step_id: str, saves_min: float | None = None) -> Outcome:
        """Ask a test aside from the tree; nothing is recorded before it is answered.

        Args:
            step_id: the test; the tree's own next step is no test aside.
            saves_min: minutes that it saves on average against that one, where it is known [min].
        """
        own = self.position.step_id
        if step_id == own:
            self.return_to_tree()
            return Recorded(())
        refused = may_take(self.state, step_id)
        if refused is not None:
            return refused
        self._taking = Taking(step_id, Aside(instead_of=own, saves_min=saves_min))
        self._change(None)
        return Recorded(())

    def return_to_tree(self) -> None:
        """Leave a test aside unanswered: the question is that of the tree again."""
        self._taking = None
        self._change(None)

    def skip(self, reason: str) -> Outcome:
        """The step asked for cannot be done."""
        return self._record(respond.skip(self.state, self.ask.step_id, reason))

    def go_back(self, *, confirmed: bool = False) -> Outcome:
        """Withdraw the last answer, or leave off changing one, or return from aside to the tree."""
        if self._changing is not None:
            self.stop_change()
            return Recorded(())
        if self._taking is not None:
            self.return_to_tree()
            return Recorded(())
        return self._record(respond.go_back(self.state, confirmed))

    def add_note(self, text: str) -> Outcome:
        """Write a note at the step asked for."""
        return self._record(respond.add_note(self.state, self.ask.step_id, text))

    def attach_trace(self, trace: TraceSummary, step_id: str | None = None) -> Outcome:
        """Record what was found in a logged trace, at a step or at the one asked for."""
        at = self.ask.step_id if step_id is None else step_id
        return self._record(respond.attach_trace(self.state, at, trace))

    def change_details(self, told: Mapping[str, str]) -> Outcome:
        """Record what is known of the car and its owner, as told anew."""
        return self._record(respond.change_details(self.state, told))

    def set_complaint(self, complaint: Complaint, how: str = "") -> Outcome:
        """Record whether the complaint shows itself."""
        return self._record(respond.set_complaint(self.state, complaint, how))

    def count_tries(self, text: str) -> Outcome:
        """Record how often the complaint showed before the repair, as `3 of 10`."""
        step_id = self.ask.step_id
        outcome = self._record(respond.count_tries(self.state, step_id, text))
        if isinstance(self.state.tree.steps[step_id], Conclude):
            self._change(self._changing)  # the proving run may be another one now
        return outcome

    def measure_battery(self, text: str, *, confirmed: bool = False) -> Outcome:
        """Record a battery voltage taken now."""
        typed = Typed(text, self.now, confirmed)
        return self._record(respond.measure_battery(self.state, self.ask.step_id, typed))

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
            for n, event in enumerate(marked(self.state, result.events, self._taking), 1)
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
        if self._taking is not None and any(map(self._taking.is_answered_by, events)):
            self._taking = None
        if any(_changes(event, self._changing) for event in events):
            self._change(None)
        elif not all(isinstance(event, _BESIDE_THE_QUESTION) for event in events):
            self._change(self._changing)

    def _change(self, name: str | None) -> None:
        """Put the question anew: that of a step or vehicle data to be changed, or the next one."""
        self._changing = name
        self._asked = None

    def _measure_again(self, step_id: str) -> None:
        """Ask for the reading once more where the one taken back had changed an earlier one."""
        if step_id in self.state.answers:
            self._change(step_id)

    def _taken_up_elsewhere(self) -> Outcome:
        """Another window wrote: take in what it recorded; the answer given here is not recorded."""
        before = len(self.state.events)
        try:
            stored = cases.open_case(self.folder)
            events = events_of(stored)
        except cases.CaseError as error:
            return Refused(str(error))
        self._journal = stored.journal
        self.state = fold(self.state.tree, self.state.sheet, events)
        self._taking = None
        self._change(None)
        return Refused(
            f"Another window works on this case and recorded {len(events) - before} more: the walk "
            "stands where that left it. Your answer was not recorded; look and answer again."
        )


def _withdraws(outcome: Outcome) -> bool:
    return isinstance(outcome, Recorded) and any(isinstance(e, WentBack) for e in outcome.events)


def _changes(event: Event, name: str | None) -> bool:
    """True when an event is the changed answer that was being waited for."""
    if isinstance(event, VehicleDataGiven):
        return event.name == name
    return isinstance(event, Answer) and event.step == name and event.replaces is not None
