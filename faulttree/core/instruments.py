"""Instruments: how far off each may be, and what it puts on the circuit.

A maker states accuracy as ± (percent of reading + digits), percent of full scale, or a fixed
amount; an instrument says it the same way. A technician's own instruments are documents of the
same shape as the ones built in.
"""

import re
from collections.abc import Iterable
from dataclasses import dataclass
from enum import StrEnum
from typing import Annotated, Any, Literal

from pydantic import Field, field_validator

from faulttree.core.document import Document, Id, Line, Text
from faulttree.core.expression import Expression
from faulttree.core.reading import Entry
from faulttree.core.uncertain import CannotWorkOut, Uncertain
from faulttree.core.units import Quantity, units_spelled, with_usual_signs


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

_ACCURACY_PART = re.compile(
    r"(?P<number>\d+(?:\.\d+)?|\.\d+)\s*"
    r"(?:(?P<reading>%(?:\s*of reading)?)|(?P<full_scale>%\s*of full scale)"
    r"|(?P<digits>digits?|counts?)|(?P<fixed>\D+))",
    re.ASCII,
)


@dataclass(frozen=True, slots=True)
class Accuracy:
    """A maker's limit of error.

    Attributes:
        reading: share of the reading (0.005 for 0.5 %).
        full_scale: share of the range's upper end.
        digits: steps of the last digit.
        fixed: number and unit that are always added, such as 0.3 ohm for the leads.
    """

    text: str
    reading: float = 0.0
    full_scale: float = 0.0
    digits: float = 0.0
    fixed: tuple[float, str] | None = None

    @classmethod
    def parse(cls, text: str) -> "Accuracy":
        """Read `0.5 % + 2 digits`, `1 % of full scale`, `2 K`, or a sum of such parts.

        Raises:
            ValueError: a part is none of these, or one kind of part stands there twice.
        """
        found: dict[str, Any] = {}
        for part in with_usual_signs(text).replace("±", "").split("+"):
            kind, amount = _accuracy_part(part.strip())
            if kind in found:
                raise ValueError(f"“{text.strip()}” says the same twice; add both up in one part")
            found[kind] = amount
        return cls(text.strip(), **found)

    def fixed_si(self, quantity: Quantity) -> float:
        """The fixed amount [SI, without offset]; zero without one or in another unit."""
        if self.fixed is None:
            return 0.0
        number, spelling = self.fixed
        factor = next((u.factor for u in units_spelled(spelling) if u.quantity is quantity), 0.0)
        return number * factor

    @classmethod
    def __get_pydantic_core_schema__(cls, _source: Any, _handler: Any) -> Any:
        """Let a document field be an accuracy, written as text."""
        from pydantic_core import core_schema

        return core_schema.no_info_after_validator_function(
            cls.parse,
            core_schema.str_schema(strict=True),
            serialization=core_schema.plain_serializer_function_ser_schema(lambda a: a.text),
        )


