"""What was typed, turned into events: decide here, fold later.

Nothing here changes a state. Every function returns what should be recorded, or why not yet.
Sequence number and time are put in by whoever records.
"""

import math
from collections.abc import Mapping
from contextlib import suppress
from typing import Literal

from faulttree.core.instruments import Instrument
from faulttree.core.tree import Conclude, Do, Observe, WorkOut
from faulttree.core.uncertain import CannotWorkOut
from faulttree.core.units import Quantity
from faulttree.core.walk import conclusions, readings, vehicle_data
from faulttree.core.walk.aside import taken_aside
from faulttree.core.walk.asks import Ask, AskKind, Option
from faulttree.core.walk.car_words import place_for
from faulttree.core.walk.events import (
    INTAKE_LABELS,
    ActionDone,
    BandDecided,
    Complaint,
    ComplaintChanged,
    DetailsChanged,
    InstrumentChosen,
    NoteAdded,
    Observed,
    OtherTestTaken,
    Skipped,
    TraceAttached,
    WentBack,
    WorkedOut,
)
from faulttree.core.walk.judge import reference_values, references_for
from faulttree.core.walk.path import position
from faulttree.core.walk.readings import place_of, replaced_by
from faulttree.core.walk.results import (
    Confirm,
    NeedsReason,
    Recorded,
    Refused,
    Response,
    Result,
    Typed,
    by_option,
    choose,
)
from faulttree.core.walk.state import WalkState
from faulttree.core.walk.trace_summary import TraceSummary
from faulttree.core.walk.tries import TRIES_QUESTION, read_tries

__all__ = [
    "TRIES_QUESTION",
    "Confirm",
    "NeedsReason",
    "Recorded",
    "Refused",
    "Result",
    "Typed",
    "choose",
]

LONGEST_TEXT = 2000
"""Longest note, reason or vehicle text [characters]."""
COMPLAINT_WORDS = "present, absent, unknown, or provoked by WHAT"
"""What may be typed for the state of the complaint."""


def respond(state: WalkState, ask: Ask, typed: Typed) -> Result:
    """Decide what an answer to the current question means."""
    refused = _not_now(state, typed.text, typed.reason)
    return refused or _RESPONSES[ask.kind](state, ask, typed)


def skip(state: WalkState, step_id: str, reason: str) -> Result:
    """A step cannot be done."""
    if refused := _not_now(state, reason):
        return refused
    if isinstance(state.tree.steps[step_id], Conclude):
        return Refused("A conclusion cannot be skipped; go back to change what led here.")
    if not reason.strip():
        return NeedsReason("Why can this step not be done?")
    standing = state.answers.get(step_id)
    replaces = standing.seq if standing else None
    return Recorded((Skipped(step=step_id, reason=reason.strip(), replaces=replaces),))


def may_change(state: WalkState, name: str) -> Refused | None:
    """Why an answer, aside or on the path, or vehicle data cannot be changed; None when it can."""
    if refused := _not_now(state):
        return refused
    on_path = {v.step_id for v in position(state).path if v.step_id in state.answers}
    aside = {visit.step_id for visit in taken_aside(state)}
    if name in on_path | aside or name in state.tree.needs.names:
        return None
    return Refused(f"“{name}” has no answer on this path that could be changed.")


def go_back(state: WalkState, confirmed: bool = False) -> Result:
    """Withdraw the last answer; what it put on the car has to come off again first."""
    if refused := _not_now(state):
        return refused
    last = state.last_undoable()
    if last is None:
        return Refused("This is the first step; there is nothing to go back on.")
    fitted = _fitted_by(state, last.step)
    if fitted and not confirmed:
        return Confirm(f"That step fitted: {'; '.join(fitted)}. Is it taken out again?")
    return Recorded((WentBack(step=last.step, answer=last.seq),))


def _fitted_by(state: WalkState, step_id: str) -> list[str]:
    """What a step put on the car that is still there, in this car's words."""
    step = state.tree.steps[step_id]
    names = step.fits if isinstance(step, Do) else {}
    return [place_for(state, what) for name, what in names.items() if name in state.fitted]


def add_note(state: WalkState, step_id: str, text: str) -> Result:
    """A note at a step; a closed case takes notes too, for they change nothing in it."""
    if not text.strip():
        return NeedsReason("Note")
    return _too_long(text) or Recorded((NoteAdded(step=step_id, text=text.strip()),))


def attach_trace(state: WalkState, step_id: str, trace: TraceSummary) -> Result:
    """What was found in a logged trace, at a step; a closed case takes it as it takes notes."""
    if step_id not in state.tree.steps:
        return Refused(f"The tree {state.tree.id} has no step “{step_id}”.")
    return Recorded((TraceAttached(step=step_id, trace=trace),))


def change_details(state: WalkState, told: Mapping[str, str]) -> Result:
    """What is known of the car and its owner; a closed case takes it too.

    Args:
        state: the walk.
        told: fields of the intake that are told anew; the others stay as they are.
    """
    unknown = [name for name in told if name not in INTAKE_LABELS]
    if unknown:
        return Refused(f"“{unknown[0]}” is not one of {', '.join(INTAKE_LABELS)}.")
    if refused := _too_long(max(told.values(), key=len, default="")):
        return refused
    lines = {name: " ".join(text.split()) for name, text in told.items()}
    intake = state.intake.model_copy(update=lines)
    return Recorded((DetailsChanged(intake=intake),) if intake != state.intake else ())


