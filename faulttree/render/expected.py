"""What a step would read, band by band: the healthy car, and every fault where it would lie."""

from collections.abc import Callable, Iterable, Iterator, Sequence
from dataclasses import dataclass

from faulttree.core.bench.suspects import Suspect
from faulttree.core.proof.expected import Expected
from faulttree.core.tree import Band, Measure, Observe, Outcome, WorkOut
from faulttree.render.faults_here import said
from faulttree.render.page import column, wrapped
from faulttree.render.proof_words import Words, cars_among
from faulttree.render.scale import SIGNS

HEALTHY = "healthy"
_WIDEST_READING = 28
_NO_NUMBER = "no number"


@dataclass(frozen=True, slots=True)
class _Entry:
    """Cars of one fault that lie alike: a reading in words, what is said of it, whose it is."""

    lowest: float
    reading: str
    says: str
    name: str

    @property
    def order(self) -> tuple[float, str, str, bool]:
        """From low to high; of equal readings the healthy car's first."""
        return self.lowest, self.reading, self.says, self.name != HEALTHY


def expected_text(
    step_id: str, cars: Sequence[Expected], words: Words, days: Iterable[str] = ()
) -> str:
    """What a step shows on every car of the bench, one line feed at the end.

    Args:
        step_id: a measure, work-out or observe step.
        cars: what it shows on each car.
        words: how the things of the tree are written.
        days: lines that tell the weather it holds for.
    """
    step = words.tree.steps[step_id]
    assert isinstance(step, Measure | WorkOut | Observe)
    told = (line for day in days for line in wrapped(day, "  ", "    "))
    lines = [*_head(step_id, step, words), *told, *_Blocks(step_id, step, cars, words).lines()]
    return "".join(f"{line}\n" for line in lines)


def _head(step_id: str, step: Measure | WorkOut | Observe, words: Words) -> Iterator[str]:
    yield from wrapped(f"{step_id}: {words.title(step_id)}", "", "  ")
    if isinstance(step, WorkOut):
        yield from wrapped(f"worked out: {words.text(step.value.text)}", "  ", "    ")
    else:
        yield from wrapped("; ".join(_how(step, words)), "  ", "    ")


def _how(step: Measure | Observe, words: Words) -> Iterator[str]:
    """Instrument, leads and state of the car, as far as the step says them."""
    if step.with_:
        yield words.text(step.with_.words)
    for label, text in (("red", step.red_lead), ("black", step.black_lead), ("at", step.at)):
        if text:
            yield f"{label}: {words.filled(text)}"
    if step.set_up.key:
        yield f"key {step.set_up.key}"
    yield f"engine {step.set_up.engine.words}"
    for text in (step.set_up.load, step.set_up.connector, step.set_up.other):
        if text:
            yield words.filled(text)


