"""Damp air: dew point and heat, and what an evaporator takes out of it."""

from collections.abc import Iterator, Sequence

from faulttree.core.calc.kinds import Kind
from faulttree.core.calc.refrigerants import AIR_OUTSIDE, AIR_SOURCE, air_outside
from faulttree.core.calc.sums import Answer, Input, Sum, SumRefused, Values
from faulttree.core.moist_air import MoistAir

_SOURCE = f"ASHRAE Handbook Fundamentals (2017), chapter 1, as PsychroLib has it; {AIR_SOURCE}"
_DRIEST = 1e-6
"""Water in air [kg/kg] below which a wet bulb cannot have been wet."""


def _air(values: Values) -> MoistAir:
    """The air; limits of error end where it is quite damp or quite dry."""
    here, air = air_outside(values), values["air"]
    if "humidity" in values:
        return MoistAir.of_humidity(air, values["humidity"], here)
    return MoistAir.of_wet_bulb(air, min(values["wet"], air), here)


def _dew_point(values: Values) -> Sequence[Answer]:
    air = _air(values)
    other = (
        Answer("wet bulb", Kind.TEMPERATURE, air.wet_bulb)
        if "humidity" in values
        else Answer("humidity", Kind.HUMIDITY, air.humidity)
    )
    return [
        Answer("dew point", Kind.TEMPERATURE, air.dew_point),
        other,
        Answer("water", Kind.WATER, air.water),
        Answer("heat", Kind.ENTHALPY, air.enthalpy),
    ]


def _is_air(values: Values) -> None:
    _no_more_than_all(values, "humidity")
    if "wet" not in values:
        return
    if values["wet"] > values["air"]:
        raise SumRefused("A wet bulb is never warmer than a dry one: type the dry one first.")
    if _air(values).water <= _DRIEST:
        raise SumRefused("No air is as dry as that: wet the sock, fan it, and read it again.")


def _dew_remarks(_values: Values, _answers: Sequence[Answer]) -> Iterator[str]:
    yield "What is colder than the dew point gets wet: glass, pipes, the evaporator."
    yield "Water and heat are those of 1 kg of dry air; heat counts from dry air of 0 °C (32 °F)."


def _evaporator(values: Values) -> Sequence[Answer]:
    split = Answer("split", Kind.TEMPERATURE_DIFFERENCE, values["in"] - values["out"])
    if "humidity" not in values:
        return [split]
    before, after = _before(values), _after(values)
    between = MoistAir(after.temperature, before.water, before.pressure)
    return [
        split,
        Answer("cools by", Kind.ENTHALPY, before.enthalpy - between.enthalpy),
        Answer("dries by", Kind.ENTHALPY, between.enthalpy - after.enthalpy),
        Answer("takes in all", Kind.ENTHALPY, before.enthalpy - after.enthalpy),
        Answer("water taken out", Kind.WATER, before.water - after.water),
    ]


def _before(values: Values) -> MoistAir:
    return MoistAir.of_humidity(values["in"], values["humidity"], air_outside(values))


def _after(values: Values) -> MoistAir:
    """The air that comes out: with all its water, or as much as it can hold, if not measured."""
    here, most = air_outside(values), _before(values).water
    if "humid-out" in values:
        out = MoistAir.of_humidity(values["out"], values["humid-out"], here)
    else:
        out = MoistAir.saturated(values["out"], here.pressure)
    return MoistAir(out.temperature, min(out.water, most), out.pressure)


def _no_more_than_all(values: Values, name: str) -> None:
    if name in values and values[name] > 1:
        raise SumRefused(f"No air has more than 100 %: type {name}=50%.")


def _is_drier(values: Values) -> None:
    _no_more_than_all(values, "humidity")
    _no_more_than_all(values, "humid-out")
    if "humid-out" not in values:
        return
    if "humidity" not in values:
        raise SumRefused("humid-out says nothing without the humidity of the air that goes in.")
    out = MoistAir.of_humidity(values["out"], values["humid-out"], air_outside(values))
    if out.water > _before(values).water * 1.05:
        raise SumRefused(
            "More water would come out than goes in: the evaporator is wet from before, or a "
            "figure is wrong; run it for some minutes and read again."
        )


def _evaporator_remarks(values: Values, answers: Sequence[Answer]) -> Iterator[str]:
    if answers[0].limits[1] <= 0:
        yield "It does not cool: heat gets in on the way, or nothing evaporates."
    if "humidity" not in values:
        yield "Damp air gives fewer degrees for the same heat: with its humidity both are told."
        return
    cools, all_of_it = answers[1].value, answers[3].value
    if cools > 0 and all_of_it > 0:
        share = round(100 * cools / all_of_it)
        yield f"Of the heat {share} % cools the air (sensible), {100 - share} % dries it (latent)."
    if "humid-out" not in values:
        yield "The air that comes out is taken as saturated, or with all its water if that is less."
    yield "For 1 kg of dry air; vent and intake measured at the same time, blower as in both."


DEW_POINT = Sum(
    name="dew-point",
    title="dew point, water and heat of damp air",
    formula="by the pressure of water vapour: humidity × that of saturated air",
    symbols="pw = RH·pws(T), W = 0.621945·pw/(p - pw), h = 1.006·T + W·(2501 + 1.86·T)",
    inputs=(
        Input(
            "air", Kind.TEMPERATURE, "dry thermometer, in the shade", signed=True, like="35C or 95F"
        ),
        Input("humidity", Kind.HUMIDITY, "relative humidity"),
        Input(
            "wet",
            Kind.TEMPERATURE,
            "thermometer in a wet sock, fanned",
            signed=True,
            like="24C or 75F",
        ),
        *AIR_OUTSIDE,
    ),
    choose=(1, ("humidity", "wet")),
    source=_SOURCE,
    example="35C 40%",
    work=_dew_point,
    check=_is_air,
    remarks=_dew_remarks,
    keywords="ac air conditioning humidity psychrometer enthalpy fog wet-bulb",
)

EVAPORATOR_SPLIT = Sum(
    name="evaporator-split",
    title="what the evaporator takes out of the air",
    formula="split = air in - air out; heat = that of the air in - that of the air out",
    symbols="dT = T1 - T2, q = h1 - h2, h = 1.006·T + W·(2501 + 1.86·T)",
    inputs=(
        Input("in", Kind.TEMPERATURE, "air at the intake", signed=True, like="32C or 90F"),
        Input("out", Kind.TEMPERATURE, "air at the vent", signed=True, like="12C or 54F"),
        Input("humidity", Kind.HUMIDITY, "of the air at the intake", optional=True),
        Input("humid-out", Kind.HUMIDITY, "of the air at the vent", optional=True),
        *AIR_OUTSIDE,
    ),
    source=_SOURCE,
    example="32C 12C 50%",
    work=_evaporator,
    check=_is_drier,
    remarks=_evaporator_remarks,
    keywords="ac air conditioning sensible latent vent humidity enthalpy cooling",
)

SUMS = (EVAPORATOR_SPLIT, DEW_POINT)
