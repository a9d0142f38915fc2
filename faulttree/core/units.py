"""Quantities and their units: the one place that knows what is measured and in which units.

Values are SI inside the program: volts, amperes, ohms, watts, pascals, kelvins, kilograms, metres,
square metres, cubic metres, turns a second, seconds. Gauge and absolute pressure are different
quantities, and so are a temperature and a temperature difference: neither is ever turned into the
other by accident.
"""

from dataclasses import dataclass
from decimal import Context, Decimal
from enum import StrEnum
from functools import cache


class Quantity(StrEnum):
    """What is measured. The value of a member is its name in a tree document."""

    VOLTAGE = "voltage"
    CURRENT = "current"
    RESISTANCE = "resistance"
    GAUGE_PRESSURE = "gauge-pressure"
    ABSOLUTE_PRESSURE = "absolute-pressure"
    PRESSURE_DIFFERENCE = "pressure-difference"
    TEMPERATURE = "temperature"
    TEMPERATURE_DIFFERENCE = "temperature-difference"
    MASS = "mass"
    LENGTH = "length"
    AREA = "area"
    VOLUME = "volume"
    ROTATIONAL_SPEED = "rotational-speed"
    POWER = "power"
    TIME = "time"
    RATIO = "ratio"
    COUNT = "count"

    @property
    def words(self) -> str:
        """Its name in running text."""
        return self.value.replace("-", " ")


class UnitSystem(StrEnum):
    """Which units the technician wants to see."""

    US = "us"
    METRIC = "metric"
    BOTH = "both"


_EXACT = Context(prec=15)
"""Decimal arithmetic to all the digits that a float surely holds."""


@dataclass(frozen=True, slots=True)
class Unit:
    """A unit of one quantity.

    SI value = number x factor + offset. `spellings` are what a person may type for it; the first
    is how it is shown.
    """

    quantity: Quantity
    factor: float
    spellings: tuple[str, ...]
    offset: float = 0.0

    @property
    def symbol(self) -> str:
        """How the unit is shown."""
        return self.spellings[0]

    def to_si(self, number: float) -> float:
        """The SI value of a number in this unit.

        Reckoned in decimals: 4.1 mV is the float 0.0041 and 41 degF is 5 degC, so that a reading
        typed in one unit meets an edge written in another exactly.
        """
        parts = (Decimal(repr(float(x))) for x in (number, self.factor, self.offset))
        return float(_EXACT.fma(*parts))

    def from_si(self, value: float) -> float:
        """The number in this unit of an SI value."""
        return (value - self.offset) / self.factor


POUND_KG = 0.45359237
"""Avoirdupois pound [kg], exact. Source: NIST SP 811 (2008), B.8."""
INCH_M = 0.0254
"""Inch [m], exact. Source: NIST SP 811 (2008), B.8."""
PSI_PA = POUND_KG * 9.80665 / INCH_M**2
"""Pound-force per square inch [Pa], from the exact pound, inch and standard gravity.
NIST SP 811 (2008), B.8 prints 6.894 757 E+03."""
INHG_PA = 3386.389
"""Conventional inch of mercury [Pa]. Source: NIST SP 811 (2008), B.8, 3.386 389 E+03."""
TECHNICAL_ATMOSPHERE_PA = 98066.5
"""Kilogram-force per square centimetre [Pa], exact. Source: NIST SP 811 (2008), B.8."""
BTU_PER_LB = 2326.0
"""Btu (International Table) per pound [J/kg], exact. Source: NIST SP 811 (2008), B.8."""
FAHRENHEIT_OFFSET_K = 459.67 * 5 / 9
"""0 degF [K]. Source: NIST SP 811 (2008), B.8: T/K = (t/degF + 459.67)/1.8."""
ZERO_C = 273.15
"""0 degC [K], exact. Source: NIST SP 811 (2008), B.8: T/K = t/degC + 273.15."""


def _prefixed(
    quantity: Quantity, spellings: tuple[str, ...], prefixes: dict[str, float]
) -> tuple[Unit, ...]:
    return tuple(
        Unit(quantity, factor, tuple(prefix + s for s in spellings))
        for prefix, factor in prefixes.items()
    )