def _accuracy_part(part: str) -> tuple[str, float | tuple[float, str]]:
    """The attribute of an accuracy that a part sets, and to what."""
    match = _ACCURACY_PART.fullmatch(part)
    if match is None or (match["fixed"] and not units_spelled(match["fixed"])):
        raise ValueError(
            f"“{part}” is no accuracy; write 0.5 % + 2 digits, 1 % of full scale, "
            "or an amount such as 2 K"
        )
    kind, number = match.lastgroup or "", float(match["number"])
    if kind == "fixed":
        return kind, (number, match["fixed"])
    return kind, number if kind == "digits" else number / 100


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
        """
        holding = [r for r in self.functions.get(entry.quantity, ()) if self._holds(r, entry)]
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
        holding = [r for r in self.functions.get(entry.quantity, ()) if self._holds(r, entry)]
        if used is None or not holding:
            return None
        best = min(holding, key=lambda r: _own_error(entry, r))
        return best if _own_error(entry, best) < 0.9 * _error_as_typed(entry, used) else None

    def _holds(self, each: Range, entry: Entry) -> bool:
        return abs(_shown(entry)) <= each.limits(entry.quantity)[0] * (1 + 1e-9)


def measured(entry: Entry, instrument: Instrument | None, reading_id: str) -> Uncertain:
    """The reading with its limit of error.

    Args:
        entry: the reading as typed.
        instrument: what it was read on; None counts only the rounding of what was typed.
        reading_id: names this reading's own error, which no other reading shares.

    Returns:
        The value with two terms: the gain error of the range, shared by all readings on it, and
        the reading's own error (digits, full scale, fixed amount, rounding by the reader).
    """
    if entry.is_open_circuit:
        return Uncertain(entry.value)
    own = f"reading {reading_id}"
    used = instrument.range_for(entry) if instrument else None
    if instrument is None or used is None:
        rounding = 0.0 if entry.quantity is Quantity.COUNT else entry.step / 2
        return Uncertain(entry.value, {own: rounding} if rounding else {})
    gain = f"gain of {instrument.id}, {entry.quantity}, {used.up_to.text}"
    shared = used.accuracy.reading * _shown(entry)
    rest = _error_as_typed(entry, used) - abs(shared)
    return Uncertain(entry.value, {gain: shared, own: rest})


def limit_of_error(value: float, accuracy: Accuracy, resolution: float, full_scale: float) -> float:
    """± (percent of reading + percent of full scale + digits x resolution), as makers state it.

    Args:
        value: what the instrument shows [any unit].
        accuracy: the maker's figures.
        resolution: the last digit, in the same unit.
        full_scale: upper end of the range, in the same unit.
    """
    return (
        accuracy.reading * abs(value)
        + accuracy.full_scale * full_scale
        + accuracy.digits * resolution
    )


def _own_error(entry: Entry, used: Range) -> float:
    """Limit of error when every digit of the range is typed [SI]."""
    upper, resolution = used.limits(entry.quantity)
    fixed = used.accuracy.fixed_si(entry.quantity)
    return limit_of_error(_shown(entry), used.accuracy, resolution, upper) + fixed


def _error_as_typed(entry: Entry, used: Range) -> float:
    """Limit of error with the rounding by the reader added [SI]."""
    _, resolution = used.limits(entry.quantity)
    rounding = entry.step / 2 if entry.step > resolution * (1 + 1e-6) else 0.0
    return _own_error(entry, used) + rounding


def _shown(entry: Entry) -> float:
    """The number on the instrument, which for a temperature is not the kelvins [SI step]."""
    return entry.value - 273.15 if entry.quantity is Quantity.TEMPERATURE else entry.value


def _size(expression: Expression, quantity: Quantity) -> float:
    """An amount without the offset of a temperature scale."""
    plain = Quantity.TEMPERATURE_DIFFERENCE if quantity is Quantity.TEMPERATURE else quantity
    return expression.evaluator(plain, {})({}).value


def _same(a: float, b: float) -> bool:
    return abs(a - b) <= 1e-6 * max(abs(a), abs(b))


def _range(up_to: str, resolution: str, accuracy: str) -> dict[str, str]:
    return {"up-to": up_to, "resolution": resolution, "accuracy": accuracy}


_METER_VOLTS = [
    _range("600 mV", "0.1 mV", "0.5 % + 2 digits"),
    _range("6 V", "0.001 V", "0.5 % + 2 digits"),
    _range("60 V", "0.01 V", "0.5 % + 2 digits"),
    _range("600 V", "0.1 V", "0.5 % + 2 digits"),
]
_METER_OHMS = [
    _range("600 ohm", "0.1 ohm", "1 % + 3 digits"),
    _range("6 kohm", "0.001 kohm", "1 % + 2 digits"),
    _range("60 kohm", "0.01 kohm", "1 % + 2 digits"),
    _range("600 kohm", "0.1 kohm", "1 % + 2 digits"),
    _range("6 Mohm", "0.001 Mohm", "1 % + 2 digits"),
    _range("40 Mohm", "0.01 Mohm", "2 % + 5 digits"),
]
_BUILT_IN: tuple[dict[str, Any], ...] = (
    {
        "id": "usual-meter",
        "name": "Usual digital meter, 6000 counts",
        "class": "meter",
        "load": "10 Mohm on volts; a few hundredths of an ohm in series on amperes",
        "functions": {
            "voltage": _METER_VOLTS,
            "resistance": _METER_OHMS,
            "current": [_range("10 A", "0.01 A", "1.5 % + 3 digits")],
        },
    },
    {
        "id": "usual-low-impedance-meter",
        "name": "Usual meter, low-impedance volts",
        "class": "low-impedance-meter",
        "load": "2 to 3 kohm; never on sensor or control-unit lines",
        "functions": {
            "voltage": [
                _range("60 V", "0.01 V", "2 % + 3 digits"),
                _range("600 V", "0.1 V", "2 % + 3 digits"),
            ]
        },
    },
    {
        "id": "usual-clamp",
        "name": "Usual current clamp",
        "class": "clamp",
        "load": "none; zero it on the spot, round one wire only",
        "functions": {
            "current": [
                _range("60 A", "0.01 A", "2.5 % + 10 digits"),
                _range("600 A", "0.1 A", "2.5 % + 10 digits"),
            ]
        },
    },
    {
        "id": "usual-test-light",
        "name": "Filament test light",
        "class": "test-light",
        "load": "about 0.25 A: 50 ohm hot, 5 to 8 ohm cold; never on control-unit lines",
    },
    {
        "id": "usual-led-probe",
        "name": "LED probe",
        "class": "led-probe",
        "load": "5 to 20 mA; glows on leakage",
    },
    {
        "id": "usual-load-lamp",
        "name": "21 W lamp with leads",
        "class": "load-lamp",
        "load": "about 1.7 A lit, eight to ten times that when switched on",
    },
    {
        "id": "usual-gauges",
        "name": "Usual pressure gauges",
        "class": "gauges",
        "load": "a little refrigerant in the hoses",
        "functions": {
            "gauge-pressure": [
                _range("120 psi", "1 psi", "2 % of full scale"),
                _range("500 psi", "5 psi", "2 % of full scale"),
            ]
        },
    },
    {
        "id": "usual-thermometer",
        "name": "Usual contact thermometer",
        "class": "thermometer",
        "load": "reads low unless pressed on and covered",
        "functions": {"temperature": [_range("200 C", "0.1 C", "2 K")]},
    },
    {
        "id": "usual-scale",
        "name": "Usual charging scale",
        "class": "scale",
        "load": "hoses drag on it",
        "functions": {"mass": [_range("100 kg", "5 g", "10 g")]},
    },
    {
        "id": "usual-feeler-gauge",
        "name": "Usual feeler gauges",
        "class": "feeler-gauge",
        "load": "none",
        "functions": {"length": [_range("5 mm", "0.05 mm", "1 digits")]},
    },
    {
        "id": "usual-stopwatch",
        "name": "Usual stopwatch or watch",
        "class": "stopwatch",
        "load": "none; a hand is half a second late",
        "functions": {"time": [_range("36000 s", "0.1 s", "0.5 s")]},
    },
    {
        "id": "usual-refrigerant-identifier",
        "name": "Refrigerant identifier",
        "class": "refrigerant-identifier",
        "load": "a few grams of refrigerant",
    },
)


def built_in() -> tuple[Instrument, ...]:
    """One usual instrument of each class, with the figures makers commonly state.

    Source: common practice; the meter, clamp and test-light figures are typical of makers' guides.
    """
    return tuple(Instrument.model_validate(each) for each in _BUILT_IN)


def one_per_class(instruments: Iterable[Instrument]) -> dict[InstrumentClass, Instrument]:
    """The instrument to use for each class: the last one named wins over the built-in one."""
    return {i.class_: i for i in (*built_in(), *instruments)}


InstrumentFormat = Literal["instruments/1"]


class InstrumentSheet(Document):
    """A technician's own instruments, one YAML document."""

    format: InstrumentFormat
    instruments: tuple[Instrument, ...]
