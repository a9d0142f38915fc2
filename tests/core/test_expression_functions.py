"""The functions of expressions: what they give, what they go by, and when they give nothing."""

import subprocess
import sys
from collections.abc import Mapping

import pytest
from CoolProp import CoolProp
from worked_out import NAMES, ZERO_C, Q, celsius, fahrenheit, psig, worked_out

from faulttree.core.air_conditioning.windows import gauge_window, vent_window
from faulttree.core.atmosphere import Atmosphere
from faulttree.core.expression import Expression, ExpressionError
from faulttree.core.expression_values import REFRIGERANT, REFRIGERANT_WORD
from faulttree.core.expression_windows import source_of
from faulttree.core.refrigerant.refrigerant import Refrigerant, properties
from faulttree.core.uncertain import CannotWorkOut, Uncertain, exactly
from faulttree.core.units import PSI_PA, Quantity


@pytest.mark.parametrize(
    ("gauge", "altitude", "expected"),
    [(30, None, 34.56), (30, 0, 34.56), (30, 500, 33.59), (250, 1000, 145.79)],
)
def test_a_gauge_reading_means_less_heat_the_higher_the_car_stands(
    gauge: float, altitude: float | None, expected: float
) -> None:
    """CoolProp 8.0.0 at the pressure of the ASHRAE standard atmosphere."""
    found = worked_out(
        "saturation(low-side)", Q.TEMPERATURE, altitude=altitude, low_side=psig(gauge)
    )
    assert found.value * 1.8 - 459.67 == pytest.approx(expected, abs=0.1)


@pytest.mark.parametrize(
    ("refrigerant", "gauge", "line", "expected"),
    [("R-134a", 28, 48, 15.73), ("R-12", 30, 45, 13.0), ("R-1234yf", 38, 52, 12.45)],
)
def test_superheat(refrigerant: str, gauge: float, line: float, expected: float) -> None:
    """CoolProp 8.0.0 at sea level, temperature of the pipe less saturation temperature [°F]."""
    values = {"low_side": psig(gauge), "pipe": fahrenheit(line)}
    sum_of_it = "pipe - saturation(low-side)"
    found = worked_out(sum_of_it, Q.TEMPERATURE_DIFFERENCE, refrigerant, **values)
    assert found.value * 1.8 == pytest.approx(expected, abs=0.15)


@pytest.mark.parametrize(
    ("refrigerant", "gauge", "line", "expected"),
    [("R-134a", 200, 118, 12.44), ("R-12", 180, 115, 14.78)],
)
def test_subcooling(refrigerant: str, gauge: float, line: float, expected: float) -> None:
    """CoolProp 8.0.0 at sea level, saturation temperature less that of the pipe [°F]."""
    values = {"high_side": psig(gauge), "pipe": fahrenheit(line)}
    sum_of_it = "saturation(high-side) - pipe"
    found = worked_out(sum_of_it, Q.TEMPERATURE_DIFFERENCE, refrigerant, **values)
    assert found.value * 1.8 == pytest.approx(expected, abs=0.15)


@pytest.mark.parametrize(
    ("refrigerant", "degrees", "psi"),
    [("R-134a", 32, 27.772), ("R-12", 86, 93.162), ("R-1234yf", 80, 89.033), ("R-22", 60, 101.638)],
)
def test_what_a_gauge_shows_of_refrigerant_at_rest(
    refrigerant: str, degrees: float, psi: float
) -> None:
    """CoolProp 8.0.0 at 101325 Pa."""
    values = {"ambient": fahrenheit(degrees)}
    found = worked_out("saturation-pressure(ambient)", Q.GAUGE_PRESSURE, refrigerant, **values)
    assert found.value / PSI_PA == pytest.approx(psi, rel=1.5e-3)


def test_high_up_a_gauge_shows_more_of_the_same_refrigerant() -> None:
    there, here = (
        worked_out("saturation-pressure(20 C)", Q.GAUGE_PRESSURE, altitude=altitude).value
        for altitude in (1000, 0)
    )
    # 101325 Pa at sea level, 89874.5 Pa at 1000 m: ASHRAE Handbook Fundamentals (2017), chapter 1.
    assert there - here == pytest.approx(101325 - 89874.5, abs=1)


