"""The body of a report: every step in order, what it cleared, and what was changed since."""

from collections.abc import Iterator, Mapping

from faulttree.core.figures import show
from faulttree.core.tree import Conclude, Engine, Measure, Speaks, Step, WorkOut
from faulttree.core.units import Quantity, display_units
from faulttree.core.walk.aside import taken_aside
from faulttree.core.walk.car_words import text_for
from faulttree.core.walk.events import (
    Answer,
    BandDecided,
    Complaint,
    ComplaintChanged,
    NoteAdded,
    OtherTestTaken,
    Place,
    ReadingTaken,
    TriesCounted,
)
from faulttree.core.walk.path import Position, Visit
from faulttree.core.walk.record import RecordLine, Standing, record
from faulttree.core.walk.state import WalkState
from faulttree.render import answers
from faulttree.render.judged_by import figures_from, gone_by
from faulttree.render.markdown_text import words
from faulttree.render.report_aside import why_aside
from faulttree.render.report_facts import asked, instrument_words, reading_and_band, time_of

_KEYS = {"start": "held in start"}


def steps(state: WalkState, at: Position) -> Iterator[str]:
    """Every step, with its reading, its meaning, the leads and the conditions."""
    yield "## Step by step"
    yield ""
    instruments = instrument_words(state)
    visits = [*at.path, *([at.pending] if at.pending else [])]
    for number, visit in enumerate(visits, 1):
        marker = f"{number}. "
        yield marker + _step_line(state, visit)
        for detail in _details(state, visit, instruments):
            yield f"{' ' * len(marker)}- {detail}"
    if not visits:
        yield "Nothing yet."
    yield ""


def aside(state: WalkState, at: Position) -> Iterator[str]:
    """Tests that were taken on advice and that the tree has not come to."""
    on_path = {visit.answer.seq for visit in at.path}
    visits = [visit for visit in taken_aside(state) if visit.answer.seq not in on_path]
    if not visits:
        return
    yield "## Tests taken aside from the tree"
    yield ""
    instruments = instrument_words(state)
    for visit in visits:
        yield f"- {_step_line(state, visit)}"
        for detail in _details(state, visit, instruments):
            yield f"  - {detail}"
    yield ""


def _step_line(state: WalkState, visit: Visit) -> str:
    head = asked(words(answers.title(state, visit.step_id)), "**")
    if isinstance(visit.step, Conclude):
        return f"{head} suspected; the proof did not hold"
    speaks = f" ({visit.speaks})" if visit.speaks else ""
    return f"{head} {reading_and_band(state, visit)}{speaks}"


def _details(state: WalkState, visit: Visit, instruments: Mapping[str, str]) -> Iterator[str]:
    answer = visit.answer
    if isinstance(visit.step, Conclude):
        yield from _proof_tried(state, visit.step_id, visit.step)
        return
    meaning = answers.meaning(state, visit)
    if meaning:
        yield words(meaning)
    place = getattr(answer, "place", None)
    if isinstance(place, Place):
        yield from _leads(place)
    yield words("; ".join(_conditions(state, visit, instruments)))
    yield from _judged_by(state, visit.step)
    if isinstance(answer, Answer) and answer.aside is not None:
        yield why_aside(state, answer.aside)
    if answers.warning(visit):
        yield f"**{words(answers.warning(visit))}**"
    if isinstance(answer, ReadingTaken) and answer.kept_though_implausible:
        yield "**outside what this point can show; kept by the technician**"
    decision = state.decisions.get(answer.seq)
    if isinstance(decision, BandDecided):
        why = f", because {words(decision.reason)}" if decision.reason else ""
        yield f"too close to call; the technician took it as “{words(decision.band)}”{why}"
    elif isinstance(decision, OtherTestTaken):
        yield "too close to call; settled by the other test"


def _judged_by(state: WalkState, step: Step) -> Iterator[str]:
    """Refrigerant, air outside and published figures, where a step goes by them."""
    if isinstance(step, Measure | WorkOut):
        sources = (f"usual figures from {source}" for source in figures_from(state, step))
        if by := "; ".join((*gone_by(state, step), *sources)):
            yield words(f"judged by {by}")


def _proof_tried(state: WalkState, step_id: str, step: Conclude) -> Iterator[str]:
    proof = state.proofs[step_id]
    yield time_of(state, proof)
    if step.prove:
        yield f"Tried: {words(text_for(state, step.prove.how))}"
    if proof.reason:
        yield words(proof.reason)


def _leads(place: Place) -> Iterator[str]:
    leads = (("Red lead", place.red_lead), ("Black lead", place.black_lead), ("At", place.spot))
    for label, text in leads:
        if text:
            yield f"{label}: {words(text)}"


