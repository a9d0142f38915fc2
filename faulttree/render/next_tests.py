"""The best next tests in words: minutes, what each outcome would mean, what is saved."""

from collections.abc import Iterator, Mapping
from dataclasses import dataclass

from faulttree.core.advice.next_test import Leaves, Proposal, Proposals
from faulttree.core.tree import Conclude
from faulttree.core.walk.state import WalkState
from faulttree.render import answers
from faulttree.render.line import Line
from faulttree.render.suspects_words import percent

_MODEL = "Worked out from the circuit model, for the complaint as it shows itself"
_MOST_PARTS = 2
_MOST_OUTCOMES = 4
_LEAST_MINUTES = 0.5
"""Less than half a minute more on average makes no difference."""


@dataclass(frozen=True, slots=True)
class Advised:
    """What may be tested next in a walk.

    Attributes:
        proposals: the best tests, and the tree's own.
        own: the tree's own next step.
        ready: words for what may have to be made ready first.
    """

    proposals: Proposals
    own: str
    ready: Mapping[str, str]

    @property
    def best(self) -> tuple[Proposal, ...]:
        """The best tests, the best first."""
        return self.proposals.best

    def saves(self, proposal: Proposal) -> float | None:
        """Minutes that a test saves on average against the tree's own next step [min].

        None where the two were not compared.
        """
        own = self.proposals.own
        return None if own is None else own.expected - proposal.expected


def head(state: WalkState, advised: Advised) -> Line:
    """How the tree's own next step compares with the best test, or that no test tells more."""
    if not advised.best:
        return Line("", "No test of this tree tells the parts that are left from each other.")
    if isinstance(state.tree.steps[advised.own], Conclude):
        concludes = answers.title(state, advised.own)
        return Line("The tree", f"it concludes “{concludes}”; a test may still come before that.")
    own = advised.proposals.own
    compared = _compared(own) if own else "it is none of the tests compared here"
    return Line("The tree's own next step", f"“{answers.title(state, advised.own)}”: {compared}.")


def _compared(own: Proposal) -> str:
    if own.regret < _LEAST_MINUTES:
        return "none is better"
    return f"it takes about {minutes(own.regret)} more on average than the first one here"


def holds(state: WalkState) -> Line:
    """What all of it rests on; told once, as a warning while the complaint does not show."""
    complaint = state.complaint.complaint
    if complaint.shows:
        return Line("", f"{_MODEL}.")
    return Line("", f"{_MODEL}. It is recorded as {complaint}: see first that it shows.", "warning")


def title(state: WalkState, advised: Advised, proposal: Proposal) -> str:
    """The step's title, with what is to be known of it at once."""
    notes = []
    if proposal.step_id == advised.own:
        notes.append("the tree's own next step")
    if proposal.disturbs:
        notes.append("may cure what it looks for")
    more = f" ({'; '.join(notes)})" if notes else ""
    return f"{answers.title(state, proposal.step_id)}{more}"


def about(advised: Advised, proposal: Proposal) -> Iterator[Line]:
    """Minutes of a test, what each outcome would mean, and how it compares."""
    ready = ", ".join(advised.ready.get(name, name) for name in proposal.ready)
    first = f" with what has to be ready first ({ready})" if ready else ""
    rest = minutes(max(0.0, proposal.expected - proposal.minutes))
    yield Line("", f"{minutes(proposal.minutes)}{first}, then about {rest} more on average")
    for leaves in proposal.leaves[:_MOST_OUTCOMES]:
        yield Line(leaves.outcome, _means(leaves))
    saved = _saved(advised, proposal)
    if saved:
        yield Line("", saved)


def _means(leaves: Leaves) -> str:
    if len(leaves.parts) == 1:
        return f"leaves only {next(iter(leaves.parts))}"
    named = [f"{part} {percent(share)}" for part, share in leaves.parts.items()]
    others = len(named) - _MOST_PARTS
    more = f" and {others} other part{'' if others == 1 else 's'}" if others > 0 else ""
    return f"leaves {', '.join(named[:_MOST_PARTS])}{more}"


def _saved(advised: Advised, proposal: Proposal) -> str:
    """What is saved against the tree's own next step, or lost."""
    saved = advised.saves(proposal)
    if saved is None or proposal.step_id == advised.own:
        return ""
    if abs(saved) < _LEAST_MINUTES:
        return "as quick as the tree's own next step"
    if saved > 0:
        return f"the tree's own next step takes about {minutes(saved)} more on average"
    return f"it takes about {minutes(-saved)} more on average than the tree's own next step"


def next_lines(state: WalkState, advised: Advised) -> Iterator[Line]:
    """All of it as lines; tests have the number that they are taken by."""
    yield head(state, advised)
    for number, proposal in enumerate(advised.best, 1):
        yield Line("", f"{number}  {title(state, advised, proposal)}")
        for line in about(advised, proposal):
            text = f"{line.label}: {line.text}" if line.label else line.text
            yield Line("", f"   {text}")
    if advised.best:
        yield holds(state)


def minutes(count: float) -> str:
    """`4 minutes`, to the whole minute; never 0."""
    whole = max(1, round(count))
    return f"{whole} minute{'' if whole == 1 else 's'}"
