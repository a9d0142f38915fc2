"""The report of a case in Markdown, for the customer and for the next technician."""

from collections.abc import Iterator
from datetime import datetime

from faulttree.core.figures import show
from faulttree.core.instruments import Instrument
from faulttree.core.proving import largest_rate
from faulttree.core.tree import Conclude, Speaks, Step
from faulttree.core.units import Quantity
from faulttree.core.walk.asks import still_fitted, text_for
from faulttree.core.walk.events import (
    BandDecided,
    Complaint,
    ComplaintChanged,
    NoteAdded,
    OtherTestTaken,
    Place,
    ReadingTaken,
    Skipped,
    VehicleDataGiven,
)
from faulttree.core.walk.path import Position, Stage, Visit, clean_cycles, position
from faulttree.core.walk.record import RecordLine, Standing, record
from faulttree.core.walk.state import WalkState
from faulttree.render import answers
from faulttree.render.markdown_text import words
from faulttree.render.step import caution_texts


def report_markdown(state: WalkState, case_id: str, found: tuple[str, ...] = ()) -> str:
    """The whole report.

    Args:
        state: the walk as it stands.
        case_id: how the case is called.
        found: what was found in the case's files, if anything.
    """
    at = position(state)
    sections = (
        _head(state, case_id, at, found),
        _car(state),
        _result(state, at),
        _steps(state, at),
        _ruled_out(state, at),
        _not_tested(state, at),
        _changed(state),
        _notes(state),
        _cautions(state, at),
        _basis(state),
    )
    return "\n".join(line for section in sections for line in section) + "\n"


def _head(state: WalkState, case_id: str, at: Position, found: tuple[str, ...]) -> Iterator[str]:
    yield f"# {words(state.tree.title)}"
    yield ""
    started = state.started
    who = started.intake.technician if started else ""
    facts = [f"Case {words(case_id)}", f"begun {_time(state.events[0].at)}"]
    facts.append(f"last entry {_time(state.events[-1].at)}")
    if who:
        facts.append(f"technician {words(who)}")
    yield ", ".join(facts) + ". " + _status(state, at)
    yield ""
    for each in found:
        yield f"> {words(each)}"
        yield ""


def _status(state: WalkState, at: Position) -> str:
    if at.stage is Stage.CLOSED:
        note = state.closed.note if state.closed else ""
        return f"**Closed**{': ' + words(note) if note else ''}."
    return f"**Open**: it stands at “{words(answers.title(state, at.step_id))}” ({at.stage})."


def _car(state: WalkState) -> Iterator[str]:
    intake = state.started.intake if state.started else None
    yield "## Complaint and car"
    yield ""
    if intake:
        rows = (
            ("Complaint, in the customer's words", intake.words),
            ("Car", intake.car or (state.started.vehicle_name if state.started else "")),
            ("Registration or VIN", intake.registration),
            ("Odometer", intake.odometer),
            ("Customer", intake.customer),
            ("Weather and temperature", intake.weather),
        )
        for label, text in rows:
            if text:
                yield f"- {label}: {words(text)}"
    for event in state.events:
        if isinstance(event, VehicleDataGiven):
            told = words(event.text) if event.text else "not known"
            yield f"- {words(_data_label(state, event.name))}: {told} (told during the work)"
    yield ""


def _data_label(state: WalkState, name: str) -> str:
    needs = state.tree.needs
    if name in needs.points:
        return needs.points[name]
    if name in needs.values:
        return needs.values[name].ask
    return needs.facts[name].ask if name in needs.facts else name


def _result(state: WalkState, at: Position) -> Iterator[str]:
    yield "## Result"
    yield ""
    step = state.tree.steps[at.step_id]
    if not isinstance(step, Conclude) or at.step_id not in state.concluded:
        yield "No conclusion yet."
        yield ""
        yield from _fitted(state)
        yield ""
        return
    yield f"**{answers.result_word(step)}: {words(text_for(state, step.title))}.** " + words(
        text_for(state, step.finding)
    )
    yield ""
    if step.part:
        yield f"- Part: {words(text_for(state, step.part))}"
    yield from _proof(state, at.step_id, step)
    yield from _repair(state, at.step_id, step)
    yield from _proving_run(state, at.step_id, step)
    if step.cause:
        yield f"- Cause to be looked for behind it: {words(text_for(state, step.cause))}"
    if step.next:
        yield f"- Next: {words(text_for(state, step.next))}"
    yield from _fitted(state)
    yield from _doubts(state, at)
    yield ""


def _fitted(state: WalkState) -> Iterator[str]:
    for what in still_fitted(state):
        yield f"- **Still fitted on the car:** {words(what)}"


