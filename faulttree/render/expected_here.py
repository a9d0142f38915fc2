"""What a step of the walk would read on this car, band by band: healthy, and under each fault."""

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass
from functools import cached_property

from faulttree.core.bench.suspects import Form, Suspect
from faulttree.core.circuit.attached import Flag
from faulttree.core.figures import show
from faulttree.core.proof.expected import Expected
from faulttree.core.tree import Band, Measure, Observe, Outcome, WorkOut
from faulttree.core.units import UnitSystem
from faulttree.core.walk.state import WalkState
from faulttree.render.line import Line
from faulttree.render.proof_words import Words
from faulttree.render.scale import SIGNS

_FLAGS = {
    Flag.FUSE_BLOWN: "a fuse blows",
    Flag.UNSTABLE: "swings",
    Flag.FLOATING: "nothing holds the wire",
    Flag.METER_FUSE: "the meter's own fuse blows",
}
"""What is said beside a number, or in place of one."""


def expected_lines(state: WalkState, step_id: str, found: Sequence[Expected]) -> list[Line]:
    """The readings of a step: the healthy car, then each band with the faults that fall into it.

    Faults that read as a healthy car does, within the instrument's error, come last: this step
    cannot find them.
    """
    step = state.tree.steps[step_id]
    if isinstance(step, Observe):
        return list(_Sights(step, tuple(found), state.units).lines())
    assert isinstance(step, Measure | WorkOut)
    words = Words(state.tree, state.instruments, state.units)
    return list(_Readings(step_id, step, tuple(found), words).lines())


@dataclass(frozen=True)
class _Sights:
    """What is seen at an `observe` step."""

    step: Observe
    found: tuple[Expected, ...]
    units: UnitSystem

    def lines(self) -> Iterator[Line]:
        """Healthy, each outcome with the faults that show it, and the faults that look healthy."""
        if all(len(e.outcomes) == len(self.step.outcomes) for e in self.found):
            yield Line("Note", "What is seen here is nothing that the circuit model can tell.")
            return
        seen = dict.fromkeys(self._name(e.outcomes) for e in self.found if e.row.suspect is None)
        yield Line("Healthy", "; ".join(seen))
        same, other = _split(self.found, lambda e, healthy: e.outcomes == healthy.outcomes)
        for outcomes in sorted({e.outcomes for e in other}):
            there = [e for e in other if e.outcomes == outcomes]
            yield Line(self._name(outcomes), _listed(there, self.found, self.units), "label")
        yield from _like_healthy(same, self.found, self.units)
        yield from _notes(other)

    def _name(self, outcomes: Iterable[int]) -> str:
        return _either(self.step.outcomes, outcomes)


@dataclass(frozen=True)
class _Readings:
    """What is read at a `measure` step, or worked out."""

    step_id: str
    step: Measure | WorkOut
    found: tuple[Expected, ...]
    words: Words

    def lines(self) -> Iterator[Line]:
        """Healthy, each band with its faults, and the faults that read as healthy."""
        yield Line("Healthy", self._healthy())
        same, other = _split(self.found, _reads_alike)
        for places in self._places(other):
            yield Line(self._head(places), self._limits(places), "label")
            there = [e for e in other if e.places == places]
            for text in sorted(self._faults(there), key=lambda pair: pair[0]):
                yield Line("", f"  {text[1]}")
        yield from _like_healthy(same, self.found, self.words.units)
        yield from _notes(other)
        if any(edge.names for edge in self.step.edges):
            yield Line("Note", "Edges are those of the healthy car; with a fault they may move.")

    def _places(self, found: Iterable[Expected]) -> list[tuple[int, ...]]:
        """Every band, and what faults may lie in besides; what lies in none comes last."""
        bands = {(i,) for i in range(len(self.step.bands))}
        return sorted(bands | {e.places for e in found}, key=lambda p: (not p, p))

    def _head(self, places: tuple[int, ...]) -> str:
        return _either(self.step.bands, places) if places else "In no band"

    def _limits(self, places: tuple[int, ...]) -> str:
        if not places:
            return "outside what this point can show, or not to be judged"
        if len(places) > 1:
            return "too close to call"
        edges = self._edges
        if not edges:
            return self._why_not_judged
        (band,) = places
        lower = f"from {edges[band - 1]}" if band > 0 else ""
        upper = f"below {edges[band]}" if band < len(edges) else ""
        return " ".join(part for part in (lower, upper) if part)

    @cached_property
    def _edges(self) -> list[str]:
        """The edges as on the healthy car: one value each, or a range over the batteries."""
        judged = [e.judged for e in self.found if e.row.suspect is None and e.judged]
        columns = zip(*(j.edges for j in judged), strict=True)
        values = ([edge.value for edge in column] for column in columns)
        return [self.words.between(min(v), max(v), 0.0, self.step_id) for v in values]

    @property
    def _why_not_judged(self) -> str:
        troubles = (e.judged.trouble for e in self.found if e.judged)
        return next((f"not judged: {trouble}" for trouble in troubles if trouble), "not judged")

    def _healthy(self) -> str:
        healthy = [e for e in self.found if e.row.suspect is None]
        told = [(self._reading(e), self._head(e.places), e.row.supply) for e in healthy]
        if len(told) == 1:
            return f"{told[0][0]}: {told[0][1]}"
        return "; ".join(f"{reading} ({supply}): {band}" for reading, band, supply in told)

    def _reading(self, each: Expected) -> str:
        if each.span is None:
            return _said(each.flags) or "no number"
        return self.words.reading(each.span, self.step_id)

    def _faults(self, found: Iterable[Expected]) -> Iterator[tuple[float, str]]:
        """The faults that lie in one place: lowest value to sort by, and name with numbers."""
        for suspect, there in _by_suspect(found):
            sizes = _by_form(there)
            told = [(self._between(each), form) for form, each in sizes]
            texts = dict.fromkeys(text for text, _ in told)
            if len(texts) == 1 and len(sizes) == len(suspect.forms):
                numbers = next(iter(texts))
            else:
                numbers = ", ".join(f"{text}{_size(f, self.words.units)}" for text, f in told)
            lowest = min((e.span.low.value for e in there if e.span), default=float("inf"))
            yield lowest, f"{suspect.words}: {numbers}"

    def _between(self, found: Sequence[Expected]) -> str:
        """The numbers of one fault of one size, over the batteries."""
        spans = [e.span for e in found if e.span]
        flags = _said(*(e.flags for e in found))
        if not spans:
            return flags or "no number"
        low, high = min(s.low.value for s in spans), max(s.high.value for s in spans)
        number = self.words.between(low, high, 0.0, self.step_id)
        return f"{number}, {flags}" if flags else number


def _either(choices: Sequence[Band | Outcome], places: Iterable[int]) -> str:
    """Bands or outcomes with their signs: `! no feed or ! weak feed`."""
    return " or ".join(f"{SIGNS[choices[i].is_]} {choices[i].name}" for i in places)


def _split(
    found: Sequence[Expected], alike: "_Alike"
) -> tuple[list[Expected], list[Expected]]:
    """Cars with a fault: those that are like the healthy one at the same battery, and the rest."""
    healthy = {e.row.supply: e for e in found if e.row.suspect is None}
    same: list[Expected] = []
    other: list[Expected] = []
    for each in found:
        if each.row.suspect is not None:
            (same if alike(each, healthy[each.row.supply]) else other).append(each)
    return same, other
