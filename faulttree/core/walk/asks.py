"""What the walk asks next. Every face of the program shows the same ask and hands the answer to
`respond`; none of them knows the rules of a walk."""

from collections.abc import Callable, Iterable, Mapping
from dataclasses import dataclass, field
from enum import StrEnum

from faulttree.core.reading import example
from faulttree.core.tree import Conclude, Do, Measure, Observe, WorkOut
from faulttree.core.units import Quantity, entry_unit
from faulttree.core.walk.battery import battery_trouble, battery_wanted
from faulttree.core.walk.car_words import data_example, missing_data, still_fitted, text_for
from faulttree.core.walk.events import Answer, Concluded, ReadingTaken
from faulttree.core.walk.judge import entry_of, instrument_of
from faulttree.core.walk.path import Position, Stage, position
from faulttree.core.walk.proving_run import proving_run
from faulttree.core.walk.run_words import basis, count_first, counted, done, so_far
from faulttree.core.walk.state import WalkState


class AskKind(StrEnum):
    """What sort of answer is wanted."""

    VEHICLE_TEXT = "vehicle text"
    VEHICLE_VALUE = "vehicle value"
    BATTERY = "battery voltage"
    READING = "reading"
    OUTCOME = "outcome"
    DONE = "done"
    WORKED_OUT = "worked out"
    TOO_CLOSE = "too close to call"
    VERDICT = "verdict"
    PROOF = "proof"
    REPAIR = "repair"
    CYCLE = "cycle"
    CLOSE = "close"
    NOTHING = "nothing"


@dataclass(frozen=True, slots=True)
class Option:
    """One answer to choose: its number or word is typed, or the line is picked."""

    key: str
    label: str
    detail: str = ""


@dataclass(frozen=True, slots=True)
class Ask:
    """One question.

    Attributes:
        kind: what sort of answer is wanted.
        step_id: the step it belongs to.
        prompt: the question in one line.
        options: what may be chosen; empty where text is typed.
        hint: what may be typed.
        quantity: for readings, what is read.
        name: for vehicle data, which.
        replaces: the answer that is being changed.
    """

    kind: AskKind
    step_id: str
    prompt: str
    options: tuple[Option, ...] = ()
    hint: str = ""
    quantity: Quantity | None = None
    name: str = ""
    replaces: int | None = None
    notes: tuple[str, ...] = field(default=())


def next_ask(state: WalkState, now: str) -> Ask:
    """The question the walk stands at.

    Args:
        state: the walk.
        now: the time, to judge how old the battery voltage is.
    """
    at = position(state)
    step = state.tree.steps[at.step_id]
    if at.stage is Stage.TOO_CLOSE:
        return _too_close(state, at)
    if at.stage is Stage.ANSWER:
        return ask_step(state, at.step_id, now)
    assert isinstance(step, Conclude)
    return _ASK_CONCLUSION[at.stage](state, at, step)


def ask_step(state: WalkState, step_id: str, now: str, replaces: int | None = None) -> Ask:
    """The question of a step: missing vehicle data first, then the battery, then the step."""
    step = state.tree.steps[step_id]
    for name in missing_data(state, step):
        return _vehicle_data(state, step_id, name)
    if isinstance(step, Measure) and battery_wanted(state, step, now):
        return _battery(state, step_id, step, now)
    if isinstance(step, Measure):
        unit = entry_unit(step.quantity, state.units).symbol
        prompt = f"Reading [{unit}]" if unit else "Reading"
        return Ask(
            AskKind.READING,
            step_id,
            prompt,
            (),
            example(step.quantity),
            step.quantity,
            replaces=replaces,
        )
    if isinstance(step, Observe):
        return _outcomes(state, step_id, step, replaces)
    if isinstance(step, Do):
        return _done(step_id, step, replaces)
    assert isinstance(step, WorkOut)
    options = (Option("1", "Go on", "take the value as worked out"),)
    return Ask(AskKind.WORKED_OUT, step_id, "Worked out", options, replaces=replaces)


def ask_again(state: WalkState, name: str, now: str, at_step: str) -> Ask:
    """The question whose answer is to be changed.

    Args:
        state: the walk.
        name: a step that has an answer, or the name of vehicle data.
        now: the time.
        at_step: the step to show beside a question about vehicle data.
    """
    if name in state.answers:
        return ask_step(state, name, now, state.answers[name].seq)
    return _vehicle_data(state, at_step, name)


def _vehicle_data(state: WalkState, step_id: str, name: str) -> Ask:
    needs = state.tree.needs
    unknown = "leave empty and press Enter if it is not known"
    if name in needs.values:
        need = needs.values[name]
        hint = f"{data_example(name, need.quantity)}; {unknown}"
        return Ask(AskKind.VEHICLE_VALUE, step_id, need.ask, (), hint, need.quantity, name)
    if name in needs.points:
        prompt = f"Where on this car: {needs.points[name]}"
        hint = f"connector, cavity, wire colour, place; {unknown}"
        return Ask(AskKind.VEHICLE_TEXT, step_id, prompt, (), hint, name=name)
    return Ask(AskKind.VEHICLE_TEXT, step_id, needs.facts[name].ask, (), unknown, name=name)


