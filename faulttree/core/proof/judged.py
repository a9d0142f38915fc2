"""Computed readings as an instrument would give them, against the bands of their step."""

import math
from collections.abc import Mapping
from dataclasses import dataclass, field

from faulttree.core.bands import gap, place
from faulttree.core.expression import Expression
from faulttree.core.expression_values import Evaluate, Values
from faulttree.core.instruments import Instrument, InstrumentClass, read_in_full
from faulttree.core.tree import Measure, Tree, WorkOut
from faulttree.core.uncertain import CannotWorkOut, Uncertain
from faulttree.core.units import Quantity


@dataclass(frozen=True, slots=True)
class Span:
    """A computed reading: all values between two limits, each with the instrument's error.

    Attributes:
        low, high: the limits; the same unless the reading swings.
    """

    low: Uncertain
    high: Uncertain

    @property
    def value(self) -> Uncertain:
        """The whole span as one value, for sums."""
        if self.low is self.high or math.isinf(self.high.value):
            return self.high
        half = (self.high.value - self.low.value) / 2
        return Uncertain(self.low.value + half, self.high.terms, self.high.rest + half)


@dataclass(frozen=True, slots=True)
class Margin:
    """How far a reading lies from an edge that leads another way.

    Attributes:
        edge: index of the edge; the band above it is edge + 1.
        gap: distance [SI].
        radius: limit of error of that distance [SI].
    """

    edge: int
    gap: float
    radius: float

    @property
    def sigmas(self) -> float:
        """The distance in standard uncertainties.

        A limit of error is taken as a rectangular distribution, whose standard uncertainty is the
        limit over the square root of three. Source: JCGM 100:2008, 4.3.7.
        """
        return math.inf if self.radius == 0 else abs(self.gap) / (self.radius / math.sqrt(3))

    @property
    def is_within_error(self) -> bool:
        """Whether the error reaches over the edge."""
        return abs(self.gap) < self.radius


@dataclass(frozen=True, slots=True)
class Judged:
    """Where a reading may lie.

    Attributes:
        bands: every band that it may belong to, from low to high; none where it is implausible or
            could not be judged.
        edges: the edges [SI].
        margins: distance from the edges that lead another way.
        trouble: why there is no band.
        is_implausible: outside what the step calls plausible.
    """

    bands: tuple[int, ...]
    edges: tuple[Uncertain, ...] = ()
    margins: tuple[Margin, ...] = ()
    trouble: str = ""
    is_implausible: bool = False


class Judge:
    """Readings and bands of one tree, with the instruments that are used."""

    def __init__(
        self, tree: Tree, vehicle: Values, instruments: Mapping[InstrumentClass, Instrument]
    ) -> None:
        self.tree, self.vehicle, self._instruments = tree, dict(vehicle), instruments
        self._compiled = {
            step_id: _Compiled.of(tree, step)
            for step_id, step in tree.steps.items()
            if isinstance(step, Measure | WorkOut)
        }

    def span(self, step_id: str, low: float, high: float) -> Span | None:
        """A reading of a step [SI]; None where there is no number."""
        step = self.tree.steps[step_id]
        assert isinstance(step, Measure)
        return self._span(step.quantity, step.with_, low, high, step_id)

    def posts(self, at_step: str, low: float, high: float) -> Span | None:
        """A battery voltage read at a step [V]; None where there is no number."""
        name = f"battery at {at_step}"
        return self._span(Quantity.VOLTAGE, InstrumentClass.METER, low, high, name)

    def _span(
        self, quantity: Quantity, kind: InstrumentClass, low: float, high: float, name: str
    ) -> Span | None:
        if math.isnan(low) or math.isnan(high):
            return None
        instrument = self._instruments.get(kind)
        lower = read_in_full(quantity, low, instrument, name)
        return Span(lower, lower if high == low else read_in_full(quantity, high, instrument, name))

    def worked_out(self, step_id: str, values: Values) -> Span:
        """A worked-out value.

        Raises:
            CannotWorkOut: the sum has no answer.
        """
        compiled = self._compiled[step_id]
        assert compiled.value is not None
        found = compiled.value(values)
        return Span(found, found)

    def judge(self, step_id: str, span: Span, values: Values) -> Judged:
        """Every band that a reading may lie in."""
        compiled = self._compiled[step_id]
        try:
            window = compiled.low(values).value, compiled.high(values).value
            if not _is_plausible(span, window):
                return Judged((), trouble="implausible", is_implausible=True)
            edges = tuple(edge(values) for edge in compiled.edges)
            low = place(span.low, edges)
            high = low if span.high is span.low else place(span.high, edges)
        except CannotWorkOut as error:
            return Judged((), trouble=str(error))
        except KeyError as error:
            return Judged((), trouble=f"{error.args[0]} is not known")
        bands = tuple(range(min(low.lowest, high.lowest), max(low.highest, high.highest) + 1))
        return Judged(bands, edges, _margins(compiled, span, edges, window))


def _is_plausible(span: Span, window: tuple[float, float]) -> bool:
    """As in the walk: the value as read decides, and an open circuit can always be shown."""
    low, high = window
    is_open = math.isinf(span.high.value)
    return is_open or (low <= span.low.value < high and low <= span.high.value < high)


def _margins(
    compiled: "_Compiled",
    span: Span,
    edges: tuple[Uncertain, ...],
    window: tuple[float, float],
) -> tuple[Margin, ...]:
    """Distances from the edges that lead another way; those outside the window are left out."""
    limits = (span.low,) if span.low is span.high else (span.low, span.high)
    return tuple(
        Margin(index, *gap(value, edges[index]))
        for index in compiled.telling_edges
        for value in limits
        if math.isfinite(value.value) and window[0] < edges[index].value < window[1]
    )


@dataclass(frozen=True, slots=True)
class _Compiled:
    """The expressions of a step, ready to be worked out."""

    edges: tuple[Evaluate, ...]
    low: Evaluate
    high: Evaluate
    value: Evaluate | None
    telling_edges: tuple[int, ...] = field(default=())

    @classmethod
    def of(cls, tree: Tree, step: Measure | WorkOut) -> "_Compiled":
        bands = step.bands
        return cls(
            tuple(_compiled(tree, step, edge) for edge in step.edges),
            _compiled(tree, step, step.plausible.from_),
            _compiled(tree, step, step.plausible.below),
            _compiled(tree, step, step.value) if isinstance(step, WorkOut) else None,
            tuple(i for i in range(len(bands) - 1) if bands[i].go != bands[i + 1].go),
        )


def _compiled(tree: Tree, step: Measure | WorkOut, expression: Expression) -> Evaluate:
    """An expression ready to be worked out; one that is fixed is worked out once for all."""
    evaluate = expression.evaluator(step.quantity, tree.quantities)
    if not expression.is_fixed:
        return evaluate
    fixed = evaluate({})
    return lambda _values: fixed