def _proof(state: WalkState, step_id: str, step: Conclude) -> Iterator[str]:
    proof = state.proofs.get(step_id)
    if step.prove is None:
        return
    if proof is None:
        yield "- Proof: not done yet"
    elif proof.result == "held":
        yield (
            f"- Proof: held. {words(text_for(state, step.prove.how))} "
            f"{words(text_for(state, step.prove.holds))}"
        )
    else:
        yield f"- Proof: **not done**, because {words(proof.reason)}"


def _repair(state: WalkState, step_id: str, step: Conclude) -> Iterator[str]:
    chosen = state.repairs.get(step_id)
    if chosen is None:
        return
    repair = next((r for r in step.repairs if r.name == chosen.repair), None)
    if repair is None:
        yield "- Repair: none made"
        return
    note = f" ({words(chosen.note)})" if chosen.note else ""
    yield f"- Repair: {words(repair.name)}{note}. {words(text_for(state, repair.gives))}"
    yield f"- Limits of this repair: {words(text_for(state, repair.limits))}"


def _proving_run(state: WalkState, step_id: str, step: Conclude) -> Iterator[str]:
    cycles = state.cycles.get(step_id, ())
    if step.verify is None or step_id not in state.repairs:
        return
    clean = clean_cycles(state, step_id)
    how = words(text_for(state, step.verify.how))
    if not cycles:
        yield f"- Proving run: **not done**. What was to be done: {how}"
        return
    came_back = sum(not c.clean for c in cycles)
    line = f"- Proving run: {clean} clean cycles in a row of {step.verify.cycles} wanted"
    if came_back:
        line += f"; before that the complaint came back {came_back} time(s)"
    yield f"{line}. {how}"
    if clean:
        rate = f"{100 * largest_rate(clean):.0f} %"
        yield (
            f"- What that proves: with 95 % confidence the complaint returns in fewer than {rate} "
            "of such cycles. It does not prove more than that."
        )


def _doubts(state: WalkState, at: Position) -> Iterator[str]:
    concluded = state.concluded[at.step_id]
    titles = {v.answer.seq: v.step_id for v in at.path}
    for seq in concluded.uncleared:
        if seq in titles:
            yield (
                f"- Not proved for a fault that comes and goes: “"
                f"{words(answers.title(state, titles[seq]))}” was good while the complaint did "
                "not show itself"
            )
    for name in concluded.missing:
        yield f"- Not measured: “{words(answers.title(state, name))}”"


def _steps(state: WalkState, at: Position) -> Iterator[str]:
    yield "## What was measured and done"
    yield ""
    visits = [*at.path, *([at.pending] if at.pending else [])]
    for number, visit in enumerate(visits, 1):
        head = f"{number}. **{words(answers.title(state, visit.step_id))}**"
        yield f"{head}: {words(answers.reading_text(state, visit))} ({_band_words(visit)})"
        meaning = answers.meaning(state, visit)
        if meaning:
            yield f"   - {words(meaning)}"
        for detail in _details(state, visit):
            yield f"   - {detail}"
    if not visits:
        yield "Nothing yet."
    yield ""


def _band_words(visit: Visit) -> str:
    if visit.speaks is None:
        return words(visit.label)
    return f"{words(visit.label)}: {visit.speaks}"


def _details(state: WalkState, visit: Visit) -> Iterator[str]:
    answer = visit.answer
    place = getattr(answer, "place", None)
    where = _where(state, place) if isinstance(place, Place) else ""
    complaint = getattr(answer, "complaint", None)
    facts = [_time(answer.at), where]
    if complaint is not None:
        facts.append(f"complaint {_complaint_words(state, answer.seq, Complaint(complaint))}")
    if isinstance(answer, ReadingTaken) and answer.battery:
        facts.append(_battery(state, answer))
    yield words("; ".join(f for f in facts if f))
    if answers.warning(visit):
        yield f"**{words(answers.warning(visit))}**"
    if isinstance(answer, ReadingTaken) and answer.kept_though_implausible:
        yield "**outside what this point can show; kept by the technician**"
    decision = state.decisions.get(answer.seq)
    if isinstance(decision, BandDecided):
        yield f"too close to call; the technician took it as “{words(decision.band)}”"
    elif isinstance(decision, OtherTestTaken):
        yield "too close to call; settled by the other test"


def _where(state: WalkState, place: Place) -> str:
    leads = ""
    if place.red_lead and place.black_lead:
        leads = f"red lead on {place.red_lead}, black lead on {place.black_lead}"
    elif place.spot:
        leads = f"at {place.spot}"
    instrument = next((i for i in _instruments_used(state) if i.id == place.instrument), None)
    parts = [
        leads,
        f"with {instrument.name}" if instrument else "",
        f"key {place.key}" if place.key else "",
        f"engine {place.engine}" if place.engine else "",
        place.load or "",
        place.connector or "",
        place.other or "",
    ]
    return "; ".join(p for p in parts if p)