def _pressure(quantity: Quantity, suffix: str) -> tuple[Unit, ...]:
    """Pressure units; psig, psia and psid say which pressure, psi alone leaves it to the step."""
    return (
        Unit(quantity, PSI_PA, ("psi", f"psi{suffix}", "lb/in2")),
        Unit(quantity, 1e3, ("kPa", "kpa", "KPa")),
        Unit(quantity, 1e5, ("bar",)),
        Unit(quantity, 1e2, ("mbar", "hPa")),
        Unit(quantity, 1e6, ("MPa",)),
        Unit(quantity, 1.0, ("Pa",)),
        Unit(quantity, INHG_PA, ("inHg", "inhg", '"Hg', "in.Hg")),
        Unit(quantity, TECHNICAL_ATMOSPHERE_PA, ("kg/cm2", "kgf/cm2", "kg/cm²", "kgf/cm²")),
    )


_V = ("V", "v", "volt", "volts", "VDC", "Vdc")
_A = ("A", "a", "amp", "amps", "ampere", "amperes")
_OHM = ("Ω", "ohm", "ohms", "Ohm", "Ohms", "OHM", "R")
_W = ("W", "w", "watt", "watts")
_METRE = ("m", "metre", "metres", "meter", "meters")

UNITS: tuple[Unit, ...] = (
    *_prefixed(Quantity.VOLTAGE, _V, {"": 1.0, "m": 1e-3, "k": 1e3, "µ": 1e-6, "u": 1e-6}),
    *_prefixed(Quantity.CURRENT, _A, {"": 1.0, "m": 1e-3, "µ": 1e-6, "u": 1e-6}),
    *_prefixed(Quantity.RESISTANCE, _OHM, {"": 1.0, "m": 1e-3, "k": 1e3, "K": 1e3, "M": 1e6}),
    Unit(Quantity.RESISTANCE, 1e3, ("k", "K", "kilohm", "kilohms")),
    Unit(Quantity.RESISTANCE, 1e6, ("M", "meg", "Meg", "megohm", "megohms")),
    *_pressure(Quantity.GAUGE_PRESSURE, "g"),
    *_pressure(Quantity.ABSOLUTE_PRESSURE, "a"),
    *_pressure(Quantity.PRESSURE_DIFFERENCE, "d"),
    Unit(Quantity.TEMPERATURE, 5 / 9, ("°F", "F", "f", "degF", "deg F"), FAHRENHEIT_OFFSET_K),
    Unit(Quantity.TEMPERATURE, 1.0, ("°C", "C", "c", "degC", "deg C"), ZERO_C),
    Unit(Quantity.TEMPERATURE, 1.0, ("K",)),
    Unit(Quantity.TEMPERATURE_DIFFERENCE, 5 / 9, ("°F", "F", "f", "degF", "deg F")),
    Unit(Quantity.TEMPERATURE_DIFFERENCE, 1.0, ("K", "°C", "C", "c", "degC", "deg C")),
    Unit(Quantity.MASS, POUND_KG, ("lb", "lbs", "pound", "pounds")),
    Unit(Quantity.MASS, POUND_KG / 16, ("oz", "ounce", "ounces")),
    Unit(Quantity.MASS, 1.0, ("kg", "kgs")),
    Unit(Quantity.MASS, 1e-3, ("g", "gram", "grams")),
    Unit(Quantity.LENGTH, INCH_M, ("in", "inch", "inches", '"')),
    Unit(Quantity.LENGTH, INCH_M / 1000, ("thou", "mil", "mils")),
    Unit(Quantity.LENGTH, INCH_M * 12, ("ft", "foot", "feet")),
    Unit(Quantity.LENGTH, 1e-3, ("mm",)),
    Unit(Quantity.LENGTH, 1e-2, ("cm",)),
    Unit(Quantity.LENGTH, 1.0, _METRE),
    Unit(Quantity.AREA, 1e-6, ("mm²", "mm2")),
    Unit(Quantity.AREA, 1e-4, ("cm²", "cm2")),
    Unit(Quantity.AREA, INCH_M**2, ("in²", "in2")),
    Unit(Quantity.VOLUME, 1e-6, ("cm³", "cm3", "cc", "ml", "mL")),
    Unit(Quantity.VOLUME, 1e-3, ("L", "l", "litre", "litres", "liter", "liters")),
    Unit(Quantity.VOLUME, INCH_M**3, ("in³", "in3")),
    Unit(Quantity.ROTATIONAL_SPEED, 1 / 60, ("rpm",)),
    *_prefixed(Quantity.POWER, _W, {"": 1.0, "m": 1e-3, "k": 1e3}),
    Unit(Quantity.TIME, 1.0, ("s", "sec", "secs", "second", "seconds")),
    Unit(Quantity.TIME, 1e-3, ("ms",)),
    Unit(Quantity.TIME, 60.0, ("min", "mins", "minute", "minutes")),
    Unit(Quantity.TIME, 3600.0, ("h", "hr", "hrs", "hour", "hours")),
    Unit(Quantity.RATIO, 0.01, ("%", "percent")),
    Unit(Quantity.RATIO, 1.0, ("",)),
    Unit(Quantity.COUNT, 1.0, ("", "times", "x")),
)
"""Every unit a reading or a tree may use."""

