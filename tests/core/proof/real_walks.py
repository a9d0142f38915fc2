"""A real walk, answered with what the bench shows: the walk a technician would record."""

import math
from dataclasses import dataclass, field
from random import Random

import numpy as np
from builders import Clock, Walk

from faulttree.core.bench.bench import Bench, Key, Seen, Shown
from faulttree.core.bench.fitted import Fitted, after
from faulttree.core.bench.sights import SURELY
from faulttree.core.proof.judged import Judge, Span
from faulttree.core.tree import BATTERY_VOLTAGE, Conclude, Measure, Observe, WorkOut
from faulttree.core.units import Quantity
from faulttree.core.vehicle import VehicleSheet
from faulttree.core.walk.asks import AskKind
from faulttree.core.walk.events import Complaint
from faulttree.core.walk.results import Recorded


@dataclass
class RealWalk:
    """One car of the bench in the hands of a technician whose instruments are off at random."""

    bench: Bench
    judge: Judge
    sheet: VehicleSheet | None
    row: int
    chance: Random
    walk: Walk = field(init=False)

    def __post_init__(self) -> None:
        self.walk = Walk(tree=self.bench.tree, sheet=self.sheet, clock=Clock())
        self.walk.complaint(Complaint.PRESENT)

    def to_the_end(self) -> tuple[str, tuple[str, ...]]:
        """The conclusion whose proof holds, and the steps on the way."""
        for _ in range(400):
            at = self.walk.at
            step = self.bench.tree.steps[at.step_id]
            if not isinstance(step, Conclude):
                self._answer(at.step_id)
            elif self._stays(at.step_id):
                return at.step_id, tuple(v.step_id for v in at.path)
        raise AssertionError(f"no end: {self.walk.path}")

    def _stays(self, step_id: str) -> bool:
        """Whether the walk ends at a conclusion; its proof is recorded where it does not hold."""
        if not self.bench.has_proof(step_id):
            return True
        row = np.array([self.row])
        if int(self.bench.proof_holds(step_id, row)[self.row]) == SURELY:
            return True
        self._take("1")
        self._take("2")
        return False

    def _answer(self, step_id: str) -> None:
        ask, step = self.walk.ask, self.bench.tree.steps[step_id]
        if ask.kind in (AskKind.VEHICLE_TEXT, AskKind.VEHICLE_VALUE):
            self._take("")
        elif ask.kind is AskKind.BATTERY:
            shown = self._shown(step_id)
            span = self.judge.posts(step_id, shown.posts_low[self.row], shown.posts_high[self.row])
            self._take(self._typed(span, Quantity.VOLTAGE))
        elif ask.kind is AskKind.READING:
            assert isinstance(step, Measure)
            self._read(step_id, step)
        elif ask.kind is AskKind.TOO_CLOSE:
            self._decide(step_id)
        elif ask.kind is AskKind.OUTCOME:
            assert isinstance(step, Observe)
            self._take(self.chance.choice(self._seen(step_id, step)))
            self.walk.clock.move(step.minutes)
        else:
            assert ask.kind in (AskKind.WORKED_OUT, AskKind.DONE), ask
            self._take("1")

    def _read(self, step_id: str, step: Measure) -> None:
        """Minutes pass while a reading is taken; a battery voltage is read at their end."""
        shown = self._shown(step_id)
        span = self.judge.span(step_id, shown.low[self.row], shown.high[self.row])
        is_battery = step.as_ == BATTERY_VOLTAGE
        self.walk.clock.move(step.minutes if is_battery else 0.0)
        self._take(self._typed(span, step.quantity))
        self.walk.clock.move(0.0 if is_battery else step.minutes)

    def _shown(self, step_id: str) -> Shown:
        found = self.bench.shown(self._key(step_id), np.array([self.row]))
        assert isinstance(found, Shown)
        return found

    def _seen(self, step_id: str, step: Observe) -> list[str]:
        found = self.bench.shown(self._key(step_id), np.array([self.row]))
        assert isinstance(found, Seen)
        return [
            o.name for o, may in zip(step.outcomes, found.may_be[:, self.row], strict=True) if may
        ]

    def _key(self, step_id: str) -> Key:
        fitted: Fitted = frozenset()
        for visit in self.walk.at.path:
            if visit.label == "done":
                fitted = after(self.bench.tree, visit.step_id, fitted)
        return step_id, fitted

    def _typed(self, span: Span | None, quantity: Quantity) -> str:
        """A reading off by up to the limit of error, with more digits than any instrument shows."""
        assert span is not None
        if math.isinf(span.high.value):
            return "OL"
        low, high = span.low.value, span.high.value
        error = self.chance.choice((-1.0, 0.0, 1.0, self.chance.uniform(-1, 1)))
        value = self.chance.uniform(low, high) + 0.999 * error * span.high.radius
        if quantity is Quantity.TEMPERATURE:
            return f"{value - 273.15:.6f} C"
        return f"{value:.9f} {_UNITS[quantity]}"

    def _decide(self, step_id: str) -> None:
        """A reading too close to call is taken as it reads."""
        pending = self.walk.at.pending
        assert pending is not None
        step = self.bench.tree.steps[step_id]
        assert isinstance(step, Measure | WorkOut)
        assert pending.judgement is not None
        assert pending.judgement.placement is not None
        reached = pending.judgement.reached(step)
        nominal = step.bands[pending.judgement.placement.nominal]
        self._take(str(reached.index(nominal) + 1))

    def _take(self, text: str) -> None:
        result = self.walk.answer(text)
        if not isinstance(result, Recorded):
            result = self.walk.answer(text, confirmed=True)
        assert isinstance(result, Recorded), (text, self.walk.ask, result)


_UNITS = {
    Quantity.VOLTAGE: "V",
    Quantity.CURRENT: "A",
    Quantity.RESISTANCE: "ohm",
    Quantity.GAUGE_PRESSURE: "Pa",
    Quantity.LENGTH: "m",
    Quantity.MASS: "kg",
    Quantity.TIME: "s",
    Quantity.COUNT: "",
}
