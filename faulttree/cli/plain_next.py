"""The best next tests in the plain walk: `next` lists them, `next 1` takes one aside."""

from collections.abc import Iterator

from faulttree.case_bench.why_not import CannotTellError
from faulttree.core.walk.respond import Refused
from faulttree.render import answers
from faulttree.render.line import Line
from faulttree.session import Session

OFFER = "Taken aside. The tree goes on; next tells the best test now."
_TAKE = "next and a number asks that test now, aside from the tree."


def next_test_lines(session: Session) -> Iterator[Line]:
    """What the word `next` tells, or in one sentence why there is nothing to tell."""
    why_not = session.circuit.why_no_next_tests(session.state)
    try:
        if not why_not:
            yield from _told(session)
    except CannotTellError as error:
        why_not = str(error)
    if why_not:
        yield Line("", why_not)


def take_next(session: Session, typed: str) -> str:
    """Ask one of the best tests, by its number; why not, or nothing where it is asked now."""
    why_not = session.circuit.why_no_next_tests(session.state)
    if why_not:
        return why_not
    try:
        advised = session.circuit.next_tests.after(session.state)
    except CannotTellError as error:
        return str(error)
    if typed not in {str(n) for n in range(1, len(advised.best) + 1)}:
        return "next alone lists the best tests; next and one of their numbers takes it."
    proposal = advised.best[int(typed) - 1]
    outcome = session.aside(proposal.step_id, advised.saves(proposal))
    return outcome.message if isinstance(outcome, Refused) else ""


def aside_line(session: Session) -> str:
    """Where the tree waits while a test is asked aside from it."""
    title = answers.title(session.state, session.position.step_id)
    return f"Aside from the tree, which waits at “{title}”; return goes back to it."


def _told(session: Session) -> Iterator[Line]:
    advised = session.circuit.next_tests.after(session.state)
    from faulttree.render.next_tests import next_lines  # it brings in the solver

    yield from next_lines(session.state, advised)
    if advised.best:
        yield Line("", _TAKE)
