"""What was typed, turned into events: decide here, fold later.

Nothing here changes a state. Every function returns what should be recorded, or why not yet.
Sequence number and time are put in by whoever records.
"""

import math
from collections.abc import Callable, Mapping
from contextlib import suppress
from dataclasses import dataclass
from typing import Literal

from faulttree.core.figures import show
from faulttree.core.instruments import Instrument
from faulttree.core.reading import Entry, ReadingRefused, parse_reading
from faulttree.core.tree import (
    BATTERY_VOLTAGE,
    Conclude,
    Do,
    Measure,
    Observe,
    WorkOut,
    expressions,
)
from faulttree.core.uncertain import CannotWorkOut, Uncertain
from faulttree.core.units import Quantity, UnitSystem
from faulttree.core.walk.asks import Ask, AskKind, Option, age_s, still_fitted, text_for
from faulttree.core.walk.events import (
    ActionDone,
    BandDecided,
    BatteryAge,
    Closed,
    Complaint,
    ComplaintChanged,
    Concluded,
    CycleRun,
    Event,
    InstrumentChosen,
    NoteAdded,
    Observed,
    OtherTestTaken,
    Place,
    ProofGiven,
    ReadingTaken,
    RepairChosen,
    Skipped,
    VehicleDataGiven,
    WentBack,
    WorkedOut,
)
from faulttree.core.walk.judge import (
    is_plausible,
    reference_values,
    references_for,
    value_of,
)
from faulttree.core.walk.path import missing_evidence, position, uncleared
from faulttree.core.walk.state import WalkState

LONGEST_TEXT = 2000
"""Longest note, reason or vehicle text [characters]."""
COMPLAINT_WORDS = "present, absent, unknown, or provoked by WHAT"
"""What may be typed for the state of the complaint."""
BATTERY_PLAUSIBLE_V = (4.0, 17.0)
"""What a 12 V battery can show between its posts [V]. Source: common practice."""


@dataclass(frozen=True, slots=True)
class Recorded:
    """Accepted: these events are to be recorded, in this order."""

    events: tuple[Event, ...]


@dataclass(frozen=True, slots=True)
class Confirm:
    """Possible but unlikely: ask once, then answer again with `confirmed`."""

    question: str


@dataclass(frozen=True, slots=True)
class NeedsReason:
    """Accepted once it is said why."""

    question: str


@dataclass(frozen=True, slots=True)
class Refused:
    """Not an answer; the sentence says what to do."""

    message: str


Result = Recorded | Confirm | NeedsReason | Refused


@dataclass(frozen=True, slots=True)
class Typed:
    """What a person answered.

    Attributes:
        text: the answer itself.
        now: the time of it.
        confirmed: the question asked once was answered with yes.
        reason: why, where that is wanted.
    """

    text: str
    now: str
    confirmed: bool = False
    reason: str = ""


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
    """Why an answer or vehicle data cannot be changed; None when it can."""
    if refused := _not_now(state):
        return refused
    on_path = {v.step_id for v in position(state).path if v.step_id in state.answers}
    if name in on_path or name in state.tree.needs.names:
        return None
    return Refused(f"“{name}” has no answer on this path that could be changed.")


def go_back(state: WalkState) -> Result:
    """Withdraw the last answer."""
    if refused := _not_now(state):
        return refused
    last = state.last_undoable()
    if last is None:
        return Refused("This is the first step; there is nothing to go back on.")
    return Recorded((WentBack(step=last.step, answer=last.seq),))


def add_note(state: WalkState, step_id: str, text: str) -> Result:
    """A note at a step; a closed case takes notes too, for they change nothing in it."""
    if not text.strip():
        return NeedsReason("Note")
    return _too_long(text) or Recorded((NoteAdded(step=step_id, text=text.strip()),))


def set_complaint(state: WalkState, complaint: Complaint, how: str = "") -> Result:
    """The complaint came, went, or was brought on."""
    if refused := _not_now(state, how):
        return refused
    if complaint is Complaint.PROVOKED and not how.strip():
        return NeedsReason("What brought it on?")
    return Recorded((ComplaintChanged(complaint=complaint, how=how.strip()),))


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


