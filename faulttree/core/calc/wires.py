"""Copper wire: its resistance, its drop, and the smallest that drops no more than it may."""

import math
from collections.abc import Iterator, Sequence

from faulttree.core.calc.kinds import Kind
from faulttree.core.calc.sizes import (
    GAUGES,
    METRIC_SIZES,
    MM2,
    THICKEST_SOLD,
    gauge_area,
    nearest_gauge,
)
from faulttree.core.calc.sums import Answer, Input, Sum, SumRefused, Values
from faulttree.core.circuit.laws import wire_resistance

STRANDED_MOST = 1.2
"""Most that a stranded wire may have over solid copper of its nominal size. Source: IEC 60228,
largest resistances of classes 5 and 6 at 20 degC, plain and tinned, 0.5 to 25 mm2: 1.11 to 1.19
times that of the area (as reprinted)."""
_SOURCE = (
    "copper of 0.017241 Ω·mm²/m at 20 °C, 0.393 % more per kelvin (IEC 60028; NBS Handbook 100); "
    "gauges by ASTM B258; stranded and tinned wire may be up to 20 % above (IEC 60228)"
)
_LENGTH = Input(
    "length", Kind.LENGTH, "of wire the current goes through; there and back counts twice"
)
_SIZE = Input("size", Kind.WIRE_SIZE, "cross-section or gauge")
_CURRENT = Input("current", Kind.CURRENT, "through it")
_TEMPERATURE = Input("temperature", Kind.TEMPERATURE, "of the wire", default="20C", signed=True)
_NOT_HEAT = (
    "This is drop alone: heat sets a limit of its own. Keep to the maker's table of currents, and "
    "fuse for the thinnest wire."
)


def _ohm(values: Values) -> float:
    return wire_resistance(values["length"], values["size"], values["temperature"])


def _resistance(values: Values) -> Sequence[Answer]:
    ohm = _ohm(values)
    return [Answer("resistance", Kind.RESISTANCE, ohm, high=ohm * STRANDED_MOST)]


def _drop(values: Values) -> Sequence[Answer]:
    ohm, amps = _ohm(values), values["current"]
    drop, heat = amps * ohm, amps * amps * ohm
    return [
        Answer("drop", Kind.VOLTAGE, drop, high=drop * STRANDED_MOST),
        Answer("resistance", Kind.RESISTANCE, ohm, high=ohm * STRANDED_MOST),
        Answer("heat", Kind.POWER, heat, high=heat * STRANDED_MOST),
    ]


def _size(values: Values) -> Sequence[Answer]:
    """The sizes hold for wire with all the resistance that the standard allows it."""
    ohm_m2 = wire_resistance(values["length"], 1.0, values["temperature"])
    area = ohm_m2 * STRANDED_MOST * values["current"] / values["drop"]
    sold = (s * MM2 for s in METRIC_SIZES if s * MM2 >= area)
    gauges = (g for g in GAUGES if gauge_area(g) >= area)
    return [
        Answer("at least", Kind.AREA, area),
        Answer("next size sold", Kind.AREA, next(sold, math.inf)),
        Answer("next gauge sold", Kind.GAUGE, float(next(gauges, THICKEST_SOLD))),
    ]


def _gauge(values: Values) -> Sequence[Answer]:
    area = values["size"]
    return [
        Answer("cross-section", Kind.AREA, area),
        Answer("nearest gauge", Kind.GAUGE, float(nearest_gauge(area))),
        Answer("resistance of a metre", Kind.RESISTANCE, wire_resistance(1.0, area)),
    ]


def _within_reach(values: Values) -> None:
    if _size(values)[0].value > METRIC_SIZES[-1] * MM2:
        raise SumRefused("No vehicle wire is as thick as that; shorten the run or allow more drop.")


def _heat_too(_values: Values, _answers: Sequence[Answer]) -> Iterator[str]:
    yield _NOT_HEAT


WIRE_RESISTANCE = Sum(
    name="wire-resistance",
    title="resistance of a copper wire, cold or hot",
    formula="resistance = resistivity × length ÷ cross-section × (1 + 0.00393 × (°C - 20))",
    symbols="R = 0.01724·L/A·(1 + 0.00393·(T - 20)), in Ω, m, mm², °C",
    inputs=(_LENGTH, _SIZE, _TEMPERATURE),
    source=_SOURCE,
    example="5m 2.5mm2",
    work=_resistance,
    keywords="copper cable lead",
)

WIRE_DROP = Sum(
    name="wire-drop",
    title="what a good copper wire drops at a current",
    formula="drop = current × resistance of the wire; heat = drop × current",
    symbols="V = I·0.01724·L/A·(1 + 0.00393·(T - 20)), P = V·I",
    inputs=(_LENGTH, _SIZE, _CURRENT, _TEMPERATURE),
    source=_SOURCE,
    example="5m 2.5mm2 10A",
    work=_drop,
    keywords="voltage copper cable lead",
)

WIRE_SIZE = Sum(
    name="wire-size",
    title="thinnest copper wire for a permitted drop",
    formula="cross-section = 1.2 × resistivity × length × current ÷ drop",
    symbols="A = 1.2·0.01724·L·I/V·(1 + 0.00393·(T - 20)), in mm², m",
    inputs=(_LENGTH, _CURRENT, Input("drop", Kind.VOLTAGE, "that may be lost"), _TEMPERATURE),
    source=f"{_SOURCE}, which the factor 1.2 allows for; sizes sold: common practice",
    example="4m 15A 0.3V",
    work=_size,
    check=_within_reach,
    remarks=_heat_too,
    keywords="thickness gauge cross-section cable relay supply",
)

WIRE_GAUGE = Sum(
    name="wire-gauge",
    title="square millimetres and American gauges",
    formula="diameter = 0.127 mm × 92 to the power of (36 - gauge) ÷ 39",
    symbols="d = 0.127 mm·92^((36 - n)/39), A = 0.7854·d²",
    inputs=(_SIZE,),
    source="ASTM B258; solid copper at 20 °C",
    example="14AWG",
    work=_gauge,
    keywords="awg mm2 convert thickness",
)

SUMS = (WIRE_DROP, WIRE_RESISTANCE, WIRE_SIZE, WIRE_GAUGE)
