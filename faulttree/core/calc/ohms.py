"""Ohm's law: a load, and a joint that should drop nothing."""

import math
from collections.abc import Iterator, Sequence

from faulttree.core.calc.kinds import Kind
from faulttree.core.calc.sums import Answer, Input, Sum, Values, over

BROWNS_W = 1.0
"""Heat from which a joint discolours its plastic [W]; common practice: 1 to 2 W."""

_VOLTS, _AMPS, _OHMS, _WATTS = "voltage", "current", "resistance", "power"
_KINDS = {
    _VOLTS: Kind.VOLTAGE,
    _AMPS: Kind.CURRENT,
    _OHMS: Kind.RESISTANCE,
    _WATTS: Kind.POWER,
}


def _load(values: Values) -> Sequence[Answer]:
    """Voltage and current by the two that are given, then all the others."""
    v = values[_VOLTS] if _VOLTS in values else _volts(values)
    i = values[_AMPS] if _AMPS in values else _amps(values, v)
    every = {_VOLTS: v, _AMPS: i, _OHMS: over(v, i), _WATTS: v * i}
    return [Answer(n, _KINDS[n], x) for n, x in every.items() if n not in values]


def _volts(values: Values) -> float:
    if _AMPS not in values:
        return math.sqrt(values[_WATTS] * values[_OHMS])
    if _OHMS in values:
        return values[_AMPS] * values[_OHMS]
    return over(values[_WATTS], values[_AMPS])


def _amps(values: Values, volts: float) -> float:
    return over(volts, values[_OHMS]) if _OHMS in values else over(values[_WATTS], volts)


def _joint(values: Values) -> Sequence[Answer]:
    amps = values["current"] if "current" in values else over(values["drop"], values["resistance"])
    drop = values["drop"] if "drop" in values else amps * values["resistance"]
    every = (
        Answer("drop", Kind.VOLTAGE, drop),
        Answer("current", Kind.CURRENT, amps),
        Answer("resistance", Kind.RESISTANCE, over(drop, amps)),
    )
    return [*(a for a in every if a.name not in values), Answer("heat", Kind.POWER, drop * amps)]


def _joint_heat(_values: Values, answers: Sequence[Answer]) -> Iterator[str]:
    if answers[-1].value >= BROWNS_W:
        yield "A joint that takes 1 to 2 W browns its plastic (common practice)."


OHM = Sum(
    name="ohm",
    title="voltage, current, resistance, power of a load",
    formula="voltage = current × resistance; power = voltage × current",
    symbols="V = I·R, P = V·I = V²/R = I²·R",
    inputs=(
        Input(_VOLTS, Kind.VOLTAGE, "across the load"),
        Input(_AMPS, Kind.CURRENT, "through it"),
        Input(_OHMS, Kind.RESISTANCE, "of it, as it is while it works"),
        Input(_WATTS, Kind.POWER, "that it takes"),
    ),
    choose=(2, (_VOLTS, _AMPS, _OHMS, _WATTS)),
    source="Ohm's law",
    example="12V 21W",
    work=_load,
    keywords="law load watts amps",
)

JOINT = Sum(
    name="joint",
    title="drop, current, resistance and heat of a joint",
    formula="resistance = drop ÷ current; heat = drop × current",
    symbols="R = V/I, P = V·I",
    inputs=(
        Input("drop", Kind.VOLTAGE, "across it, with the current flowing", zero=True),
        Input("current", Kind.CURRENT, "through it, measured at the same time"),
        Input("resistance", Kind.RESISTANCE, "of it", zero=True),
    ),
    choose=(2, ("drop", "current", "resistance")),
    source="Ohm's law",
    example="0.30V 12A",
    work=_joint,
    remarks=_joint_heat,
    keywords="connector ground contact terminal corrosion millivolt",
)

SUMS = (JOINT, OHM)
