"""A typed reading: from what a person types to a value, its step, and what was understood.

Nothing is guessed. What cannot be a reading of the quantity asked for is refused in one sentence
that says what to type instead.
"""

import math
import re
from collections.abc import Callable
from dataclasses import dataclass, replace

from faulttree.core.units import (
    COMPOUND,
    Quantity,
    Unit,
    UnitSystem,
    entry_unit,
    find_unit,
    units_spelled,
    with_usual_signs,
)

MAX_LENGTH = 60
"""Longest text taken as a reading [characters]."""

LARGEST = 1e12
"""Largest SI value taken as a reading; more is a typing error in every quantity here."""

_NUMBER = r"[+-]?(?:\d+(?:[.,]\d*)?|[.,]\d+)(?:[eE][+-]?\d{1,2}(?!\w))?"
_PART = re.compile(
    rf"\s*({_NUMBER})\s*(deg [CF]|[^\d\s+,.-][^\d\s+,]*(?:[23](?!\d))?|)(?=\s|\d|$)\s*", re.ASCII
)
_LOOSE_SIGN = re.compile(r"^([+-])\s+")
_INFIX_OHM = re.compile(r"^(\d{1,3})([RkKM])(\d{1,3})(?:\s*(?:Ω|ohms?))?$", re.ASCII)
_OVER_RANGE = {"ol", "0l", "o.l", "o.l.", "0.l", "0.l.", "open", "open circuit", "over range"}
_AMBIGUOUS_COMMA = re.compile(r"^[+-]?[1-9]\d{0,2},\d{3}$", re.ASCII)
_THOUSANDS = re.compile(r"\d[.,]\d+[.,]\d", re.ASCII)
_EXAMPLES: dict[Quantity, str] = {
    Quantity.VOLTAGE: "12.58, 240mV or -0.02 V",
    Quantity.CURRENT: "3.4, 3.4 A or 250 mA",
    Quantity.RESISTANCE: "4.7, 4.7 kohm or OL for an open circuit",
    Quantity.GAUGE_PRESSURE: "38 psi, 2.6 bar or 262 kPa (gauge)",
    Quantity.ABSOLUTE_PRESSURE: "52 psia or 3.6 bar (absolute)",
    Quantity.PRESSURE_DIFFERENCE: "5 psi or 35 kPa",
    Quantity.TEMPERATURE: "41F or 5 C",
    Quantity.TEMPERATURE_DIFFERENCE: "18 F or 10 K",
    Quantity.MASS: "1 lb 10 oz, 26 oz or 740 g",
    Quantity.LENGTH: "0.5 mm or 0.020 in",
    Quantity.AREA: "2.5 mm2",
    Quantity.VOLUME: "160 cm3",
    Quantity.ROTATIONAL_SPEED: "850 rpm",
    Quantity.POWER: "21 W",
    Quantity.TIME: "20 s or 3 min",
    Quantity.RATIO: "85 %",
    Quantity.COUNT: "7",
}


class ReadingRefused(ValueError):
    """The text is not a reading of the quantity asked for; the message says what to type."""


class AmbiguousCommaRefused(ReadingRefused):
    """`4,991` can be a decimal comma or a thousands separator."""


@dataclass(frozen=True, slots=True)
class Entry:
    """A reading as typed.

    Attributes:
        quantity: what was asked for.
        value: SI value; infinite when the instrument showed over range on ohms.
        step: the last digit typed [SI]; zero for over range.
        text: what was typed, with plain single spaces.
        unit: symbol of the unit it was taken in.
    """

    quantity: Quantity
    value: float
    step: float
    text: str
    unit: str

    @property
    def is_open_circuit(self) -> bool:
        """Over range on ohms: no path that the meter can see."""
        return math.isinf(self.value)


def example(quantity: Quantity) -> str:
    """What may be typed for a quantity, for prompts and refusals."""
    return _EXAMPLES[quantity]


def parse_reading(text: str, quantity: Quantity, system: UnitSystem = UnitSystem.METRIC) -> Entry:
    """Read what a person typed for `quantity`.

    A bare number is taken in the unit that the prompt names, `entry_unit(quantity, system)`.
    A comma is a decimal comma; `1,000` can mean two numbers and is refused.

    Raises:
        ReadingRefused: not a number, a unit of another quantity, two units, or not clear.
    """
    typed = " ".join(text.split())
    if not typed:
        raise ReadingRefused(f"Type a reading, for example {_EXAMPLES[quantity]}.")
    if len(typed) > MAX_LENGTH:
        raise ReadingRefused(f"That is too long for a reading; type {_EXAMPLES[quantity]}.")
    if typed.lower() in _OVER_RANGE:
        return _over_range(typed, quantity)
    plain = _LOOSE_SIGN.sub(r"\1", with_usual_signs(typed))
    infix = _INFIX_OHM.match(plain)
    if infix and quantity is Quantity.RESISTANCE:
        plain = f"{infix[1]}.{infix[3]} {'' if infix[2] == 'R' else infix[2]}"
    parts = _split(plain, quantity)
    value, step, unit = _one(parts[0], quantity, system)
    if len(parts) > 1:
        value, step, unit = _compound(parts, quantity, system)
    if abs(value) > LARGEST:
        raise ReadingRefused(f"That number is too large; type {_EXAMPLES[quantity]}.")
    return Entry(quantity, value, step, typed, unit.symbol)


