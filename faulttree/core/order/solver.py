"""All that is needed to order the tests for some kinds: board, bounds, search, greedy."""

from collections.abc import Sequence
from contextlib import suppress

from faulttree.core.order.best import plan_of, proven_choice, quick_choice, shares_of
from faulttree.core.order.blocks import Blocks
from faulttree.core.order.board import Board, Move
from faulttree.core.order.bounds import best_bound
from faulttree.core.order.clusters import blocks_of
from faulttree.core.order.kinds import Kind
from faulttree.core.order.plan import End, Plan, Range
from faulttree.core.order.problem import SetUp, Test
from faulttree.core.order.quick import Greedy
from faulttree.core.order.search import OutOfWork, Search, Work

_STEPS = (0.8, 0.9, 0.95, 0.975)
"""Shares of the quick order's minutes that are tried in turn: is there a plan that takes less?"""
_PARTS_OF_WORK = 20
"""Where a plan is not proven, each set on its way may take one of so many parts of the work."""
_BLOCK, _BLOCK_LARGE = 14, 16
"""Kinds in a block, fewer where set-ups are told apart."""
_BLOCK_LARGE_FROM = 60
"""Where there are more kinds, larger blocks are worth their time."""
_WAYS_IN_BLOCKS = 16
"""Ways that the car may be set up in that are told apart in blocks."""
_LATTICE_STATES = 10
"""Sets of a lattice that take the memory of one entry in the table."""
_LATTICE_AT_MOST = 22
"""Kinds whose sets can all be worked out, whatever their structure; 4 million sets."""
_BEFORE_LATTICE = 3000
"""Sets that are looked into first: where the structure is good that is quicker."""


