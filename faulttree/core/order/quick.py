"""Good orders without a proof: a greedy one, and one that looks a step further.

Greedy takes the test that tells the most pairs of cars apart for its minutes: (P^2 - sum P_k^2)/c
with P the weight of a set and P_k of its parts. Looking a step further, every promising test is
tried with the greedy order after it, and the best is taken (rollout: Tu and Pattipati, AUTOTESTCON
2002).
"""

from heapq import nlargest

from faulttree.core.order.board import Board, Move, Moves
from faulttree.core.order.search import Ending

_TRIED = 8
"""Tests that are tried with the greedy order after them."""
_LOOKS_AT_MOST = 1_000_000
"""Tests that are looked at; after so many the greedy order itself has to do. Some seconds."""


class Greedy:
    """The greedy order on one board."""

    def __init__(self, board: Board, ending: Ending | None) -> None:
        self._board, self._ending = board, ending
        self._values: dict[int, float] = {}
        self._firsts: dict[int, tuple[Move, Moves]] = {}
        self._looks = 0

    def value(self, kinds: int, way: int, moves: Moves) -> float:
        """Minutes times weight of the greedy order; the moves are all that may split the kinds."""
        # Not by recursion: the order may be as deep as there are kinds.
        waiting = [(kinds, way, moves)]
        while waiting:
            at = waiting[-1]
            if self._known(at[0], at[1]) is not None:
                waiting.pop()
                continue
            first, useful = self._first(*at)
            after = self._board.prices(at[1])[1][first.index]
            parts = [part for mask in first.open if (part := at[0] & mask)]
            unknown = [(p, after, useful) for p in parts if self._known(p, after) is None]
            waiting += unknown
            if not unknown:
                key = self._board.key(at[0], at[1])
                self._values[key] = self.with_first(first, at[0], at[1], useful)
        found = self._known(kinds, way)
        assert found is not None
        return found

    def with_first(self, move: Move, kinds: int, way: int, moves: Moves) -> float:
        """Minutes times weight of a test with the greedy order after it."""
        prices, afters = self._board.prices(way)
        total = prices[move.index] * self._board.weight(kinds)
        for mask in move.open:
            if kinds & mask:
                total += self.value(kinds & mask, afters[move.index], moves)
        return total

    def ranked(self, kinds: int, way: int, moves: Moves) -> list[tuple[float, int, Move]]:
        """The tests that lead on, each with how much it tells for its minutes."""
        self._looks += len(moves)
        prices, _ = self._board.prices(way)
        weigh = self._board.weight
        weight = weigh(kinds)
        found = []
        for move in moves:
            if not self._board.splits(move, kinds):
                continue
            told = weight * weight
            for mask in move.open:
                told -= weigh(kinds & mask) ** 2
            price = prices[move.index]
            rate = told / price if price > 0 else float("inf")
            found.append((rate, -move.index, move))
        return found

    def _known(self, kinds: int, way: int) -> float | None:
        if self._board.is_found(kinds):
            return self._ending(kinds, way) if self._ending else 0.0
        return self._values.get(self._board.key(kinds, way))

    def _first(self, kinds: int, way: int, moves: Moves) -> tuple[Move, Moves]:
        """The greedy first test, and all that lead on."""
        key = self._board.key(kinds, way)
        if key not in self._firsts:
            ranked = self.ranked(kinds, way, moves)
            self._firsts[key] = max(ranked)[2], [move for _, _, move in ranked]
        return self._firsts[key]

    def promising(self, kinds: int, way: int) -> list[Move]:
        """The tests that tell the most for their minutes."""
        ranked = self.ranked(kinds, way, self._board.moves)
        tried = _TRIED if self._looks < _LOOKS_AT_MOST else 1
        return [move for _, _, move in nlargest(tried, ranked)]
