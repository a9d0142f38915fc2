"""The set walk: from the start of a tree to every conclusion that a car can lead to.

At every step all bands are followed that the reading may lie in, and all outcomes that may be what
is seen. That proves; drawing errors at random would only sample.
"""

from collections.abc import Iterator, Mapping
from dataclasses import dataclass, replace
from enum import StrEnum
from functools import cached_property

from faulttree.core.bench.bench import Bench, Seen, Shown
from faulttree.core.bench.fitted import Fitted, after
from faulttree.core.bench.sights import PERHAPS, SURELY
from faulttree.core.proof.judged import Judge, Judged, Margin, Span
from faulttree.core.tree import (
    AGAIN,
    BATTERY_VOLTAGE,
    Conclude,
    Do,
    Measure,
    Observe,
    Tree,
    WorkOut,
)
from faulttree.core.uncertain import CannotWorkOut, Uncertain

MOST_ENDS = 2000
"""Ends of one walk after which it is given up; shipped trees have at most some dozens."""
BATTERY_AGE_LIMIT_MIN = 10.0
"""As in a walk: a battery voltage older than this is measured again [min]."""


class Mode(StrEnum):
    """Whether the fault is there while the car is tested."""

    PRESENT = "present"
    ABSENT = "absent"
    COMES_BACK = "coming back"


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
    """

    step_id: str
    row: int
    span: Span | None
    judged: Judged | None
    way: str
    target: str
    minutes: float


@dataclass(frozen=True, slots=True)
class End:
    """One way that a walk can end.

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
        """What all its steps take [min]."""
        return sum(p.minutes for p in self.path)


@dataclass(frozen=True, slots=True)
class _Battery:
    engine: str
    at_minute: float


@dataclass(frozen=True, slots=True)
class _At:
    """Where a walk stands."""

    step_id: str
    values: Mapping[str, Uncertain]
    path: tuple[Passed, ...] = ()
    fitted: Fitted = frozenset()
    battery: _Battery | None = None
    minute: float = 0.0
    refuted: tuple[str, ...] = ()

    def has_passed(self, step_id: str) -> bool:
        return any(p.step_id == step_id for p in self.path)


@dataclass(frozen=True, slots=True)
class _Turn:
    """One way on from a step: what the walk knows after it."""

    row: int
    way: str
    target: str
    span: Span | None = None
    judged: Judged | None = None
    battery: _Battery | None = None
    battery_span: Span | None = None


