"""Kinds as the bits of a number, and tests as masks on them: what a search works with."""

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from functools import cached_property

from faulttree.core.order.kinds import Kind
from faulttree.core.order.problem import SetUp, Test
from faulttree.core.order.set_ups import Needs, SetUps

_CHUNK = 12
"""Bits of a set whose weight is looked up at once."""


@dataclass(frozen=True, slots=True, eq=False)
class Move:
    """A test on the board.

    Attributes:
        index: its place among the moves: of two that are equally good the lower goes first.
        test: the test.
        parts: every outcome with the kinds that show it.
        open: the parts after which the search goes on.
        ended: the kinds with which it ends.
        needs: what must be set up.
    """

    index: int
    test: Test
    parts: tuple[tuple[str, int], ...]
    open: tuple[int, ...]
    ended: int
    needs: Needs


Moves = Sequence[Move]


def bits(kinds: int) -> list[int]:
    """The kinds of a set."""
    found = []
    while kinds:
        low = kinds & -kinds
        found.append(low.bit_length() - 1)
        kinds ^= low
    return found


class Board:
    """The kinds that are left, and the tests that may be done.

    A set of kinds is a number, one bit a kind; how the car is set up is another.

    Attributes:
        kinds: the kinds, first bit first.
        full: all of them.
        moves: the tests, those with fewer tools first, then by name.
        set_ups: how the car can be set up.
        finds: for each kind a number; kinds with the same one need not be told apart.
    """

    def __init__(
        self,
        kinds: Sequence[Kind],
        tests: Sequence[tuple[int, Test]],
        set_ups: Sequence[SetUp] = (),
    ) -> None:
        """The board.

        Args:
            kinds: in the order they are wanted in.
            tests: those that may be done, each with its place in `Kind.shows`.
            set_ups: of the problem.
        """
        self.kinds, self.set_ups = tuple(kinds), SetUps(set_ups)
        self.full = (1 << len(self.kinds)) - 1
        ordered = sorted(tests, key=lambda t: (len(t[1].tools), t[1].name))
        self.moves: Moves = tuple(self._move(n, *each) for n, each in enumerate(ordered))
        self.finds = _finds(self.kinds, [place for place, _ in tests])
        self.others = _others(self.finds)
        self._weights = _weight_tables([k.weight for k in self.kinds])
        self._prices: dict[int, tuple[list[float], list[int]]] = {}
        self._needed: dict[int, tuple[int, ...]] = {}

    def weight(self, kinds: int) -> float:
        """Share of all the weight."""
        total, at = 0.0, 0
        while kinds:
            total += self._weights[at][kinds & ((1 << _CHUNK) - 1)]
            kinds >>= _CHUNK
            at += 1
        return total

    def is_found(self, kinds: int) -> bool:
        """Whether nothing more can be ruled out."""
        return not kinds or not kinds & self.others[(kinds & -kinds).bit_length() - 1]

    def prices(self, way: int) -> tuple[list[float], list[int]]:
        """For each move the minutes with its set-up, and the way the car is set up after it."""
        found = self._prices.get(way)
        if found is None:
            changed = [self.set_ups.changed(way, move.needs) for move in self.moves]
            minutes = [m.test.minutes + c[0] for m, c in zip(self.moves, changed, strict=True)]
            found = self._prices[way] = minutes, [c[1] for c in changed]
        return found

    def key(self, kinds: int, way: int) -> int:
        """A number for kinds and set-up that is the same where the difference cannot matter."""
        if not way:
            return kinds
        return kinds | self.set_ups.only(way, self._needed_by(kinds)) << len(self.kinds)

    def forget(self) -> None:
        """Empty the tables of what can be worked out again."""
        self._needed.clear()

    def splits(self, move: Move, kinds: int) -> bool:
        """Whether a test leads on: it splits the kinds, or ends the search for some."""
        if kinds & move.ended:
            return True
        return sum(1 for mask in move.open if kinds & mask) > 1

    def set_of(self, kinds: Iterable[Kind]) -> int:
        """Some kinds as a set."""
        return sum(1 << self._places[kind.shows] for kind in kinds)

    @cached_property
    def by_name(self) -> dict[str, Move]:
        """The moves by the names of their tests."""
        return {move.test.name: move for move in self.moves}

    @cached_property
    def _places(self) -> dict[tuple[int, ...], int]:
        return {kind.shows: bit for bit, kind in enumerate(self.kinds)}

    def _move(self, index: int, place: int, test: Test) -> Move:
        masks: dict[int, int] = {}
        for bit, kind in enumerate(self.kinds):
            masks[kind.shows[place]] = masks.get(kind.shows[place], 0) | 1 << bit
        outcomes = test.outcomes
        parts = tuple((outcomes[shown], masks[shown]) for shown in sorted(masks) if shown >= 0)
        ended = sum(mask for outcome, mask in parts if outcome in test.ends)
        still_open = tuple(mask for outcome, mask in parts if outcome not in test.ends)
        return Move(index, test, parts, still_open, ended, self.set_ups.needs(test))

    def _needed_by(self, kinds: int) -> tuple[int, ...]:
        found = self._needed.get(kinds)
        if found is None:
            needed = {n for m in self.moves if self.splits(m, kinds) for n, _ in m.needs}
            found = self._needed[kinds] = tuple(sorted(needed))
        return found


def _finds(kinds: Sequence[Kind], places: Sequence[int]) -> tuple[int, ...]:
    """What each kind comes to when every test is done: kinds alike in all of them come to one."""
    alike: dict[tuple[int, ...], frozenset[str]] = {}
    shown = [tuple(kind.shows[place] for place in places) for kind in kinds]
    for each, kind in zip(shown, kinds, strict=True):
        alike[each] = alike.get(each, frozenset()) | kind.finds
    numbers: dict[frozenset[str], int] = {}
    return tuple(numbers.setdefault(alike[each], len(numbers)) for each in shown)


def _others(finds: Sequence[int]) -> tuple[int, ...]:
    """For each kind the kinds it must be told apart from, as a set that may hold more bits."""
    same: dict[int, int] = {}
    for bit, find in enumerate(finds):
        same[find] = same.get(find, 0) | 1 << bit
    return tuple(~same[find] for find in finds)


def _weight_tables(weights: Sequence[float]) -> list[list[float]]:
    tables = []
    for start in range(0, len(weights), _CHUNK):
        table = [0.0]
        for weight in weights[start : start + _CHUNK]:
            table += [total + weight for total in table]
        tables.append(table)
    return tables
