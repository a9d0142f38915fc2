"""The words and pictures of the walk screen, made from the state of a walk."""

from collections.abc import Iterator, Sequence

from textual.content import Content

from faulttree.core.tree import Conclude, Measure, Observe, WorkOut
from faulttree.core.uncertain import Uncertain
from faulttree.core.walk.aside import taken_aside
from faulttree.core.walk.asks import Ask, AskKind
from faulttree.core.walk.car_words import text_for
from faulttree.core.walk.events import Answer, Event, Skipped
from faulttree.core.walk.path import Visit, position, visit_of
from faulttree.core.walk.run_words import just_counted
from faulttree.core.walk.state import WalkState
from faulttree.render import answers, scale
from faulttree.render import step as step_text
from faulttree.render.line import Line
from faulttree.render.preview import preview_reading
from faulttree.ui.commands import help_text
from faulttree.ui.words import all_labelled, beside, hanging, joined, plain, rows

_AT_A_CONCLUSION = {
    AskKind.PROOF: step_text.proof_lines,
    AskKind.REPAIR: step_text.repair_lines,
    AskKind.CYCLE: step_text.proving_run_lines,
}
"""What to read at each stage of a conclusion once it is accepted."""
_ON_A_SCALE = (AskKind.READING, AskKind.WORKED_OUT, AskKind.TOO_CLOSE)
_LONGEST_HOW = 16
"""Characters of what brought the complaint on that the head of the screen has room for."""
_HELP = """\
Type a reading and press Enter: 12.58, 11,6 V, 240mV, 4.7k, OL, 38 psi, 41F.
While the line is empty, one letter does the rest:

{commands}

Signs: + good, ? unclear, ! fault. Page Up and Page Down move the step's text.
To mark text with the mouse, hold Shift."""


def title(state: WalkState, ask: Ask, is_changing: bool, is_aside: bool = False) -> Content:
    """Number and title of the step, and what kind of conclusion it is."""
    step = state.tree.steps[ask.step_id]
    where = f"Step {len(position(state).path) + 1}"
    if is_changing or is_aside:
        where = "Changing" if is_changing else "Aside"
    kind = f"{answers.result_word(step)}: " if isinstance(step, Conclude) else ""
    return plain(f"{where}: {kind}{answers.title(state, ask.step_id)}", "title")


def complaint(state: WalkState, ask: Ask) -> Content:
    """Whether the complaint shows itself, by what it was brought on, and the key to change it."""
    key = "^t" if ask.kind is AskKind.VEHICLE_TEXT else "c"
    now = state.complaint
    how = f" by {now.how}" if now.how else ""
    how = how if len(how) <= _LONGEST_HOW else f"{how[: _LONGEST_HOW - 1]}…"
    tone = "good" if now.complaint.shows else "warning"
    return plain(f"Complaint [{key}]: {now.complaint.value.upper()}{how}", tone)


def before(state: WalkState, visit: Visit) -> Content:
    """What the last answer was taken as, and what it means."""
    meaning = plain(f". {answers.meaning(state, visit)}", "dim")
    return beside(plain("Before: ", "dim"), *_answer(state, visit, meaning))


def aside(state: WalkState) -> Content:
    """Where the tree waits while a test is asked aside from it, and how to go back."""
    waits = answers.title(state, position(state).step_id)
    return plain(f"Aside from the tree, which waits at “{waits}”. Escape goes back.", "warning")


def instructions(state: WalkState, ask: Ask, now: str, in_full: bool) -> Content:
    """What to read before the step is done; `in_full` adds its reasons and what its bands mean."""
    step = state.tree.steps[ask.step_id]
    if isinstance(step, Conclude):
        cautions = step_text.caution_lines(state, step)
        said = [Line("", note) for note in ask.notes]
        stage = _AT_A_CONCLUSION.get(ask.kind, step_text.conclusion_lines)
        return all_labelled([*cautions, *said, *stage(state, step)])
    lines = step_text.step_lines(state, ask.step_id, now)
    if in_full:
        lines = [*lines, Line("", ""), *step_text.why_lines(state, ask.step_id)]
        if isinstance(step, Measure | WorkOut):
            lines.extend([Line("", ""), *step_text.band_lines(state, step)])
    return all_labelled(lines)


def details(state: WalkState, step_id: str, now: str) -> Content:
    """What each band or outcome means, or what each repair gives."""
    step = state.tree.steps[step_id]
    if isinstance(step, Measure | WorkOut):
        return all_labelled(step_text.band_lines(state, step))
    if isinstance(step, Observe):
        return joined(
            beside(plain(f"{o.name}: ", "label"), plain(text_for(state, o.means)))
            for o in step.outcomes
        )
    if isinstance(step, Conclude):
        lines = [*step_text.conclusion_lines(state, step), *step_text.repair_lines(state, step)]
        return all_labelled(lines)
    return all_labelled(step_text.step_lines(state, step_id, now))


def path_lines(state: WalkState, path: Sequence[Visit]) -> Iterator[tuple[Content, Content]]:
    """The steps so far: title and answer of each."""
    for number, visit in enumerate(path, 1):
        head = plain(f"{number}. {answers.title(state, visit.step_id)}", "dim")
        yield head, beside(plain("   "), *_answer(state, visit))


