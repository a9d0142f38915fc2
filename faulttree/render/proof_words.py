"""What a proof speaks of, in words: steps, readings, cars, shares, and what an end is worth."""

import math
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass, field

from faulttree.core.bench.suspects import Row
from faulttree.core.figures import show, show_error, show_measured
from faulttree.core.instruments import Instrument, InstrumentClass
from faulttree.core.proof.ends import Worth
from faulttree.core.proof.judged import Span
from faulttree.core.reading import Entry
from faulttree.core.texts import fill
from faulttree.core.tree import Measure, Tree, WorkOut
from faulttree.core.units import Quantity, UnitSystem, display_units
from faulttree.core.usual_instruments import one_per_class
from faulttree.render.charset import in_ascii
from faulttree.render.plain_text import safe_line

WORTH = {
    Worth.NAMED: "named",
    Worth.CLEARED: "no fault",
    Worth.UNRESOLVED: "not isolated",
    Worth.MISSED: "not detected",
    Worth.STUCK: "leads nowhere",
    Worth.FALSE_ALARM: "FALSE ALARM",
    Worth.WRONG: "WRONG",
}
"""What an end is worth, in words; what may never be in capitals."""


@dataclass(frozen=True)
class Words:
    """How the things of one tree are written.

    Attributes:
        tree: the tree.
        instruments: what is read with, for the digits it shows.
        units: the units wanted.
        only_ascii: other letters are replaced by what stands for them.
        told: what the vehicle sheet says of the names that the tree uses.
    """

    tree: Tree
    instruments: Mapping[InstrumentClass, Instrument]
    units: UnitSystem = UnitSystem.METRIC
    only_ascii: bool = False
    told: Mapping[str, str] = field(default_factory=dict)

    def text(self, text: str) -> str:
        """A text of a document, safe to show, on one line."""
        shown = safe_line(text)
        return in_ascii(shown) if self.only_ascii else shown

    def filled(self, text: str) -> str:
        """A text of the tree with its places, values and facts filled in."""
        needs = self.tree.needs
        values = {name: f"({need.ask})" for name, need in needs.values.items()}
        facts = {name: f"({need.ask})" for name, need in needs.facts.items()}
        return self.text(fill(text, {**needs.points, **values, **facts, **self.told}))

    def title(self, step_id: str) -> str:
        """A step's title."""
        return self.filled(self.tree.steps[step_id].title)

    def value(self, value: float, step_id: str) -> str:
        """A value of a step, such as an edge, without an error [SI]."""
        return self.text(show(value, self._banded(step_id).quantity, self.units))

    def reading(self, span: Span, step_id: str) -> str:
        """A reading with its limit of error; both limits where it swings."""
        quantity = self._banded(step_id).quantity
        low, high = span.low, span.high
        if low.value == high.value:
            digit = self.digit(step_id, low.value)
            found = show_measured(low.value, low.radius, quantity, self.units, digit)
            return self.text(found)
        return self.between(low.value, high.value, max(low.radius, high.radius), step_id)

    def volts(self, span: Span) -> str:
        """A battery voltage measured besides."""
        value = span.value
        return self.text(show_measured(value.value, value.radius, Quantity.VOLTAGE, self.units))

    def between(self, low: float, high: float, radius: float, step_id: str) -> str:
        """Readings between two limits, each with an error [SI]: `1.2 to 3.4 V ±0.1 V`."""
        quantity = self._banded(step_id).quantity
        first = show(low, quantity, self.units, self._known_to(step_id, low, radius))
        digit = self._known_to(step_id, high, radius)
        last = show(high, quantity, self.units, digit)
        error = f" {show_error(radius, quantity, self.units, digit)}" if radius else ""
        if first == last:
            return self.text(f"{first}{error}")
        number, _, unit = first.rpartition(" ")
        has_one_unit = len(display_units(quantity, self.units)) == 1
        if has_one_unit and number and last.endswith(f" {unit}"):
            first = number
        return self.text(f"{first} to {last}{error}")

    def _known_to(self, step_id: str, value: float, radius: float) -> float | None:
        """The last digit that is worth showing: the instrument's, or that of a sum's error."""
        from_error = 10.0 ** math.floor(math.log10(radius)) if radius else None
        return self.digit(step_id, value) or from_error

    def digit(self, step_id: str, value: float) -> float | None:
        """The last digit that the instrument of a step shows at a value [SI]; None for a sum."""
        step = self.tree.steps[step_id]
        instrument = self.instruments.get(step.with_) if isinstance(step, Measure) else None
        if instrument is None or not isinstance(step, Measure) or value in (_OPEN, -_OPEN):
            return None
        used = instrument.range_for(Entry(step.quantity, value, 0.0, "", ""))
        used = used or instrument.largest_range(step.quantity)
        return used.limits(step.quantity)[1] if used else None

    def _banded(self, step_id: str) -> Measure | WorkOut:
        step = self.tree.steps[step_id]
        assert isinstance(step, Measure | WorkOut)
        return step


