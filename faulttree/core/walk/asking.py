"""Which question is asked: the walk's next one, an earlier one again, or a test aside."""

from collections.abc import Sequence

from faulttree.core.walk.aside import Taking
from faulttree.core.walk.asks import Ask, ask_again, ask_step, next_ask
from faulttree.core.walk.events import (
    Answer,
    ComplaintChanged,
    DetailsChanged,
    Event,
    InstrumentChosen,
    NoteAdded,
    TraceAttached,
    TriesCounted,
    VehicleDataGiven,
)
from faulttree.core.walk.state import WalkState

_BESIDE_THE_QUESTION = (
    NoteAdded,
    ComplaintChanged,
    TriesCounted,
    TraceAttached,
    InstrumentChosen,
    DetailsChanged,
)
"""Events that leave the question as it stands."""


class Asking:
    """The question of a walk. Once put it stands, until it is to be put anew.

    Nothing of it is recorded: a case that is opened again asks its next question.

    Attributes:
        changing: id of the step, or name of the vehicle data, whose answer is being changed.
        taking: the test that is asked aside from the tree.
        stands: the question, once it is put.
    """

    def __init__(self) -> None:
        self.changing: str | None = None
        self.taking: Taking | None = None
        self.stands: Ask | None = None

    @property
    def is_aside(self) -> bool:
        """True while a test is asked aside from the tree."""
        return self.taking is not None and self.changing is None

    def put(self, state: WalkState, own: str, now: str) -> Ask:
        """Put the question.

        Args:
            state: the walk.
            own: the step that the tree stands at.
            now: the time, as it is recorded.
        """
        if self.changing is not None:
            self.stands = ask_again(state, self.changing, now, own)
        elif self.taking is not None:
            self.stands = ask_step(state, self.taking.step_id, now)
        else:
            self.stands = next_ask(state, now)
        return self.stands

    def anew(self) -> None:
        """Have the question put anew."""
        self.stands = None

    def change(self, name: str | None) -> None:
        """Have an earlier answer changed: that to a step, or vehicle data; None leaves it."""
        self.changing = name
        self.anew()

    def take(self, taking: Taking) -> None:
        """Have a test asked aside from the tree."""
        self.taking = taking
        self.change(None)

    def return_to_tree(self) -> None:
        """Have the tree's own question asked."""
        self.taking = None
        self.change(None)

    def leave(self) -> bool:
        """Leave off changing an answer, or else return from aside; False where neither is on."""
        if self.changing is not None:
            self.change(None)
        elif self.taking is not None:
            self.return_to_tree()
        else:
            return False
        return True

    def take_in(self, events: Sequence[Event]) -> None:
        """Go on after events: what was waited for is answered, or the question is put anew."""
        if self.taking is not None and any(map(self.taking.is_answered_by, events)):
            self.taking = None
        if any(_changes(event, self.changing) for event in events):
            self.change(None)
        elif not all(isinstance(event, _BESIDE_THE_QUESTION) for event in events):
            self.anew()


def _changes(event: Event, name: str | None) -> bool:
    """True when an event is the changed answer that was being waited for."""
    if isinstance(event, VehicleDataGiven):
        return event.name == name
    return isinstance(event, Answer) and event.step == name and event.replaces is not None