def choose(ask: Ask, text: str) -> Option | None:
    """The option a text names: its key, its label, or a beginning that fits only one label."""
    wanted = text.strip().lower()
    for option in ask.options:
        if wanted in (option.key.lower(), option.label.lower()):
            return option
    begun = [o for o in ask.options if wanted and o.label.lower().startswith(wanted)]
    return begun[0] if len(begun) == 1 else None


def _parse(ask: Ask, typed: Typed, units: UnitSystem) -> Entry | Refused:
    assert ask.quantity is not None
    try:
        return parse_reading(typed.text, ask.quantity, units)
    except ReadingRefused as refused:
        return Refused(str(refused))


def _reading(state: WalkState, ask: Ask, typed: Typed) -> Result:
    step = state.tree.steps[ask.step_id]
    assert isinstance(step, Measure)
    entry = _parse(ask, typed, state.units)
    if isinstance(entry, Refused):
        return entry
    names = set().union(*(e.names for e in expressions(step))) - {ask.step_id}
    references = references_for(state, names)
    values = reference_values(state, references)
    plausible = is_plausible(state, step, entry.value, values)
    if not plausible and not typed.confirmed:
        return Confirm(_implausible_question(state, step, entry, values))
    event = ReadingTaken(
        **_reading_fields(state, entry, typed.now),
        step=ask.step_id,
        replaces=_replaced(state, ask),
        place=_place(state, step),
        references=references,
        kept_though_implausible=not plausible,
    )
    return Recorded((event,))


def _battery(state: WalkState, ask: Ask, typed: Typed) -> Result:
    entry = _parse(ask, typed, state.units)
    if isinstance(entry, Refused):
        return entry
    low, high = BATTERY_PLAUSIBLE_V
    if not low <= entry.value < high and not typed.confirmed:
        return Confirm(_slip_question(entry, low, high, state.units))
    step = state.tree.steps[ask.step_id]
    conditions = _place(state, step) if isinstance(step, Measure | Observe) else Place()
    posts = {"red_lead": "battery positive post", "black_lead": "battery negative post"}
    event = ReadingTaken(
        **_reading_fields(state, entry, typed.now),
        slot="battery-voltage",
        step=ask.step_id,
        place=conditions.model_copy(update={**posts, "spot": None, "connector": None}),
    )
    return Recorded((event,))


def _reading_fields(state: WalkState, entry: Entry, now: str) -> dict[str, object]:
    return {
        "text": entry.text,
        "quantity": entry.quantity,
        "value": "OL" if math.isinf(entry.value) else entry.value,
        "digit": entry.step,
        "unit": entry.unit,
        "complaint": state.complaint.complaint,
        "battery": _battery_now(state, now),
    }


def _battery_now(state: WalkState, now: str) -> BatteryAge | None:
    seq = state.latest.get(BATTERY_VOLTAGE)
    if seq is None:
        return None
    event = state.readings[seq][0]
    try:
        volts = value_of(state, seq).value
    except CannotWorkOut:
        return None
    return BatteryAge(seq=seq, value=volts, age_s=age_s(event.at, now))


def _place(state: WalkState, step: Measure | Observe) -> Place:
    instrument = state.instruments.get(step.with_) if step.with_ else None
    set_up = step.set_up
    return Place(
        instrument=instrument.id if instrument else None,
        red_lead=text_for(state, step.red_lead) or None,
        black_lead=text_for(state, step.black_lead) or None,
        spot=text_for(state, step.at) or None,
        key=set_up.key,
        engine=set_up.engine.value,
        load=text_for(state, set_up.load) or None,
        connector=text_for(state, set_up.connector) or None,
        other=text_for(state, set_up.other) or None,
    )


def _implausible_question(
    state: WalkState, step: Measure, entry: Entry, values: Mapping[str, Uncertain]
) -> str:
    window = (step.plausible.from_, step.plausible.below)
    low, high = (e.evaluator(step.quantity, state.tree.quantities)(values).value for e in window)
    return _slip_question(entry, low, high, state.units)