def parse_fitting_reading(
    text: str, quantity: Quantity, system: UnitSystem, fits: Callable[[float], bool]
) -> Entry:
    """Read what a person typed where it is known what can be shown.

    `4,991 V` is 4.991 V where 4991 V cannot be; all else is as in `parse_reading`.

    Args:
        text, quantity, system: as in `parse_reading`.
        fits: tells whether a value [SI] can be shown here.

    Raises:
        ReadingRefused: as `parse_reading`; a comma that fits both ways, or neither.
    """
    try:
        return parse_reading(text, quantity, system)
    except AmbiguousCommaRefused:
        ways = [parse_reading(text.replace(",", sign), quantity, system) for sign in (".", "")]
        fitting = [way for way in ways if fits(way.value)]
        if len(fitting) != 1:
            raise
        return replace(fitting[0], text=" ".join(text.split()))


def _over_range(typed: str, quantity: Quantity) -> Entry:
    if quantity is Quantity.RESISTANCE:
        return Entry(quantity, math.inf, 0.0, typed, "Ω")
    raise ReadingRefused(
        f"OL is an open circuit on ohms only; for {quantity.words} choose a higher range "
        f"and type the number, for example {_EXAMPLES[quantity]}."
    )


def _split(text: str, quantity: Quantity) -> list[tuple[str, str]]:
    """The (number, unit) parts of the text, one or two of them."""
    if _THOUSANDS.search(text):
        raise ReadingRefused(
            f"Type the number without thousands separators, for example {_EXAMPLES[quantity]}."
        )
    parts: list[tuple[str, str]] = []
    at = 0
    while at < len(text):
        match = _PART.match(text, at)
        if match is None or match.end() == at:
            raise ReadingRefused(_nonsense(text, quantity))
        parts.append((match[1], match[2].strip()))
        at = match.end()
    if len(parts) > 2:
        raise ReadingRefused(f"One reading at a time, please: type {_EXAMPLES[quantity]}.")
    return parts


def _nonsense(text: str, quantity: Quantity) -> str:
    words = text.split()
    if len(words) > 2 and all(units_spelled(w) for w in words[1:]):
        return f"Two units in one reading; type one, for example {_EXAMPLES[quantity]}."
    return f"“{_legible(text)}” is not a reading; type {_EXAMPLES[quantity]}."


def _legible(text: str) -> str:
    return "".join(c if c.isprintable() else "?" for c in text)


def _one(
    part: tuple[str, str], quantity: Quantity, system: UnitSystem
) -> tuple[float, float, Unit]:
    number_text, unit_text = part
    number, step = _number(number_text, quantity)
    unit = _unit(unit_text, quantity, system)
    return unit.to_si(number), step * unit.factor, unit


def _number(text: str, quantity: Quantity) -> tuple[float, float]:
    """The number and the size of its last digit."""
    if _AMBIGUOUS_COMMA.match(text):
        whole, rest = text.split(",")
        raise AmbiguousCommaRefused(
            f"{text} can mean {whole}.{rest} or {whole}{rest}; type the one you mean with a point "
            "or without a comma."
        )
    mantissa, _, exponent = text.replace(",", ".").lower().partition("e")
    decimals = len(mantissa.partition(".")[2])
    scale = int(exponent or 0)
    return float(f"{mantissa}e{scale}"), 10.0 ** (scale - decimals)


def _unit(text: str, quantity: Quantity, system: UnitSystem) -> Unit:
    if not text:
        return entry_unit(quantity, system)
    spelling = _small(text)
    unit = find_unit(spelling, quantity)
    if unit is not None:
        return unit
    others = units_spelled(spelling)
    if others:
        raise ReadingRefused(
            f"{text} is a unit of {_kinds(others)}; this step asks for {quantity.words}: "
            f"type {_EXAMPLES[quantity]}."
        )
    raise ReadingRefused(
        f"“{_legible(text)}” is not a unit known here; type {_EXAMPLES[quantity]}."
    )


def _small(spelling: str) -> str:
    """PSI and Volts mean psi and volts; a capital M may be a prefix and stays as it is."""
    keep = units_spelled(spelling) or spelling.startswith("M")
    return spelling if keep else spelling.lower()


def _kinds(units: tuple[Unit, ...]) -> str:
    words = list(dict.fromkeys(u.quantity.words for u in units))
    if len(words) > 1 and all("pressure" in w for w in words):
        return "pressure"
    return " or ".join(words)


def _compound(
    parts: list[tuple[str, str]], quantity: Quantity, system: UnitSystem
) -> tuple[float, float, Unit]:
    big_value, _, big = _one(parts[0], quantity, system)
    small_value, step, small = _one(parts[1], quantity, system)
    if (big.symbol, small.symbol) not in COMPOUND:
        raise ReadingRefused(
            f"Two readings or two units in one line; type one, for example {_EXAMPLES[quantity]}."
        )
    if small_value < 0 or parts[1][0][0] in "+-":
        raise ReadingRefused(f"The sign goes in front: type {_EXAMPLES[quantity]}.")
    sign = -1.0 if parts[0][0].startswith("-") else 1.0
    return big_value + sign * small_value, step, small
