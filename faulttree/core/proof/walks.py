"""The set walk: from the start of a tree to every conclusion that a car can lead to.

At every step all bands are followed that the reading may lie in, and all outcomes that may be what
is seen. That proves; drawing errors at random would only sample. All cars walk together, step by
step in the order of the tree, so that the circuit is solved for many of them at once; walks of one
car that go on in the same way are gone on with once.
"""

from collections.abc import Hashable, Sequence
from dataclasses import dataclass, field

import numpy as np

from faulttree.core.bench.bench import Bench
from faulttree.core.bench.fitted import Fitted, after
from faulttree.core.bench.sights import PERHAPS, SURELY
from faulttree.core.graph import in_order
from faulttree.core.proof.judged import Judge, Judged, Margin, Span
from faulttree.core.proof.live import live_names
from faulttree.core.proof.standing import Mode, Standing
from faulttree.core.proof.turns import Turn, Turns
from faulttree.core.tree import Conclude, Measure, Observe, WorkOut

PROOF_FAILS = "proof does not hold"
"""The way on from a verdict that its proof does not bear out."""


@dataclass(frozen=True, slots=True)
class Passed:
    """One step of a computed path.

    Attributes:
        step_id: the step.
        row: the car on the bench that was read: with the fault, or the healthy one while an
            intermittent fault is away.
        span: what was read or worked out; None for what is seen or done.
        judged: where the reading may lie.
        way: the bands or outcomes taken, or the exit.
        target: the step it leads to; empty where it leads nowhere.
        minutes: what the step takes.
        posts: the battery voltage, where it was measured for this step.
    """

    step_id: str
    row: int
    span: Span | None
    judged: Judged | None
    way: str
    target: str
    minutes: float
    posts: Span | None = None


@dataclass(frozen=True, slots=True)
class End:
    """One way that a walk can end, with the first path found that leads there.

    Attributes:
        conclusion: the conclusion reached; empty where the walk leads nowhere.
        path: the steps that led there.
        refuted: verdicts on the way that their own proof did not bear out.
        trouble: why the walk leads nowhere.
    """

    conclusion: str
    path: tuple[Passed, ...]
    refuted: tuple[str, ...] = ()
    trouble: str = ""

    @property
    def minutes(self) -> float:
        """What all steps of the path take [min]."""
        return sum(p.minutes for p in self.path)


@dataclass(frozen=True, slots=True)
class Ways:
    """Every end of one car's walk, and how long it takes.

    Attributes:
        ends: each different end once.
        mean_minutes: with every way on from a step as likely as the others [min].
        worst_minutes: on the longest path [min].
    """

    ends: tuple[End, ...]
    mean_minutes: float
    worst_minutes: float


@dataclass(frozen=True, slots=True)
class Closest:
    """The reading that comes closest to an edge which leads another way.

    Attributes:
        step_id, margin: the edge and the distance.
        row: the car.
        span, edge: the reading and the edge's value [SI].
    """

    step_id: str
    margin: Margin
    row: int
    span: Span
    edge: float


@dataclass(slots=True, eq=False)
class Trace:
    """What the walks of all cars went through.

    Attributes:
        targets: step to the steps that cars went on to; empty text where they led nowhere.
        closest: step and edge to the reading that came closest.
    """

    targets: dict[str, set[str]] = field(default_factory=dict)
    closest: dict[tuple[str, int], Closest] = field(default_factory=dict)

    def note(self, step_id: str, turn: Turn) -> None:
        """Take a way on into account."""
        self.targets.setdefault(step_id, set()).add(turn.target)
        if turn.judged is None or turn.span is None:
            return
        for margin in turn.judged.margins:
            key = step_id, margin.edge
            if key not in self.closest or margin.sigmas < self.closest[key].margin.sigmas:
                edge = turn.judged.edges[margin.edge].value
                self.closest[key] = Closest(step_id, margin, turn.row, turn.span, edge)


EndKey = tuple[str, tuple[str, ...], str]
"""Conclusion, verdicts refuted on the way there, trouble."""


@dataclass(slots=True, eq=False)
class _Node:
    """Where a walk stands, and what comes of it.

    Attributes:
        at: where.
        ways: each way on with the node it leads to; None where it ends.
        here: ends that are at this very place.
        ends: each end that can be reached, with the way to it.
        mean, worst: minutes from here on.
    """

    at: Standing
    ways: list[tuple[Passed, "_Node | None"]] = field(default_factory=list)
    here: list[EndKey] = field(default_factory=list)
    ends: dict[EndKey, tuple[Passed, "_Node", EndKey] | None] = field(default_factory=dict)
    mean: float = 0.0
    worst: float = 0.0