def path_rows(state: WalkState, path: Sequence[Visit], width: int) -> list[Content]:
    """The steps so far for a list of a width [columns]."""
    return [joined(hanging(part, width, 3) for part in both) for both in path_lines(state, path)]


def path_page(state: WalkState, path: Sequence[Visit]) -> Content:
    """The steps so far as a page."""
    parts = [part for both in path_lines(state, path) for part in both]
    return joined(parts) if parts else plain("No step yet.")


def _answer(state: WalkState, visit: Visit, meaning: Content | None = None) -> Iterator[Content]:
    """The reading if there is one, its band or the outcome, and what it does not clear."""
    reading, warning = answers.reading_text(state, visit), answers.warning(visit)
    if isinstance(visit.answer, Skipped):
        yield plain(reading)
        return
    if reading != visit.label:
        yield plain(f"{reading}: ")
    yield plain(answers.band_text(visit), visit.speaks.value if visit.speaks else "plain")
    yield meaning or plain("")
    yield plain(f" ({warning})" if warning else "", "warning")


def changeable(state: WalkState, path: Sequence[Visit]) -> list[tuple[str, str]]:
    """What can be answered again, newest first: steps of the path, then vehicle data given.

    Returns:
        Pairs of the name to change it by and what stands there now.
    """
    steps = [
        (v.step_id, f"{answers.title(state, v.step_id)}: {answers.reading_text(state, v)}")
        for v in reversed(path)
        if isinstance(v.answer, Answer)
    ]
    on_path = {v.step_id for v in path}
    steps += [
        (v.step_id, f"{answers.title(state, v.step_id)}: {answers.reading_text(state, v)} (aside)")
        for v in taken_aside(state)
        if v.step_id not in on_path
    ]
    needs = state.tree.needs
    asked = {**needs.points, **{n: v.ask for n, v in (needs.values | needs.facts).items()}}
    data = [
        (name, f"{asked[name]}: {given.text or 'not known'}") for name, given in state.given.items()
    ]
    return steps + data


def prompt(state: WalkState, ask: Ask) -> Content:
    """The question with what is to be known for it and, where a line is typed, what may be.

    At a conclusion what is to be known stands above, among what moves: it may be long.
    """
    hint = plain(f"  ({ask.hint})" if ask.hint and not ask.options else "", "dim")
    question = beside(plain(ask.prompt, "label"), hint)
    notes = () if isinstance(state.tree.steps[ask.step_id], Conclude) else ask.notes
    return joined([*(plain(note, "dim") for note in notes if note), question])


def told(state: WalkState, ask: Ask, events: Sequence[Event]) -> str:
    """What to say of what was just recorded, where the question does not say it anyway."""
    taken = [e for e in events if isinstance(e, Answer) and e.aside is not None]
    if taken:
        return _told_aside(state, taken[0])
    text = just_counted(state, events)
    return "" if text in ask.notes else text


def _told_aside(state: WalkState, answer: Answer) -> str:
    """What a test taken aside came to, and what may come next."""
    visit = visit_of(state, answer.step, answer)
    reading = answers.reading_text(state, visit)
    came_to = reading if reading == visit.label else f"{reading}: {answers.band_text(visit)}"
    return (
        f"Aside, {answers.title(state, answer.step)}: {came_to}. Here the tree goes on; a tells "
        "the best test now."
    )


def help_page() -> Content:
    """The keys, and how readings are typed."""
    return plain(_HELP.format(commands=help_text()))


def bands(
    state: WalkState, ask: Ask, typed: str, width: int, keep_rows: bool
) -> tuple[Content, str] | None:
    """The bands as a scale, and what is understood of a reading that is being typed.

    Args:
        state: the walk.
        ask: the question; only some have bands.
        typed: what stands in the line.
        width: columns.
        keep_rows: leave the rows of the mark free while there is none, so that nothing moves.

    Returns:
        None where the question has no bands.
    """
    step = state.tree.steps[ask.step_id]
    if not isinstance(step, Measure | WorkOut) or ask.kind not in _ON_A_SCALE:
        return None
    edges: Sequence[Uncertain] = step_text.current_edges(state, step)
    mark, said = None, ""
    if ask.kind is AskKind.TOO_CLOSE:
        edges, mark = _pending(state, step)
    elif isinstance(step, WorkOut):
        judgement, _ = step_text.preview(state, ask.step_id, step)
        mark = step_text.mark_of(state, step, judgement)
        said = f"Cannot be worked out: {judgement.trouble}" if judgement.trouble else ""
    elif typed:
        seen = preview_reading(state, step, typed)
        said = f"Understood: {seen.text}" if seen.text else ""
        if seen.judgement:
            mark = step_text.mark_of(state, step, seen.judgement, seen.digit)
    picture = rows(scale.draw(step_text.drawn_bands(state, step, edges), width, mark))
    if mark is None and keep_rows:
        picture = joined([picture, plain(""), plain("")])
    return picture, said


def _pending(
    state: WalkState, step: Measure | WorkOut
) -> tuple[Sequence[Uncertain], scale.Mark | None]:
    """Edges and mark of the reading that is too close to call."""
    visit = position(state).pending
    judgement = visit.judgement if visit else None
    if visit is None or judgement is None:
        return step_text.current_edges(state, step), None
    digit = getattr(visit.answer, "digit", 0.0)
    edges = judgement.edges or step_text.current_edges(state, step)
    return edges, step_text.mark_of(state, step, judgement, digit)