def test_a_ratio_of_pressures_is_one_of_absolute_pressures() -> None:
    ratio = "absolute(high-side) / absolute(low-side)"
    values = {"high_side": psig(200), "low_side": psig(30)}
    found = worked_out(ratio, Q.RATIO, altitude=0, **values)
    # (200 + 14.696) / (30 + 14.696), with 14.696 psi of air: NIST SP 811 (2008), B.8.
    assert found.value == pytest.approx(214.696 / 44.696, rel=1e-5)


@pytest.mark.parametrize(
    ("air", "humidity", "dew"), [(35, 40, 19.4), (27, 50, 15.7), (40, 20, 12.8)]
)
def test_dew_point(air: float, humidity: float, dew: float) -> None:
    """CoolProp's humid air, after ASHRAE RP-1485 (2009); figures by PsychroLib 2.5.0."""
    found = worked_out(f"dew-point({air} C, {humidity} %)", Q.TEMPERATURE).value
    at = ("T", air + ZERO_C, "P", 101325, "R", humidity / 100)
    assert found == pytest.approx(CoolProp.HAPropsSI("D", *at), abs=0.1)
    assert found - ZERO_C == pytest.approx(dew, abs=0.05)


@pytest.mark.parametrize("refrigerant", Refrigerant)
def test_windows_are_those_published(refrigerant: Refrigerant) -> None:
    window = gauge_window(refrigerant, 308.0, Atmosphere.at_altitude(500))
    assert window is not None
    edges = {
        "least-low-side": window.low[0],
        "most-low-side": window.low[1],
        "least-high-side": window.high[0],
        "most-high-side": window.high[1],
    }
    for name, edge in edges.items():
        text = f"{name}(ambient)"
        values = {"ambient": exactly(308.0)}
        found = worked_out(text, Q.GAUGE_PRESSURE, refrigerant.value, 500, **values)
        assert found == exactly(edge)
    vent = vent_window(308.0, 0.45)
    assert vent is not None
    values = {"ambient": exactly(308.0), "humidity": exactly(0.45)}
    for name, edge in (("least-vent", vent.low), ("most-vent", vent.high)):
        assert worked_out(f"{name}(ambient, humidity)", Q.TEMPERATURE, **values) == exactly(edge)


def test_the_row_of_the_manual_for_air_of_90_fahrenheit() -> None:
    """US Army TM 5-3805-291-23-1, table 1: R-134a at sea level, low 105 to 210 kPa, high 1175 to
    1650 kPa."""
    found = [
        worked_out(f"{name}(32 C)", Q.GAUGE_PRESSURE).value / 1e3
        for name in ("least-low-side", "most-low-side", "least-high-side", "most-high-side")
    ]
    assert found == pytest.approx([105, 210, 1175, 1650])


@pytest.mark.parametrize("air", [20.5, 21.0, 43.0, 43.5])
def test_gauges_where_nothing_is_published(air: float) -> None:
    values = {"ambient": celsius(air)}
    if 21 <= air <= 43:
        assert worked_out("most-high-side(ambient)", Q.GAUGE_PRESSURE, **values).value > 0
        return
    with pytest.raises(CannotWorkOut, match="published for air of 21 to 43 °C"):
        worked_out("most-high-side(ambient)", Q.GAUGE_PRESSURE, **values)


@pytest.mark.parametrize(
    ("air", "humidity", "is_known"),
    [
        (27, 70, True), (27, 71, False), (38, 10, True), (38.5, 10, False), (26.5, 31, False),
        (21, 30, True), (20.5, 30, False),
    ],
)  # fmt: skip
def test_vents_where_nothing_is_published(air: float, humidity: float, is_known: bool) -> None:
    text = f"most-vent({air} C, {humidity} %)"
    if is_known:
        assert worked_out(text, Q.TEMPERATURE).value > ZERO_C
        return
    with pytest.raises(CannotWorkOut, match=r"27 to 38 °C .* up to 70 % .* 21 °C .* up to 30 %"):
        worked_out(text, Q.TEMPERATURE)


