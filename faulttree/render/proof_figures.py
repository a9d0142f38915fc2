"""The figures of a proof, each term of testability with plain words beside it."""

from collections.abc import Iterator

from faulttree.core.proof.measures import Measures
from faulttree.render.page import wrapped
from faulttree.render.proof_words import percent

_TERM, _FIGURE = 25, 9
"""Columns of the first two columns of the table of figures."""


def figure_lines(measures: Measures, wanted: float) -> Iterator[str]:
    """The table of figures."""
    yield ""
    yield from wrapped(
        "Figures: shares by weight of the cars that surely show the complaint; a car counts only "
        "if every way its readings may be judged does"
    )
    for term, figure, words in _figures(measures, wanted):
        yield from wrapped(words, f"  {term:<{_TERM}} {figure:>{_FIGURE}}  ")


def _figures(m: Measures, wanted: float) -> Iterator[tuple[str, str, str]]:
    yield "fault detection", percent(m.detected), "ends in a verdict that names the fault"
    yield from _isolation(m, wanted)
    yield "ambiguity group size", f"{m.group_size:.2f}", "parts that a right verdict leaves, mean"
    yield "faults isolated", f"{m.isolated_faults} of {m.faults}", "to one part, weight left aside"
    wrong = "false isolation: may end in a verdict that is not right; must be none"
    yield "wrong conclusions", percent(m.wrong), wrong
    alarms = "healthy cars with a part condemned; must be none"
    yield "false alarms", f"{m.false_alarms[0]} of {m.false_alarms[1]}", alarms
    yield "not detected", percent(m.undetected), "may end in no fault found"
    yield "not isolated", percent(m.unresolved), "may end in: cannot tell"
    if m.returning is not None:
        words = "intermittent faults isolated to one part even if they go away and come back"
        yield "coming back", percent(m.returning), f"{words} at any step"
    minutes = f"to the conclusion, mean; {m.worst_minutes:.0f} at worst"
    yield "minutes", f"{m.mean_minutes:.1f}", minutes
    cars = "walked: each fault, mild to severe, on each battery; of them"
    yield "cars", str(m.cars), f"{cars} {m.quiet} do not surely show the complaint"


def _isolation(m: Measures, wanted: float) -> Iterator[tuple[str, str, str]]:
    """The share isolated to one part, then what each larger group adds."""
    words = f"and no other part; the bench sheet wants {percent(wanted)}"
    yield "fault isolation to 1 part", percent(m.isolated), words
    before = m.isolated
    for parts, share in m.isolated_to:
        if parts > 1:
            words = f"or fewer: {percent(share - before)} more"
            yield f"  to {parts} parts", percent(share), words
        before = share
