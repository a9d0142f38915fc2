"""Lower bounds that add up over blocks of kinds.

What the best plan for a set of kinds does to the kinds of one block is a plan for those. Blocks
that share no kind share no minutes, for minutes are counted by weight. So the least minutes of the
blocks, each for itself, add up to no more than the least minutes of them all. With set-ups that
stays so: leaving out tests that do not split a block never adds a change of the set-up, and where
set-ups are left out of account, less is paid. Derived here; the idea of adding up disjoint patterns
is that of Felner, Korf and Hanan, J. Artificial Intelligence Research 22 (2004) 279 (from memory).
"""

from collections.abc import Sequence
from itertools import accumulate

from faulttree.core.order.board import Board, Move
from faulttree.core.order.lattice import LatticeMove, least_minutes

_Table = tuple[int, int, list[float] | memoryview]
"""First bit of a block, mask of its bits moved down, least minutes of every set of its kinds."""

_LIST_AT_MOST = 16
"""Kinds in a block whose table is a list: quick to look up, but with four times the memory."""


class Blocks:
    """Least minutes of blocks of kinds.

    Attributes:
        twins: the kinds of every two blocks together.
        is_exact: whether one block holds all, so that the bound is the least there is.
    """

    def __init__(self, board: Board, sizes: Sequence[int], ways_at_most: int) -> None:
        """The tables of all blocks.

        Args:
            board: kinds in the order of their blocks.
            sizes: kinds in each block.
            ways_at_most: how many ways the car may be set up in that are told apart; of more
                set-ups than that the dearest are.
        """
        self._set_ups = board.set_ups
        self._which = board.set_ups.dearest(ways_at_most)
        ways = board.set_ups.ways_of(self._which)
        starts = [0, *accumulate(sizes)]
        self._tables: dict[int, list[_Table]] = {way: [] for way in ways}
        for start, size in zip(starts, sizes, strict=False):
            self._add(board, start, size, ways)
        masks = [((1 << size) - 1) << start for start, size in zip(starts, sizes, strict=False)]
        self.twins = [sum(masks[n : n + 2]) for n in range(0, len(masks), 2)]
        self.is_exact = len(sizes) <= 1 and len(ways) == board.set_ups.size
        self._at_first = self._tables[0]

    def low(self, kinds: int, way: int) -> float:
        """A lower bound of the minutes of a set, times its weight."""
        tables = self._at_first
        if way:
            tables = self._tables[self._set_ups.only(way, self._which)]
        total = 0.0
        for start, mask, table in tables:
            total += table[kinds >> start & mask]
        return total

    def _add(self, board: Board, start: int, size: int, ways: list[int]) -> None:
        place = {way: n for n, way in enumerate(ways)}
        mask = (1 << size) - 1
        moves = [self._on_block(board, move, start, mask, place) for move in board.moves]
        weights = [kind.weight for kind in board.kinds[start : start + size]]
        finds = board.finds[start : start + size]
        least = least_minutes(weights, finds, moves, len(ways))
        for way, row in zip(ways, least, strict=True):
            table = row.tolist() if size <= _LIST_AT_MOST else memoryview(row)
            self._tables[way].append((start, mask, table))

    def _on_block(
        self, board: Board, move: Move, start: int, mask: int, place: dict[int, int]
    ) -> LatticeMove:
        counted = tuple(need for need in move.needs if need[0] in self._which)
        changed = [self._set_ups.changed(way, counted) for way in place]
        return LatticeMove(
            tuple(each >> start & mask for each in move.open),
            bool(move.ended >> start & mask),
            tuple(move.test.minutes + minutes for minutes, _ in changed),
            tuple(place[after] for _, after in changed),
        )