COMPOUND = (("lb", "oz"), ("ft", "in"), ("h", "min"), ("min", "s"))
"""Pairs that may stand together in one reading: 1 lb 10 oz, 3 min 20 s."""

_DISPLAY: dict[Quantity, tuple[str, str]] = {
    Quantity.VOLTAGE: ("V", "V"),
    Quantity.CURRENT: ("A", "A"),
    Quantity.RESISTANCE: ("Ω", "Ω"),
    Quantity.GAUGE_PRESSURE: ("psi", "kPa"),
    Quantity.ABSOLUTE_PRESSURE: ("psi", "kPa"),
    Quantity.PRESSURE_DIFFERENCE: ("psi", "kPa"),
    Quantity.TEMPERATURE: ("°F", "°C"),
    Quantity.TEMPERATURE_DIFFERENCE: ("°F", "K"),
    Quantity.MASS: ("oz", "g"),
    Quantity.LENGTH: ("in", "mm"),
    Quantity.AREA: ("mm²", "mm²"),
    Quantity.VOLUME: ("in³", "cm³"),
    Quantity.ROTATIONAL_SPEED: ("rpm", "rpm"),
    Quantity.POWER: ("W", "W"),
    Quantity.TIME: ("s", "s"),
    Quantity.RATIO: ("%", "%"),
    Quantity.COUNT: ("", ""),
}


_LOOK_ALIKES = str.maketrans({"\u03bc": "\u00b5", "\u2126": "\u03a9", "\u2212": "-"})
"""Greek mu, the ohm sign and the minus sign, to the micro sign, omega and hyphen used here."""


def with_usual_signs(text: str) -> str:
    """The text on one line, with plain single spaces and one sign for each that looks alike."""
    return " ".join(text.split()).translate(_LOOK_ALIKES)


@cache
def _by_spelling() -> dict[str, tuple[Unit, ...]]:
    table: dict[str, list[Unit]] = {}
    for unit in UNITS:
        for spelling in unit.spellings:
            if unit not in table.setdefault(spelling, []):
                table[spelling].append(unit)
    return {spelling: tuple(units) for spelling, units in table.items()}


def units_spelled(spelling: str) -> tuple[Unit, ...]:
    """All units a spelling can mean: psi is a unit of three pressures. Empty when unknown."""
    return _by_spelling().get(with_usual_signs(spelling), ())


def all_spellings() -> tuple[str, ...]:
    """Every spelling of a unit, longest first, so that psig is not read as psi."""
    return tuple(sorted(filter(None, _by_spelling()), key=len, reverse=True))


def find_unit(spelling: str, quantity: Quantity) -> Unit | None:
    """The unit of `quantity` that is spelled so, or None."""
    return next((u for u in units_spelled(spelling) if u.quantity is quantity), None)


def display_units(quantity: Quantity, system: UnitSystem) -> tuple[Unit, ...]:
    """The units a value is shown in: one, or two where both are wanted and differ."""
    us, metric = (find_unit(s, quantity) for s in _DISPLAY[quantity])
    assert us is not None
    assert metric is not None
    chosen = {
        UnitSystem.US: (us,),
        UnitSystem.METRIC: (metric,),
        UnitSystem.BOTH: (us,) if us is metric else (us, metric),
    }
    return chosen[system]


def entry_unit(quantity: Quantity, system: UnitSystem) -> Unit:
    """The unit a bare number is taken in; the prompt names it."""
    return display_units(quantity, system)[0]