class Walker:
    """Walks one tree with the cars of its bench."""

    def __init__(self, bench: Bench, judge: Judge) -> None:
        self.bench, self.judge, self.tree = bench, judge, bench.tree

    def walk(self, row: int, mode: Mode = Mode.PRESENT) -> tuple[tuple[End, ...], bool]:
        """Every end of a walk.

        Args:
            row: index into the bench's rows.
            mode: whether the fault is there.

        Returns:
            The ends, and whether there are more than were followed.
        """
        found: list[End] = []
        start = _At(self.tree.start, self.judge.vehicle)
        for end in self._ends(start, row, mode):
            found.append(end)
            if len(found) >= MOST_ENDS:
                return tuple(found), True
        return tuple(found), False

    def _ends(self, at: _At, row: int, mode: Mode) -> Iterator[End]:
        waiting = [at]
        while waiting:
            at = waiting.pop()
            step = self.tree.steps[at.step_id]
            if isinstance(step, Conclude):
                end, further = self._concluded(at, step, row, mode)
                if end is not None:
                    yield end
                if further is not None:
                    waiting.append(further)
                continue
            for turn in self._turns(at, row, mode):
                after_it = self._after(at, turn)
                if not turn.target or after_it.has_passed(turn.target):
                    trouble = turn.way if not turn.target else "the same step comes round again"
                    yield End("", after_it.path, after_it.refuted, trouble)
                else:
                    waiting.append(after_it)

    def _concluded(
        self, at: _At, step: Conclude, row: int, mode: Mode
    ) -> tuple[End | None, _At | None]:
        """The end here, if the proof may hold, and the way on, if it may not."""
        holds = self.bench.proof_holds(at.step_id)
        end = End(at.step_id, at.path, at.refuted)
        if holds is None or step.prove is None:
            return end, None
        held = int(holds[self._row(row, mode)])
        target = step.prove.fails.go
        passed = Passed(at.step_id, row, None, None, "proof does not hold", target, 0.0)
        further: _At | None = replace(
            at,
            step_id=target,
            path=(*at.path, passed),
            refuted=(*at.refuted, at.step_id),
        )
        if at.has_passed(target):
            further = None
            if held == 0:
                end = End("", (*at.path, passed), at.refuted, "the same step comes round again")
                return end, None
        return end if held >= PERHAPS else None, further if held < SURELY else None

    def _row(self, row: int, mode: Mode) -> int:
        return int(self.bench.looks.normal[row]) if mode is Mode.ABSENT else row

    def _rows(self, step: Measure | Observe, row: int, mode: Mode) -> tuple[int, ...]:
        """The cars that a step may meet: with the fault there, away, or either."""
        normal = int(self.bench.looks.normal[row])
        if mode is Mode.PRESENT:
            return (row,)
        if mode is Mode.ABSENT:
            return (normal,)
        wanted = step.set_up.complaint
        return {"present": (row,), "absent": (normal,)}.get(wanted, (row, normal))

    def _turns(self, at: _At, row: int, mode: Mode) -> Iterator[_Turn]:
        step = self.tree.steps[at.step_id]
        if isinstance(step, Measure):
            found = [t for r in self._rows(step, row, mode) for t in self._measured(at, step, r)]
            matters = at.step_id in self._referred_to or any(t.battery_span for t in found)
            yield from found if matters else _merged(found)
        elif isinstance(step, Observe):
            found = [t for r in self._rows(step, row, mode) for t in self._observed(at, step, r)]
            yield from _merged(found)
        elif isinstance(step, WorkOut):
            yield from self._worked_out(at, step, row)
        elif isinstance(step, Do):
            yield _Turn(row, "done", step.go)

    def _measured(self, at: _At, step: Measure, row: int) -> Iterator[_Turn]:
        shown = self.bench.shown((at.step_id, at.fitted))
        assert isinstance(shown, Shown)
        battery, posts, values = self._battery(at, step, shown, row)
        span = self.judge.span(at.step_id, float(shown.low[row]), float(shown.high[row]))
        if span is None:
            yield _Turn(row, "no steady reading", step.cannot.go, None, None, battery, posts)
            return
        judged = self.judge.judge(at.step_id, span, values)
        yield from self._ways(step, row, span, judged, battery, posts)

    def _battery(
        self, at: _At, step: Measure, shown: Shown, row: int
    ) -> tuple[_Battery | None, Span | None, Mapping[str, Uncertain]]:
        """The battery voltage that a step is judged by: as known, or measured again first."""
        if BATTERY_VOLTAGE not in step.names_used:
            return at.battery, None, at.values
        engine, known = step.set_up.engine.value, at.battery
        if (
            known
            and known.engine == engine
            and at.minute - known.at_minute <= BATTERY_AGE_LIMIT_MIN
        ):
            return known, None, at.values
        low, high = float(shown.posts_low[row]), float(shown.posts_high[row])
        posts = self.judge.posts(at.step_id, low, high)
        if posts is None:
            return known, None, at.values
        return (
            _Battery(engine, at.minute),
            posts,
            {**at.values, BATTERY_VOLTAGE: posts.value},
        )

    def _ways(
        self,
        step: Measure | WorkOut,
        row: int,
        span: Span,
        judged: Judged,
        battery: _Battery | None = None,
        posts: Span | None = None,
    ) -> Iterator[_Turn]:
        """The ways on from a reading: all its bands, and the other test where bands differ."""
        if judged.is_implausible:
            target = "" if step.implausible.go == AGAIN else step.implausible.go
            yield _Turn(row, "implausible", target, span, judged, battery, posts)
            return
        if not judged.bands:
            way = f"cannot be judged: {judged.trouble}"
            yield _Turn(row, way, step.cannot.go, span, judged, battery, posts)
            return
        targets: dict[str, list[str]] = {}
        for band in (step.bands[i] for i in judged.bands):
            targets.setdefault(band.go, []).append(band.name)
        for target, names in targets.items():
            yield _Turn(row, " or ".join(names), target, span, judged, battery, posts)
        if step.other_test and len(targets) > 1 and step.other_test not in targets:
            yield _Turn(row, "other test", step.other_test, span, judged, battery, posts)

    def _worked_out(self, at: _At, step: WorkOut, row: int) -> Iterator[_Turn]:
        try:
            span = self.judge.worked_out(at.step_id, at.values)
        except (CannotWorkOut, KeyError) as error:
            yield _Turn(row, f"cannot be worked out: {error}", step.cannot.go)
            return
        judged = self.judge.judge(at.step_id, span, at.values)
        yield from self._ways(step, row, span, judged, at.battery)

    def _observed(self, at: _At, step: Observe, row: int) -> Iterator[_Turn]:
        seen = self.bench.shown((at.step_id, at.fitted))
        assert isinstance(seen, Seen)
        may_be = [o for o, may in zip(step.outcomes, seen.may_be[:, row], strict=True) if may]
        if not may_be:
            target = "" if step.implausible.go == AGAIN else step.implausible.go
            yield _Turn(row, "none of these", target, battery=at.battery)
        for outcome in may_be:
            yield _Turn(row, outcome.name, outcome.go, battery=at.battery)

    def _after(self, at: _At, turn: _Turn) -> _At:
        step = self.tree.steps[at.step_id]
        assert not isinstance(step, Conclude)
        minutes = 0.0 if isinstance(step, WorkOut) else step.minutes
        passed = Passed(
            at.step_id, turn.row, turn.span, turn.judged, turn.way, turn.target, minutes
        )
        values, battery = self._known(at, turn, step, at.minute + minutes)
        return _At(
            turn.target,
            values,
            (*at.path, passed),
            after(self.tree, at.step_id, at.fitted),
            battery,
            at.minute + minutes,
            at.refuted,
        )

    def _known(
        self, at: _At, turn: _Turn, step: object, minute: float
    ) -> tuple[Mapping[str, Uncertain], _Battery | None]:
        """What can be referred to after a step."""
        more: dict[str, Uncertain] = {}
        battery = turn.battery or at.battery
        if turn.battery_span is not None:
            more[BATTERY_VOLTAGE] = turn.battery_span.value
        if turn.span is not None and isinstance(step, Measure | WorkOut):
            more[at.step_id] = turn.span.value
            if step.as_:
                more[step.as_] = turn.span.value
                if step.as_ == BATTERY_VOLTAGE and isinstance(step, Measure):
                    battery = _Battery(step.set_up.engine.value, minute)
        return ({**at.values, **more} if more else at.values), battery

    @cached_property
    def _referred_to(self) -> frozenset[str]:
        """Steps whose value a later step is judged by."""
        return referred_to(self.tree)


