"""The ways on from a step: every band the reading may lie in, every outcome that may be seen."""

from collections.abc import Hashable, Iterable, Iterator, Mapping
from dataclasses import dataclass, field, replace

from faulttree.core.bench.bench import Bench, Seen, Shown
from faulttree.core.proof.judged import Judge, Judged, Span
from faulttree.core.proof.standing import Battery, Known, Mode, Standing
from faulttree.core.tree import AGAIN, BATTERY_VOLTAGE, Do, Measure, Observe, Tree, WorkOut
from faulttree.core.uncertain import CannotWorkOut


@dataclass(frozen=True, slots=True)
class Turn:
    """One way on from a step.

    Attributes:
        row: the car that was read: with the fault, or the healthy one while the fault is away.
        way: the bands or outcomes taken, or the exit, in words.
        target: the step it leads to; empty where it leads nowhere.
        span, judged: what was read and where it may lie; None for what is seen or done.
        more: what later steps can refer to.
        battery: the battery voltage in use after it.
        posts: the battery voltage, where it was measured for this step.
    """

    row: int
    way: str
    target: str
    span: Span | None = None
    judged: Judged | None = None
    more: Mapping[str, Known] = field(default_factory=dict)
    battery: Battery | None = None
    posts: Span | None = None


@dataclass(frozen=True, slots=True)
class _Read:
    """A reading, judged."""

    span: Span | None
    judged: Judged | None
    posts: Span | None
    battery: Battery | None
    source: Hashable
    posts_source: Hashable


@dataclass(frozen=True, slots=True)
class _After:
    """What is known after a reading, as in Turn."""

    more: Mapping[str, Known]
    battery: Battery | None
    posts: Span | None = None


