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
    why_not = session.why_no_suspects()
    try:
        if not why_not:
            yield from _told(session, typed.strip())
    except CannotTellError as error:
        why_not = str(error)
    if why_not:
        yield Line("", why_not)


def _told(session: Session, typed: str) -> Iterator[Line]:
    state = session.state
    suspected = session.suspects.after(state)
    from faulttree.render import suspects_here, suspects_why  # they bring in the solver
    from faulttree.render.suspects_along import along_lines

    if not typed:
        yield from suspects_here.list_lines(state, suspected)
        yield Line("", "suspects and a number or a name tells why; suspects circuit draws it.")
        return
    if typed == suspects_here.CIRCUIT:
        yield from along_lines(suspected)
        return
    if typed == suspects_here.CLEARED:
        yield from suspects_here.cleared_lines(suspected)
        return
    parts = suspects_why.meant(suspected, typed)
    if len(parts) == 1:
        yield Line("Suspect", parts[0].name)
        yield from suspects_why.why_lines(state, suspected, parts[0])
    elif parts:
        listed = "; ".join(part.name for part in parts)
        yield Line("", f"Several parts are called like {typed}: {listed}.")
    else:
        yield Line("", f"No part or fault is called like {typed}; suspects alone lists them.")
