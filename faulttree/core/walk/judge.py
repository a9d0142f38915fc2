"""A reading against the bands of its step: which band, how surely, and may it clear anything."""

import math
from collections.abc import Iterable
from contextlib import suppress
from dataclasses import dataclass

from faulttree.core.bands import Placement, place
from faulttree.core.expression import Expression
from faulttree.core.expression_values import Values
from faulttree.core.instruments import Instrument, measured
from faulttree.core.reading import Entry
from faulttree.core.tree import Band, Measure, WorkOut
from faulttree.core.uncertain import CannotWorkOut, Uncertain
from faulttree.core.walk.events import (
    BandDecided,
    ReadingTaken,
    Reference,
    WorkedOut,
)
from faulttree.core.walk.state import WalkState

Banded = Measure | WorkOut


@dataclass(frozen=True, slots=True)
class Judgement:
    """A value and where it lies.

    Attributes:
        value: the reading with its error [SI]; None when it could not be worked out.
        edges: the edges it was judged by [SI]; empty when they could not be worked out.
        placement: where it lies; None without a value or edges.
        implausible: outside what the point can show, and kept nevertheless.
        decided: name of the band the technician gave a reading too close to call; it counts as
            long as the error reaches that band.
        trouble: why there is no placement, in plain words.
    """

    value: Uncertain | None
    edges: tuple[Uncertain, ...] = ()
    placement: Placement | None = None
    implausible: bool = False
    decided: str | None = None
    trouble: str = ""

    def band(self, step: Banded) -> Band | None:
        """The band that counts, or None while it is open."""
        if self.placement is None or self.implausible:
            return None
        decided = next((b for b in self.reached(step) if b.name == self.decided), None)
        if decided is not None:
            return decided
        if self.placement.is_clear or self.all_lead_alike(step):
            return step.bands[self.placement.nominal]
        return None

    def reached(self, step: Banded) -> tuple[Band, ...]:
        """All bands that the error reaches."""
        if self.placement is None:
            return ()
        return tuple(step.bands[i] for i in self.placement.reached)

    def all_lead_alike(self, step: Banded) -> bool:
        """True when the bands reached say and lead the same, so that the error does not matter."""
        return len({(b.go, b.is_) for b in self.reached(step)}) == 1

    def is_too_close(self, step: Banded) -> bool:
        """True when the error reaches over an edge that matters."""
        return self.placement is not None and not self.implausible and self.band(step) is None


def judge(state: WalkState, step: Banded, answer: ReadingTaken | WorkedOut) -> Judgement:
    """Judge a recorded reading or a worked-out value by the references it was taken with."""
    values = reference_values(state, references_of(state, step, answer))
    decision = state.decisions.get(answer.seq)
    decided = decision.band if isinstance(decision, BandDecided) else None
    if isinstance(answer, ReadingTaken):
        value = _as_read(state, answer)
        kept = answer.kept_though_implausible
    else:
        assert isinstance(step, WorkOut)
        try:
            value = step.value.evaluator(step.quantity, state.tree.quantities)(values)
        except CannotWorkOut as error:
            return Judgement(None, trouble=str(error))
        kept = not is_plausible(state, step, value.value, values)
    return judge_value(state, step, value, values, kept, decided)


def judge_value(
    state: WalkState,
    step: Banded,
    value: Uncertain,
    values: Values,
    implausible: bool = False,
    decided: str | None = None,
) -> Judgement:
    """Judge a value by given references."""
    try:
        edges = tuple(_evaluate(state, step, edge, values) for edge in step.edges)
    except CannotWorkOut as error:
        return Judgement(value, implausible=implausible, trouble=str(error))
    return Judgement(value, edges, place(value, edges), implausible, decided)


def is_plausible(state: WalkState, step: Banded, value: float, values: Values) -> bool:
    """True when the point can show this value; an open circuit can always be shown."""
    if math.isinf(value):
        return True
    try:
        low = _evaluate(state, step, step.plausible.from_, values).value
        high = _evaluate(state, step, step.plausible.below, values).value
    except CannotWorkOut:
        return True
    return low <= value < high


def value_of(state: WalkState, seq: int) -> Uncertain:
    """The value of a recorded reading, as changed since if it was."""
    event, _ = state.readings[state.in_force(seq)]
    if isinstance(event, ReadingTaken):
        return _as_read(state, event)
    step = state.tree.steps[event.step]
    assert isinstance(step, WorkOut)
    values = reference_values(state, references_of(state, step, event))
    return step.value.evaluator(step.quantity, state.tree.quantities)(values)


def _as_read(state: WalkState, event: ReadingTaken) -> Uncertain:
    """The value of one reading, whether it was changed since or not."""
    return measured(entry_of(event), instrument_of(state, event.seq), str(event.seq))


def instrument_of(state: WalkState, seq: int) -> Instrument | None:
    """What a reading was taken with."""
    return state.readings[seq][1]


def reference_values(state: WalkState, references: Iterable[Reference]) -> Values:
    """The values a reading is judged by: vehicle data, and earlier readings as they stand now."""
    values = dict(state.vehicle_data)
    for reference in references:
        with suppress(CannotWorkOut, KeyError):
            values[reference.name] = value_of(state, reference.seq)
    return values


def references_for(state: WalkState, names: Iterable[str]) -> tuple[Reference, ...]:
    """The readings that a new answer would be judged by."""
    return tuple(
        Reference(name=name, seq=state.latest[name])
        for name in sorted(names)
        if name in state.latest and name not in state.vehicle_values
    )


def references_of(
    state: WalkState, step: Banded, answer: ReadingTaken | WorkedOut
) -> tuple[Reference, ...]:
    """What an answer is judged by: the references it was taken with.

    A name that had no value then and has one now, because a skipped step was done after all,
    counts as it stands now.
    """
    names = step.names_used - {answer.step}
    return (*references_for(state, names), *answer.references)


def entry_of(event: ReadingTaken) -> Entry:
    """The typed reading of an event."""
    value = math.inf if event.value == "OL" else float(event.value)
    return Entry(event.quantity, value, event.digit, event.text, event.unit)


def _evaluate(state: WalkState, step: Banded, expression: Expression, values: Values) -> Uncertain:
    return expression.evaluator(step.quantity, state.tree.quantities)(values)