def _slip_question(entry: Entry, low: float, high: float, units: UnitSystem) -> str:
    digit = entry.step or None
    read = show(entry.value, entry.quantity, units, digit)
    window = f"{show(low, entry.quantity, units)} to {show(high, entry.quantity, units)}"
    slipped = _without_slip(entry, low, high)
    meant = f" Did you mean {show(slipped, entry.quantity, units)}?" if slipped is not None else ""
    return f"{read} is outside what this point can show ({window}).{meant} Keep {read}?"


def _without_slip(entry: Entry, low: float, high: float) -> float | None:
    """The value with its point moved, where that makes it plausible."""
    if entry.quantity is Quantity.TEMPERATURE:
        return None
    for factor in (0.1, 10.0, 0.01, 0.001, 1000.0):
        if low <= entry.value * factor < high and entry.value:
            return entry.value * factor
    return None


def _replaced(state: WalkState, ask: Ask) -> int | None:
    """The answer in force that this one takes the place of."""
    if ask.replaces is not None:
        return ask.replaces
    standing = state.answers.get(ask.step_id)
    return standing.seq if standing else None


def _pick(ask: Ask, typed: Typed) -> Option | Refused:
    option = choose(ask, typed.text)
    if option is not None:
        return option
    keys = ", ".join(o.key for o in ask.options)
    return Refused(f"“{typed.text.strip()}” is not one of the answers; type one of {keys}.")


def _outcome(state: WalkState, ask: Ask, typed: Typed) -> Result:
    option = _pick(ask, typed)
    if isinstance(option, Refused):
        return option
    step = state.tree.steps[ask.step_id]
    assert isinstance(step, Observe)
    event = Observed(
        step=ask.step_id,
        replaces=_replaced(state, ask),
        outcome=None if option.key == "0" else option.label,
        place=_place(state, step),
        complaint=state.complaint.complaint,
    )
    return Recorded((event,))


def _done(state: WalkState, ask: Ask, typed: Typed) -> Result:
    option = _pick(ask, typed)
    if isinstance(option, Refused):
        return option
    assert isinstance(state.tree.steps[ask.step_id], Do)
    went_wrong = option.key == "0"
    event = ActionDone(step=ask.step_id, went_wrong=went_wrong, replaces=_replaced(state, ask))
    return Recorded((event,))


def _worked_out(state: WalkState, ask: Ask, typed: Typed) -> Result:
    option = _pick(ask, typed)
    if isinstance(option, Refused):
        return option
    step = state.tree.steps[ask.step_id]
    assert isinstance(step, WorkOut)
    event = worked_out_event(state, ask.step_id, step)
    return Recorded((event.model_copy(update={"replaces": _replaced(state, ask)}),))


def worked_out_event(state: WalkState, step_id: str, step: WorkOut) -> WorkedOut:
    """The event that accepts a worked-out value as it stands now."""
    names = set().union(*(e.names for e in expressions(step)))
    references = references_for(state, names)
    values = reference_values(state, references)
    value: float | Literal["OL"] | None = None
    with suppress(CannotWorkOut):
        value = step.value.evaluator(step.quantity, state.tree.quantities)(values).value
        value = "OL" if math.isinf(value) else value
    complaint = state.complaint.complaint
    return WorkedOut(step=step_id, value=value, complaint=complaint, references=references)


def _vehicle_text(state: WalkState, ask: Ask, typed: Typed) -> Result:
    text = typed.text.strip() or None
    return Recorded((VehicleDataGiven(name=ask.name, text=text),))


def _vehicle_value(state: WalkState, ask: Ask, typed: Typed) -> Result:
    if not typed.text.strip():
        return Recorded((VehicleDataGiven(name=ask.name, text=None),))
    entry = _parse(ask, typed, state.units)
    if isinstance(entry, Refused):
        return entry
    if math.isinf(entry.value):
        return Refused("A specified value is a number; leave the line empty if it is not known.")
    return Recorded((VehicleDataGiven(name=ask.name, text=entry.text, value=entry.value),))


def _too_close(state: WalkState, ask: Ask, typed: Typed) -> Result:
    option = _pick(ask, typed)
    if isinstance(option, Refused):
        return option
    answer = state.answers[ask.step_id].seq
    if option.key == "m":
        return Recorded((WentBack(step=ask.step_id, answer=answer),))
    if option.key == "t":
        return Recorded((OtherTestTaken(step=ask.step_id, answer=answer),))
    band = option.label.removeprefix("take it as: ")
    return Recorded(
        (BandDecided(step=ask.step_id, answer=answer, band=band, reason=typed.reason.strip()),)
    )