def _battery(state: WalkState, step_id: str, step: Measure, now: str) -> Ask:
    trouble = battery_trouble(state, step, now) or ""
    prompt = f"Battery voltage now, post to post, engine {step.set_up.engine.words} [V]"
    return Ask(
        AskKind.BATTERY,
        step_id,
        prompt,
        (),
        example(Quantity.VOLTAGE),
        Quantity.VOLTAGE,
        notes=(trouble, "This step is judged by it: same loads, same moment."),
    )


def _outcomes(state: WalkState, step_id: str, step: Observe, replaces: int | None) -> Ask:
    options = tuple(
        Option(str(i), o.name, text_for(state, o.means)) for i, o in enumerate(step.outcomes, 1)
    )
    none = Option("0", "none of these", text_for(state, step.implausible.advice))
    return Ask(
        AskKind.OUTCOME,
        step_id,
        "What do you find",
        (*options, none),
        "its number or its name",
        replaces=replaces,
    )


def _done(step_id: str, step: Do, replaces: int | None) -> Ask:
    options = [Option("1", "done")]
    if step.implausible:
        options.append(Option("0", "something happened that should not"))
    return Ask(
        AskKind.DONE, step_id, "When it is done", tuple(options), "1 or done", replaces=replaces
    )


def _measure_better(state: WalkState, answer: Answer | Concluded) -> str:
    """What would bring the error of a reading down."""
    assert isinstance(answer, ReadingTaken)
    instrument = instrument_of(state, answer.seq)
    finer = instrument.read_finer(entry_of(answer)) if instrument else ""
    if finer:
        return f"type every digit, {finer}"
    return "no range of this instrument reads it finer: steadier contact, or another instrument"


def _too_close(state: WalkState, at: Position) -> Ask:
    step = state.tree.steps[at.step_id]
    assert isinstance(step, Measure | WorkOut)
    assert at.pending is not None
    assert at.pending.judgement is not None
    options: list[Option] = []
    if isinstance(step, Measure):
        options.append(Option("m", "measure again", _measure_better(state, at.pending.answer)))
    if step.other_test:
        title = state.tree.steps[step.other_test].title
        options.append(Option("t", "take the other test", text_for(state, title)))
    for number, band in enumerate(at.pending.judgement.reached(step), 1):
        options.append(Option(str(number), f"take it as: {band.name}", text_for(state, band.means)))
    return Ask(
        AskKind.TOO_CLOSE,
        at.step_id,
        "Too close to call: the error reaches over the edge",
        tuple(options),
        "choose; your decision is recorded",
    )


def _verdict(state: WalkState, at: Position, step: Conclude) -> Ask:
    return Ask(
        AskKind.VERDICT,
        at.step_id,
        "Accept this conclusion",
        (Option("1", "accept"),),
        "1 to accept, or go back",
    )


def _proof(state: WalkState, at: Position, step: Conclude) -> Ask:
    options = (
        Option("1", "held", text_for(state, step.prove.holds if step.prove else "")),
        Option("2", "failed", "the fault is elsewhere: go on looking"),
        Option("3", "not done", "say why; the report will say so"),
    )
    notes = (count_first(state), counted(state, at.step_id)) if step.verify else ()
    return Ask(AskKind.PROOF, at.step_id, "How did the proof come out", options, notes=_said(notes))


def _repair(state: WalkState, at: Position, step: Conclude) -> Ask:
    options = tuple(
        Option(str(i), repair.name, text_for(state, repair.gives))
        for i, repair in enumerate(step.repairs, 1)
    )
    none = Option("0", "no repair made")
    return Ask(AskKind.REPAIR, at.step_id, "Which repair was made", (*options, none))


def _cycle(state: WalkState, at: Position, step: Conclude) -> Ask:
    run = proving_run(state, at.step_id)
    assert run is not None
    options = (
        Option("1", "clean", "the complaint did not show"),
        Option("2", "came back", "the count starts again"),
        Option("3", "go on looking", "the repair did not cure it"),
        Option("4", "stop here", "close the case with the cycles run so far"),
    )
    prompt = f"Proving run, {run.clean} of {run.wanted} clean in a row: this cycle"
    return Ask(AskKind.CYCLE, at.step_id, prompt, options, notes=_said((basis(run), so_far(run))))


def _close(state: WalkState, at: Position, step: Conclude) -> Ask:
    run = proving_run(state, at.step_id)
    notes = [f"Still fitted: {what}" for what in still_fitted(state)]
    if run is None:
        more: tuple[Option, ...] = ()
    else:
        notes.append(done(run))
        more = (
            Option("2", "came back", "the count starts again"),
            Option("3", "one more clean cycle"),
        )
    return Ask(
        AskKind.CLOSE,
        at.step_id,
        "Close the case",
        (Option("1", "close"), *more),
        "1 to close",
        notes=_said(notes),
    )


def _said(notes: Iterable[str]) -> tuple[str, ...]:
    """Those notes that say anything."""
    return tuple(note for note in notes if note)


def _nothing(state: WalkState, at: Position, step: Conclude) -> Ask:
    return Ask(AskKind.NOTHING, at.step_id, "This case is closed")


_ASK_CONCLUSION: Mapping[Stage, Callable[[WalkState, Position, Conclude], Ask]] = {
    Stage.VERDICT: _verdict,
    Stage.PROOF: _proof,
    Stage.REPAIR: _repair,
    Stage.PROVING_RUN: _cycle,
    Stage.CLOSE: _close,
    Stage.CLOSED: _nothing,
}
