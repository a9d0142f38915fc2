"""What an input or a result of a sum is, and in which units it is typed."""

from dataclasses import dataclass
from enum import StrEnum

from faulttree.core.units import Quantity, UnitSystem, entry_unit


class Kind(StrEnum):
    """What is put in or comes out. The value of a member is its name in running text."""

    VOLTAGE = "voltage"
    CURRENT = "current"
    RESISTANCE = "resistance"
    POWER = "power"
    LENGTH = "length"
    AREA = "area"
    TEMPERATURE = "temperature"
    TEMPERATURE_DIFFERENCE = "temperature difference"
    GAUGE_PRESSURE = "gauge pressure"
    ABSOLUTE_PRESSURE = "absolute pressure"
    PRESSURE_DIFFERENCE = "pressure difference"
    MASS = "mass"
    HUMIDITY = "humidity"
    WATER = "water in air"
    ENTHALPY = "heat of air"
    RATIO = "ratio"
    TIME = "time"
    SHARE = "share"
    COUNT = "count"
    WIRE_SIZE = "wire size"
    GAUGE = "gauge"
    CHARGE = "charge"
    BETA = "beta value"
    WORD = "word"


@dataclass(frozen=True, slots=True)
class About:
    """What there is to know of a kind.

    Attributes:
        quantity: the quantity whose units it is typed in; None for kinds read in their own way.
        example: what may be typed.
        si: the unit of its value in data.
        us, metric: the unit of a bare number, where it is not the one that readings have.
    """

    quantity: Quantity | None
    example: str
    si: str
    us: str = ""
    metric: str = ""


ABOUT: dict[Kind, About] = {
    Kind.VOLTAGE: About(Quantity.VOLTAGE, "12.6V or 240mV", "V"),
    Kind.CURRENT: About(Quantity.CURRENT, "12A or 50mA", "A"),
    Kind.RESISTANCE: About(Quantity.RESISTANCE, "4.7k or 25mohm", "ohm"),
    Kind.POWER: About(Quantity.POWER, "21W", "W"),
    Kind.LENGTH: About(Quantity.LENGTH, "5m or 16ft", "m", us="ft", metric="m"),
    Kind.AREA: About(Quantity.AREA, "2.5mm2", "m2"),
    Kind.TEMPERATURE: About(Quantity.TEMPERATURE, "80C or 176F", "K"),
    Kind.TEMPERATURE_DIFFERENCE: About(Quantity.TEMPERATURE_DIFFERENCE, "10K or 18F", "K"),
    Kind.GAUGE_PRESSURE: About(Quantity.GAUGE_PRESSURE, "190kPa or 28psi", "Pa"),
    Kind.ABSOLUTE_PRESSURE: About(Quantity.ABSOLUTE_PRESSURE, "101kPa or 29.9inHg", "Pa"),
    Kind.PRESSURE_DIFFERENCE: About(Quantity.PRESSURE_DIFFERENCE, "35kPa or 5psi", "Pa"),
    Kind.MASS: About(Quantity.MASS, "740g or 1lb 10oz", "kg"),
    Kind.HUMIDITY: About(Quantity.RATIO, "50%", "1"),
    Kind.WATER: About(None, "", "kg/kg"),
    Kind.ENTHALPY: About(None, "", "J/kg"),
    Kind.RATIO: About(None, "", "1"),
    Kind.TIME: About(Quantity.TIME, "20s or 3min", "s"),
    Kind.SHARE: About(Quantity.RATIO, "30%", "1"),
    Kind.COUNT: About(Quantity.COUNT, "10", "1"),
    Kind.WIRE_SIZE: About(None, "2.5mm2 or 14AWG", "m2"),
    Kind.GAUGE: About(None, "14AWG", "AWG"),
    Kind.CHARGE: About(None, "60Ah", "Ah"),
    Kind.BETA: About(None, "3435", "K"),
    Kind.WORD: About(None, "", ""),
}
"""Every kind."""


def bare_unit(kind: Kind, system: UnitSystem) -> str:
    """The unit that a number without one is taken in; empty where it has none or must have one."""
    about = ABOUT[kind]
    if kind is Kind.CHARGE:
        return "Ah"
    if about.quantity is None or kind is Kind.COUNT:
        return ""
    if about.us:
        return about.metric if system is UnitSystem.METRIC else about.us
    return entry_unit(about.quantity, system).symbol
