"""Thermistors: temperature from resistance and back, by beta or by three points of a table."""

import math
from collections.abc import Iterator, Sequence

from faulttree.core.calc.kinds import Kind
from faulttree.core.calc.sums import Answer, Input, Sum, SumRefused, Values
from faulttree.core.circuit.laws import steinhart_hart, thermistor_resistance

_GIVEN = (
    Input("resistance", Kind.RESISTANCE, "to turn into a temperature"),
    Input("temperature", Kind.TEMPERATURE, "to turn into a resistance", signed=True),
)
_ONE = (1, ("resistance", "temperature"))
_POINTS = tuple(
    point
    for n, where in enumerate(("cold", "middle", "hot"), 1)
    for point in (
        Input(f"t{n}", Kind.TEMPERATURE, f"{where} point of the table", signed=True),
        Input(f"r{n}", Kind.RESISTANCE, "resistance there"),
    )
)


def _by_beta(values: Values) -> Sequence[Answer]:
    known, beta, at = values["known"], values["beta"], values["at"]
    if "resistance" in values:
        inverse = 1 / at + math.log(values["resistance"] / known) / beta
        return [Answer("temperature", Kind.TEMPERATURE, 1 / inverse)]
    exponent = beta * (1 / values["temperature"] - 1 / at)
    return [Answer("resistance", Kind.RESISTANCE, known * math.exp(exponent))]


def _is_on_curve(values: Values) -> None:
    if "resistance" in values:
        inverse = (
            1 / values["at"] + math.log(values["resistance"] / values["known"]) / values["beta"]
        )
        if inverse <= 0:
            raise SumRefused("No temperature has so small a resistance on this curve.")


def _table(values: Values) -> tuple[tuple[float, float], ...]:
    return tuple((values[f"t{n}"], values[f"r{n}"]) for n in (1, 2, 3))


def _by_points(values: Values) -> Sequence[Answer]:
    points = _table(values)
    if "temperature" in values:
        ohm = thermistor_resistance(values["temperature"], points)
        return [Answer("resistance", Kind.RESISTANCE, ohm)]
    a, b, c = steinhart_hart(points)
    x = math.log(values["resistance"])
    return [Answer("temperature", Kind.TEMPERATURE, 1 / (a + b * x + c * x**3))]


def _falls(values: Values) -> None:
    points = _table(values)
    rising = sorted(points)
    if points != tuple(rising) or not rising[0][1] > rising[1][1] > rising[2][1]:
        raise SumRefused(
            "The three points go from cold to hot, and the resistance falls on the way: "
            "type 0C 27.9k 50C 4.1k 100C 947ohm, then what is to be turned."
        )


def _outside(values: Values, answers: Sequence[Answer]) -> Iterator[str]:
    (t1, _), _, (t3, _) = _table(values)
    t = values["temperature"] if "temperature" in values else answers[0].value
    if not t1 <= t <= t3:
        yield "This lies outside the three points; the curve is drawn on from them."


def _beta(values: Values) -> Sequence[Answer]:
    across = 1 / values["t1"] - 1 / values["t2"]
    return [Answer("beta", Kind.BETA, math.log(values["r1"] / values["r2"]) / across)]


def _two_fall(values: Values) -> None:
    if not (values["t1"] < values["t2"] and values["r1"] > values["r2"]):
        raise SumRefused(
            "The colder point comes first, and its resistance is the greater one: "
            "type 25C 10k 100C 947ohm."
        )


def _beta_errs(_values: Values, _answers: Sequence[Answer]) -> Iterator[str]:
    yield (
        "A beta formula errs by about 1 K at 0 °C and 5 K at -55 °C against a maker's table; "
        "three points of the table (thermistor-points) keep within 0.1 K from -20 to 150 °C."
    )


BY_BETA = Sum(
    name="thermistor-beta",
    title="temperature of a thermistor by its beta value",
    formula="1 ÷ T = 1 ÷ known T + ln(resistance ÷ known resistance) ÷ beta, T in kelvins",
    symbols="R = R0·e^(B·(1/T - 1/T0))",
    inputs=(
        Input("known", Kind.RESISTANCE, "resistance at a known temperature"),
        Input("beta", Kind.BETA, "of the data sheet, in kelvins"),
        *_GIVEN,
        Input("at", Kind.TEMPERATURE, "temperature of the known one", default="25C", signed=True),
    ),
    choose=_ONE,
    source="beta formula; its error against a sensor maker's table of a 10 kΩ part",
    example="10k 3435 4.1k",
    work=_by_beta,
    check=_is_on_curve,
    remarks=_beta_errs,
    keywords="ntc sensor coolant air temperature",
)

BY_POINTS = Sum(
    name="thermistor-points",
    title="temperature of a thermistor by three points",
    formula="1 ÷ T = A + B × ln R + C × (ln R)^3 through the three points, T in kelvins",
    symbols="1/T = A + B·ln R + C·(ln R)^3",
    inputs=(*_POINTS, *_GIVEN),
    choose=_ONE,
    source="Steinhart and Hart, Deep-Sea Research 15 (1968) 497 (from memory)",
    example="0C 27.9k 50C 4.1k 100C 947ohm 2.2k",
    work=_by_points,
    check=_falls,
    remarks=_outside,
    keywords="ntc sensor coolant air temperature steinhart hart",
)

BETA = Sum(
    name="beta",
    title="beta value of a thermistor from two points",
    formula="beta = ln(resistance cold ÷ resistance hot) ÷ (1 ÷ T cold - 1 ÷ T hot), T in kelvins",
    symbols="B = ln(R1/R2)/(1/T1 - 1/T2)",
    inputs=(
        Input("t1", Kind.TEMPERATURE, "colder point", signed=True),
        Input("r1", Kind.RESISTANCE, "resistance there"),
        Input("t2", Kind.TEMPERATURE, "hotter point", signed=True),
        Input("r2", Kind.RESISTANCE, "resistance there"),
    ),
    source="definition",
    example="25C 10k 100C 947ohm",
    work=_beta,
    check=_two_fall,
    keywords="ntc sensor thermistor",
)

SUMS = (BY_POINTS, BY_BETA, BETA)
