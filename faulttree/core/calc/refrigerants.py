"""What sums about refrigerant have in common: which one it is, and the air outside."""

from collections.abc import Callable
from typing import TypeVar

from faulttree.core.atmosphere import Atmosphere, NoSuchPlace
from faulttree.core.calc.kinds import Kind
from faulttree.core.calc.sums import Input, SumRefused, Values
from faulttree.core.refrigerant.refrigerant import Refrigerant, properties
from faulttree.core.refrigerant.spelled import refrigerant_spelled
from faulttree.core.refrigerant.table import OutOfTable

REFRIGERANT = Input(
    "refrigerant",
    Kind.WORD,
    "by the label and an identifier: R-134a, R-12, R-1234yf or R-22",
    choices=tuple(each.value for each in Refrigerant),
    spelled=refrigerant_spelled,
)
LOW_RUNNING = Input("low", Kind.GAUGE_PRESSURE, "low side, running", signed=True)
HIGH_RUNNING = Input(
    "high", Kind.GAUGE_PRESSURE, "high side, running", signed=True, like="1350kPa or 196psi"
)
AIR_OUTSIDE = (
    Input(
        "altitude",
        Kind.LENGTH,
        "of the place above sea level",
        default="0m",
        signed=True,
        by_name=True,
        unless="barometer",
        like="1500m",
    ),
    Input(
        "barometer",
        Kind.ABSOLUTE_PRESSURE,
        "in place of altitude, as it is there, not reduced to sea level",
        optional=True,
        unit_needed=True,
        by_name=True,
        unless="altitude",
        like="89.9kPa",
    ),
)
"""A gauge counts from the air outside, refrigerant does not: one of the two is always needed."""
AIR_SOURCE = "air by altitude: standard atmosphere (ISO 2533)"
SATURATION_SOURCE = "saturation by published equations of state"
_LEAST_PA, _MOST_PA = 50e3, 110e3
_Result = TypeVar("_Result")


def refrigerant(values: Values) -> Refrigerant:
    """Which refrigerant it is."""
    return Refrigerant(values.word(REFRIGERANT.name))


def air_outside(values: Values) -> Atmosphere:
    """The air outside, by barometer or altitude.

    Raises:
        SumRefused: no car is at such a place.
    """
    if "barometer" not in values:
        try:
            return Atmosphere.at_altitude(values["altitude"])
        except NoSuchPlace as error:
            raise SumRefused(f"No car is there: {error}; type altitude=1500m.") from None
    pressure = values["barometer"]
    if not _LEAST_PA <= pressure <= _MOST_PA:
        raise SumRefused(
            "A barometer shows 50 to 110 kPa (15 to 32 inHg) where cars are; type it as "
            "barometer=89.9kPa."
        )
    return Atmosphere(pressure)


def absolute(values: Values, name: str) -> float:
    """Absolute pressure of a gauge reading [Pa].

    Raises:
        SumRefused: it would be less than nothing.
    """
    pressure = air_outside(values).absolute(values[name])
    if pressure <= 0:
        raise SumRefused(f"No vacuum is as deep as that: check {name} and its unit.")
    return pressure


def boils_at(values: Values, name: str) -> float:
    """Saturation temperature [K] of a gauge reading.

    Raises:
        SumRefused: the refrigerant is not known at such a pressure.
    """
    pressure = absolute(values, name)
    return known(lambda: properties(refrigerant(values)).temperature(pressure), name)


def saturation(values: Values, name: str) -> float:
    """Saturation pressure [Pa absolute] of a temperature.

    Raises:
        SumRefused: the refrigerant is not known at such a temperature.
    """
    return known(lambda: properties(refrigerant(values)).pressure(values[name]), name)


def known(work: Callable[[], _Result], name: str) -> _Result:
    """What work with a refrigerant's table gives.

    Raises:
        SumRefused: the table does not go as far as the input of that name.
    """
    try:
        return work()
    except OutOfTable as error:
        raise SumRefused(f"{error}; check {name} and its unit.") from None
