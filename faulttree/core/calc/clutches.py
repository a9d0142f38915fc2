"""What switches in an air conditioner: the compressor clutch and the condenser fan."""

from collections.abc import Iterator, Sequence

from faulttree.core.air_conditioning.clutch import (
    GAP_M,
    LEAST_OHM,
    MOST_OHM,
    NARROWEST_M,
    WIDEST_M,
    pull_in_current,
    pull_in_voltage,
)
from faulttree.core.air_conditioning.fan import Fan, fan, points
from faulttree.core.calc.kinds import Kind
from faulttree.core.calc.meaning import meaning
from faulttree.core.calc.sums import Answer, Input, Sum, SumRefused, Values
from faulttree.core.circuit.laws import copper_factor

_RISING, _FALLING = "rising", "falling"
_NOTHING = "none"


def _clutch(values: Values) -> Sequence[Answer]:
    gap, coil = values["gap"], values["coil"]
    hot = coil * copper_factor(values["temperature"])
    least, usual, most = pull_in_voltage(gap, hot, coil)
    fewest, amps, highest = pull_in_current(gap, coil)
    there = values["supply"] - values["drop"]
    return [
        Answer("margin", Kind.VOLTAGE, there - usual, there - most, there - least),
        Answer("at the clutch", Kind.VOLTAGE, there),
        Answer("pulls in at", Kind.VOLTAGE, usual, least, most),
        Answer("needs", Kind.CURRENT, amps, fewest, highest),
        Answer("gets", Kind.CURRENT, there / hot),
    ]


def _is_clutch(values: Values) -> None:
    if not NARROWEST_M <= values["gap"] <= WIDEST_M:
        raise SumRefused("An air gap is 0.2 to 1.5 mm (0.008 to 0.06 in); type it as gap=0.5mm.")
    if not LEAST_OHM <= values["coil"] <= MOST_OHM:
        raise SumRefused("A clutch coil for 12 V has 2 to 6 ohm at 20 °C; type it as coil=3.6ohm.")
    if values["drop"] >= values["supply"]:
        raise SumRefused("More cannot be lost than is supplied: type the supply first.")


def _clutch_means(values: Values, answers: Sequence[Answer]) -> Iterator[str]:
    yield meaning(
        answers[0],
        (0.0,),
        ("It does not pull in; if it is in already it may hold", "It pulls in, and holds"),
    )
    narrow, wide = GAP_M
    if not narrow <= values["gap"] <= wide:
        yield (
            "The gap should be 0.41 to 0.79 mm (0.016 to 0.031 in) (US Army TM 9-2320-280-34); "
            "the car's own figure goes before it."
        )
    yield (
        "Once the plate is in there is no gap left, and far less current holds it (common "
        "practice): a clutch that drops out hot and stays out lacks volts or has too wide a gap."
    )
    yield "Measure the gap with the engine off; never push the plate with the engine running."


def _fan(values: Values) -> Sequence[Answer]:
    rising = values.word("going") == _RISING
    closed, low, high = values["high"], *points(rising)
    name = "above closing" if rising else "above opening"
    middle = (low + high) / 2
    return [
        Answer(name, Kind.PRESSURE_DIFFERENCE, closed - middle, closed - high, closed - low),
        Answer("closes" if rising else "opens", Kind.GAUGE_PRESSURE, middle, low, high),
    ]


def _fan_means(values: Values, answers: Sequence[Answer]) -> Iterator[str]:
    asked = values.word("asked") != _NOTHING
    rising = values.word("going") == _RISING
    # The gauge's error moves both limits of the answer alike; the pressure's own are behind them.
    low, high = points(rising)
    least, most = answers[0].limits
    found = fan((least + high, most + low), rising, asked)
    yield f"By {'what asks for it' if asked else 'the pressure switch'}: {found}."
    if found is Fan.RUNS:
        yield "If it stands: fuse, relay, feed and ground of the motor, then the motor."
    yield "Fans start without notice: hands, hair and leads clear."
    yield "Which of request, pressure and coolant switch act is by the car's wiring diagram."


CLUTCH_PULL_IN = Sum(
    name="clutch-pull-in",
    title="whether a compressor clutch pulls in",
    formula="needed = current by the gap × hot resistance; margin = supply - drop - needed",
    symbols="V = I·R20·(1 + 0.00393·(T - 20)), I = 2.1 … 2.8 A at 0.4 … 1.0 mm",
    inputs=(
        Input("gap", Kind.LENGTH, "air gap, cold", unit_needed=True, like="0.5mm"),
        Input("supply", Kind.VOLTAGE, "battery, engine as in the complaint", like="13.8V"),
        Input(
            "drop",
            Kind.VOLTAGE,
            "lost on the way, both wires",
            default="0V",
            zero=True,
            like="0.6V",
        ),
        Input("coil", Kind.RESISTANCE, "its resistance at 20 °C", default="3.6ohm", like="4ohm"),
        Input("temperature", Kind.TEMPERATURE, "of the coil", default="100C", signed=True),
    ),
    source=(
        "7 to 8 V at 0.4 mm and 9 to 11 V at 1.0 mm, cold, 3.6 Ω: common practice; copper by NBS "
        "Handbook 100"
    ),
    example="0.5mm 13.8V 0.6V",
    work=_clutch,
    check=_is_clutch,
    remarks=_clutch_means,
    keywords="ac air conditioning compressor coil air gap hot drops out",
)

CONDENSER_FAN = Sum(
    name="condenser-fan",
    title="whether the condenser fan should run",
    formula="it runs above closing as pressure rises, until below opening as it falls; or if asked",
    symbols="closes 1.5 … 1.8 MPa, opens 1.0 … 1.3 MPa",
    inputs=(
        Input("high", Kind.GAUGE_PRESSURE, "high side", like="1.5MPa or 220psi"),
        Input(
            "going",
            Kind.WORD,
            "high side rising from below, or falling from above",
            choices=(_RISING, _FALLING),
        ),
        Input(
            "asked",
            Kind.WORD,
            "what else asks for it: none, request (air conditioning on) or coolant (its switch)",
            default=_NOTHING,
            choices=(_NOTHING, "request", "coolant"),
        ),
    ),
    source="common practice",
    example="1.9MPa rising",
    work=_fan,
    remarks=_fan_means,
    keywords="ac air conditioning pressure switch cooling relay high side idle",
)

SUMS = (CLUTCH_PULL_IN, CONDENSER_FAN)
