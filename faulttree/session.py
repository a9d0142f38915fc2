"""A case being worked on: what the faces of the program hold.

It decides with the core, records with the store, and only then shows the new state. What was
answered is on disk before the next question can be seen.
"""

from collections.abc import Callable, Mapping, Sequence
from datetime import UTC, datetime
from pathlib import Path

from faulttree.beginning import Beginning
from faulttree.case_bench.circuit import CaseCircuit
from faulttree.core.instruments import Instrument
from faulttree.core.tree import Conclude
from faulttree.core.walk import respond
from faulttree.core.walk.aside import Taking, marked, may_take
from faulttree.core.walk.asking import Asking
from faulttree.core.walk.asks import Ask, AskKind
from faulttree.core.walk.events import Aside, Complaint, Event, WentBack, event_to_json
from faulttree.core.walk.path import Position, position
from faulttree.core.walk.respond import Confirm, NeedsReason, Recorded, Refused, Typed
from faulttree.core.walk.state import WalkState, fold
from faulttree.core.walk.trace_summary import TraceSummary
from faulttree.files import cases, journal
from faulttree.files.walks import StoredWalk, check_sheet_fits, events_of, walk_of

Clock = Callable[[], datetime]
Outcome = Recorded | Confirm | NeedsReason | Refused
"""What became of an answer; Recorded means it is on disk."""


def wall_clock() -> datetime:
    """The time of this machine."""
    return datetime.now(UTC)


class Session:
    """One open case. Every method that answers returns only when the answer is on disk.

    Attributes:
        state: what is recorded, folded.
        found: what was found in its files when it was opened, in plain words.
        circuit: what its circuit tells.
    """

    def __init__(self, stored: cases.StoredCase, walk: StoredWalk, clock: Clock) -> None:
        self._stored = stored
        self._journal = stored.journal
        self._clock = clock
        self.state: WalkState = walk.state
        self.found: tuple[str, ...] = walk.found
        self.circuit = CaseCircuit(stored.folder)
        self._asking = Asking()
        self._stands: tuple[WalkState, Position] | None = None

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
        started = beginning.started(now.isoformat(timespec="seconds"))
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
        stands = self._asking.stands
        if stands is None:
            stands = self._asking.put(self.state, self.position.step_id, self.now)
        return stands

    @property
    def is_changing(self) -> bool:
        """True while an earlier answer is being changed."""
        return self._asking.changing is not None

    @property
    def is_aside(self) -> bool:
        """True while a test is asked aside from the tree."""
        return self._asking.is_aside

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
        self._asking.change(name)
        return Recorded(())

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
        self._asking.take(Taking(step_id, Aside(instead_of=own, saves_min=saves_min)))
        return Recorded(())

    def return_to_tree(self) -> None:
        """Leave a test aside unanswered: the question is that of the tree again."""
        self._asking.return_to_tree()

    def skip(self, reason: str) -> Outcome:
        """The step asked for cannot be done."""
        return self._record(respond.skip(self.state, self.ask.step_id, reason))

    def go_back(self, *, confirmed: bool = False) -> Outcome:
        """Withdraw the last answer, or leave off changing one, or return from aside to the tree."""
        if self._asking.leave():
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
            self._asking.anew()  # the proving run may be another one now
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
            for n, event in enumerate(marked(self.state, result.events, self._asking.taking), 1)
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
        self._asking.take_in(events)

    def _measure_again(self, step_id: str) -> None:
        """Ask for the reading once more where the one taken back had changed an earlier one."""
        if step_id in self.state.answers:
            self._asking.change(step_id)

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
        self._asking.return_to_tree()
        return Refused(
            f"Another window works on this case and recorded {len(events) - before} more: the walk "
            "stands where that left it. Your answer was not recorded; look and answer again."
        )


def _withdraws(outcome: Outcome) -> bool:
    return isinstance(outcome, Recorded) and any(isinstance(e, WentBack) for e in outcome.events)