def _complaint_words(state: WalkState, seq: int, complaint: Complaint) -> str:
    if complaint is not Complaint.PROVOKED:
        return complaint.value
    changes = (e for e in state.events if isinstance(e, ComplaintChanged) and e.seq < seq)
    how = [e.how for e in changes if e.complaint is Complaint.PROVOKED]
    return f"provoked by {how[-1]}" if how else complaint.value


def _battery(state: WalkState, answer: ReadingTaken) -> str:
    assert answer.battery is not None
    volts = show(answer.battery.value, Quantity.VOLTAGE, state.units)
    age = answer.battery.age_s
    if age is None:
        return f"battery {volts}, age unknown (clock set back)"
    return f"battery {volts}, {age / 60:.0f} min before"


def _ruled_out(state: WalkState, at: Position) -> Iterator[str]:
    good = [v for v in at.path if v.speaks is Speaks.GOOD]
    if not good:
        return
    yield "## What was ruled out, and how"
    yield ""
    for visit in good:
        doubt = " **Not for a fault that comes and goes.**" if answers.warning(visit) else ""
        reading = words(answers.reading_text(state, visit))
        yield (
            f"- {words(answers.meaning(state, visit))} "
            f"({words(answers.title(state, visit.step_id))}: {reading}){doubt}"
        )
    yield ""


def _not_tested(state: WalkState, at: Position) -> Iterator[str]:
    skipped = [v for v in at.path if isinstance(v.answer, Skipped)]
    if not skipped:
        return
    yield "## Not tested, and why"
    yield ""
    for visit in skipped:
        assert isinstance(visit.answer, Skipped)
        title = words(answers.title(state, visit.step_id))
        yield f"- {title}: {words(visit.answer.reason)}"
    yield ""


def _changed(state: WalkState) -> Iterator[str]:
    lines = [
        line
        for line in record(state)
        if line.visit is not None and line.standing is not Standing.IN_FORCE
    ]
    if not lines:
        return
    yield "## Answers changed, withdrawn or set aside"
    yield ""
    for line in lines:
        yield f"- {_changed_line(state, line)}"
    yield ""


def _changed_line(state: WalkState, line: RecordLine) -> str:
    assert line.visit is not None
    title = words(answers.title(state, line.visit.step_id))
    reading = words(answers.reading_text(state, line.visit))
    return f"{_time(line.event.at)}: {title}: {reading}, {line.standing}"


def _notes(state: WalkState) -> Iterator[str]:
    notes = [e for e in state.events if isinstance(e, NoteAdded | ComplaintChanged)]
    if not notes:
        return
    yield "## Notes and how the complaint behaved"
    yield ""
    for event in notes:
        if isinstance(event, NoteAdded):
            yield f"- {_time(event.at)}: {words(event.text)}"
        else:
            how = f" by {words(event.how)}" if event.how else ""
            yield f"- {_time(event.at)}: complaint {event.complaint}{how}"
    yield ""


def _cautions(state: WalkState, at: Position) -> Iterator[str]:
    steps: list[Step] = [visit.step for visit in at.path]
    ids = [*state.tree.cautions, *(c for step in steps for c in step.cautions)]
    texts = caution_texts(state, ids)
    if not texts:
        return
    yield "## Cautions that applied"
    yield ""
    for text in texts:
        yield f"- {words(text)}"
    yield ""


def _basis(state: WalkState) -> Iterator[str]:
    yield "## Basis of this record"
    yield ""
    started = state.started
    if started is None:
        return
    yield (
        f"- Tree: {words(started.tree_id)}, version {started.tree_version}, SHA-256 "
        f"{started.tree_hash}"
    )
    if started.vehicle_id:
        yield (
            f"- Vehicle sheet: {words(started.vehicle_name)} ({words(started.vehicle_id)}), "
            f"SHA-256 {started.vehicle_hash}"
        )
    used = {e.place.instrument for e in state.events if isinstance(e, ReadingTaken)}
    for instrument in _instruments_used(state):
        if instrument.id in used:
            yield f"- Instrument: {words(instrument.name)} (accuracy: {_accuracy(instrument)})"
    yield f"- {len(state.events)} events recorded; program version {started.program}"


def _instruments_used(state: WalkState) -> list[Instrument]:
    found = {i.id: i for _, i in state.readings.values() if i is not None}
    found.update({i.id: i for i in state.instruments.values() if i.id not in found})
    return list(found.values())


def _accuracy(instrument: Instrument) -> str:
    parts = []
    for quantity, ranges in instrument.functions.items():
        texts = dict.fromkeys(f"±({r.accuracy.text})" for r in ranges)
        parts.append(f"{quantity.words} {' or '.join(texts)}")
    return "; ".join(parts) or "none stated"


def _time(at: str) -> str:
    try:
        return datetime.fromisoformat(at).astimezone().strftime("%Y-%m-%d %H:%M")
    except ValueError:
        return "time unknown"
