"""The least minutes there are, with proof: depth first, with what is known of every set in a table.

A set of kinds is looked into by trying its tests, the most promising first, as long as their lower
bound stays below the best one found. Every set ends up in the table with its exact minutes, or with
a lower bound that was enough to give it up. Depth-first branch and bound with a table in place of
the AO* of Pattipati and Alexandridis, IEEE Trans. SMC 20 (1990) 872: it looks into more sets, each
of them much faster.
"""

from collections.abc import Callable, Iterator
from contextlib import contextmanager
from dataclasses import dataclass

from faulttree.core.order.blocks import Blocks
from faulttree.core.order.board import Board, Move, Moves
from faulttree.core.order.plan import SAME

Ending = Callable[[int, int], float]
"""Minutes times weight of what follows where nothing more can be ruled out: kinds, set-up."""
_CLEARLY = 1 - SAME / 10
"""What is not below this share of the best is no improvement."""
_TWINS_FROM = 30
"""Sets of so many kinds are worth the stronger bound of two blocks together."""


class OutOfWork(Exception):
    """The work that was allowed is done."""


@dataclass(slots=True)
class Work:
    """Sets that may still be looked into, and entries that the tables may still take."""

    expansions: int
    states: int
    done: int = 0

    def spend(self) -> None:
        """One set more.

        Raises:
            OutOfWork: none is left.
        """
        if self.expansions <= 0 or self.states <= 0:
            raise OutOfWork
        self.expansions -= 1
        self.states -= 1
        self.done += 1

    def allow(self, expansions: int, states: int) -> None:
        """Work for one question."""
        self.expansions, self.states, self.done = expansions, states, 0

    @contextmanager
    def no_more_than(self, expansions: int) -> Iterator[None]:
        """Only so much for a while."""
        kept = max(0, self.expansions - expansions)
        self.expansions -= kept
        try:
            yield
        finally:
            self.expansions += kept


Choice = tuple[float, int, float, list[int], int]
"""A test that may come next. Lower bound of minutes times weight with it; index of the move;
minutes of it times weight, with what follows where the search ends; parts to be searched on; how
the car is set up then. A plain tuple: a search makes millions."""


class Search:
    """The sets of one board, and what is known of them."""

    def __init__(self, board: Board, blocks: Blocks, work: Work, ending: Ending | None) -> None:
        self.board, self.blocks, self.work = board, blocks, work
        self._ending = ending
        self._exact: dict[int, float] = {}
        self._least: dict[int, float] = {}
        self._is_strong: set[int] = set()
        self._in_twins = False

    @property
    def entries(self) -> int:
        """How much is in the tables."""
        return len(self._exact) + len(self._least)

    def forget(self) -> None:
        """Empty the tables."""
        self._exact.clear()
        self._least.clear()
        self._is_strong.clear()
        self.board.forget()

    def least(self, kinds: int, way: int) -> float:
        """A proven lower bound of minutes times weight."""
        key = self.board.key(kinds, way)
        found = self._exact.get(key)
        if found is None:
            found = self._least.get(key)
        return self.blocks.low(kinds, way) if found is None else found

    def known(self, kinds: int, way: int) -> float | None:
        """Least minutes times weight, where they are known."""
        if self.board.is_found(kinds):
            return self._ending(kinds, way) if self._ending else 0.0
        if self.blocks.is_exact and not self._ending:
            return self.blocks.low(kinds, way)
        return self._exact.get(self.board.key(kinds, way))

    def solve(self, kinds: int, way: int, moves: Moves, limit: float) -> float:
        """The least minutes times weight if below the limit, else a lower bound not below it.

        Args:
            kinds: more than one find among them.
            way: how the car is set up.
            moves: every test that splits the kinds, and perhaps others.
            limit: what is too much.

        Raises:
            OutOfWork: too many sets had to be looked into.
        """
        key = self.board.key(kinds, way)
        low = self._exact.get(key)
        if low is not None:
            return low
        low = self._bound(key, kinds, way, limit)
        if low >= limit or key in self._exact:
            return low
        self.work.spend()
        useful, choices = self.choices(kinds, way, moves, limit)
        best, lowest = limit, float("inf")
        for bound, _, total, parts, after in sorted(choices):
            if bound >= best * _CLEARLY:
                lowest = min(lowest, bound)
                break
            total += sum(self.least(part, after) for part in parts)
            for part in sorted(parts, key=self.board.weight):
                if total >= best * _CLEARLY:
                    break
                low = self.least(part, after)
                total += self.solve(part, after, useful, best - total + low) - low
            if total < best * _CLEARLY:
                best = total
            else:
                lowest = min(lowest, total)
        if best < limit:
            self._exact[key] = best
            return best
        self._least[key] = max(lowest, self._least.get(key, 0.0))
        return self._least[key]

    def choices(
        self, kinds: int, way: int, moves: Moves, limit: float = float("inf")
    ) -> tuple[list[Move], list[Choice]]:
        """The tests that lead on, and of those that split the kinds alike the cheapest.

        The bound of a test that takes more than the limit by itself is what it takes.
        """
        weight = self.board.weight(kinds)
        prices, afters = self.board.prices(way)
        useful: list[Move] = []
        found: dict[tuple[int, ...], tuple[float, int]] = {}
        for move in moves:
            parts = [part for mask in move.open if (part := kinds & mask)]
            if len(parts) < 2 and not kinds & move.ended:
                continue
            useful.append(move)
            parts.sort()
            key = afters[move.index], *parts
            price = prices[move.index]
            if key not in found or price < found[key][0]:
                found[key] = price, move.index
        choices = [
            self._choice(index, price * weight, parts, after, limit)
            for (after, *parts), (price, index) in found.items()
        ]
        return useful, choices

    def _choice(self, move: int, paid: float, parts: list[int], after: int, limit: float) -> Choice:
        if paid >= limit:
            return paid, move, paid, parts, after
        others = self.board.others
        still_open = [p for p in parts if p & others[(p & -p).bit_length() - 1]]
        if self._ending and len(still_open) < len(parts):
            paid += sum(self._ending(p, after) for p in parts if p not in still_open)
        bound = paid
        for part in still_open:
            bound += self.least(part, after)
        return bound, move, paid, still_open, after

    def _bound(self, key: int, kinds: int, way: int, limit: float) -> float:
        """The best lower bound at hand; the dearer ones only where they are needed."""
        low = self._least.get(key)
        if low is None:
            low = self.blocks.low(kinds, way)
        if low >= limit:
            return low
        if self.blocks.is_exact and not self._ending:
            self._exact[key] = low
        elif not self._in_twins and key not in self._is_strong and self._is_worth_twins(kinds):
            self._is_strong.add(key)
            low = self._least[key] = max(low, self._of_twins(kinds, way))
        return low

    def _is_worth_twins(self, kinds: int) -> bool:
        is_large = kinds.bit_count() >= _TWINS_FROM
        return is_large and all(kinds & ~twin for twin in self.blocks.twins)

    def _of_twins(self, kinds: int, way: int) -> float:
        """The least minutes of every two blocks together, added up."""
        self._in_twins = True
        try:
            parts = [p for twin in self.blocks.twins if not self.board.is_found(p := kinds & twin)]
            return sum(self.solve(p, way, self.board.moves, float("inf")) for p in parts)
        finally:
            self._in_twins = False
