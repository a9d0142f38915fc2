"""Plans made of the choices of a search, with ties broken in the same way every time.

Of tests that are equally good the one with the least to set up goes first, then the one with fewer
tools, then the first by name. So a plan depends on the problem alone, and not on how it was found.
"""

from collections.abc import Callable

from faulttree.core.order.board import Board, Move
from faulttree.core.order.plan import SAME, Asked, End, Plan
from faulttree.core.order.quick import Greedy
from faulttree.core.order.search import Choice, OutOfWork, Search

Choose = Callable[[int, int], Move]
"""The test for a set of kinds as the car is set up."""


def proven_choice(search: Search, kinds: int, way: int) -> Move:
    """The test that the best plan begins with, for a set whose least minutes are known."""
    board = search.board
    least = search.solve(kinds, way, board.moves, float("inf"))
    ceiling = least + SAME * least
    prices, _ = board.prices(way)
    _, choices = search.choices(kinds, way, board.moves)
    choices.sort(key=lambda c: (prices[c[1]] - board.moves[c[1]].test.minutes, c[1]))
    try:
        chosen = next(c for c in choices if _is_as_good(search, c, ceiling))
    except OutOfWork:
        chosen = next(c for c in choices if _is_known_as_good(search, c, ceiling))
    return board.moves[chosen[1]]


def _is_as_good(search: Search, choice: Choice, ceiling: float) -> bool:
    total, _, _, parts, after = choice
    for part in parts:
        if total > ceiling:
            return False
        low = search.least(part, after)
        total += search.solve(part, after, search.board.moves, ceiling - total + low) - low
    return total <= ceiling


def _is_known_as_good(search: Search, choice: Choice, ceiling: float) -> bool:
    _, _, total, parts, after = choice
    known = [search.known(part, after) for part in parts]
    return total + sum(float("inf") if k is None else k for k in known) <= ceiling


def quick_choice(search: Search, greedy: Greedy, kinds: int, way: int) -> Move:
    """The test that looks best when the greedy order, or what is known better, follows it."""
    board = search.board
    prices, afters = board.prices(way)

    def value(move: Move) -> float:
        total = prices[move.index] * board.weight(kinds)
        for mask in move.open:
            if part := kinds & mask:
                known = search.known(part, afters[move.index])
                if known is None:
                    known = greedy.value(part, afters[move.index], board.moves)
                total += known
        return total

    return min(greedy.promising(kinds, way), key=lambda move: (value(move), move.index))


def plan_of(
    board: Board, kinds: int, way: int, choose: Choose, end: Callable[[int, int], Plan]
) -> Plan:
    """The plan that a choice makes, from a set of kinds on."""
    if board.is_found(kinds):
        return end(kinds, way)
    move = choose(kinds, way)
    prices, afters = board.prices(way)
    go: dict[str, Plan] = {}
    expected = prices[move.index]
    for outcome, mask in move.parts:
        part = kinds & mask
        if not part:
            continue
        if part & move.ended:
            go[outcome] = End(shares_of(board, part), mends=True)
            continue
        after = go[outcome] = plan_of(board, part, afters[move.index], choose, end)
        if isinstance(after, Asked):
            expected += share_of(board, part, kinds) * after.expected
    changes = board.set_ups.changes(way, move.needs)
    weight = board.weight(kinds)
    return Asked(move.test.name, changes, prices[move.index], weight, expected, go)


def shares_of(board: Board, kinds: int) -> dict[str, float]:
    """The suspects of some kinds, and how much of each is among them."""
    found: dict[str, float] = {}
    for bit, kind in enumerate(board.kinds):
        if kinds >> bit & 1:
            for suspect, share in kind.shares.items():
                found[suspect] = found.get(suspect, 0.0) + share
    return found


def share_of(board: Board, part: int, kinds: int) -> float:
    """Share of the weight that a part has; of the number, where there is no weight."""
    weight = board.weight(kinds)
    return board.weight(part) / weight if weight > 0 else part.bit_count() / kinds.bit_count()
