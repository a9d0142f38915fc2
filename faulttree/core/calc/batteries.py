"""Batteries: charge from the voltage at rest, and how long one lasts with the key off."""

from collections.abc import Iterator, Sequence

from faulttree.core.calc.kinds import Kind
from faulttree.core.calc.sums import Answer, Input, Sum, SumRefused, Values
from faulttree.core.circuit.laws import REST_EMF, battery_charge

LISTS_DIFFER_V = 0.1
"""How far published lists of rest voltages differ [V]: 12.6 V to 12.66 V full, 12.0 V to 12.15 V at
a quarter."""
_RESTED_AT_MOST_V = 13.0
_HOUR = 3600.0
_DAY = 24 * _HOUR
_AS = ", ".join(f"{volts:g} V = {charge * 100:.0f} %" for charge, volts in reversed(REST_EMF))


def _charge(values: Values) -> Sequence[Answer]:
    volts = values["voltage"]
    low, high = battery_charge(volts - LISTS_DIFFER_V), battery_charge(volts + LISTS_DIFFER_V)
    return [Answer("charge", Kind.SHARE, battery_charge(volts), low, high)]


def _is_at_rest(values: Values) -> None:
    if values["voltage"] > _RESTED_AT_MOST_V:
        raise SumRefused(
            "A 12 V battery at rest does not read above 13 V: take the surface charge off "
            "(headlamps on for a minute), wait ten minutes, and measure again."
        )


def _charge_caveats(values: Values, _answers: Sequence[Answer]) -> Iterator[str]:
    if values["voltage"] > REST_EMF[-1][1] + LISTS_DIFFER_V:
        yield "Above 12.7 V: perhaps not rested; surface charge reads high."
    if values["voltage"] < REST_EMF[0][1]:
        yield "Below 11.6 V: flat, or a dead cell. Charge it and test it under load."
    yield (
        "It holds for a flooded 12 V battery of about 27 °C (80 °F) that has rested for hours with "
        "no load. No correction for cold is made: a maker's table takes 0.12 V off at -1 °C "
        "(30 °F), 15 % of charge; others take next to nothing."
    )
    yield "A full charge says nothing of the capacity left: test under load as well."


def _stand_time(values: Values) -> Sequence[Answer]:
    usable = values["capacity"] * max(0.0, values["charge"] - values["left"])
    return [
        Answer("time", Kind.TIME, usable / values["current"] * _HOUR),
        Answer("taken each day", Kind.CHARGE, values["current"] * _DAY / _HOUR),
        Answer("usable", Kind.CHARGE, usable),
    ]


def _something_usable(values: Values) -> None:
    if values["charge"] > 1 or values["left"] >= values["charge"]:
        raise SumRefused(
            "The charge now is at most 100 % and above what is to be left: "
            "type charge=80% left=50%."
        )


def _stand_caveats(_values: Values, _answers: Sequence[Answer]) -> Iterator[str]:
    yield "An old or cold battery has less than its rated capacity, and the units must be asleep."


CHARGE = Sum(
    name="battery-charge",
    title="charge of a 12 V battery by its rest voltage",
    formula=f"straight lines between {_AS}",
    symbols="charge = f(V)",
    inputs=(Input("voltage", Kind.VOLTAGE, "post to post, rested, nothing on"),),
    source="a published rule-of-thumb list; lists differ by 0.1 V, which the limits allow for",
    example="12.4V",
    work=_charge,
    check=_is_at_rest,
    remarks=_charge_caveats,
    keywords="state of charge rest voltage open circuit flat",
)

STAND_TIME = Sum(
    name="stand-time",
    title="how long a battery lasts with the key off",
    formula="time = capacity × (charge now - charge left) ÷ current",
    symbols="t = C·(s1 - s2)/I",
    inputs=(
        Input("current", Kind.CURRENT, "with the key off", unit_needed=True, like="50mA"),
        Input("capacity", Kind.CHARGE, "of the battery"),
        Input("charge", Kind.SHARE, "of the battery now", default="100%"),
        Input("left", Kind.SHARE, "that is to be left for starting", default="50%", zero=True),
    ),
    source="definition of the ampere hour; half the charge left: common practice",
    example="50mA 60Ah",
    work=_stand_time,
    check=_something_usable,
    remarks=_stand_caveats,
    keywords="parasitic draw key-off current drain days flat standing",
)

SUMS = (CHARGE, STAND_TIME)
