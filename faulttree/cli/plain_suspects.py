"""Suspects in the plain walk: `suspects` lists them, `suspects NAME` tells why."""

from collections.abc import Iterator

from faulttree.case_bench.why_not import CannotTellError
from faulttree.render.line import Line
from faulttree.session import Session


def suspect_lines(session: Session, typed: str) -> Iterator[Line]:
    """What the word `suspects` tells, or in one sentence why there is nothing to tell.

    Args:
        session: the case.
        typed: what stands behind the word.
    """
    why_not = session.circuit.why_no_suspects(session.state)
    try:
        if not why_not:
            yield from _told(session, typed.strip())
    except CannotTellError as error:
        why_not = str(error)
    if why_not:
        yield Line("", why_not)


def _told(session: Session, typed: str) -> Iterator[Line]:
    state = session.state
    suspected = session.circuit.suspects.after(state)
    from faulttree.render.suspects_here import list_lines  # it brings in the solver
    from faulttree.render.suspects_more import meant, more

    if not typed:
        yield from list_lines(state, suspected)
        yield Line("", "suspects and a number or a name tells why.")
        return
    names = meant(suspected, typed)
    if len(names) == 1:
        title, lines = more(state, suspected, names[0])
        yield Line("", f"{title}.")
        yield from lines
    elif names:
        yield Line("", f"Several parts are called like {typed}: {'; '.join(names)}.")
    else:
        yield Line("", f"No part or fault is called like {typed}; suspects alone lists them.")