def _conditions(state: WalkState, visit: Visit, instruments: Mapping[str, str]) -> Iterator[str]:
    """Time, instrument, state of the car, of the complaint and of the battery."""
    answer = visit.answer
    yield time_of(state, answer)
    place = getattr(answer, "place", None)
    if isinstance(place, Place):
        yield from _set_up(place, instruments)
    if isinstance(visit.step, WorkOut):
        yield f"worked out as {visit.step.value.text}"
    complaint = getattr(answer, "complaint", None)
    if complaint is not None:
        yield f"complaint {_complaint_words(state, answer.seq, Complaint(complaint))}"
    if isinstance(answer, ReadingTaken):
        yield from _as_typed(state, answer)
        yield from _battery(state, answer)


def _set_up(place: Place, instruments: Mapping[str, str]) -> Iterator[str]:
    if place.instrument and place.instrument in instruments:
        yield instruments[place.instrument]
    if place.key:
        yield f"key {_KEYS.get(place.key, place.key)}"
    if place.engine:
        yield f"engine {Engine(place.engine).words}"
    yield from (text for text in (place.load, place.connector, place.other) if text)


def _as_typed(state: WalkState, answer: ReadingTaken) -> Iterator[str]:
    """What was typed, where it is shown in another unit."""
    shown = {unit.symbol for unit in display_units(answer.quantity, state.units)}
    if answer.value != "OL" and answer.unit and answer.unit not in shown:
        yield f"typed as {answer.text.strip()}"


def _complaint_words(state: WalkState, seq: int, complaint: Complaint) -> str:
    if complaint is not Complaint.PROVOKED:
        return complaint.value
    changes = (e for e in state.events if isinstance(e, ComplaintChanged) and e.seq < seq)
    how = [e.how for e in changes if e.complaint is Complaint.PROVOKED]
    return f"provoked by {how[-1]}" if how else complaint.value


def _battery(state: WalkState, answer: ReadingTaken) -> Iterator[str]:
    if answer.battery is None:
        return
    age = answer.battery.age_s
    if age is None:
        when = "age unknown (clock set back)"
    else:
        when = "just before" if age < 60 else f"{age / 60:.0f} min before"
    yield f"battery {show(answer.battery.value, Quantity.VOLTAGE, state.units)}, {when}"


def ruled_out(state: WalkState, at: Position) -> Iterator[str]:
    """What the good readings cleared, by step."""
    good = [(n, visit) for n, visit in enumerate(at.path, 1) if visit.speaks is Speaks.GOOD]
    if not good:
        return
    yield "## What was ruled out"
    yield ""
    groups = (
        ("In order, as far as each step reaches", False),
        ("In order, but **not ruled out for a fault that comes and goes**", True),
    )
    for label, is_doubtful in groups:
        listed = [
            f"step {number}, {words(answers.title(state, visit.step_id))}"
            for number, visit in good
            if visit.clears_nothing_intermittent is is_doubtful
        ]
        if listed:
            yield f"- {label}: {'; '.join(listed)}"
    yield ""


def behaviour(state: WalkState) -> Iterator[str]:
    """The weather, how the complaint came and went, and the technician's notes."""
    weather = state.intake.weather
    wanted = NoteAdded | ComplaintChanged | TriesCounted
    events = [e for e in state.events if isinstance(e, wanted)]
    if not events and not weather:
        return
    yield "## How the complaint behaved, and notes"
    yield ""
    if weather:
        yield f"- Weather and temperature: {words(weather)}"
    for event in events:
        yield f"- {time_of(state, event)}: {_behaved(state, event)}"
    yield ""


def _behaved(state: WalkState, event: NoteAdded | ComplaintChanged | TriesCounted) -> str:
    if isinstance(event, NoteAdded):
        return words(event.text)
    if isinstance(event, ComplaintChanged):
        how = f" by {words(event.how)}" if event.how else ""
        return f"complaint {event.complaint}{how}"
    if not event.tries:
        return "the count of tries taken back"
    anew = "" if event == state.tries else " (counted anew later)"
    return f"it showed in {event.seen} of {event.tries} tries{anew}"


def changed(state: WalkState) -> Iterator[str]:
    """Answers that no longer count; nothing that was ever answered is left out of a report."""
    lines = [
        line
        for line in record(state)
        if line.visit is not None
        and line.standing is not Standing.IN_FORCE
        and not _is_told_aside(line)
    ]
    if not lines:
        return
    yield "## Answers changed, withdrawn or set aside"
    yield ""
    for line in lines:
        yield f"- {_changed_line(state, line)}"
    yield ""


def _is_told_aside(line: RecordLine) -> bool:
    """True for a test taken aside, which has a section of its own."""
    is_aside = isinstance(line.event, Answer) and line.event.aside is not None
    return is_aside and line.standing is Standing.ASIDE


def _changed_line(state: WalkState, line: RecordLine) -> str:
    assert line.visit is not None
    title = asked(words(answers.title(state, line.visit.step_id)))
    reading = words(answers.reading_text(state, line.visit))
    return f"{time_of(state, line.event)}, {title} {reading}, {line.standing}"