class Turns:
    """The ways on in one tree. The bench must know the cars that are asked for."""

    def __init__(self, bench: Bench, judge: Judge) -> None:
        self._bench, self._judge, self._tree = bench, judge, bench.tree
        self._referred_to = referred_to(bench.tree)
        self._read: dict[Hashable, _Read] = {}
        self._sums: dict[Hashable, tuple[Span, Judged] | str] = {}

    def of(self, at: Standing) -> list[Turn]:
        """Every way on from where a walk stands."""
        step = self._tree.steps[at.step_id]
        if isinstance(step, Measure):
            found = [t for r in self._met(step, at) for t in self._measured(at, step, r)]
            matters = at.step_id in self._referred_to or any(t.posts for t in found)
            return found if matters else _merged(found)
        if isinstance(step, Observe):
            return _merged(t for r in self._met(step, at) for t in self._observed(at, step, r))
        if isinstance(step, WorkOut):
            return list(self._worked_out(at, step))
        assert isinstance(step, Do)
        return [Turn(at.row, "done", step.go, battery=at.battery)]

    def rows(self, step: Measure | Observe, at: Standing) -> tuple[int, ...]:
        """The cars that a step may meet: with the fault there, away, or either.

        A step that counts only while the complaint shows waits for it.
        """
        if at.mode is not Mode.COMES_BACK:
            return (at.row,)
        normal = int(self._bench.looks.normal[at.row])
        wanted = step.set_up.complaint
        return {"present": (at.row,), "absent": (normal,)}.get(wanted, (at.row, normal))

    def _met(self, step: Measure | Observe, at: Standing) -> tuple[int, ...]:
        """The cars that a step meets and that differ there: a fault need not show at every step."""
        rows = self.rows(step, at)
        if len(rows) == 1:
            return rows
        shown = self._bench.known((at.step_id, at.fitted))
        return rows[-1:] if shown.are_alike(*rows) else rows

    def _measured(self, at: Standing, step: Measure, row: int) -> Iterator[Turn]:
        read = self._reading(at, step, row)
        more = {}
        if read.posts is not None:
            more[BATTERY_VOLTAGE] = Known(read.posts_source, read.posts.value)
        battery = read.battery
        if read.span is not None:
            known = Known(read.source, read.span.value)
            more |= {name: known for name in (at.step_id, step.as_) if name}
            if step.as_ == BATTERY_VOLTAGE:
                # It is read at the end of its own minutes.
                battery = Battery(step.set_up.engine.value, -step.minutes)
        after = _After(more, battery, read.posts)
        yield from self._ways(step, row, read.span, read.judged, after)

    def _reading(self, at: Standing, step: Measure, row: int) -> _Read:
        key = at.step_id, row, at.fitted, at.known_by(step.names_used), at.battery
        if key not in self._read:
            self._read[key] = self._read_anew(at, step, row)
        return self._read[key]

    def _read_anew(self, at: Standing, step: Measure, row: int) -> _Read:
        shown = self._bench.known((at.step_id, at.fitted))
        assert isinstance(shown, Shown)
        source = at.step_id, row, at.fitted
        battery, posts = self._battery(at, step, shown, row)
        posts_source = ("posts", *source)
        values = at.values(self._judge.vehicle)
        if posts is not None:
            values[BATTERY_VOLTAGE] = posts.value
        span = self._judge.span(at.step_id, float(shown.low[row]), float(shown.high[row]))
        judged = self._judge.judge(at.step_id, span, values) if span is not None else None
        return _Read(span, judged, posts, battery, source, posts_source)

    def _battery(
        self, at: Standing, step: Measure, shown: Shown, row: int
    ) -> tuple[Battery | None, Span | None]:
        """The battery voltage that a step is judged by: as known, or measured again first."""
        if BATTERY_VOLTAGE not in step.names_used:
            return at.battery, None
        engine = step.set_up.engine.value
        if at.battery is not None and at.battery.engine == engine:
            return at.battery, None
        low, high = float(shown.posts_low[row]), float(shown.posts_high[row])
        posts = self._judge.posts(at.step_id, low, high)
        return (Battery(engine) if posts is not None else at.battery), posts

    def _ways(
        self,
        step: Measure | WorkOut,
        row: int,
        span: Span | None,
        judged: Judged | None,
        known: "_After",
    ) -> Iterator[Turn]:
        """The ways on from a reading: all its bands, and the other test where bands differ."""

        def turn(way: str, target: str) -> Turn:
            return Turn(row, way, target, span, judged, known.more, known.battery, known.posts)

        if span is None or judged is None:
            yield turn("no steady reading", step.cannot.go)
            return
        if judged.is_implausible:
            yield turn("implausible", _unless_again(step.implausible.go))
            return
        if not judged.bands:
            yield turn(f"cannot be judged: {judged.trouble}", step.cannot.go)
            return
        targets: dict[str, list[str]] = {}
        for band in (step.bands[i] for i in judged.bands):
            targets.setdefault(band.go, []).append(band.name)
        for target, names in targets.items():
            yield turn(" or ".join(names), target)
        if step.other_test and len(targets) > 1 and step.other_test not in targets:
            yield turn("other test", step.other_test)

    def _worked_out(self, at: Standing, step: WorkOut) -> Iterator[Turn]:
        source = at.step_id, at.known_by(step.names_used)
        if source not in self._sums:
            self._sums[source] = self._sum(at)
        found = self._sums[source]
        if isinstance(found, str):
            way = f"cannot be worked out: {found}"
            yield Turn(at.row, way, step.cannot.go, battery=at.battery)
            return
        span, judged = found
        known = Known(source, span.value)
        more = {name: known for name in (at.step_id, step.as_) if name}
        yield from self._ways(step, at.row, span, judged, _After(more, at.battery))

    def _sum(self, at: Standing) -> tuple[Span, Judged] | str:
        values = at.values(self._judge.vehicle)
        try:
            span = self._judge.worked_out(at.step_id, values)
        except CannotWorkOut as error:
            return str(error)
        except KeyError as error:
            return f"{error.args[0]} is not known"
        return span, self._judge.judge(at.step_id, span, values)

    def _observed(self, at: Standing, step: Observe, row: int) -> Iterator[Turn]:
        seen = self._bench.known((at.step_id, at.fitted))
        assert isinstance(seen, Seen)
        may_be = [o for o, may in zip(step.outcomes, seen.may_be[:, row], strict=True) if may]
        if not may_be:
            target = _unless_again(step.implausible.go)
            yield Turn(row, "none of these", target, battery=at.battery)
        for outcome in may_be:
            yield Turn(row, outcome.name, outcome.go, battery=at.battery)


def referred_to(tree: Tree) -> frozenset[str]:
    """Steps whose reading some other step uses, by the step's name or by one it gives."""
    banded = {i: s for i, s in tree.steps.items() if isinstance(s, Measure | WorkOut)}
    used: set[str] = set()
    for step_id, step in banded.items():
        used |= step.names_used - {step_id}
    return frozenset(i for i, step in banded.items() if i in used or step.as_ in used)


def _unless_again(target: str) -> str:
    return "" if target == AGAIN else target


def _merged(turns: Iterable[Turn]) -> list[Turn]:
    """Turns to one target as one, where nothing later depends on which it was."""
    by_target: dict[str, Turn] = {}
    for turn in turns:
        first = by_target.get(turn.target)
        if first is None:
            by_target[turn.target] = turn
        elif turn.way not in first.way:
            by_target[turn.target] = replace(first, way=f"{first.way} or {turn.way}")
    return list(by_target.values())
