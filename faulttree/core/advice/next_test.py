"""The best test to do next, from what is suspect now.

It is answered while a technician waits, from all suspects: every promising test is tried with a
greedy order after it (see core/order/quick.py), or after a second test that is chosen so. Minutes
are those of good orders, mostly within some percent of the least; nothing is proven.
"""

from collections.abc import Collection, Mapping
from dataclasses import dataclass

from faulttree.core.advice.as_problem import problem_of
from faulttree.core.advice.outcomes import Tellings
from faulttree.core.order.best import share_of, shares_of
from faulttree.core.order.board import Board, Move
from faulttree.core.order.kinds import Kinds, kinds_of
from faulttree.core.order.problem import CannotOrder, Suspect
from faulttree.core.order.quick import Greedy

LEAST_SHARE = 0.002
"""Suspects that are less likely are left out of the search for the next test."""
_LOOKS_FURTHER = 40
"""Kinds of car up to which the second test is chosen as the first is."""
_AS_IT_STANDS = 0
"""How the car is set up now, as a board counts it."""


@dataclass(frozen=True, slots=True)
class Leaves:
    """What an outcome of a test would leave.

    Attributes:
        outcome: band or outcome.
        share: how likely it is.
        parts: part to how likely it is then, the likeliest first.
        minutes: mean minutes from there to one part [min].
    """

    outcome: str
    share: float
    parts: Mapping[str, float]
    minutes: float


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
        disturbs: it may cure what it looks for; it is proposed only where nothing else leads on.
    """

    step_id: str
    ready: tuple[str, ...]
    minutes: float
    expected: float
    regret: float
    leaves: tuple[Leaves, ...]
    disturbs: bool = False


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
    cannot: Collection[str] = (),
) -> Proposals:
    """The best tests to do next.

    Args:
        tellings: what each test tells of each car.
        shares: suspect to how likely it is now.
        done: steps that were done. What they needed is ready.
        own: the tree's next step.
        count: how many tests are wanted; `core/order/quick.py` says how many are tried for it.
        cannot: steps that cannot be done.
    """
    weights = _weights(tellings, shares)
    ready = {need for t in tellings.tests if t.step_id in done for need in t.needs}
    without = {*done, *cannot}
    if not weights or all(t.step_id in without for t in tellings.tests):
        return Proposals(())
    try:
        kinds = kinds_of(problem_of(tellings, weights, ready, without))
    except CannotOrder:
        return Proposals(())
    board = _board(kinds)
    weighed = _weighed(board, own)
    suspects = {s.id: s for s in kinds.problem.suspects}
    wanted = [each for n, each in enumerate(weighed) if n < count or each[1].test.name == own]
    found = [_proposal(board, each, weighed[0][0], suspects) for each in wanted]
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


def _board(kinds: Kinds) -> Board:
    """The tests that may come next: those that may cure the fault only where no other leads on."""
    tests = list(enumerate(kinds.problem.tests))
    gentle = Board(kinds.kinds, [t for t in tests if not t[1].destroys], kinds.problem.set_ups)
    if any(gentle.splits(move, gentle.full) for move in gentle.moves):
        return gentle
    return Board(kinds.kinds, tests, kinds.problem.set_ups)


_Weighed = tuple[float, Move, Mapping[str, float]]
"""Mean minutes with a test first; the test; outcome to the mean minutes from there [min]."""


def _weighed(board: Board, own: str) -> list[_Weighed]:
    """The tests worth trying, and the tree's own, the best first."""
    greedy, whole = Greedy(board, None), board.full
    moves = {move.index: move for move in greedy.promising(whole, _AS_IT_STANDS)}
    mine = board.by_name.get(own)
    if mine is not None and board.splits(mine, whole):
        moves[mine.index] = mine
    found = [_with_first(board, greedy, move) for move in moves.values()]
    return sorted(found, key=lambda each: (round(each[0], 9), each[1].index))


def _with_first(board: Board, greedy: Greedy, move: Move) -> _Weighed:
    prices, afters = board.prices(_AS_IT_STANDS)
    after, total, rest = afters[move.index], prices[move.index], {}
    for outcome, kinds in move.parts:
        minutes = _rest(board, greedy, kinds, after)
        rest[outcome] = minutes / board.weight(kinds)
        total += minutes / board.weight(board.full)
    return total, move, rest


def _rest(board: Board, greedy: Greedy, kinds: int, way: int) -> float:
    """Minutes times weight of what follows; where there is time for it, of the best second test."""
    if len(board.kinds) > _LOOKS_FURTHER or board.is_found(kinds):
        return greedy.value(kinds, way, board.moves)
    tried = greedy.promising(kinds, way)
    return min(greedy.with_first(move, kinds, way, board.moves) for move in tried)


def _proposal(
    board: Board, weighed: _Weighed, best: float, suspects: Mapping[str, Suspect]
) -> Proposal:
    expected, move, rest = weighed
    leaves = [
        Leaves(
            outcome,
            share_of(board, kinds, board.full),
            _parts(board, kinds, suspects),
            rest[outcome],
        )
        for outcome, kinds in move.parts
    ]
    return Proposal(
        move.test.name,
        tuple(board.set_ups.changes(_AS_IT_STANDS, move.needs)),
        board.prices(_AS_IT_STANDS)[0][move.index],
        expected,
        expected - best,
        tuple(sorted(leaves, key=lambda each: -each.share)),
        move.test.destroys,
    )


def _parts(board: Board, kinds: int, suspects: Mapping[str, Suspect]) -> dict[str, float]:
    """The parts that may be it, and how likely each is, the likeliest first."""
    parts: dict[str, float] = {}
    for name, share in shares_of(board, kinds).items():
        suspect = suspects[name]
        parts[suspect.part] = parts.get(suspect.part, 0.0) + share * suspect.weight
    whole = sum(parts.values()) or 1.0
    ranked = sorted(parts.items(), key=lambda each: (-each[1], each[0]))
    return {part: weight / whole for part, weight in ranked}