def test_at_the_rim_of_a_window_the_error_counts_as_far_as_something_is_published() -> None:
    values = {"ambient": Uncertain(22 + ZERO_C, rest=2.0)}
    found = worked_out("most-high-side(ambient)", Q.GAUGE_PRESSURE, **values)
    rim = worked_out("most-high-side(21 C)", Q.GAUGE_PRESSURE).value
    upper = worked_out("most-high-side(24 C)", Q.GAUGE_PRESSURE).value
    assert found.low <= rim <= found.low + 1e5
    assert found.high == pytest.approx(upper)


@pytest.mark.parametrize(
    "typed",
    ["R-134a", "R134a", "r134a", "r 134 a", "134a", "134A", "HFC-134a", "HFC 134 a", "R\u2011134a"],
)
def test_spellings_of_one_refrigerant(typed: str) -> None:
    usual = worked_out("saturation(30 psi)", Q.TEMPERATURE)
    assert worked_out("saturation(30 psi)", Q.TEMPERATURE, typed) == usual


@pytest.mark.parametrize(
    ("typed", "refrigerant"),
    [
        ("R12", Refrigerant.R12), ("R-12", Refrigerant.R12), ("CFC-12", Refrigerant.R12),
        ("R1234yf", Refrigerant.R1234YF), ("HFO-1234yf", Refrigerant.R1234YF),
        ("R22", Refrigerant.R22), ("HCFC 22", Refrigerant.R22),
    ],
)  # fmt: skip
def test_spellings_of_the_others(typed: str, refrigerant: Refrigerant) -> None:
    found = worked_out("saturation-pressure(0 C)", Q.GAUGE_PRESSURE, typed)
    pressure = properties(refrigerant).pressure(ZERO_C)
    assert found.value == pytest.approx(Atmosphere().gauge(pressure))


@pytest.mark.parametrize(
    "typed", ["R-410A", "R-123", "R-1234ze", "12 or 134a", "R", "a blend", "R-134"]
)
def test_another_refrigerant_is_told_with_the_four_that_are_known(typed: str) -> None:
    with pytest.raises(CannotWorkOut) as refusal:
        worked_out("saturation(30 psi)", Q.TEMPERATURE, typed)
    known = "known are R-134a, R-12, R-1234yf, R-22"
    assert str(refusal.value) == f"“{typed}” is no refrigerant known here; {known}"


@pytest.mark.parametrize(
    ("text", "quantity", "values", "message"),
    [
        ("saturation(30 psi)", Q.TEMPERATURE, {"refrigerant": None}, "refrigerant is not told"),
        ("saturation(-99 kPa)", Q.TEMPERATURE, {}, "R-134a is known from 16 to 3379 kPa absolute"),
        ("saturation-pressure(95 C)", Q.GAUGE_PRESSURE, {}, "R-134a is known from -60 to 92 °C"),
        ("saturation(30 psi)", Q.TEMPERATURE, {"altitude": 9000}, "between -500 and 5000 m"),
        ("absolute(30 psi)", Q.ABSOLUTE_PRESSURE, {"altitude": -900}, "between -500 and 5000 m"),
        ("dew-point(20 C, 0 %)", Q.TEMPERATURE, {}, "between 1 and 100 %"),
        ("dew-point(20 C, 110 %)", Q.TEMPERATURE, {}, "between 1 and 100 %"),
        ("dew-point(250 C, 50 %)", Q.TEMPERATURE, {}, "so hot or so cold"),
        ("saturation(low-side)", Q.TEMPERATURE, {}, "low-side has not been measured"),
    ],
)
def test_what_cannot_be_worked_out_says_why(
    text: str, quantity: Quantity, values: Mapping[str, object], message: str
) -> None:
    with pytest.raises(CannotWorkOut, match=message):
        worked_out(text, quantity, **values)  # type: ignore[arg-type]


