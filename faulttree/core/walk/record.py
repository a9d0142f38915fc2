"""Everything recorded in a walk, in order, with what stands, what was changed and what was
withdrawn. Nothing is ever left out of it."""

from dataclasses import dataclass
from enum import StrEnum

from faulttree.core.tree import Conclude
from faulttree.core.walk.events import Answer, Event, ReadingTaken, TriesCounted
from faulttree.core.walk.path import Visit, position, visit_of
from faulttree.core.walk.state import WalkState


class Standing(StrEnum):
    """Whether a recorded event counts today."""

    IN_FORCE = "in force"
    CHANGED = "changed later"
    WITHDRAWN = "withdrawn"
    ASIDE = "off the path"


@dataclass(frozen=True, slots=True)
class RecordLine:
    """One event, its standing, and for an answer what it meant."""

    event: Event
    standing: Standing
    visit: Visit | None = None


def record(state: WalkState) -> tuple[RecordLine, ...]:
    """All events in order."""
    on_path = {visit.answer.seq for visit in position(state).path}
    return tuple(_line(state, event, on_path) for event in state.events)


def _line(state: WalkState, event: Event, on_path: set[int]) -> RecordLine:
    visit = None
    is_side_reading = isinstance(event, ReadingTaken) and event.slot != "step"
    if isinstance(event, Answer) and not is_side_reading:
        step = state.tree.steps.get(event.step)
        if step is not None and not isinstance(step, Conclude):
            visit = visit_of(state, event.step, event)
    return RecordLine(event, _standing(state, event, visit, on_path), visit)


def _standing(state: WalkState, event: Event, visit: Visit | None, on_path: set[int]) -> Standing:
    if event.seq in state.withdrawn:
        return Standing.WITHDRAWN
    if event.seq in state.replaced or _is_counted_anew(state, event):
        return Standing.CHANGED
    if visit is not None and event.seq not in on_path and visit.target is not None:
        return Standing.ASIDE
    return Standing.IN_FORCE


def _is_counted_anew(state: WalkState, event: Event) -> bool:
    """True for a count of tries that a later one took the place of."""
    return isinstance(event, TriesCounted) and bool(event.tries) and event != state.tries