class Solver:
    """Some kinds and the tests for them.

    Tests that destroy evidence are no moves here. Where the others can rule out nothing more, a
    solver of their own takes what is left.
    """

    def __init__(
        self,
        kinds: Sequence[Kind],
        tests: Sequence[tuple[int, Test]],
        set_ups: Sequence[SetUp],
        work: Work,
    ) -> None:
        """The solver.

        Args:
            kinds: those that may be met.
            tests: those that may be done, each with its place in `Kind.shows`.
            set_ups: of the problem.
            work: what it may do.
        """
        gentle = [each for each in tests if not each[1].destroys]
        self._last = [(n, t) for n, t in tests if t.destroys] if gentle else []
        self._set_ups, self._work = set_ups, work
        self.board, sizes = _ordered(kinds, gentle or tests, set_ups)
        self._solvers: dict[int, Solver | None] = {}
        self.search = self._searching(sizes)
        self.greedy = Greedy(self.board, self._quick_end if self._last else None)

    def range(self, kinds: int, way: int) -> Range:
        """The least minutes times weight, or what is known of them when the work is done."""
        known = self._known(kinds, way)
        if known is not None:
            return Range(known, known)
        most = self.quick(kinds, way)
        try:
            least = most = self._proven(kinds, way, most)
        except OutOfWork:
            least = max(self.search.least(kinds, way), best_bound(self.board, kinds, way))
        return Range(min(least, most), most)

    def quick(self, kinds: int, way: int) -> float:
        """Minutes times weight of the quick order."""
        total, waiting = 0.0, [(kinds, way)]
        while waiting:
            at, now = waiting.pop()
            if self.board.is_found(at):
                total += self._quick_end(at, now)
                continue
            move = quick_choice(self.search, self.greedy, at, now)
            prices, afters = self.board.prices(now)
            total += prices[move.index] * self.board.weight(at)
            waiting += [(at & mask, afters[move.index]) for mask in move.open if at & mask]
        return total

    def least_with(self, move: Move, kinds: int, way: int) -> float:
        """A proven lower bound of minutes times weight when a test comes first."""
        prices, afters = self.board.prices(way)
        paid = prices[move.index] * self.board.weight(kinds)
        parts = [kinds & mask for mask in move.open if kinds & mask]
        return paid + sum(self.search.least(part, afters[move.index]) for part in parts)

    def range_with(self, move: Move, kinds: int, way: int) -> Range:
        """The least minutes times weight when a test comes first."""
        prices, afters = self.board.prices(way)
        paid = prices[move.index] * self.board.weight(kinds)
        parts = [kinds & mask for mask in move.open if kinds & mask]
        rest = [self.known_range(part, afters[move.index]) for part in parts]
        return Range(paid + sum(r.least for r in rest), paid + sum(r.most for r in rest))

    def known_range(self, kinds: int, way: int) -> Range:
        """As `range`, where the greedy order will do when the work is done."""
        most = self.greedy.value(kinds, way, self.board.moves)
        with suppress(OutOfWork):
            if not self.board.is_found(kinds):
                self._below(kinds, way, most)
        known = self._known(kinds, way)
        if known is not None:
            return Range(known, known)
        return Range(min(self.search.least(kinds, way), most), most)

    def plan(self, kinds: int, way: int) -> Plan:
        """The best plan where it is proven, else the quick one."""
        return plan_of(self.board, kinds, way, self._choose, self._end)

    def _known(self, kinds: int, way: int) -> float | None:
        try:
            return self.search.known(kinds, way)
        except OutOfWork:
            return None

    def _proven(self, kinds: int, way: int, most: float) -> float:
        """The least minutes times weight.

        Raises:
            OutOfWork: too many sets had to be looked into.
        """
        if self._fits_lattice() and self.search.known(kinds, way) is None:
            try:
                with self._work.no_more_than(_BEFORE_LATTICE):
                    return self._below(kinds, way, most)
            except OutOfWork:
                self.search = self._searching([len(self.board.kinds)])
        for share in _STEPS:
            known = self.search.known(kinds, way)
            if known is not None:
                return known
            if self.search.least(kinds, way) < share * most:
                self.search.solve(kinds, way, self.board.moves, share * most)
        return self._below(kinds, way, most)

    def _below(self, kinds: int, way: int, most: float) -> float:
        """The least minutes, which are not above those of the quick order."""
        return self.search.solve(kinds, way, self.board.moves, most + 1e-9 * most)

    def _fits_lattice(self) -> bool:
        size = len(self.board.kinds)
        if self.search.blocks.is_exact or size > _LATTICE_AT_MOST:
            return False
        return self.board.set_ups.size << size <= _LATTICE_STATES * self._work.states

    def _searching(self, sizes: Sequence[int]) -> Search:
        ways = self.board.set_ups.size if len(sizes) == 1 else _WAYS_IN_BLOCKS
        blocks = Blocks(self.board, sizes, ways)
        return Search(self.board, blocks, self._work, self._least_end if self._last else None)

    def of_last(self, kinds: int) -> "Solver | None":
        """For what only tests that destroy evidence can tell apart; None where they cannot."""
        if not self._last:
            return None
        if kinds not in self._solvers:
            left = [kind for bit, kind in enumerate(self.board.kinds) if kinds >> bit & 1]
            solver = Solver(left, self._last, self._set_ups, self._work)
            is_found = solver.board.is_found(solver.board.full)
            self._solvers[kinds] = None if is_found else solver
        return self._solvers[kinds]

    def _least_end(self, kinds: int, way: int) -> float:
        solver = self.of_last(kinds)
        if solver is None:
            return 0.0
        board = solver.board
        return solver.search.solve(board.full, way, board.moves, float("inf"))

    def _quick_end(self, kinds: int, way: int) -> float:
        solver = self.of_last(kinds)
        return solver.quick(solver.board.full, way) if solver else 0.0

    def _end(self, kinds: int, way: int) -> Plan:
        solver = self.of_last(kinds)
        if solver is None:
            return End(shares_of(self.board, kinds))
        return solver.plan(solver.board.full, way)

    def _choose(self, kinds: int, way: int) -> Move:
        if self.board.weight(kinds) <= 0.0:
            return self._cheapest(kinds, way)
        if self.search.known(kinds, way) is None:
            try:
                with self._work.no_more_than(self._work.expansions // _PARTS_OF_WORK):
                    self._below(kinds, way, self.greedy.value(kinds, way, self.board.moves))
            except OutOfWork:
                return quick_choice(self.search, self.greedy, kinds, way)
        return proven_choice(self.search, kinds, way)

    def _cheapest(self, kinds: int, way: int) -> Move:
        """Where nobody is likely to be, every order is as good on average."""
        prices, _ = self.board.prices(way)
        useful = [move for move in self.board.moves if self.board.splits(move, kinds)]
        return min(useful, key=lambda move: (prices[move.index], move.index))


def _ordered(
    kinds: Sequence[Kind], tests: Sequence[tuple[int, Test]], set_ups: Sequence[SetUp]
) -> tuple[Board, list[int]]:
    """A board whose kinds lie block by block, and the sizes of the blocks."""
    board = Board(kinds, tests, set_ups)
    size = _BLOCK if len(kinds) <= _BLOCK_LARGE_FROM else _BLOCK_LARGE
    ways = len(board.set_ups.ways_of(board.set_ups.dearest(_WAYS_IN_BLOCKS)))
    blocks = blocks_of(board, size - (ways - 1).bit_length())
    order = [kinds[n] for block in blocks for n in block]
    return Board(order, tests, set_ups), [len(block) for block in blocks]
