"""What gauges and vent of a good air conditioner usually show, by the air outside."""

from collections.abc import Iterator, Sequence

from faulttree.core.air_conditioning.windows import (
    DAMPEST,
    DRY,
    DRY_VENT_FROM,
    GAUGES_KNOWN,
    PUBLISHED,
    VENT_KNOWN,
    Band,
    GaugeWindow,
    Window,
    gauge_window,
    vent_window,
)
from faulttree.core.calc.kinds import Kind
from faulttree.core.calc.refrigerants import (
    AIR_OUTSIDE,
    AIR_SOURCE,
    REFRIGERANT,
    SATURATION_SOURCE,
    air_outside,
    refrigerant,
)
from faulttree.core.calc.sums import Answer, Input, Sum, SumRefused, Values
from faulttree.core.refrigerant.refrigerant import Refrigerant


def _gauges(values: Values) -> GaugeWindow:
    """The window; limits of error that reach past the table end with it."""
    ambient = _within(GAUGES_KNOWN, values["ambient"])
    found = gauge_window(refrigerant(values), ambient, air_outside(values))
    assert found is not None
    return found


def _within(band: Band, value: float) -> float:
    """The value, or the end of the band that it lies beyond."""
    return min(max(value, band[0]), band[1])


def _windows(values: Values) -> Sequence[Answer]:
    found = _gauges(values)
    ends = {"low side from": found.low[0], "low side to": found.low[1]}
    ends |= {"high side from": found.high[0], "high side to": found.high[1]}
    return [Answer(name, Kind.GAUGE_PRESSURE, pascals) for name, pascals in ends.items()]


def _is_published(values: Values) -> None:
    if gauge_window(Refrigerant.R134A, values["ambient"]) is None:
        raise SumRefused(
            "Figures are published for 21 to 43 °C (70 to 110 °F) outside; on other days judge by "
            "superheat, subcooling and condensing-split."
        )


def _windows_mean(values: Values, _answers: Sequence[Answer]) -> Iterator[str]:
    if refrigerant(values) is not Refrigerant.R134A:
        yield "Calculated: same evaporating and condensing temperatures as published for R-134a."
    yield (
        "Coldest setting, blower high, doors open, shade, 1500 rpm for 5 min or 1000 rpm for 10 "
        "(US Army TM 9-2320-387-24-2, TM 5-3805-290-23-1). Read the high side just before the "
        "clutch drops out; very damp air raises the low side a little, dry air lowers it."
    )
    yield (
        "On a car converted from R-12 expect the upper half; many expansion-valve cars idle at "
        "210 to 290 kPa (30 to 42 psi) low side (common practice)."
    )
    yield "Both in their windows proves no charge: charge by weight, never by gauge."


def _vent(values: Values) -> Window:
    """The window; limits of error that reach past the table end with it."""
    humidity = min(values["humidity"], DAMPEST)
    least, most = VENT_KNOWN
    if humidity <= DRY:
        least = DRY_VENT_FROM
    found = vent_window(_within((least, most), values["ambient"]), humidity)
    assert found is not None
    return found


def _vent_target(values: Values) -> Sequence[Answer]:
    found = _vent(values)
    return [
        Answer("vent from", Kind.TEMPERATURE, found.low),
        Answer("vent to", Kind.TEMPERATURE, found.high),
    ]


def _has_vent(values: Values) -> None:
    if vent_window(values["ambient"], values["humidity"]) is None:
        raise SumRefused(
            "There are figures for 27 to 38 °C (80 to 100 °F) and up to 70 % humidity, and for dry "
            "air of 30 % or less from 21 °C (70 °F) on; else compare air in and air out with "
            "evaporator-split."
        )


def _vent_means(values: Values, _answers: Sequence[Answer]) -> Iterator[str]:
    yield (
        "Nothing follows from up to 3 K (5 °F) beyond; a car converted from R-12 is 1 to 3 K "
        "warmer (common practice)."
    )
    if values["humidity"] < DRY:
        yield "Drier air than 30 % is taken as 30 %: the vent may be colder."
    yield "Coldest setting, blower high, fresh air, after 10 min at 1500 rpm."


GAUGE_WINDOWS = Sum(
    name="gauge-windows",
    title="what both gauges usually show on such a day",
    formula="straight lines between published rows; others: same saturation temperatures",
    symbols="p = f(Tair) + 101.325 kPa - pair",
    inputs=(
        Input(
            "ambient",
            Kind.TEMPERATURE,
            "air that goes into the condenser",
            signed=True,
            like="32C or 90F",
        ),
        REFRIGERANT,
        *AIR_OUTSIDE,
    ),
    source=f"{PUBLISHED}; {SATURATION_SOURCE}; {AIR_SOURCE}",
    example="32C R-134a",
    work=_windows,
    check=_is_published,
    remarks=_windows_mean,
    keywords="ac air conditioning pressure high low side normal table ambient",
)

VENT_TARGET = Sum(
    name="vent-target",
    title="how cold the vent usually gets on such a day",
    formula="straight lines between figures for 27, 32 and 38 °C at 30, 50 and 70 % humidity",
    symbols="T = f(Tair, humidity)",
    inputs=(
        Input("ambient", Kind.TEMPERATURE, "air that goes in", signed=True, like="32C or 90F"),
        Input("humidity", Kind.HUMIDITY, "of that air"),
    ),
    source="common practice; at 21 °C and low humidity US Army TM 9-2320-387-24-2",
    example="32C 50%",
    work=_vent_target,
    check=_has_vent,
    remarks=_vent_means,
    keywords="ac air conditioning outlet temperature cold performance humidity",
)

SUMS = (GAUGE_WINDOWS, VENT_TARGET)
