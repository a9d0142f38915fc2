"""The report of a case in Markdown: what the customer asks first, then all that was done."""

from collections.abc import Iterable, Iterator, Mapping, Sequence

from faulttree.core.walk.path import Position, Stage, position
from faulttree.core.walk.state import WalkState
from faulttree.render import answers
from faulttree.render.markdown_lines import all_wrapped
from faulttree.render.markdown_text import words
from faulttree.render.report_basis import basis, cautions, left_to_the_shop
from faulttree.render.report_facts import moment
from faulttree.render.report_gauges import gauges
from faulttree.render.report_steps import aside, behaviour, changed, ruled_out, steps
from faulttree.render.report_summary import evidence, in_short
from faulttree.render.report_traces import traces

WIDTH = 78
"""Longest line [characters]: fits a terminal of 80 columns, a letter and a mail."""


def report_markdown(
    state: WalkState,
    case_id: str,
    found: tuple[str, ...] = (),
    width: int = WIDTH,
    readings_say: Sequence[str] = (),
    pictures: Mapping[str, str] | None = None,
) -> str:
    """The whole report.

    Args:
        state: the walk as it stands.
        case_id: how the case is called.
        found: what was found in the case's files, if anything.
        width: longest line wanted [characters].
        readings_say: the section on suspects, ready for Markdown; empty leaves it out.
        pictures: where drawings of the gauges are, as a link from the report, by their names.
    """
    at = position(state)
    sections: tuple[Iterable[str], ...] = (
        _head(state, case_id, at, found),
        in_short(state, at),
        evidence(state, at),
        gauges(state, width, pictures or {}),
        readings_say,
        steps(state, at),
        aside(state, at),
        ruled_out(state, at),
        behaviour(state),
        traces(state),
        changed(state),
        cautions(state, at),
        basis(state, case_id),
        left_to_the_shop(state),
    )
    lines = (line for section in sections for line in section)
    return "\n".join(all_wrapped(lines, width)) + "\n"


def _head(state: WalkState, case_id: str, at: Position, found: tuple[str, ...]) -> Iterator[str]:
    first, last = state.events[0].at, state.events[-1].at
    yield f"# {words(state.tree.title)}"
    yield ""
    facts = [
        f"Case {words(case_id)}",
        f"begun {moment(first)}",
        f"last entry {moment(last, first)}",
    ]
    technician = state.intake.technician
    if technician:
        facts.append(f"technician {words(technician)}")
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