_OPEN = float("inf")


def own_instruments(words: Words) -> tuple[Instrument, ...]:
    """Instruments that a tree uses and that are not the usual ones."""
    usual = one_per_class(())
    used = (words.instruments.get(kind) for kind in words.tree.instruments)
    return tuple(i for i in used if i is not None and i is not usual.get(i.class_))


def percent(share: float) -> str:
    """A share as `12.3 %`; only a whole one is 100 %, only nothing is 0 %."""
    if 0.0 < share < 0.001:
        return "<0.1 %"
    rounded = f"{100 * share:.1f}"
    return f"{'99.9' if rounded == '100.0' and share < 1.0 - 1e-9 else rounded} %"


def worth_in_words(worth: Worth, parts: int) -> str:
    """What an end is worth: `named`, `named, group of 3`, `WRONG`."""
    return f"named, group of {parts}" if parts > 1 else WORTH[worth]


def car(row: Row) -> str:
    """One car: the fault, how bad, and the battery it has."""
    fault = row.suspect.id if row.suspect else "healthy"
    return f"{fault} {cars_of((row,))}"


def cars_of(rows: Iterable[Row]) -> str:
    """Cars of one fault by how bad it is and which battery they have."""
    return cars_among(rows, ())


def cars_among(rows: Iterable[Row], all_rows: Sequence[Row]) -> str:
    """The same, told by what sets them apart from all cars of their fault.

    Args:
        rows: the cars.
        all_rows: all cars of the fault; empty to tell everything.

    Returns:
        Such as `mild at weak, normal; severe`; empty where they are all of them.
    """
    all_forms, all_supplies = _forms(all_rows), _supplies(all_rows)
    by_form: dict[str, tuple[str, ...]] = {}
    listed = tuple(rows)
    for form in _forms(listed):
        by_form[form] = _supplies(r for r in listed if r.form.words == form)
    by_supplies: dict[tuple[str, ...], list[str]] = {}
    for form, supplies in by_form.items():
        by_supplies.setdefault(supplies, []).append(form)
    found = (
        _where(_unless(forms, all_forms), _unless(supplies, all_supplies))
        for supplies, forms in by_supplies.items()
    )
    return "; ".join(text for text in found if text)


def _unless(some: Iterable[str], everything: Iterable[str]) -> str:
    """Words listed; empty where they are all there are."""
    listed = tuple(some)
    return "" if set(listed) == set(everything) else ", ".join(filter(None, listed))


def _where(forms: str, supplies: str) -> str:
    return " ".join(part for part in (forms, f"at {supplies}" if supplies else "") if part)


def _forms(rows: Iterable[Row]) -> tuple[str, ...]:
    return tuple(dict.fromkeys(row.form.words for row in rows))


def _supplies(rows: Iterable[Row]) -> tuple[str, ...]:
    return tuple(dict.fromkeys(row.supply for row in rows))
