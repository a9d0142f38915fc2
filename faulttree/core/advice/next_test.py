"""The best test to do next, from what is suspect now."""

from collections.abc import Collection, Mapping
from dataclasses import dataclass

from faulttree.core.advice.as_problem import problem_of
from faulttree.core.advice.outcomes import Tellings
from faulttree.core.order.following import Option, SoFar
from faulttree.core.order.plan import Range
from faulttree.core.order.planner import Planner
from faulttree.core.order.problem import CannotOrder

LEAST_SHARE = 0.002
"""Suspects that are less likely are left out of the search for the next test."""


@dataclass(frozen=True, slots=True)
class Leaves:
    """What an outcome of a test would leave.

    Attributes:
        outcome: band or outcome.
        share: how likely it is.
        parts: part to how likely it is then, the likeliest first.
    """

    outcome: str
    share: float
    parts: Mapping[str, float]


@dataclass(frozen=True, slots=True)
class Proposal:
    """A test that may come next.

    Attributes:
        step_id: the step of the tree.
        ready: what has to be made ready first.
        minutes: of that and the test [min].
        expected: mean minutes from here to one part, this test included [min].
        regret: mean minutes more than with the best test [min].
        leaves: what each outcome would leave, the likeliest first.
    """

    step_id: str
    ready: tuple[str, ...]
    minutes: float
    expected: Range
    regret: Range
    leaves: tuple[Leaves, ...]


@dataclass(frozen=True, slots=True)
class Proposals:
    """What may come next.

    Attributes:
        best: the best tests, the best first; none where no test tells more.
        own: the tree's own next step, where it is one of the tests that lead on.
    """

    best: tuple[Proposal, ...]
    own: Proposal | None = None


def next_tests(
    tellings: Tellings,
    shares: Mapping[str, float],
    done: Collection[str],
    own: str,
    count: int = 3,
) -> Proposals:
    """The best tests to do next.

    Args:
        tellings: what each test tells of each car.
        shares: suspect to how likely it is now.
        done: steps that were done, or cannot be done. What they needed is ready.
        own: the tree's next step.
        count: how many tests are wanted.
    """
    weights = _weights(tellings, shares)
    ready = {need for t in tellings.tests if t.step_id in done for need in t.needs}
    left = [t.step_id for t in tellings.tests if t.step_id not in done]
    if not weights or not left:
        return Proposals(())
    try:
        planner = Planner(problem_of(tellings, weights, ready, done))
        advice = planner.next_tests(SoFar(), count=len(left))
    except CannotOrder:
        return Proposals(())
    part_of = {s.id: s.part for s in planner.problem.suspects}
    found = [_proposal(option, part_of) for option in advice.options]
    mine = next((p for p in found if p.step_id == own), None)
    return Proposals(tuple(found[:count]), mine)


def _weights(tellings: Tellings, shares: Mapping[str, float]) -> dict[int, float]:
    """The weight of each car: its suspect's share over the forms of it that show the complaint."""
    forms: dict[str, int] = {}
    for row in tellings.rows:
        if row.suspect is not None:
            forms[row.suspect.id] = forms.get(row.suspect.id, 0) + 1
    return {
        car: shares[row.suspect.id] / forms[row.suspect.id]
        for car, row in zip(tellings.cars, tellings.rows, strict=True)
        if row.suspect is not None and shares.get(row.suspect.id, 0.0) >= LEAST_SHARE
    }


def _proposal(option: Option, part_of: Mapping[str, str]) -> Proposal:
    leaves = []
    for left in option.leaves:
        parts: dict[str, float] = {}
        for suspect, share in left.suspects.items():
            parts[part_of[suspect]] = parts.get(part_of[suspect], 0.0) + share
        leaves.append(Leaves(left.outcome, left.share, _likeliest_first(parts)))
    leaves.sort(key=lambda each: -each.share)
    return Proposal(
        option.test,
        tuple(option.set_up),
        option.minutes,
        option.expected,
        option.regret,
        tuple(leaves),
    )


def _likeliest_first(parts: Mapping[str, float]) -> dict[str, float]:
    whole = sum(parts.values()) or 1.0
    ranked = sorted(parts.items(), key=lambda each: (-each[1], each[0]))
    return {part: share / whole for part, share in ranked}