class Walker:
    """Walks one tree, without loops, with the cars of its bench."""

    def __init__(self, bench: Bench, judge: Judge) -> None:
        self._bench, self._tree = bench, bench.tree
        self._turns, self._live = Turns(bench, judge), live_names(bench.tree)
        self._places: dict[str, dict[Hashable, _Node]] = {}
        self.trace = Trace()

    def walk(self, cars: Sequence[tuple[int, Mode]]) -> tuple[Ways, ...]:
        """Every end of the walks of some cars.

        Args:
            cars: row, and whether the fault is there.

        Returns:
            One result for each car, in their order.
        """
        self._places = {step_id: {} for step_id in self._tree.steps}
        start = self._tree.start
        roots = [self._node(Standing(start, row, mode, {})) for row, mode in cars]
        order = in_order(self._tree)
        for step_id in order:
            self._go_on(step_id, list(self._places[step_id].values()))
        for step_id in reversed(order):
            for node in self._places[step_id].values():
                _gather(node)
        return tuple(_ways(root) for root in roots)

    def _node(self, at: Standing) -> _Node:
        return self._places[at.step_id].setdefault(at.key, _Node(at))

    def _go_on(self, step_id: str, nodes: list[_Node]) -> None:
        if not nodes:
            return
        step = self._tree.steps[step_id]
        if isinstance(step, Conclude):
            self._conclude(step_id, step, nodes)
            return
        if isinstance(step, Measure | Observe):
            self._look(step_id, step, nodes)
        minutes = 0.0 if isinstance(step, WorkOut) else step.minutes
        for node in nodes:
            for turn in self._turns.of(node.at):
                self.trace.note(step_id, turn)
                node.ways.append(self._way(node, turn, minutes))

    def _look(self, step_id: str, step: Measure | Observe, nodes: list[_Node]) -> None:
        """Have the bench solve all cars that come to a step at once."""
        by_fitted: dict[Fitted, set[int]] = {}
        for node in nodes:
            by_fitted.setdefault(node.at.fitted, set()).update(self._turns.rows(step, node.at))
        for fitted, rows in by_fitted.items():
            self._bench.shown((step_id, fitted), np.array(sorted(rows), np.intp))

    def _way(self, node: _Node, turn: Turn, minutes: float) -> tuple[Passed, _Node | None]:
        at = node.at
        passed = Passed(
            at.step_id, turn.row, turn.span, turn.judged, turn.way, turn.target, minutes, turn.posts
        )
        if not turn.target:
            return passed, None
        fitted = after(self._tree, at.step_id, at.fitted)
        there = at.gone_on(turn.target, self._live, minutes, turn.more, fitted, turn.battery)
        return passed, self._node(there)

    def _conclude(self, step_id: str, step: Conclude, nodes: list[_Node]) -> None:
        """The walk ends here, unless the verdict's proof does not hold."""
        held = None
        if step.prove is not None and self._bench.has_proof(step_id):
            rows = np.array([node.at.row for node in nodes], np.intp)
            held = self._bench.proof_holds(step_id, rows)
        for node in nodes:
            holds = SURELY if held is None else int(held[node.at.row])
            if holds >= PERHAPS:
                node.here.append((step_id, (), ""))
            if holds < SURELY and step.prove is not None:
                row, target = node.at.row, step.prove.fails.go
                turn = Turn(row, PROOF_FAILS, target, battery=node.at.battery)
                self.trace.note(step_id, turn)
                node.ways.append(self._way(node, turn, 0.0))


def _gather(node: _Node) -> None:
    """What comes of a place, from what comes of the places it leads to."""
    node.ends.update(dict.fromkeys(node.here))
    minutes: list[tuple[float, float]] = [(0.0, 0.0)] * bool(node.here)
    for passed, following in node.ways:
        if following is None:
            node.ends.setdefault(("", (), passed.way), (passed, node, ("", (), "")))
            minutes.append((passed.minutes, passed.minutes))
            continue
        refuted = (passed.step_id,) if passed.way == PROOF_FAILS else ()
        for key in following.ends:
            here = key[0], refuted + key[1], key[2]
            node.ends.setdefault(here, (passed, following, key))
        minutes.append((passed.minutes + following.mean, passed.minutes + following.worst))
    node.mean = sum(mean for mean, _ in minutes) / (len(minutes) or 1)
    node.worst = max((worst for _, worst in minutes), default=0.0)


def _ways(root: _Node) -> Ways:
    ends = tuple(
        End(key[0], _path(root, key), key[1], key[2] or ("" if key[0] else "leads nowhere"))
        for key in root.ends
    )
    return Ways(ends, root.mean, root.worst)


def _path(node: _Node, key: EndKey) -> tuple[Passed, ...]:
    found: list[Passed] = []
    while True:
        step = node.ends.get(key)
        if step is None:
            return tuple(found)
        passed, following, further = step
        found.append(passed)
        if not passed.target:
            return tuple(found)
        node, key = following, further


__all__ = ["Closest", "End", "Mode", "Passed", "Trace", "Walker", "Ways"]
