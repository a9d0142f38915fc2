"""Instruments: how far off each may be, and what it puts on the circuit.

A technician's own instruments are documents of the same shape as the ones built in.
"""

from enum import StrEnum
from functools import lru_cache
from typing import Annotated, Literal

from pydantic import Field, field_validator

from faulttree.core.accuracy import Accuracy, limit_of_error
from faulttree.core.document import Document, Id, Line, Text
from faulttree.core.expression import Expression
from faulttree.core.reading import Entry
from faulttree.core.uncertain import CannotWorkOut, Uncertain
from faulttree.core.units import ZERO_C, Quantity, units_spelled


class InstrumentClass(StrEnum):
    """What kind of instrument a step asks for."""

    METER = "meter"
    LOW_IMPEDANCE_METER = "low-impedance-meter"
    CLAMP = "clamp"
    TEST_LIGHT = "test-light"
    LED_PROBE = "led-probe"
    LOAD_LAMP = "load-lamp"
    GAUGES = "gauges"
    THERMOMETER = "thermometer"
    HYGROMETER = "hygrometer"
    SCALE = "scale"
    FEELER_GAUGE = "feeler-gauge"
    STOPWATCH = "stopwatch"
    REFRIGERANT_IDENTIFIER = "refrigerant-identifier"

    @property
    def words(self) -> str:
        """Its name in running text."""
        return _WORDS.get(self, self.value.replace("-", " "))

    @property
    def has_two_leads(self) -> bool:
        """True when it is put between two points."""
        return self in _TWO_LEADS


_WORDS = {
    InstrumentClass.METER: "meter (10 MΩ)",
    InstrumentClass.LED_PROBE: "LED probe",
    InstrumentClass.LOW_IMPEDANCE_METER: "low-impedance meter",
    InstrumentClass.CLAMP: "current clamp",
    InstrumentClass.TEST_LIGHT: "filament test light",
    InstrumentClass.GAUGES: "pressure gauges",
}
_TWO_LEADS = {
    InstrumentClass.METER,
    InstrumentClass.LOW_IMPEDANCE_METER,
    InstrumentClass.TEST_LIGHT,
    InstrumentClass.LED_PROBE,
    InstrumentClass.LOAD_LAMP,
}


class Range(Document):
    """One range of an instrument.

    `up_to` is the largest value it shows, `resolution` its last digit, both with a unit.
    """

    up_to: Expression
    resolution: Expression
    accuracy: Accuracy

    def limits(self, quantity: Quantity) -> tuple[float, float]:
        """Upper end and resolution [SI, without offset]."""
        return _size(self.up_to, quantity), _size(self.resolution, quantity)

    def check(self, quantity: Quantity) -> None:
        """Make sure that the range is one of this quantity.

        Raises:
            ValueError: an amount is of another quantity or not above zero.
        """
        try:
            amounts = self.limits(quantity)
        except CannotWorkOut as error:
            raise ValueError(f"“{self.up_to.text}”, “{self.resolution.text}”: {error}") from None
        if min(amounts) <= 0:
            raise ValueError("up-to and resolution must be greater than zero")
        fixed = self.accuracy.fixed
        if fixed and all(u.quantity is not quantity for u in units_spelled(fixed[1])):
            raise ValueError(f"“{fixed[1]}” in the accuracy is no unit of {quantity.words}")

    def holds(self, entry: Entry) -> bool:
        """True when the range goes as far as the value."""
        return abs(_shown(entry)) <= _size(self.up_to, entry.quantity) * (1 + 1e-9)

    def error_in_full(self, entry: Entry) -> float:
        """Limit of error when every digit that the range shows is typed [SI]."""
        upper, resolution = self.limits(entry.quantity)
        fixed = self.accuracy.fixed_si(entry.quantity)
        return limit_of_error(_shown(entry), self.accuracy, resolution, upper) + fixed

    def error_as_typed(self, entry: Entry) -> float:
        """Limit of error with the rounding by the reader added [SI]."""
        _, resolution = self.limits(entry.quantity)
        rounding = entry.step / 2 if entry.step > resolution * (1 + 1e-6) else 0.0
        return self.error_in_full(entry) + rounding