def set_complaint(state: WalkState, complaint: Complaint, how: str = "") -> Result:
    """The complaint came, went, or was brought on."""
    if refused := _not_now(state, how):
        return refused
    if complaint is Complaint.PROVOKED and not how.strip():
        return NeedsReason("What brought it on?")
    return Recorded((ComplaintChanged(complaint=complaint, how=how.strip()),))


def count_tries(state: WalkState, step_id: str, text: str) -> Result:
    """How often the complaint showed before the repair; a later count takes its place."""
    if not text.strip():
        return NeedsReason(TRIES_QUESTION)
    return _not_now(state, text) or read_tries(step_id, text)


def read_complaint(text: str) -> tuple[Complaint, str] | Refused:
    """The state of the complaint that a person typed, and by what it was brought on."""
    word, _, how = text.strip().partition(" ")
    how = how.strip().removeprefix("by ").strip()
    try:
        complaint = Complaint(word.lower())
    except ValueError:
        return Refused(f"Type complaint and {COMPLAINT_WORDS}.")
    return complaint, how


def choose_instrument(state: WalkState, instrument: Instrument) -> Result:
    """Another instrument is used from here on."""
    return _not_now(state) or Recorded((InstrumentChosen(instrument=instrument),))


def measure_battery(state: WalkState, step_id: str, typed: Typed) -> Result:
    """A battery voltage taken at any time, under the conditions of a step."""
    return respond(state, Ask(AskKind.BATTERY, step_id, "", quantity=Quantity.VOLTAGE), typed)


def _not_now(state: WalkState, *texts: str) -> Refused | None:
    """Why nothing can be answered: the case is closed, or a text is too long."""
    if state.closed is not None:
        return Refused("This case is closed; its record stays as it is.")
    return next((refused for refused in map(_too_long, texts) if refused), None)


def _too_long(text: str) -> Refused | None:
    if len(text) <= LONGEST_TEXT:
        return None
    return Refused(
        f"That is {len(text)} characters; {LONGEST_TEXT} at most fit into one entry. Shorten it "
        "or write two notes."
    )


@by_option
def _outcome(state: WalkState, ask: Ask, typed: Typed, option: Option) -> Result:
    step = state.tree.steps[ask.step_id]
    assert isinstance(step, Observe)
    event = Observed(
        step=ask.step_id,
        replaces=replaced_by(state, ask),
        outcome=None if option.key == "0" else option.label,
        place=place_of(state, step),
        complaint=state.complaint.complaint,
    )
    return Recorded((event,))


@by_option
def _done(state: WalkState, ask: Ask, typed: Typed, option: Option) -> Result:
    assert isinstance(state.tree.steps[ask.step_id], Do)
    went_wrong = option.key == "0"
    event = ActionDone(step=ask.step_id, went_wrong=went_wrong, replaces=replaced_by(state, ask))
    return Recorded((event,))


@by_option
def _worked_out(state: WalkState, ask: Ask, typed: Typed, option: Option) -> Result:
    step = state.tree.steps[ask.step_id]
    assert isinstance(step, WorkOut)
    event = worked_out_event(state, ask.step_id, step)
    return Recorded((event.model_copy(update={"replaces": replaced_by(state, ask)}),))


def worked_out_event(state: WalkState, step_id: str, step: WorkOut) -> WorkedOut:
    """The event that accepts a worked-out value as it stands now."""
    references = references_for(state, step.names_used)
    values = reference_values(state, references)
    value: float | Literal["OL"] | None = None
    with suppress(CannotWorkOut):
        value = step.value.evaluator(step.quantity, state.tree.quantities)(values).value
        value = "OL" if math.isinf(value) else value
    complaint = state.complaint.complaint
    return WorkedOut(step=step_id, value=value, complaint=complaint, references=references)


@by_option
def _too_close(state: WalkState, ask: Ask, typed: Typed, option: Option) -> Result:
    answer = state.answers[ask.step_id].seq
    if option.key == "m":
        return Recorded((WentBack(step=ask.step_id, answer=answer),))
    if option.key == "t":
        return Recorded((OtherTestTaken(step=ask.step_id, answer=answer),))
    band = option.label.removeprefix("take it as: ")
    return Recorded(
        (BandDecided(step=ask.step_id, answer=answer, band=band, reason=typed.reason.strip()),)
    )


_RESPONSES: Mapping[AskKind, Response] = {
    AskKind.VEHICLE_TEXT: vehicle_data.text,
    AskKind.VEHICLE_VALUE: vehicle_data.value,
    AskKind.BATTERY: readings.battery,
    AskKind.READING: readings.reading,
    AskKind.OUTCOME: _outcome,
    AskKind.DONE: _done,
    AskKind.WORKED_OUT: _worked_out,
    AskKind.TOO_CLOSE: _too_close,
    AskKind.VERDICT: conclusions.verdict,
    AskKind.PROOF: conclusions.proof,
    AskKind.REPAIR: conclusions.repair,
    AskKind.CYCLE: conclusions.cycle,
    AskKind.CLOSE: conclusions.close,
}
