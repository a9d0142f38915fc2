"""Filament lamps: hot and cold, and at another voltage than the one stamped on them."""

from collections.abc import Iterator, Sequence

from faulttree.core.calc.kinds import Kind
from faulttree.core.calc.sums import Answer, Input, Sum, Values
from faulttree.core.circuit.laws import LAMP_EXPONENT, LIGHT_EXPONENT

RATED_SPREAD = 0.10
"""How far the current of a new lamp may be from what is stamped on it. Source: a lamp maker's
terms: stated amperes are ±10 %."""
COLD_SHARE = (1 / 15, 1 / 10, 1 / 8)
"""Cold resistance over hot: least, usual, most. Source: guides to lamps say a tenth to a fifteenth;
an eighth to a tenth is common practice for 12 V lamps."""
LIFE_EXPONENTS = (12.0, 13.0, 16.0)
"""Life falls with the voltage to this power: least, usual, most. Source: lamp rerating, 12 to 16
(Fink and Beaty, Standard Handbook for Electrical Engineers, as quoted)."""
_NEAR = (0.7, 1.3)
"""Where the laws of rerating are used, as shares of the rated voltage; common practice."""
_RATED = (
    Input("power", Kind.POWER, "stamped on the lamp"),
    Input("voltage", Kind.VOLTAGE, "stamped on the lamp", like="12V"),
)


def _lamp(values: Values) -> Sequence[Answer]:
    volts, amps = values["voltage"], values["power"] / values["voltage"]
    least, most = amps * (1 - RATED_SPREAD), amps * (1 + RATED_SPREAD)
    ohm, lowest, highest = volts / amps, volts / most, volts / least
    low, usual, high = COLD_SHARE
    return [
        Answer("hot current", Kind.CURRENT, amps, least, most),
        Answer("hot resistance", Kind.RESISTANCE, ohm, lowest, highest),
        Answer("cold resistance", Kind.RESISTANCE, ohm * usual, lowest * low, highest * high),
        Answer("first instant", Kind.CURRENT, amps / usual, least / high, most / low),
    ]


def _ohmmeter_misleads(_values: Values, _answers: Sequence[Answer]) -> Iterator[str]:
    yield "An ohmmeter shows the cold resistance; it tells nothing of the current when lit."


def _at_another(values: Values) -> Sequence[Answer]:
    share = values["now"] / values["voltage"]
    amps = values["power"] / values["voltage"] * share**LAMP_EXPONENT
    life = sorted(share**-exponent for exponent in (LIFE_EXPONENTS[0], LIFE_EXPONENTS[2]))
    return [
        Answer("power", Kind.POWER, amps * values["now"]),
        Answer("current", Kind.CURRENT, amps),
        Answer("light of rated", Kind.SHARE, share**LIGHT_EXPONENT),
        Answer("life of rated", Kind.SHARE, share ** -LIFE_EXPONENTS[1], *life),
    ]


def _far_from_rated(values: Values, _answers: Sequence[Answer]) -> Iterator[str]:
    share = values["now"] / values["voltage"]
    if not _NEAR[0] <= share <= _NEAR[1]:
        yield (
            "These powers hold near the rated voltage; so far from it they are a guess, "
            "and of the life they tell nothing."
        )


LAMP = Sum(
    name="lamp",
    title="filament lamp hot and cold: current, resistance",
    formula="hot current = power ÷ voltage; hot resistance = voltage² ÷ power; cold a tenth of it",
    symbols="I = P/V, R = V²/P, Rcold = R/10",
    inputs=_RATED,
    source="a lamp maker's terms (±10 %); guides to lamps (cold 1/15 to 1/8 of hot)",
    example="21W 12V",
    work=_lamp,
    remarks=_ohmmeter_misleads,
    keywords="bulb inrush filament expected clamp",
)

LAMP_AT = Sum(
    name="lamp-at",
    title="filament lamp at another voltage",
    formula="current goes with the voltage to the power of 0.55, light 3.4, life -13",
    symbols="I = I0·(V/V0)^0.55, P = V·I",
    inputs=(*_RATED, Input("now", Kind.VOLTAGE, "at the lamp now")),
    source="lamp rerating: current 0.55, light 3.4, life -12 to -16 (handbook, as quoted)",
    example="21W 12V 10.5V",
    work=_at_another,
    remarks=_far_from_rated,
    keywords="bulb dim bright overvoltage undervoltage filament",
)

SUMS = (LAMP, LAMP_AT)