class Instrument(Document):
    """An instrument of the shop, with what its maker states."""

    id: Id
    name: Line
    class_: InstrumentClass
    load: Text
    autorange: bool = True
    functions: dict[Quantity, Annotated[tuple[Range, ...], Field(min_length=1)]] = {}
    source: Text = "common practice"

    @field_validator("functions")
    @classmethod
    def _ranges_fit(
        cls, functions: dict[Quantity, tuple[Range, ...]]
    ) -> dict[Quantity, tuple[Range, ...]]:
        for quantity, ranges in functions.items():
            for each in ranges:
                each.check(quantity)
        return functions

    def range_for(self, entry: Entry) -> Range | None:
        """The range a reading was taken on, judged by its size and by the digits typed.

        An autoranging instrument uses the lowest range that holds the value. On one that is
        switched by hand the last digit typed tells the range.

        Returns:
            None when no range holds the value, or the instrument does not measure the quantity.
        """
        holding = self._holding(entry)
        if not holding:
            return None
        if not self.autorange:
            matching = [r for r in holding if _same(r.limits(entry.quantity)[1], entry.step)]
            if matching:
                return matching[0]
        return min(holding, key=lambda r: r.limits(entry.quantity)[0])

    def finer_range(self, entry: Entry) -> Range | None:
        """A range that would hold the same value with a smaller limit of error, if there is one.

        It is the range in use where only the digits that it shows were not all typed.
        """
        used = self.range_for(entry)
        if used is None:
            return None
        best = min(self._holding(entry), key=lambda r: r.error_in_full(entry))
        return best if best.error_in_full(entry) < 0.9 * used.error_as_typed(entry) else None

    def read_finer(self, entry: Entry) -> str:
        """How the same value could be read with a smaller error, in words; empty when it cannot."""
        finer = self.finer_range(entry)
        if finer is None:
            return ""
        return f"on the {finer.up_to.text} range it reads to {finer.resolution.text}"

    def largest_range(self, quantity: Quantity) -> Range | None:
        """The range that goes furthest, or None when it does not measure the quantity."""
        ranges = self.functions.get(quantity, ())
        return max(ranges, key=lambda r: r.limits(quantity)[0], default=None)

    def _holding(self, entry: Entry) -> list[Range]:
        return [each for each in self.functions.get(entry.quantity, ()) if each.holds(entry)]


def is_beyond_range(entry: Entry, instrument: Instrument | None) -> bool:
    """True when the instrument measures the quantity but cannot show so large a value.

    The reading was then mistyped, or taken on another instrument than the one named. Over range
    on ohms is what a meter does show, so it is not beyond the range.
    """
    largest = instrument.largest_range(entry.quantity) if instrument else None
    return largest is not None and not entry.is_open_circuit and not largest.holds(entry)


def measured(entry: Entry, instrument: Instrument | None, reading_id: str) -> Uncertain:
    """The reading with its limit of error.

    A value beyond every range is given the figures of the largest one: it must not look more
    certain than a value that the instrument can show.

    Args:
        entry: the reading as typed.
        instrument: what it was read on; None counts only the rounding of what was typed, as does
            an instrument that does not measure the quantity.
        reading_id: names this reading's own error, which no other reading shares.

    Returns:
        The value with two terms: the gain error of the range, shared by all readings on it, and
        the reading's own error (digits, full scale, fixed amount, rounding by the reader).
    """
    if entry.is_open_circuit:
        return Uncertain(entry.value)
    used = _range_used(entry, instrument)
    if instrument is None or used is None:
        rounding = 0.0 if entry.quantity is Quantity.COUNT else entry.step / 2
        return Uncertain(entry.value, {_own(reading_id): rounding} if rounding else {})
    return _with_error(entry, instrument, used, used.error_as_typed(entry), reading_id)


def read_in_full(
    quantity: Quantity, value: float, instrument: Instrument | None, reading_id: str
) -> Uncertain:
    """A value as an instrument would show it, every digit read; see `measured`.

    Args:
        quantity: what is read.
        value: the value [SI].
        instrument: what it is read on; None has no error.
        reading_id: names this reading's own error.
    """
    entry = Entry(quantity, value, 0.0, "", "")
    used = None if entry.is_open_circuit else _range_used(entry, instrument)
    if instrument is None or used is None:
        return Uncertain(value)
    return _with_error(entry, instrument, used, used.error_in_full(entry), reading_id)


def _with_error(
    entry: Entry, instrument: Instrument, used: Range, limit: float, reading_id: str
) -> Uncertain:
    gain = f"gain of {instrument.id}, {entry.quantity}, {used.up_to.text}"
    shared = used.accuracy.reading * _shown(entry)
    return Uncertain(entry.value, {gain: shared, _own(reading_id): limit - abs(shared)})


def _own(reading_id: str) -> str:
    return f"reading {reading_id}"


def _range_used(entry: Entry, instrument: Instrument | None) -> Range | None:
    if instrument is None:
        return None
    return instrument.range_for(entry) or instrument.largest_range(entry.quantity)


def _shown(entry: Entry) -> float:
    """The number on the instrument, which for a temperature is not the kelvins [SI step]."""
    return entry.value - ZERO_C if entry.quantity is Quantity.TEMPERATURE else entry.value


def _size(expression: Expression, quantity: Quantity) -> float:
    """An amount without the offset of a temperature scale."""
    return _size_of(expression.text, quantity)


@lru_cache(maxsize=512)
def _size_of(text: str, quantity: Quantity) -> float:
    """Instruments have few ranges, and every reading looks at all of them."""
    plain = Quantity.TEMPERATURE_DIFFERENCE if quantity is Quantity.TEMPERATURE else quantity
    return Expression.parse(text).evaluator(plain, {})({}).value


def _same(a: float, b: float) -> bool:
    return abs(a - b) <= 1e-6 * max(abs(a), abs(b))


InstrumentFormat = Literal["instruments/1"]


class InstrumentSheet(Document):
    """A technician's own instruments, one YAML document."""

    format: InstrumentFormat
    instruments: tuple[Instrument, ...]