def referred_to(tree: Tree) -> frozenset[str]:
    """Steps whose reading some other step uses, by the step's name or by one it gives."""
    used: set[str] = set()
    for step_id, step in tree.steps.items():
        if isinstance(step, Measure | WorkOut):
            used |= step.names_used - {step_id}
    named = {
        step_id
        for step_id, step in tree.steps.items()
        if isinstance(step, Measure | WorkOut) and step.as_ in used
    }
    return frozenset((used & tree.steps.keys()) | named)


def _merged(turns: list[_Turn]) -> Iterator[_Turn]:
    """Turns to one target as one, where nothing later depends on which it was."""
    by_target: dict[str, _Turn] = {}
    for turn in turns:
        first = by_target.get(turn.target)
        if first is None:
            by_target[turn.target] = turn
        elif turn.way not in first.way:
            by_target[turn.target] = replace(first, way=f"{first.way} or {turn.way}")
    yield from by_target.values()


def margins_of(ends: tuple[End, ...]) -> Iterator[tuple[Passed, Margin]]:
    """Every margin on the paths of a walk."""
    seen: set[int] = set()
    for end in ends:
        for passed in end.path:
            if passed.judged is not None and id(passed.judged) not in seen:
                seen.add(id(passed.judged))
                yield from ((passed, margin) for margin in passed.judged.margins)
