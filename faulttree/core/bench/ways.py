"""Ways over the branches of a circuit: the cheapest between places, and ears on known ways.

An ear leaves a way that is known and comes back to one: ear decomposition of a graph, Whitney 1932,
from memory.
"""

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass
from heapq import heappop, heappush

from faulttree.core.circuit.netlist import Branch

_IN_LINE, _ASIDE = 10.0, 100.0
"""Cost of a branch that is not wanted, beside 1 for one that is: one that lies in line with others,
and one that joins two places where other branches meet. A way goes where the wanted ones are, not
through what stands in for another load, and never through a leak."""


@dataclass(frozen=True, slots=True)
class Step:
    """A branch of a way, and the node it leads to."""

    branch: Branch
    to: int


@dataclass(frozen=True, slots=True)
class Way:
    """Branches one after the other, from a node on."""

    start: int
    steps: tuple[Step, ...]

    @property
    def nodes(self) -> tuple[int, ...]:
        """All nodes it touches, in order."""
        return (self.start, *(step.to for step in self.steps))

    @property
    def names(self) -> tuple[str, ...]:
        """Its branches."""
        return tuple(step.branch.name for step in self.steps)

    def reversed(self) -> "Way":
        """The same from its other end."""
        nodes = self.nodes
        back = zip(reversed(self.steps), reversed(nodes[:-1]), strict=True)
        return Way(nodes[-1], tuple(Step(step.branch, node) for step, node in back))

    def joined_by(self, other: "Way") -> "Way":
        """Gone on with by a way that begins where it ends."""
        return Way(self.start, self.steps + other.steps)


class Ways:
    """Branches between nodes, with what of them lies on a way already."""

    def __init__(self, branches: Sequence[Branch], wanted: frozenset[str]) -> None:
        """`wanted` are names of those that shall lie on a way."""
        self._branches, self._wanted = branches, wanted
        self._at: dict[int, list[Step]] = {}
        for branch in self._branches:
            self._at.setdefault(branch.a, []).append(Step(branch, branch.b))
            self._at.setdefault(branch.b, []).append(Step(branch, branch.a))
        self._used: set[str] = set()
        self._place: dict[int, float] = {}

    def way(self, start: int, ends: Iterable[int], closed: Iterable[int] = ()) -> Way | None:
        """The cheapest way over unused branches from a node to one of several; None without any.

        Args:
            start: where it begins.
            ends: where it may end; nowhere else does it touch one of these.
            closed: nodes that it must not touch.
        """
        goals, barred = set(ends), set(closed) - {start}
        queue: list[tuple[float, int, Way]] = [(0.0, 0, Way(start, ()))]
        done: set[int] = set()
        count = 0
        while queue:
            cost, _, way = heappop(queue)
            node = way.nodes[-1]
            if node in goals:
                return way
            if node in done:
                continue
            done.add(node)
            for step in self._at.get(node, ()):
                if step.branch.name not in self._used and step.to not in barred | done:
                    count += 1
                    longer = Way(start, (*way.steps, step))
                    heappush(queue, (cost + self._cost(step.branch), count, longer))
        return None

    def ears(self, known: Sequence[Way]) -> Iterator[Way]:
        """Ways that leave those that are known, until every wanted branch lies on one that can."""
        for way in known:
            self._take(way)
        while ways := list(self._candidates()):
            best = min(ways, key=self._rank)
            self._take(best)
            yield best

    def _candidates(self) -> Iterator[Way]:
        """For every wanted branch that is on no way yet, the best one through it."""
        open_ones = self._wanted - self._used
        for branch in self._branches:
            way = self._through(branch) if branch.name in open_ones else None
            if way is not None:
                yield way

    def _through(self, branch: Branch) -> Way | None:
        """From a known node over a branch to another one, or to a loose end; from plus onward."""
        for first, second in ((branch.a, branch.b), (branch.b, branch.a)):
            before = self.way(first, self._place, (second,))
            if before is None:
                continue
            here = Way(first, (Step(branch, second),))
            after = self.way(second, self._place.keys() - {before.nodes[-1]}, before.nodes)
            if after is not None:
                return self._onward(before.reversed().joined_by(here).joined_by(after))
        for first, second in ((branch.a, branch.b), (branch.b, branch.a)):
            before = self.way(first, self._place, (second,))
            if before is not None:
                here = Way(first, (Step(branch, second),))
                loose = self._loose_end(second, (branch.name, *before.names))
                return before.reversed().joined_by(here).joined_by(loose)
        return None

    def _onward(self, way: Way) -> Way:
        start, end = (self._place[node] for node in (way.start, way.nodes[-1]))
        return way if start <= end else way.reversed()

    def _rank(self, way: Way) -> tuple[bool, float, float, int]:
        """Loose ends last, then the least of other branches, the nearest to plus, the longest."""
        is_loose = way.nodes[-1] not in self._place
        foreign = sum(self._cost(s.branch) for s in way.steps if s.branch.name not in self._wanted)
        return is_loose, foreign, self._place[way.start], -len(way.steps)

    def _loose_end(self, node: int, used: Iterable[str]) -> Way:
        """As far as wanted branches lead, where none of them comes back."""
        steps: list[Step] = []
        gone, seen = self._used | set(used), {node}
        while True:
            here = steps[-1].to if steps else node
            onward = [
                s
                for s in self._at.get(here, ())
                if s.branch.name in self._wanted - gone and s.to not in seen
            ]
            if not onward:
                return Way(node, tuple(steps))
            steps.append(onward[0])
            seen.add(onward[0].to)

    def _take(self, way: Way) -> None:
        """Mark a way as known; its nodes stand between its two ends."""
        self._used.update(way.names)
        nodes = way.nodes
        first = self._place.get(nodes[0], 0.0)
        last = self._place.get(nodes[-1], first + len(nodes) - 1)
        for index, node in enumerate(nodes):
            share = index / max(len(nodes) - 1, 1)
            self._place.setdefault(node, first + share * (last - first))

    def _cost(self, branch: Branch) -> float:
        if branch.name in self._wanted:
            return 1.0
        is_in_line = min(len(self._at[branch.a]), len(self._at[branch.b])) == 2
        return _IN_LINE if is_in_line else _ASIDE