def _verdict(state: WalkState, ask: Ask, typed: Typed) -> Result:
    option = _pick(ask, typed)
    if isinstance(option, Refused):
        return option
    at = position(state)
    flagged, missing = uncleared(at.path), missing_evidence(state, at)
    step = state.tree.steps[at.step_id]
    assert isinstance(step, Conclude)
    if (flagged or missing) and step.result == "fault" and not typed.confirmed:
        return Confirm(_unearned_question(state, [v.step_id for v in flagged], missing))
    event = Concluded(
        step=at.step_id, uncleared=tuple(v.answer.seq for v in flagged), missing=missing
    )
    return Recorded((event,))


def _unearned_question(state: WalkState, flagged: list[str], missing: tuple[str, ...]) -> str:
    titles = {s: text_for(state, state.tree.steps[s].title) for s in (*flagged, *missing)}
    parts = []
    if flagged:
        listed = "; ".join(titles[s] for s in flagged)
        parts.append(
            f"Taken while the complaint did not show, so they clear nothing that comes and goes: "
            f"{listed}."
        )
    if missing:
        parts.append(f"Not measured on this path: {'; '.join(titles[s] for s in missing)}.")
    return " ".join(parts) + " Accept the conclusion all the same? The record will say so."


def _proof(state: WalkState, ask: Ask, typed: Typed) -> Result:
    option = _pick(ask, typed)
    if isinstance(option, Refused):
        return option
    if option.key == "3" and not typed.reason.strip():
        return NeedsReason("Why was the proof not done?")
    result = {"1": "held", "2": "failed", "3": "not-done"}[option.key]
    reason = typed.reason.strip()
    event = ProofGiven.model_validate(
        {"event": "proof-result", "step": ask.step_id, "result": result, "reason": reason}
    )
    return Recorded((event,))


def _repair(state: WalkState, ask: Ask, typed: Typed) -> Result:
    option = _pick(ask, typed)
    if isinstance(option, Refused):
        return option
    repair = None if option.key == "0" else option.label
    note = typed.reason.strip()
    return Recorded((RepairChosen(step=ask.step_id, repair=repair, note=note),))


def _cycle(state: WalkState, ask: Ask, typed: Typed) -> Result:
    option = _pick(ask, typed)
    if isinstance(option, Refused):
        return option
    if option.key == "3":
        reason = "the complaint came back during the proving run"
        return Recorded((ProofGiven(step=ask.step_id, result="failed", reason=reason),))
    if option.key == "4":
        note = "closed before the proving run was complete"
        return _left_fitted(state, typed) or Recorded((Closed(note=note),))
    return Recorded(
        (CycleRun(step=ask.step_id, clean=option.key == "1", note=typed.reason.strip()),)
    )


def _close(state: WalkState, ask: Ask, typed: Typed) -> Result:
    option = _pick(ask, typed)
    if isinstance(option, Refused):
        return option
    return _left_fitted(state, typed) or Recorded((Closed(note=typed.reason.strip()),))


def _left_fitted(state: WalkState, typed: Typed) -> Confirm | None:
    """Asks once whether a case is closed with something of the walk still on the car."""
    if typed.confirmed or not state.fitted:
        return None
    listed = "; ".join(still_fitted(state))
    return Confirm(f"Still fitted on this car: {listed}. Close the case with it in place?")


_RESPONSES: Mapping[AskKind, Callable[[WalkState, Ask, Typed], Result]] = {
    AskKind.VEHICLE_TEXT: _vehicle_text,
    AskKind.VEHICLE_VALUE: _vehicle_value,
    AskKind.BATTERY: _battery,
    AskKind.READING: _reading,
    AskKind.OUTCOME: _outcome,
    AskKind.DONE: _done,
    AskKind.WORKED_OUT: _worked_out,
    AskKind.TOO_CLOSE: _too_close,
    AskKind.VERDICT: _verdict,
    AskKind.PROOF: _proof,
    AskKind.REPAIR: _repair,
    AskKind.CYCLE: _cycle,
    AskKind.CLOSE: _close,
}
