"""Pressures of an air conditioner: saturation, pressure ratio, a soaked system at rest."""

from collections.abc import Iterator, Sequence

from faulttree.core.air_conditioning.splits import pressure_ratio
from faulttree.core.air_conditioning.static import Standing, above_saturation, apart, could_be
from faulttree.core.calc.kinds import Kind
from faulttree.core.calc.refrigerants import (
    AIR_OUTSIDE,
    AIR_SOURCE,
    HIGH_RUNNING,
    LOW_RUNNING,
    REFRIGERANT,
    SATURATION_SOURCE,
    absolute,
    air_outside,
    boils_at,
    known,
    refrigerant,
    saturation,
)
from faulttree.core.calc.sums import Answer, Input, Sum, SumRefused, Values

_ARMY = "US Army TM 9-4120-381-14"


def _saturation(values: Values) -> Sequence[Answer]:
    if "pressure" in values:
        return [
            Answer("temperature", Kind.TEMPERATURE, boils_at(values, "pressure")),
            Answer("absolute", Kind.ABSOLUTE_PRESSURE, absolute(values, "pressure")),
        ]
    pressure = saturation(values, "temperature")
    return [
        Answer("gauge", Kind.GAUGE_PRESSURE, air_outside(values).gauge(pressure)),
        Answer("absolute", Kind.ABSOLUTE_PRESSURE, pressure),
    ]


def _where_both_are(_values: Values, _answers: Sequence[Answer]) -> Iterator[str]:
    yield "It holds where liquid and vapour are together; alone, either may be at any temperature."


def _ratio(values: Values) -> Sequence[Answer]:
    low, high = absolute(values, "low"), absolute(values, "high")
    return [
        Answer("ratio", Kind.RATIO, pressure_ratio(low, high)),
        Answer("low absolute", Kind.ABSOLUTE_PRESSURE, low),
        Answer("high absolute", Kind.ABSOLUTE_PRESSURE, high),
    ]


def _ratio_means(_values: Values, answers: Sequence[Answer]) -> Iterator[str]:
    if answers[0].value < 1:
        yield "Below 1 the gauges are swapped, or it stands."
    yield (
        "The published windows of R-134a give 4 to 11 (calculated). Nearer to 1 while the clutch "
        "drives: worn compressor valves, or an expansion valve stuck open. Above: discharge "
        "runs hot."
    )


def _static(values: Values) -> Sequence[Answer]:
    sides = [absolute(values, name) for name in ("low", "high") if name in values]
    pressure, temperature = sum(sides) / len(sides), values["temperature"]
    here, what = air_outside(values), refrigerant(values)
    above = known(lambda: above_saturation(what, pressure, temperature), "temperature")
    answers = [
        Answer("above saturation", Kind.SHARE, above),
        Answer("saturation", Kind.GAUGE_PRESSURE, here.gauge(pressure / (1 + above))),
    ]
    if len(sides) == 2:
        answers.append(Answer("sides apart", Kind.SHARE, apart(*sides)))
    return answers


_TELLS = {
    Standing.LIQUID: (
        "Some liquid is there; how much, no gauge can tell. The two refrigerants of old and "
        "converted cars cannot be told apart by pressure either: use an identifier."
    ),
    Standing.NO_LIQUID: (
        "No liquid is left: do not run the compressor. Find the leak, with nitrogen or a trace "
        "gas, never with compressed air."
    ),
    Standing.MIXED: (
        "Air or another refrigerant is in it, or the car is warmer than measured. Identify what "
        "is in it before anything is connected; do not mix."
    ),
    Standing.NOT_EQUAL: "The sides are not equal yet: wait ten minutes, read both again.",
}


def _static_means(_values: Values, answers: Sequence[Answer]) -> Iterator[str]:
    possible = could_be(answers[0].limits, *(each.limits for each in answers[2:]))
    if len(possible) > 1:
        yield "Unclear, the limits of error reach over more than one:"
    for each in possible:
        yield _TELLS[each]
    yield (
        "Within 5 % of absolute pressure, about 1.5 K, is taken as saturation (common practice). "
        "The whole car must have one temperature: hours after it ran, out of the sun."
    )
    yield "Goggles and gloves whenever hoses go on or off."


def _sides_in_order(values: Values) -> None:
    if "high" in values and apart(absolute(values, "low"), absolute(values, "high")) < -0.5:
        raise SumRefused(
            "At rest the low side is never far above the high side: type the low side first, as "
            "in calc static-check 465kPa 20C R-134a 470kPa."
        )


SATURATION = Sum(
    name="saturation",
    title="temperature by pressure of refrigerant, or back",
    formula="absolute pressure = gauge + air outside; its saturation temperature by a table",
    symbols="T = Tsat(p + pair), p = psat(T) - pair",
    inputs=(
        REFRIGERANT,
        Input("pressure", Kind.GAUGE_PRESSURE, "on the gauge, to turn into °C", signed=True),
        Input(
            "temperature",
            Kind.TEMPERATURE,
            "to turn into a pressure",
            signed=True,
            like="20C or 68F",
        ),
        *AIR_OUTSIDE,
    ),
    choose=(1, ("pressure", "temperature")),
    source=f"{SATURATION_SOURCE}; {AIR_SOURCE}",
    example="R-134a 190kPa",
    work=_saturation,
    remarks=_where_both_are,
    keywords="ac air conditioning refrigerant pressure temperature chart boiling",
)

PRESSURE_RATIO = Sum(
    name="pressure-ratio",
    title="by how many times a compressor compresses",
    formula="ratio = absolute high side ÷ absolute low side",
    symbols="r = (p2 + pair)/(p1 + pair)",
    inputs=(LOW_RUNNING, HIGH_RUNNING, *AIR_OUTSIDE),
    source=f"definition; {AIR_SOURCE}",
    example="190kPa 1350kPa",
    work=_ratio,
    remarks=_ratio_means,
    keywords="ac air conditioning compressor valves compression",
)

STATIC_CHECK = Sum(
    name="static-check",
    title="what a soaked system at rest tells",
    formula="above saturation = absolute pressure ÷ saturation pressure at the temperature - 1",
    symbols="x = (p + pair)/psat(T) - 1",
    inputs=(
        Input("low", Kind.GAUGE_PRESSURE, "low side at rest, or the only gauge", signed=True),
        Input(
            "temperature", Kind.TEMPERATURE, "of the car, soaked", signed=True, like="20C or 68F"
        ),
        REFRIGERANT,
        Input("high", Kind.GAUGE_PRESSURE, "high side at rest", optional=True, signed=True),
        *AIR_OUTSIDE,
    ),
    source=f"{_ARMY}; {SATURATION_SOURCE}; {AIR_SOURCE}; the 5 %: common practice",
    example="465kPa 20C R-134a 470kPa",
    work=_static,
    check=_sides_in_order,
    remarks=_static_means,
    keywords="ac air conditioning refrigerant standing equalised leak empty charge pressure",
)

SUMS = (SATURATION, PRESSURE_RATIO, STATIC_CHECK)
