"""What one step would read: on a healthy car, and under every fault, with the bands beside it."""

from collections.abc import Iterable, Iterator
from dataclasses import dataclass

from faulttree.core.bench.bench import Bench, Key, Seen, Shown
from faulttree.core.bench.fitted import Fitted
from faulttree.core.bench.suspects import Row
from faulttree.core.expression_values import Values
from faulttree.core.proof.judged import Judge, Judged, Span
from faulttree.core.tree import BATTERY_VOLTAGE, Measure, Observe, WorkOut
from faulttree.core.uncertain import CannotWorkOut, Uncertain


@dataclass(frozen=True, slots=True)
class Expected:
    """What a step shows on one car.

    Attributes:
        index, row: the car on the bench.
        span: the reading with the instrument's error; None where nothing is read, or no number is.
        judged: the bands it may lie in; None where nothing is read.
        outcomes: for `observe`, what may be seen, by index.
        flags: what must be said beside the number; sums of circuit.attached.Flag.
    """

    index: int
    row: Row
    span: Span | None = None
    judged: Judged | None = None
    outcomes: tuple[int, ...] = ()
    flags: int = 0

    @property
    def places(self) -> tuple[int, ...]:
        """Indexes of the bands or outcomes it may lie in."""
        return self.outcomes or (self.judged.bands if self.judged else ())


def expected_at(
    bench: Bench, judge: Judge, step_id: str, fitted: Fitted | None = None
) -> tuple[Expected, ...]:
    """What a step shows on every car of the bench, healthy ones first.

    Earlier readings that its bands refer to are those of the same car, in the state of their own
    steps.

    Args:
        bench, judge: the tree on its bench.
        step_id: the step.
        fitted: what is fitted to the car; the least that may be where it is not said, or where the
            walk never comes to the step so.

    Raises:
        KeyError: the tree has no such step, or the step takes no reading.
    """
    keys = [key for key in bench.keys if key[0] == step_id]
    least = keys[0] if keys else (step_id, frozenset())
    key = next((k for k in keys if k[1] == fitted), least)
    step = bench.tree.steps[step_id]
    if isinstance(step, Measure | WorkOut):
        return tuple(_Readings(bench, judge).expected(key, index) for index in _indexes(bench))
    if isinstance(step, Observe):
        seen = bench.shown(key)
        assert isinstance(seen, Seen)
        return tuple(
            Expected(i, bench.rows[i], outcomes=_true(seen.may_be[:, i].tolist()))
            for i in _indexes(bench)
        )
    raise KeyError(f"{step_id} takes no reading")


def _indexes(bench: Bench) -> range:
    return range(len(bench.rows))


def _true(flags: Iterable[bool]) -> tuple[int, ...]:
    return tuple(i for i, flag in enumerate(flags) if flag)


class _Readings:
    """Readings of one car at any step, worked out as they are asked for."""

    def __init__(self, bench: Bench, judge: Judge) -> None:
        self._bench, self._judge = bench, judge
        self._keys = {step_id: (step_id, fitted) for step_id, fitted in reversed(bench.keys)}

    def expected(self, key: Key, index: int) -> Expected:
        """What a measure or work-out step shows on a car."""
        row, flags = self._bench.rows[index], 0
        if isinstance(self._bench.tree.steps[key[0]], Measure):
            self._keys[key[0]] = key
        shown = self._shown(key[0])
        if shown is not None:
            flags = int(shown.flags[index])
        try:
            span = self._span(key[0], index, ())
            if span is None:
                return Expected(index, row, flags=flags)
            values = self._values(key[0], index, ())
        except (CannotWorkOut, KeyError):
            return Expected(index, row, flags=flags)
        judged = self._judge.judge(key[0], span, values)
        return Expected(index, row, span, judged, flags=flags)

    def _shown(self, step_id: str) -> Shown | None:
        key = self._keys.get(step_id)
        found = self._bench.shown(key) if key else None
        return found if isinstance(found, Shown) else None

    def _span(self, step_id: str, index: int, within: tuple[str, ...]) -> Span | None:
        if isinstance(self._bench.tree.steps[step_id], WorkOut):
            return self._judge.worked_out(step_id, self._values(step_id, index, within))
        shown = self._shown(step_id)
        if shown is None:
            return None
        return self._judge.span(step_id, float(shown.low[index]), float(shown.high[index]))

    def _values(self, step_id: str, index: int, within: tuple[str, ...]) -> Values:
        step = self._bench.tree.steps[step_id]
        assert isinstance(step, Measure | WorkOut)
        found = dict(self._judge.vehicle)
        for name in step.names_used - set(within) - {step_id}:
            value = self._value(name, step_id, index, (*within, step_id))
            if value is not None:
                found[name] = value
        return found

    def _value(
        self, name: str, step_id: str, index: int, within: tuple[str, ...]
    ) -> Uncertain | None:
        if name == BATTERY_VOLTAGE:
            return self._battery(step_id, index)
        for source in self._sources(name):
            span = self._span(source, index, within)
            if span is not None:
                return span.value
        return None

    def _sources(self, name: str) -> Iterator[str]:
        """The steps that give a name."""
        steps = self._bench.tree.steps
        if name in steps:
            yield name
        for step_id, step in steps.items():
            if isinstance(step, Measure | WorkOut) and step.as_ == name:
                yield step_id

    def _battery(self, step_id: str, index: int) -> Uncertain | None:
        """The posts in the state of the step; for a sum, in the state of its first reading."""
        step = self._bench.tree.steps[step_id]
        at = step_id
        if isinstance(step, WorkOut):
            names = sorted(step.names_used - {BATTERY_VOLTAGE})
            sources = (source for name in names for source in self._sources(name))
            at = next((s for s in sources if self._shown(s) is not None), "")
        shown = self._shown(at)
        if shown is None:
            return None
        low, high = float(shown.posts_low[index]), float(shown.posts_high[index])
        posts = self._judge.posts(at, low, high)
        return posts.value if posts else None
