"""One input of a sum as typed: `0.30 V`, `0.30 V ±0.01`, `60 Ah`, `14 AWG`, `mini`.

The number is read by the same code as a reading in the walk. Behind ± stands how far off it may be:
an amount in the same or another unit, or what an instrument's maker states, as 0.5 % + 2 digits.
"""

import math
import re
from dataclasses import dataclass

from faulttree.core.accuracy import Accuracy
from faulttree.core.calc.kinds import ABOUT, Kind, bare_unit
from faulttree.core.calc.sizes import parse_size
from faulttree.core.reading import Entry, ReadingRefused, parse_reading
from faulttree.core.uncertain import Uncertain
from faulttree.core.units import Quantity, UnitSystem, find_unit, units_spelled, with_usual_signs

PLUS_MINUS = re.compile(r"±|\+/-|\+-")
"""How the limit of error is led in."""
_NUMBER = re.compile(r"^[+-]?[\d.,]+(?:[eE][+-]?\d{1,2})?$", re.ASCII)
_VALUE = re.compile(r"^[+-]?[\d.,]+(?:[eE][+-]?\d{1,2}(?!\w))?\s*(.*)$", re.ASCII)
_OWN = {
    Kind.CHARGE: re.compile(r"^([\d.,]+)\s*(?:A\s*h|amp\s*hours?)?$", re.ASCII | re.IGNORECASE),
    Kind.BETA: re.compile(r"^([\d.,]+)\s*K?$", re.ASCII),
}
"""How kinds without a quantity of their own are typed."""
_EXACT = (Kind.WIRE_SIZE, Kind.COUNT)
COLDEST_K = 173.15
"""Colder is no car, and the laws of copper and thermistors end there [K]."""


@dataclass(frozen=True, slots=True)
class Amount:
    """One input.

    Attributes:
        measured: its value [SI] and limit of error.
        text: what was understood, to be shown again.
        word: the word chosen, where a word is wanted.
    """

    measured: Uncertain
    text: str
    word: str = ""


def is_bare(text: str) -> bool:
    """True for a number without a unit, with or without a limit of error."""
    return bool(_NUMBER.match(with_usual_signs(PLUS_MINUS.split(text)[0]).replace(" ", "")))


def read_amount(text: str, kind: Kind, system: UnitSystem) -> Amount:
    """Read what was typed for a kind of input that is no word.

    Raises:
        ReadingRefused: it is none, or what stands behind ± is no limit of error.
    """
    plain = with_usual_signs(text)
    number, *errors = (part.strip() for part in PLUS_MINUS.split(plain))
    if len(errors) > 1:
        raise ReadingRefused("One ± is enough: type the value, then ±, then how far off it may be.")
    if errors and kind in _EXACT:
        raise ReadingRefused(f"A {kind} takes no ±; type {ABOUT[kind].example}.")
    if kind is Kind.WIRE_SIZE:
        area, shown = parse_size(number)
        return Amount(Uncertain(area), shown)
    entry = _own(number, kind) if kind in _OWN else _entry(number, kind, system)
    if kind is Kind.HUMIDITY:
        # ±3 % of a hygrometer are points of humidity, not a share of what it shows.
        errors = [error.removesuffix("%").rstrip() for error in errors]
    radius = _radius(errors[0], entry) if errors else 0.0
    return Amount(Uncertain(entry.value, rest=radius), _shown(number, entry, errors, kind))


def _shown(number: str, entry: Entry, errors: list[str], kind: Kind) -> str:
    unit = f" {entry.unit}" if is_bare(number) and entry.unit else ""
    error = f" ±{errors[0]}" if errors else ""
    bare = f" {entry.unit}" if error and is_bare(errors[0]) and kind not in _OWN else ""
    return f"{number}{unit}{error}{bare}"


def _own(text: str, kind: Kind) -> Entry:
    match = _OWN[kind].match(text)
    if match is None:
        raise ReadingRefused(f"“{text}” is no {kind}; type {ABOUT[kind].example}.")
    number = parse_reading(match[1], Quantity.COUNT)
    unit = "Ah" if kind is Kind.CHARGE else "K"
    return Entry(Quantity.COUNT, number.value, number.step, text, unit)


def _entry(text: str, kind: Kind, system: UnitSystem) -> Entry:
    about = ABOUT[kind]
    assert about.quantity is not None
    _check_unit(text, kind)
    unit = bare_unit(kind, system)
    entry = parse_reading(f"{text} {unit}" if is_bare(text) else text, about.quantity, system)
    if not math.isfinite(entry.value):
        raise ReadingRefused("OL is no number to work with; type the ohms that were measured.")
    if kind is Kind.COUNT and entry.value != int(entry.value):
        raise ReadingRefused(f"{text} is no whole number; type {about.example}.")
    if kind is Kind.TEMPERATURE and entry.value < COLDEST_K:
        raise ReadingRefused(f"No car is as cold as that; type {about.example}.")
    return entry


def _check_unit(text: str, kind: Kind) -> None:
    """Raises ReadingRefused for a unit of another quantity: here no step asks, but a sum."""
    match = _VALUE.match(text)
    unit = match[1] if match else ""
    quantity = ABOUT[kind].quantity
    assert quantity is not None
    if unit and find_unit(unit, quantity) is None and units_spelled(unit):
        kinds = " or ".join(dict.fromkeys(u.quantity.words for u in units_spelled(unit)))
        raise ReadingRefused(
            f"{unit} is a unit of {kinds}; {kind} is typed as {ABOUT[kind].example}."
        )


def _radius(text: str, entry: Entry) -> float:
    """The limit of error behind ± [SI]."""
    unit = find_unit(entry.unit, entry.quantity)
    factor = unit.factor if unit else 1.0
    if is_bare(text):
        return abs(parse_reading(text, Quantity.COUNT).value) * factor
    try:
        accuracy = Accuracy.parse(text)
    except ValueError:
        accuracy = Accuracy(text, full_scale=1.0)
    fixed = accuracy.fixed_si(entry.quantity)
    is_share_of_heat = accuracy.reading > 0 and entry.quantity is Quantity.TEMPERATURE
    if accuracy.full_scale or is_share_of_heat or (accuracy.fixed and not fixed):
        raise ReadingRefused(
            f"“{text}” is no limit of error of {entry.text}; type ±0.01, ±1%, "
            "or ±0.5%+2digits as the meter's maker states it."
        )
    return accuracy.reading * abs(entry.value) + accuracy.digits * entry.step + fixed
