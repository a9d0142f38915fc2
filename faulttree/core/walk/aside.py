"""A test taken aside from the tree, on advice: when it may be, and how its answer is marked."""

from collections.abc import Iterable, Iterator
from dataclasses import dataclass

from faulttree.core.tree import Measure, Observe
from faulttree.core.walk.events import Answer, Aside, Event, ReadingTaken
from faulttree.core.walk.path import Stage, Visit, position, visit_of
from faulttree.core.walk.results import Refused
from faulttree.core.walk.state import WalkState

_LOOKING = (Stage.ANSWER, Stage.TOO_CLOSE, Stage.VERDICT)
"""Stages at which the fault is still looked for."""


@dataclass(frozen=True, slots=True)
class Taking:
    """A test that is asked aside from the tree; nothing of it is recorded before its answer."""

    step_id: str
    why: Aside

    def is_answered_by(self, event: Event) -> bool:
        """True for an answer to the test; a battery voltage beside it is none."""
        if isinstance(event, ReadingTaken) and event.slot != "step":
            return False
        return isinstance(event, Answer) and event.step == self.step_id


def is_looking(state: WalkState) -> bool:
    """Whether the fault is still looked for: no conclusion was accepted."""
    return position(state).stage in _LOOKING


def may_take(state: WalkState, step_id: str) -> Refused | None:
    """Why a step cannot be taken aside; None when it can."""
    step = state.tree.steps.get(step_id)
    if not isinstance(step, Measure | Observe):
        return Refused(f"“{step_id}” is no test of this tree that could be taken aside.")
    if step_id in state.answers:
        return Refused("That test has an answer already.")
    if not is_looking(state):
        return Refused("A conclusion was accepted; no test is taken aside from here.")
    return None


def marked(state: WalkState, events: Iterable[Event], taking: Taking | None) -> tuple[Event, ...]:
    """Events as they are to be recorded: the answer to a test taken aside says so.

    An answer that changes such a one is such a one.
    """
    return tuple(_marked(state, event, taking) for event in events)


def _marked(state: WalkState, event: Event, taking: Taking | None) -> Event:
    if taking is not None and taking.is_answered_by(event):
        return event.model_copy(update={"aside": taking.why})
    if isinstance(event, Answer) and event.replaces is not None:
        before = next((e for e in state.events if e.seq == event.replaces), None)
        return event.model_copy(update={"aside": getattr(before, "aside", None)})
    return event


def taken_aside(state: WalkState) -> Iterator[Visit]:
    """The answers in force that were taken aside, in the order recorded."""
    found = [answer for answer in state.answers.values() if answer.aside is not None]
    for answer in sorted(found, key=lambda each: each.seq):
        if answer.step in state.tree.steps:
            yield visit_of(state, answer.step, answer)