class _Blocks:
    """The bands or outcomes of a step, each with the cars that may lie in it."""

    def __init__(
        self,
        step_id: str,
        step: Measure | WorkOut | Observe,
        cars: Sequence[Expected],
        words: Words,
    ) -> None:
        self._step_id, self._step, self._cars, self._words = step_id, step, cars, words
        self._choices: Sequence[Band | Outcome]
        self._choices = step.outcomes if isinstance(step, Observe) else step.bands
        self._of: dict[str, list[Expected]] = {}
        for car in cars:
            self._of.setdefault(_id(car.row.suspect), []).append(car)

    def lines(self) -> Iterator[str]:
        """Every band with its cars, then what lies in none."""
        if all(len(car.outcomes) == len(self._choices) for car in self._cars):
            yield ""
            yield "The circuit cannot tell what is seen here; a proof follows every answer."
            return
        yield from wrapped(f"{HEALTHY}: {'; '.join(self._healthy())}", "  ", "    ")
        for index, choice in enumerate(self._choices):
            yield ""
            head = f"{self._name(index)}{self._limits(index)} -> {choice.go}"
            yield from wrapped(head, "", "  ")
            yield from self._block(lambda car, index=index: index in car.places, index)  # type: ignore[misc]
        if any(not car.places for car in self._cars):
            yield ""
            yield from wrapped(self._nowhere(), "", "  ")
            yield from self._block(lambda car: not car.places, None)

    def _block(self, belongs: Callable[[Expected], bool], index: int | None) -> Iterator[str]:
        entries = sorted(self._entries(belongs, index), key=lambda e: e.order)
        if not entries:
            yield "  no car"
        rows: dict[tuple[str, str], list[str]] = {}
        for entry in entries:
            rows.setdefault((entry.reading, entry.says), []).append(entry.name)
        width = column((reading for reading, _ in rows), _WIDEST_READING)
        for (reading, says), names in rows.items():
            listed = ", ".join(names)
            yield from _row(reading, f"{says}: {listed}" if says else listed, width)

    def _entries(self, belongs: Callable[[Expected], bool], index: int | None) -> Iterator[_Entry]:
        for name, everyone in self._of.items():
            by_places: dict[tuple[int, ...], list[Expected]] = {}
            for car in filter(belongs, everyone):
                by_places.setdefault(car.places, []).append(car)
            for places, some in by_places.items():
                where = cars_among((c.row for c in some), [c.row for c in everyone])
                others = [self._name(i) for i in places if i != index]
                told = ", ".join(part for part in (where, *(f"or {o}" for o in others)) if part)
                lowest = min((c.span.low.value for c in some if c.span), default=float("-inf"))
                says = "" if isinstance(self._step, Observe) else said(some)
                text = f"{name} ({told})" if told else name
                yield _Entry(lowest, self._reading(some), says, text)

    def _reading(self, cars: Sequence[Expected]) -> str:
        """One number, or two limits, with the error; empty for what is seen."""
        if isinstance(self._step, Observe):
            return ""
        spans = [car.span for car in cars if car.span]
        if not spans:
            return _NO_NUMBER
        low, high = min(s.low.value for s in spans), max(s.high.value for s in spans)
        radius = max(max(s.low.radius, s.high.radius) for s in spans)
        return self._words.between(low, high, radius, self._step_id)

    def _healthy(self) -> Iterator[str]:
        """What the healthy car shows, where that lies, and on which battery if it matters."""
        found: dict[str, list[str]] = {}
        for car in self._of[HEALTHY]:
            places = " or ".join(self._name(i) for i in car.places) or "in no band"
            parts = (self._reading([car]), said([car]), places)
            found.setdefault(": ".join(filter(None, parts)), []).append(car.row.supply)
        for text, supplies in found.items():
            is_whole = len(found) == 1 and len(supplies) > 1
            yield text if is_whole else f"{text} ({', '.join(supplies)})"

    def _name(self, index: int) -> str:
        choice = self._choices[index]
        return f"{SIGNS[choice.is_]} {self._words.text(choice.name)}"

    def _limits(self, index: int) -> str:
        """`: from 1 V, below 11.9 V`; an edge that moves with the car as it is written, too."""
        if isinstance(self._step, Observe):
            return ""
        lower = f"from {self._edge(index - 1)}" if index else ""
        upper = f"below {self._edge(index)}" if index < len(self._step.edges) else ""
        return ": " + ", ".join(part for part in (lower, upper) if part)

    def _edge(self, index: int) -> str:
        assert isinstance(self._step, Measure | WorkOut)
        values = [c.judged.edges[index].value for c in self._cars if c.judged and c.judged.edges]
        written = self._words.text(self._step.edges[index].text)
        if not values:
            return written
        low, high = (self._words.value(v, self._step_id) for v in (min(values), max(values)))
        numbers = low if low == high else f"{low} to {high}"
        return f"{written} ({numbers})" if not self._step.edges[index].is_fixed else numbers

    def _nowhere(self) -> str:
        if isinstance(self._step, Observe):
            return "None of these"
        troubles = (c.judged.trouble for c in self._cars if c.judged and not c.places)
        why = ", ".join(dict.fromkeys(self._words.text(t) for t in troubles if t))
        return f"In no band{f': {why}' if why else ''}"


def _row(reading: str, listed: str, width: int) -> Iterator[str]:
    if not reading:
        yield from wrapped(listed, "  ")
    elif len(reading) <= width:
        yield from wrapped(listed, f"  {reading:<{width}}  ")
    else:
        yield from wrapped(reading, "  ")
        yield from wrapped(listed, " " * (width + 4))


def _id(suspect: Suspect | None) -> str:
    return suspect.id if suspect else HEALTHY
