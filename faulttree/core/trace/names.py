"""What a column's name says: its unit, and whether it tells the time."""

import re
from collections.abc import Sequence

from faulttree.core.units import Quantity, Unit, find_unit, with_usual_signs

MEASURED = (Quantity.VOLTAGE, Quantity.CURRENT, Quantity.TEMPERATURE)
"""What a trace may be of."""
_FINE = (
    Unit(Quantity.TIME, 1e-6, ("µs", "us", "usec", "microseconds")),
    Unit(Quantity.TIME, 1e-9, ("ns", "nsec", "nanoseconds")),
)
"""Units of time finer than any that a person would type."""
_LONG = {
    "msec": "ms",
    "millisecond": "ms",
    "milliseconds": "ms",
    "millivolt": "mV",
    "millivolts": "mV",
    "milliamp": "mA",
    "milliamps": "mA",
    "milliampere": "mA",
    "celsius": "°C",
    "centigrade": "°C",
    "fahrenheit": "°F",
    "kelvin": "K",
}
_TIME_WORDS = {"t", "time", "times", "timestamp", "date", "datetime", "clock", "elapsed"} | {
    *("zeit", "uhrzeit", "temps", "tiempo", "tempo"),
}
_WORD = re.compile(r"[^\W\d_]+")
_BRACKETED = re.compile(r"[(\[{]\s*([^()\[\]{}]+?)\s*[)\]}]\s*$")
_AFTER_SLASH = re.compile(r"/\s*(\S+)\s*$")
_AFTER_IN = re.compile(r"\bin\s+(\S+)\s*$")
_LAST = re.compile(r"[\s_.:-]([^\s_.:-]+)$")
_NO_UNITS = {"min", "Min", "MIN"}
"""Words at the end of a name that rather mean a minimum; in brackets they mean minutes."""
_SURE_LETTERS = frozenset("Vs")
"""Single letters that mean a unit at the end of a name; `Channel A` and `Probe C` name no unit."""


def unit_spelled(text: str, quantities: Sequence[Quantity]) -> Unit | None:
    """The unit of one of these quantities that is spelled so, in small or large letters."""
    spelled = with_usual_signs(text)
    for way in (spelled, _LONG.get(spelled.lower(), spelled), spelled.lower()):
        for quantity in quantities:
            fine = _FINE if quantity is Quantity.TIME else ()
            found = find_unit(way, quantity) or next((u for u in fine if way in u.spellings), None)
            if found is not None:
                return found
    return None


def unit_in(name: str, quantities: Sequence[Quantity]) -> Unit | None:
    """The unit that a column's name carries: `volts`, `t_s`, `Feed (mV)`, `U/V`, `Temp in °C`."""
    name = name.strip()
    for pattern in (_BRACKETED, _AFTER_SLASH, _AFTER_IN):
        match = pattern.search(name)
        if match and (unit := unit_spelled(match[1], quantities)):
            return unit
    last = _LAST.search(name)
    word = last[1] if last else name
    if word in _NO_UNITS or (len(word) == 1 and word not in _SURE_LETTERS):
        return None
    return unit_spelled(word, quantities)


def without_unit(name: str) -> str:
    """The name without a unit in brackets; for showing it beside its unit."""
    match = _BRACKETED.search(name)
    if match and unit_spelled(match[1], (*MEASURED, Quantity.TIME)):
        return name[: match.start()].strip() or name
    return name


def tells_time(name: str) -> bool:
    """Whether a name has a word for time in it."""
    return any(word in _TIME_WORDS for word in _WORD.findall(name.lower()))


def is_units_row(texts: Sequence[str]) -> bool:
    """Whether a line holds nothing but units, with or without brackets."""
    told = [bare for text in texts if (bare := text.strip("()[]{} -"))]
    return bool(told) and all(unit_spelled(t, (*MEASURED, Quantity.TIME)) for t in told)
