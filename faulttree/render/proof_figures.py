"""The figures of a proof, each term of testability with plain words beside it."""

from collections.abc import Iterator

from faulttree.core.proof.measures import Measures
from faulttree.render.page import wrapped
from faulttree.render.proof_words import percent

_TERM, _FIGURE = 25, 9
"""Columns of the first two columns of the table of figures."""


def figure_lines(measures: Measures, wanted: float, is_wrong_outside: bool) -> Iterator[str]:
    """The table of figures.

    Args:
        measures: the figures.
        wanted: the isolation that the bench sheet asks for, from 0 to 1.
        is_wrong_outside: cars that count in no share may end in a wrong conclusion.
    """
    yield ""
    yield from wrapped("Figures, by weight, of the cars that surely show the complaint")
    for term, figure, words in _figures(measures, wanted, is_wrong_outside):
        yield from wrapped(words, f"  {term:<{_TERM}} {figure:>{_FIGURE}}  ")


def _figures(m: Measures, wanted: float, is_wrong_outside: bool) -> Iterator[tuple[str, str, str]]:
    yield "fault detection", percent(m.detected), "ends in a verdict that names the fault"
    yield from _isolation(m, wanted)
    yield "ambiguity group size", f"{m.group_size:.2f}", "parts that a right verdict leaves, mean"
    yield "faults isolated", f"{m.isolated_faults} of {m.faults}", "to one part, weight left aside"
    more = "see WRONG below" if is_wrong_outside else "there may be none"
    yield "wrong conclusions", percent(m.wrong), f"false isolation; {more}"
    alarms = f"{m.false_alarms[0]} of {m.false_alarms[1]}"
    yield "false alarms", alarms, "healthy cars; there may be none"
    yield "not detected", percent(m.undetected), "may end in no fault found"
    yield "not isolated", percent(m.unresolved), "may end in: cannot tell"
    if m.returning is not None:
        words = "intermittent faults that can be isolated"
        yield "coming and going", percent(m.returning), words
    minutes = f"to the conclusion, mean; {m.worst_minutes:.0f} at worst"
    yield "minutes", f"{m.mean_minutes:.1f}", minutes
    yield "cars", str(m.cars), f"walked; {m.quiet} without a sure complaint"


def _isolation(m: Measures, wanted: float) -> Iterator[tuple[str, str, str]]:
    """The share isolated to one part, then what each larger group adds."""
    words = f"and no other part; wanted: {100 * wanted:g} %"
    yield "fault isolation to 1 part", percent(m.isolated), words
    before = m.isolated
    for parts, share in m.isolated_to:
        if parts > 1:
            yield f"  to {parts} parts", percent(share), f"or fewer: {percent(share - before)} more"
        before = share
