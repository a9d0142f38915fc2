"""A reading while it is still being typed: what it would be taken as, nothing recorded."""

from dataclasses import dataclass
from functools import partial

from faulttree.core.figures import show_measured
from faulttree.core.instruments import is_beyond_range, measured
from faulttree.core.reading import Entry, ReadingRefused, parse_fitting_reading
from faulttree.core.tree import Measure
from faulttree.core.walk.judge import (
    Judgement,
    is_plausible,
    judge_value,
    reference_values,
    references_for,
)
from faulttree.core.walk.state import WalkState


@dataclass(frozen=True, slots=True)
class Preview:
    """What is understood so far.

    `judgement` is None while the text is no reading yet; `text` says what was understood.
    """

    text: str = ""
    judgement: Judgement | None = None
    digit: float = 0.0


def preview_reading(state: WalkState, step: Measure, typed: str) -> Preview:
    """What a typed text would be taken as at a step."""
    values = reference_values(state, references_for(state, step.names_used))
    fits = partial(is_plausible, state, step, values=values)
    try:
        entry = parse_fitting_reading(typed, step.quantity, state.units, fits)
    except ReadingRefused:
        return Preview()
    value = measured(entry, state.instruments.get(step.with_), "being typed")
    judgement = judge_value(state, step, value, values)
    words = _words(state, step, entry, judgement)
    if not fits(entry.value):
        words = f"{words}, outside what this point can show"
    return Preview(words, judgement, entry.step)


def _words(state: WalkState, step: Measure, entry: Entry, judgement: Judgement) -> str:
    radius = judgement.value.radius if judgement.value is not None else 0.0
    text = show_measured(entry.value, radius, entry.quantity, state.units, entry.step or None)
    if is_beyond_range(entry, state.instruments.get(step.with_)):
        text += " (beyond every range of the instrument)"
    reached = judgement.reached(step)
    if judgement.trouble:
        return f"{text}, in no band: {judgement.trouble}"
    if not reached:
        return text
    if len(reached) > 1 and judgement.is_too_close(step):
        names = " and ".join(band.name for band in reached)
        return f"{text}: too close to call between {names}{_better(state, step, entry)}"
    return f"{text}: {reached[0].name if len(reached) == 1 else _nominal(step, judgement)}"


def _nominal(step: Measure, judgement: Judgement) -> str:
    return step.bands[judgement.placement.nominal].name if judgement.placement else ""


def _better(state: WalkState, step: Measure, entry: Entry) -> str:
    """What would make the error smaller."""
    instrument = state.instruments.get(step.with_)
    finer = instrument.read_finer(entry) if instrument else ""
    return f"; type every digit, {finer}" if finer else ""
