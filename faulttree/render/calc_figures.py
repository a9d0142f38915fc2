"""Results of sums as a technician reads them: a short number, its unit, how far off it may be."""

import math
from collections.abc import Callable, Iterator
from typing import NamedTuple

from faulttree.core.calc.answered import Found
from faulttree.core.calc.kinds import ABOUT, Kind
from faulttree.core.calc.sizes import gauge_name
from faulttree.core.units import UnitSystem, display_units

_DIGITS = 3
"""Digits of a result of which nothing is said; the laws are seldom better."""
_MOST_DECIMALS = 6
_OUNCES, _OUNCES_A_POUND = "oz", 16
_ALMOST_EVEN = 0.8
"""From this ratio of its two sides on a limit is told as one ±, the larger side."""
_COARSE = 3
"""A limit that begins with a smaller digit is told with two digits: ±0.12, but ±0.4."""


class _Unit(NamedTuple):
    """A unit: SI value = number x factor + offset; used from a size [SI] on."""

    symbol: str
    factor: float
    offset: float = 0.0
    least: float = 0.0


_BY_SIZE: dict[Kind, tuple[_Unit, ...]] = {
    Kind.VOLTAGE: (_Unit("mV", 1e-3), _Unit("V", 1.0, least=0.1)),
    Kind.CURRENT: (
        _Unit("µA", 1e-6),
        _Unit("mA", 1e-3, least=1e-4),
        _Unit("A", 1.0, least=0.1),
    ),
    Kind.RESISTANCE: (
        _Unit("mΩ", 1e-3),
        _Unit("Ω", 1.0, least=0.1),
        _Unit("kΩ", 1e3, least=1e3),
        _Unit("MΩ", 1e6, least=1e6),
    ),
    Kind.POWER: (_Unit("mW", 1e-3), _Unit("W", 1.0, least=0.1)),
    Kind.TIME: (
        _Unit("s", 1.0),
        _Unit("min", 60.0, least=120.0),
        _Unit("h", 3600.0, least=7200.0),
        _Unit("days", 86400.0, least=172800.0),
    ),
    Kind.CHARGE: (_Unit("Ah", 1.0),),
    Kind.BETA: (_Unit("K", 1.0),),
    Kind.COUNT: (_Unit("", 1.0),),
    Kind.RATIO: (_Unit("", 1.0),),
    Kind.WATER: (_Unit("g/kg", 1e-3),),
    Kind.ENTHALPY: (_Unit("kJ/kg", 1e3),),
    Kind.GAUGE: (_Unit("AWG", 1.0),),
}
"""Units of results, where the prefix goes by their size."""


def figure(found: Found, system: UnitSystem) -> str:
    """A result with its unit and its limits.

    `25 mΩ ±1 mΩ` where both sides are alike, else `1.75 A (1.57 A to 1.94 A)`; in brackets behind
    it the same in the other unit, where both are wanted.
    """
    texts = [_in_unit(found, unit) for unit in _units(found, system)]
    return texts[0] if len(texts) == 1 else f"{texts[0]} ({texts[1]})"


def _units(found: Found, system: UnitSystem) -> Iterator[_Unit]:
    by_size = _BY_SIZE.get(found.kind)
    if by_size:
        yield [unit for unit in by_size if abs(found.value) >= unit.least][-1]
        return
    quantity = ABOUT[found.kind].quantity
    assert quantity is not None
    for unit in display_units(quantity, system):
        yield _Unit(unit.symbol, unit.factor, unit.offset)


def _in_unit(found: Found, unit: _Unit) -> str:
    low, value, high = (
        (x - unit.offset) / unit.factor for x in (found.low, found.value, found.high)
    )
    write = _writer(found.kind, unit.symbol)
    if math.isinf(value):
        return write(value, 0)
    below, above = value - low, high - value
    if max(below, above) <= abs(value) * 1e-9:
        return _short(value, write)
    if math.isinf(above):
        return f"{_short(value, write)}, at least {_short(low, write)}"
    if found.kind is not Kind.GAUGE and min(below, above) >= _ALMOST_EVEN * max(below, above):
        return _plus_minus(value, max(below, above), write)
    return _between(low, value, high, write)


def _outward(limit: float, decimals: int, up: bool) -> float:
    """A limit rounded away from the value: it must not look narrower than it is."""
    scaled = limit * 10**decimals
    return float((math.ceil(scaled - 1e-6) if up else math.floor(scaled + 1e-6)) / 10**decimals)


def _plus_minus(value: float, radius: float, write: Callable[[float, int], str]) -> str:
    """A value as far as its limit lets it be known; the limit is rounded up, never down."""
    decimals = _decimals(radius, 1)
    if radius * 10**decimals < _COARSE:
        decimals += 1
    return f"{write(value, decimals)} ±{write(_outward(radius, decimals, True), decimals)}"


def _between(low: float, value: float, high: float, write: Callable[[float, int], str]) -> str:
    """A value with limits of which one is further off, or is the value itself."""
    decimals = _decimals(high - low, 2)
    shown = write(value, decimals)
    least, most = (write(_outward(x, decimals, x is high), decimals) for x in (low, high))
    if math.isclose(low, value):
        return f"{shown}, up to {most}" if most != shown else shown
    if math.isclose(high, value):
        return f"{shown}, down to {least}" if least != shown else shown
    return f"{shown} ({least} to {most})"


def _writer(kind: Kind, symbol: str) -> Callable[[float, int], str]:
    """How a number is written with some decimals."""

    def write(number: float, decimals: int) -> str:
        if math.isinf(number):
            return "more than is sold" if kind is Kind.AREA else "OL (open circuit)"
        if kind is Kind.GAUGE:
            return gauge_name(round(number))
        if symbol == _OUNCES and abs(number) >= _OUNCES_A_POUND:
            return _pounds(number, decimals)
        text = f"{number:.{min(decimals, 1) if kind is Kind.COUNT else decimals}f}"
        return f"{text} {symbol}".rstrip()

    return write


def _pounds(ounces: float, decimals: int) -> str:
    """`1 lb 10 oz`: as it stands on labels and scales."""
    sign = "-" if ounces < 0 else ""
    pounds, rest = divmod(round(abs(ounces), decimals), _OUNCES_A_POUND)
    return f"{sign}{pounds:.0f} lb {rest:.{decimals}f} {_OUNCES}"


def _short(number: float, write: Callable[[float, int], str]) -> str:
    """A number of which nothing is said, without zeros at its end."""
    decimals = _decimals(number, _DIGITS)
    while decimals and math.isclose(round(number, decimals - 1), round(number, decimals)):
        decimals -= 1
    return write(number, decimals)


def _decimals(number: float, digits: int) -> int:
    """Decimals that show some digits of a number."""
    if number == 0 or math.isinf(number):
        return 0
    return max(0, min(_MOST_DECIMALS, digits - 1 - math.floor(math.log10(abs(number)))))