@pytest.mark.parametrize(
    ("text", "message"),
    [
        ("saturation(feed)", "saturation takes absolute pressure or gauge pressure, not voltage"),
        ("saturation-pressure(feed)", "saturation-pressure takes temperature, not voltage"),
        ("absolute(manifold)", "absolute takes gauge pressure, not absolute pressure"),
        ("dew-point(pipe, feed)", "dew-point takes ratio as value 2, not voltage"),
        ("least-vent(humidity, pipe)", "least-vent takes temperature as value 1, not ratio"),
        ("most-low-side(low-side)", "most-low-side takes temperature, not gauge pressure"),
        ("saturation(low-side, pipe)", "saturation is written saturation(pressure); 2 are given"),
        (
            "dew-point(pipe)",
            "dew-point is written dew-point(temperature, humidity); 1 are given",
        ),
        ("saturaton(low-side)", "no function is called saturaton"),
        ("negate(low-side)", "no function is called negate"),
        ("saturation(low-side) + pipe", "temperature and temperature cannot be added"),
        ("saturation(lo)", "“lo” is neither an earlier step nor a value under needs"),
    ],
)
def test_what_does_not_fit_is_refused(text: str, message: str) -> None:
    with pytest.raises(ExpressionError) as refusal:
        Expression.parse(text).quantities(NAMES)
    assert str(refusal.value) == message


def test_a_bare_psi_is_taken_as_gauge_pressure() -> None:
    bare, gauge, absolute = (
        worked_out(f"saturation(30 {unit})", Q.TEMPERATURE).value
        for unit in ("psi", "psig", "psia")
    )
    assert bare == gauge > absolute


def test_the_refrigerant_cannot_be_reached_by_a_name() -> None:
    values = {REFRIGERANT_WORD: "R-134a", REFRIGERANT: "R-134a"}
    evaluate = Expression.parse("refrigerant").evaluator(Q.MASS, {"refrigerant": Q.MASS})
    with pytest.raises(CannotWorkOut, match="has not been measured"):
        evaluate(values)
    with pytest.raises(ExpressionError):
        Expression.parse(REFRIGERANT_WORD)


def test_what_an_expression_goes_by() -> None:
    superheat = Expression.parse("pipe - saturation(low-side)")
    assert superheat.names == {"pipe", "low-side"}
    assert superheat.functions == {"saturation"}
    assert superheat.car_data == {"refrigerant", "altitude"}
    assert Expression.parse("absolute(5 psi) / absolute(5 psi)").car_data == {"altitude"}
    assert Expression.parse("max(dew-point(20 C, 50 %), 5 C)").car_data == frozenset()
    assert Expression.parse("dew-point(20 C, 50 %)").is_fixed
    assert not Expression.parse("saturation(5 psi)").is_fixed
    assert not superheat.is_fixed


def test_a_window_tells_its_source() -> None:
    known = {REFRIGERANT_WORD: "R-134a"}
    assert source_of("most-low-side", known).startswith("US Army TM 5-3805-291-23-1")
    assert source_of("most-low-side", {REFRIGERANT_WORD: "R-12"}).startswith("calculated: same")
    assert source_of("least-vent", {}).startswith("common practice")
    assert source_of("saturation", known) == ""


def test_a_tree_without_them_loads_no_table_and_no_psychrometrics() -> None:
    code = (
        "import sys\n"
        "from faulttree.core.expression import Expression\n"
        "from faulttree.core.units import Quantity as Q\n"
        "names = {'p': Q.GAUGE_PRESSURE}\n"
        "Expression.parse('saturation(p) - dew-point(20 C, 50 %)').quantities(names)\n"
        "print([m for m in sys.modules if 'refrigerant.tables' in m or m == 'psychrolib'])\n"
        "print('numpy' in sys.modules)"
    )
    done = subprocess.run([sys.executable, "-c", code], capture_output=True, text=True, check=True)
    assert done.stdout.split() == ["[]", "False"]
