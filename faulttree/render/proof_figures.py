"""The verdict on a tree and its figures, each term of testability with plain words beside it."""

from collections.abc import Iterator

from faulttree.core.proof.ends import Worth
from faulttree.core.proof.measures import Measures
from faulttree.core.proof.tree_proof import TreeProof
from faulttree.render.page import count, wrapped
from faulttree.render.proof_ends import FaultEnds
from faulttree.render.proof_words import percent

_TERM, _FIGURE = 25, 9
"""Columns of the first two columns of the table of figures."""


def reasons(
    proof: TreeProof, ends: tuple[FaultEnds, ...], measures: Measures, wanted: float
) -> tuple[str, ...]:
    """Why a tree does not hold up, each in a few words; nothing where it does.

    Args:
        proof, measures: of the tree.
        ends: what becomes of its faults.
        wanted: the isolation that the bench sheet asks for, from 0 to 1.
    """
    found = []
    wrong = [e.id for e in ends if any(r.worth is Worth.WRONG for r in e.reached)]
    if wrong:
        found.append(f"{count(len(wrong), 'fault')} may end in a wrong conclusion")
    alarms = sum(w.worst is Worth.FALSE_ALARM for w in proof.of(None))
    if alarms:
        found.append(f"{count(alarms, 'healthy car')} may end in a false alarm")
    cut_short = [e.id for e in ends if e.is_cut_short]
    if cut_short:
        cars = count(len(cut_short), "fault")
        found.append(f"the walks of {cars} have more ends than were followed")
    if measures.isolated < wanted - 1e-12:
        short = f"{percent(measures.isolated)} isolated to one part"
        found.append(f"{short}, the bench sheet wants {percent(wanted)}")
    return tuple(found)


def verdict_lines(proof: TreeProof, why_not: tuple[str, ...]) -> Iterator[str]:
    """One line, or as many as it takes, that says whether a tree is proved."""
    verdict = f"not proved: {'; '.join(why_not)}" if why_not else "proved"
    yield from wrapped(f"{proof.tree.id} {proof.tree.version}: {verdict}", "", "  ")


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
