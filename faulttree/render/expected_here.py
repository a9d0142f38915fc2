"""What a step of the walk would read on this car, band by band: healthy, and under each fault."""

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass
from functools import cached_property
from math import inf

from faulttree.core.figures import show
from faulttree.core.proof.expected import Expected
from faulttree.core.tree import Band, Measure, Observe, Outcome, WorkOut
from faulttree.core.units import UnitSystem
from faulttree.core.walk.state import WalkState
from faulttree.render.faults_here import (
    Cars,
    by_form,
    by_suspect,
    closing_lines,
    named,
    said,
    size,
    split,
)
from faulttree.render.line import Line
from faulttree.render.proof_words import Words
from faulttree.render.scale import SIGNS

_NO_NUMBER = "no number"


def expected_lines(state: WalkState, step_id: str, cars: Cars) -> list[Line]:
    """The readings of a step: the healthy car, then each band with the faults that fall into it.

    Faults that read as a healthy car does, within the instrument's error, come last: this step
    cannot find them.

    Args:
        state: the walk.
        step_id: a step that reads or shows something.
        cars: what it shows on every car of the bench.
    """
    step = state.tree.steps[step_id]
    if isinstance(step, Observe):
        return list(_sights(step, cars, state.units))
    assert isinstance(step, Measure | WorkOut)
    words = Words(state.tree, state.instruments, state.units)
    return list(_Readings(step_id, step, cars, words).lines())


def _sights(step: Observe, cars: Cars, units: UnitSystem) -> Iterator[Line]:
    """What is seen: healthy, each outcome with its faults, and the faults that look healthy."""
    if all(len(car.outcomes) == len(step.outcomes) for car in cars):
        yield Line("Note", "The circuit model cannot tell what is seen here.")
        return
    seen = dict.fromkeys(_either(step.outcomes, car.outcomes) for car in _healthy(cars))
    yield Line("Healthy", "; ".join(seen))
    alike, other = split(cars, lambda car, healthy: car.outcomes == healthy.outcomes)
    for outcomes in sorted({car.outcomes for car in other}):
        there = [car for car in other if car.outcomes == outcomes]
        yield Line(_either(step.outcomes, outcomes), named(there, units))
    yield from closing_lines(alike, other, units)


@dataclass(frozen=True)
class _Readings:
    """What is read at a `measure` step, or worked out at a `work-out` step."""

    step_id: str
    step: Measure | WorkOut
    cars: Cars
    words: Words

    def lines(self) -> Iterator[Line]:
        """Healthy, each band with its faults, and the faults that read as healthy."""
        if not any(car.span for car in _healthy(self.cars)):
            yield Line("Note", "The circuit model gives no number here.")
            return
        yield Line("Healthy", self._on_healthy_cars())
        alike, other = split(self.cars, _reads_alike)
        for places in self._places(other):
            yield Line(self._head(places) if places else "In no band", self._limits(places))
            for numbers, there in self._by_numbers(c for c in other if c.places == places):
                yield Line("", f"  {numbers}: {named(there)}")
        yield from closing_lines(alike, other, self.words.units)
        if any(edge.names for edge in self.step.edges):
            yield Line("Note", "Edges are those of the healthy car; under a fault they may move.")

    def _on_healthy_cars(self) -> str:
        """The reading and its band; with each battery where they differ."""
        told: dict[str, list[str]] = {}
        for car in _healthy(self.cars):
            reading = self.words.reading(car.span, self.step_id) if car.span else _NO_NUMBER
            told.setdefault(f"{reading}: {self._head(car.places)}", []).append(car.row.supply)
        if len(told) == 1:
            return next(iter(told))
        return "; ".join(f"{', '.join(batteries)} {text}" for text, batteries in told.items())

    def _places(self, cars: Cars) -> list[tuple[int, ...]]:
        """Every band, and what cars may lie in besides; what lies in none comes last."""
        bands = {(i,) for i in range(len(self.step.bands))}
        return sorted(bands | {car.places for car in cars}, key=lambda p: (not p, p))

    def _head(self, places: tuple[int, ...]) -> str:
        return _either(self.step.bands, places) if places else "in no band"

    def _limits(self, places: tuple[int, ...]) -> str:
        if len(places) > 1:
            return "too close to call"
        if not places:
            return self._why_in_none
        (band,) = places
        lower = f"from {self._edges[band - 1]}" if band > 0 else ""
        upper = f"below {self._edges[band]}" if band < len(self._edges) else ""
        return " ".join(part for part in (lower, upper) if part)

    @cached_property
    def _edges(self) -> list[str]:
        """The edges as on the healthy car, with both ends where the batteries move one; as they
        are written where something is not known yet."""
        judged = [car.judged.edges for car in _healthy(self.cars) if car.judged]
        if not all(judged):
            return [edge.text for edge in self.step.edges]
        columns = ([edge.value for edge in column] for column in zip(*judged, strict=True))
        return [self._range(min(values), max(values), "–") for values in columns]

    @property
    def _why_in_none(self) -> str:
        judged = [car.judged for car in self.cars if car.judged and not car.places]
        troubles = (j.trouble for j in judged if not j.is_implausible)
        return next(troubles, "outside what this point can show")

    def _by_numbers(self, cars: Iterable[Expected]) -> list[tuple[str, list[Expected]]]:
        """Faults that show the same numbers together, the least numbers first."""
        found: dict[str, list[Expected]] = {}
        for suspect, there in by_suspect(cars):
            forms = [
                (self._number(form_cars), size(form, self.words.units))
                for form, form_cars in by_form(there)
            ]
            numbers = list(dict.fromkeys(number for number, _ in forms))
            if len(numbers) > 1 or len(forms) < len(suspect.forms):
                numbers = [f"{number} ({big})" if big else number for number, big in forms]
            found.setdefault(", ".join(numbers), []).extend(there)
        return sorted(found.items(), key=lambda item: min(map(_least, item[1])))

    def _number(self, cars: Cars) -> str:
        """The numbers of one fault of one size, over the batteries."""
        spans, flags = [car.span for car in cars if car.span], said(cars)
        if not spans:
            return flags or _NO_NUMBER
        number = self._range(min(s.low.value for s in spans), max(s.high.value for s in spans))
        return f"{number}, {flags}" if flags else number

    def _range(self, low: float, high: float, to: str = " to ") -> str:
        """One number, or two where it moves, in the few digits that a person looks for."""
        units = self.words.units
        first, last = (show(value, self.step.quantity, units) for value in (low, high))
        if first == last:
            return first
        number, _, unit = first.rpartition(" ")
        is_one_unit = units is not UnitSystem.BOTH and number and last.endswith(f" {unit}")
        return f"{number if is_one_unit else first}{to}{last}"


def _healthy(cars: Cars) -> list[Expected]:
    return [car for car in cars if car.row.suspect is None]


def _least(car: Expected) -> float:
    return car.span.low.value if car.span else inf


def _either(choices: Sequence[Band | Outcome], places: Iterable[int]) -> str:
    """Bands or outcomes with their signs: `! no feed or ! weak feed`."""
    return " or ".join(f"{SIGNS[choices[i].is_]} {choices[i].name}" for i in places)


def _reads_alike(car: Expected, healthy: Expected) -> bool:
    """Whether the instrument's error leaves open which of the two is measured."""
    if car.span is None or healthy.span is None or car.places != healthy.places:
        return car.span is healthy.span and car.flags == healthy.flags
    pairs = ((car.span.low, healthy.span.low), (car.span.high, healthy.span.high))
    return all(a.value == b.value or abs(a.value - b.value) <= b.radius for a, b in pairs)
