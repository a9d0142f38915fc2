"""Small facts that several parts of a report tell in the same words."""

from collections import Counter
from collections.abc import Iterator, Mapping
from datetime import datetime

from faulttree.core.instruments import Instrument
from faulttree.core.tree import Conclude
from faulttree.core.walk.events import Event, Observed, ReadingTaken
from faulttree.core.walk.path import Position, Visit
from faulttree.core.walk.state import WalkState
from faulttree.render import answers
from faulttree.render.markdown_text import words


def moment(at: str, first: str = "") -> str:
    """Local date and time; the time alone where the day is that of `first`."""
    then, day = _local(at), _local(first)
    if then is None:
        return "time unknown"
    same_day = day is not None and day.date() == then.date()
    return then.strftime("%H:%M" if same_day else "%Y-%m-%d %H:%M")


def _local(at: str) -> datetime | None:
    try:
        return datetime.fromisoformat(at).astimezone()
    except ValueError:
        return None


def time_of(state: WalkState, event: Event) -> str:
    """When something happened; the day is told only where it is not that of the beginning."""
    return moment(event.at, state.events[0].at)


def named(state: WalkState, step_id: str) -> str:
    """The title of a step between quotation marks, ready for Markdown."""
    return f"“{words(answers.title(state, step_id))}”"


def asked(question: str, mark: str = "") -> str:
    """A label with its colon; a question keeps its own mark.

    Args:
        question: the label, ready for Markdown.
        mark: what stands round it, such as `**`.
    """
    return f"{mark}{question}{mark}{'' if question.endswith('?') else ':'}"


def accepted(state: WalkState, at: Position) -> Conclude | None:
    """The conclusion the walk stands at, once it was accepted."""
    step = state.tree.steps[at.step_id]
    return step if isinstance(step, Conclude) and at.step_id in state.concluded else None


def reading_and_band(state: WalkState, visit: Visit) -> str:
    """`13.72 V ±0.09 V, full supply`, the outcome, or what was done; ready for Markdown."""
    reading = answers.reading_text(state, visit)
    is_told = visit.judgement is None or visit.label == reading
    return words(reading if is_told else f"{reading}, {visit.label}")


def times(count: int) -> str:
    """How often: once, 3 times."""
    return "once" if count == 1 else f"{count} times"


def instruments_used(state: WalkState) -> dict[str, Instrument]:
    """The instruments that something was read or seen with, by id, in order of use."""
    known: dict[str, Instrument] = {i.id: i for i in state.instruments.values()}
    known.update({i.id: i for _, i in state.readings.values() if i is not None})
    return {name: known[name] for name in _instrument_ids(state) if name in known}


def instrument_words(state: WalkState) -> Mapping[str, str]:
    """What each instrument used is called: its class, or its name where two of a class were."""
    used = instruments_used(state)
    of_class = Counter(instrument.class_ for instrument in used.values())
    return {
        name: each.class_.words if of_class[each.class_] == 1 else each.name
        for name, each in used.items()
    }


def _instrument_ids(state: WalkState) -> Iterator[str]:
    used = (e.place.instrument for e in state.events if isinstance(e, ReadingTaken | Observed))
    return iter(dict.fromkeys(name for name in used if name))
