"""Values as a technician reads them: rounded to what was measured, in the units chosen."""

import math

from faulttree.core.units import INCH_M, Quantity, Unit, UnitSystem, display_units, find_unit

OPEN_CIRCUIT = "OL (open circuit)"
"""How an open circuit is shown: over range on ohms."""

_PREFIXED = {Quantity.RESISTANCE: ("Ω", "kΩ", "MΩ")}
_DIGITS = {Quantity.VOLTAGE: 4}
_MOST_DECIMALS = 3


def show(
    value: float,
    quantity: Quantity,
    system: UnitSystem = UnitSystem.METRIC,
    step: float | None = None,
) -> str:
    """One value with its unit.

    Args:
        value: SI value; infinite means an open circuit.
        quantity: what the value is.
        system: units wanted; with BOTH the second stands in brackets.
        step: smallest step of the reading [SI], to show no more digits than were read.
    """
    if math.isinf(value):
        return OPEN_CIRCUIT if value > 0 else "below range"
    texts = [
        _in_unit(value, _scaled(value, unit), step) for unit in display_units(quantity, system)
    ]
    return texts[0] if len(texts) == 1 else f"{texts[0]} ({texts[1]})"


def show_altitude(metres: float, system: UnitSystem = UnitSystem.METRIC) -> str:
    """An altitude [m above sea level]; other lengths here are those of feeler gauges."""
    feet = f"{metres / (12 * INCH_M):.0f} ft"
    shown = {UnitSystem.METRIC: f"{metres:.0f} m", UnitSystem.US: feet}
    return shown.get(system, f"{feet} ({metres:.0f} m)")


def show_measured(
    value: float,
    radius: float,
    quantity: Quantity,
    system: UnitSystem = UnitSystem.METRIC,
    step: float | None = None,
) -> str:
    """A value with its limit of error: `12.58 V ±0.08 V`.

    A value that was worked out has no last digit of its own; it is shown as far as its error lets
    it be known.

    Args:
        value, radius: the value and its limit of error [SI].
        quantity, system: as in `show`.
        step: smallest step of the reading [SI]; None for a value that was worked out.
    """
    if not radius or math.isinf(value):
        return show(value, quantity, system, step)
    known_to = step or 10.0 ** math.floor(math.log10(radius))
    error = show_error(radius, quantity, system, known_to)
    return f"{show(value, quantity, system, known_to)} {error}"


def show_error(
    radius: float,
    quantity: Quantity,
    system: UnitSystem = UnitSystem.METRIC,
    step: float | None = None,
) -> str:
    """A reading's limit of error as `±0.08 V`, without an offset.

    Args:
        radius: the limit of error [SI].
        quantity: what was read.
        system: the units wanted.
        step: smallest step of the reading [SI]; no more decimals are shown than it has.
    """
    unit = _scaled(radius, display_units(quantity, system)[0])
    number = radius / unit.factor
    decimals = 0 if number <= 0 else max(0, min(6, 1 - math.floor(math.log10(number))))
    if step:
        decimals = min(decimals, max(_decimals_of_step(step / unit.factor), _first_digit(number)))
    return _join(f"±{number:.{decimals}f}", unit.symbol)


def _first_digit(number: float) -> int:
    """Decimals needed to show a number other than zero."""
    return max(0, -math.floor(math.log10(number))) if number > 0 else 0


def _scaled(value: float, unit: Unit) -> Unit:
    """The unit with the prefix that keeps the number short: 4700 ohm is 4.7 kohm."""
    for symbol in reversed(_PREFIXED.get(unit.quantity, ())):
        bigger = find_unit(symbol, unit.quantity)
        if bigger is not None and abs(value) >= bigger.factor:
            return bigger
    return unit


def _in_unit(value: float, unit: Unit, step: float | None) -> str:
    number = unit.from_si(value)
    decimals = _decimals_of_step(step / unit.factor) if step else _usual_decimals(number, unit)
    text = f"{number:.{decimals}f}"
    if not step and "." in text:
        text = text.rstrip("0").rstrip(".")
    if float(text) == 0:
        text = text.lstrip("-")
    return _join(text, unit.symbol)


def _join(number: str, symbol: str) -> str:
    return f"{number} {symbol}" if symbol else number


def _decimals_of_step(step: float) -> int:
    """Decimals whose last one is nearest to the step: 41 °F, read to 1 °F, is 5 °C and not 5.0."""
    return max(0, min(6, round(-math.log10(step))))


def _usual_decimals(number: float, unit: Unit) -> int:
    if number == 0:
        return 0
    digits = _DIGITS.get(unit.quantity, 3)
    return max(0, min(_MOST_DECIMALS, digits - 1 - math.floor(math.log10(abs(number)))))
