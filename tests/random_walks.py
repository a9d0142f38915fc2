"""Random walks: whatever a person may do next, in any order."""

from collections.abc import Callable
from typing import Any

from builders import Walk
from hypothesis import strategies as st

from faulttree.core.usual_instruments import built_in
from faulttree.core.walk import respond
from faulttree.core.walk.events import Complaint
from faulttree.core.walk.respond import Result, Typed

READINGS = (
    "12.60",
    "12.20",
    "12.07",
    "12,05",
    "11.00",
    "11.80",
    "5",
    "126",
    "1.00",
    "0.2",
    "0.01",
    "-0.3",
    "4.0",
    "20 ohm",
    "OL",
    "0.3 V",
    "40 mV",
    "LX-5",
    "abc",
    "",
    "0",
    "x" * 2001,
)
"""What is typed where a reading or a text is wanted: good, on an edge, slipped, nonsense."""

_TEXTS = st.sampled_from(("", "wet plug", "x" * 2001, "caf\udce9"))

ACTIONS = st.one_of(
    st.tuples(st.just("answer"), st.sampled_from(READINGS), st.booleans(), _TEXTS),
    st.tuples(st.just("answer"), st.sampled_from(READINGS), st.booleans(), _TEXTS),
    st.tuples(st.just("choose"), st.integers(0, 6), st.booleans(), st.just("because")),
    st.tuples(st.just("choose"), st.integers(0, 6), st.booleans(), st.just("because")),
    st.tuples(st.just("choose"), st.integers(0, 6), st.just(True), st.just("because")),
    st.tuples(st.just("back")),
    st.tuples(st.just("skip"), _TEXTS),
    st.tuples(st.just("note"), _TEXTS),
    st.tuples(st.just("change"), st.integers(0, 12)),
    st.tuples(st.just("complaint"), st.sampled_from(list(Complaint)), _TEXTS),
    st.tuples(st.just("battery"), st.sampled_from(READINGS), st.booleans()),
    st.tuples(st.just("tries"), st.sampled_from(("2 of 4", "0 of 3", "1 of 1", "none", "5"))),
    st.tuples(st.just("instrument"), st.integers(0, 11)),
    st.tuples(st.just("wait"), st.sampled_from((1, 11, -60))),
)
"""One thing that a person does."""


def act(walk: Walk, action: tuple[Any, ...]) -> Result | None:
    """Do it; the result, or None where there was nothing to be done."""
    kind, *given = action
    result: Result | None = _DEEDS[kind](walk, *given)
    return result


def _choose(walk: Walk, number: int, confirmed: bool, reason: str) -> Result:
    options = walk.ask.options
    text = options[number % len(options)].key if options else READINGS[number]
    return walk.answer(text, confirmed, reason)


def _back(walk: Walk) -> Result:
    walk.changing = None
    return walk.back()


def _change(walk: Walk, number: int) -> None:
    names = sorted([*walk.path, *walk.tree.needs.names])
    name = names[number % len(names)]
    if respond.may_change(walk.state, name) is None:
        walk.changing = name


def _note(walk: Walk, text: str) -> Result:
    return walk.take(respond.add_note(walk.state, walk.at.step_id, text))


def _battery(walk: Walk, text: str, confirmed: bool) -> Result:
    typed = Typed(text, walk.clock.now, confirmed)
    return walk.take(respond.measure_battery(walk.state, walk.at.step_id, typed))


def _instrument(walk: Walk, number: int) -> Result:
    return walk.take(respond.choose_instrument(walk.state, built_in()[number]))


_DEEDS: dict[str, Callable[..., Any]] = {
    "answer": Walk.answer,
    "choose": _choose,
    "back": _back,
    "skip": Walk.skip,
    "note": _note,
    "change": _change,
    "complaint": Walk.complaint,
    "battery": _battery,
    "instrument": _instrument,
    "tries": Walk.count,
    "wait": lambda walk, minutes: walk.clock.move(minutes),
}
