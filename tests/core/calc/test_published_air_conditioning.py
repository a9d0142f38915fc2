"""The sums of air conditioning against what is printed outside the project, or a reference library.

Sources, once each:

* EOS: equations of state by CoolProp, which knows nothing of the tables of the project.
* CHART: a printed pressure-temperature chart in whole degrees Fahrenheit, gauge at sea level.
* HB: ASHRAE Handbook Fundamentals (2017), chapter 1: table 2 (saturated air) and example 1.
* HA: humid air by CoolProp (virial equations), which stands apart from the handbook's formulas.
* ARMY: US Army TM 5-3805-291-23-1 table 1; TM 9-2320-387-24-2.
* CFR: 40 CFR 82 subpart B appendix C.
* CP: common practice, no source.
"""

import pytest
from sums import done, found, value

from faulttree.core.units import PSI_PA, UnitSystem

NAMES = {"R-134a": "R134a", "R-12": "R12", "R-1234yf": "R1234yf", "R-22": "R22"}
C0 = 273.15


def kelvin(fahrenheit):
    return (fahrenheit + 459.67) / 1.8


def remarks(typed):
    return " ".join(done(typed).remarks)


# ----------------------------------------------------------------------- pressure and temperature


@pytest.mark.parametrize(
    ("psig", "r22", "r134a"), [(0, -41, -15), (10, -20, 7), (25, 2, 29), (30, 7, 35)]
)
def test_a_printed_chart(psig, r22, r134a):
    # Source: CHART, whole degrees.
    for name, fahrenheit in (("R-22", r22), ("R-134a", r134a)):
        kelvins = value(f"saturation {name} {psig}psi")
        assert kelvins == pytest.approx(kelvin(fahrenheit), abs=1.2 / 1.8)


@pytest.mark.parametrize(
    ("celsius", "r134a", "r12"),
    [(-10, 99, 117), (0, 191, 207), (20, 470, 465), (35, 786, 745), (60, 1580, 1421)],
)
def test_gauge_pressures_of_saturation(celsius, r134a, r12):
    # Source: EOS, kPa gauge at sea level.
    assert value(f"saturation R134a {celsius}C") / 1e3 == pytest.approx(r134a, abs=1.6)
    assert value(f"saturation R12 {celsius}C") / 1e3 == pytest.approx(r12, abs=1.6)


@pytest.mark.parametrize(
    ("psig", "metres", "fahrenheit"), [(30, 0, 34.56), (30, 500, 33.59), (250, 1000, 145.79)]
)
def test_the_same_gauge_reading_higher_up(psig, metres, fahrenheit):
    # Source: EOS with the standard atmosphere: 101325, 95461 and 89874 Pa.
    kelvins = value(f"saturation R-134a {psig}psi altitude={metres}m")
    assert kelvins == pytest.approx(kelvin(fahrenheit), abs=0.1 / 1.8)


@pytest.mark.parametrize("name", NAMES)
@pytest.mark.parametrize("celsius", [-25, 0, 30, 65])
def test_saturation_both_ways(name, celsius):
    # Source: EOS.
    coolprop = pytest.importorskip("CoolProp.CoolProp")
    theirs = coolprop.PropsSI("P", "T", celsius + C0, "Q", 1, NAMES[name])
    assert value(f"saturation {name} {celsius}C", "absolute") == pytest.approx(theirs, rel=1.5e-3)
    back = value(f"saturation {name} {theirs - 101325:.3f}Pa")
    assert back == pytest.approx(celsius + C0, abs=0.1)


# ------------------------------------------------------------------------------------------ pipes


@pytest.mark.parametrize(
    ("name", "psig", "pipe", "boils", "superheat"),
    [
        ("R134a", 28, 48, 32.27, 15.73),
        ("R12", 30, 45, 32.0, 13.0),
        ("R1234yf", 38, 52, 39.55, 12.45),
    ],
)
def test_worked_superheat(name, psig, pipe, boils, superheat):
    # Source: EOS, worked examples in °F at sea level.
    result = found(f"superheat {psig}psi {pipe}F {name}")
    assert result["superheat"].value * 1.8 == pytest.approx(superheat, abs=0.15)
    assert result["boils at"].value == pytest.approx(kelvin(boils), abs=0.1)


@pytest.mark.parametrize(
    ("name", "psig", "pipe", "condenses", "subcooling"),
    [("R134a", 200, 118, 130.44, 12.44), ("R12", 180, 115, 129.78, 14.78)],
)
def test_worked_subcooling(name, psig, pipe, condenses, subcooling):
    # Source: EOS, worked examples in °F at sea level.
    result = found(f"subcooling {psig}psi {pipe}F {name}")
    assert result["subcooling"].value * 1.8 == pytest.approx(subcooling, abs=0.15)
    assert result["condenses at"].value == pytest.approx(kelvin(condenses), abs=0.1)


def test_plain_subtraction():
    # Source: a textbook's example: pipe 50 °F, boiling at 40 °F; condensing at 90 °F, pipe 80 °F.
    low, high = (value(f"saturation R-134a {each}F") for each in (40, 90))
    assert value(f"superheat {low}Pa 50F R-134a") * 1.8 == pytest.approx(10, abs=0.01)
    assert value(f"subcooling {high}Pa 80F R-134a") * 1.8 == pytest.approx(10, abs=0.01)


@pytest.mark.parametrize(
    ("psig", "ambient", "split"), [(120, 70, 16), (210, 80, 30), (300, 110, 28)]
)
def test_the_split_of_published_pressures(psig, ambient, split):
    # Source: ARMY for the pressures, EOS for the split, whole kelvins.
    assert value(f"condensing-split {psig}psi {ambient}F 134a") == pytest.approx(split, abs=0.8)


def test_the_approach_is_the_split_less_the_subcooling():
    split = value("condensing-split 1.35MPa 30C R-134a")
    subcooling = value("subcooling 1.35MPa 44C R-134a")
    assert value("approach 44C 30C") == pytest.approx(split - subcooling)


@pytest.mark.parametrize(
    ("typed", "words"),
    [
        ("superheat 190kPa 5C R-134a", "As usual."),
        ("superheat 190kPa 0C R-134a", "Flooding:"),
        ("superheat 190kPa 15C R-134a", "Starved:"),
        ("superheat 190kPa -10C R-134a", "Below zero cannot be"),
        ("superheat 190kPa±20kPa 9C±2C R-134a", "In doubt, by the limits of error: As usual; or: "),
        ("subcooling 1350kPa 53.8C R-134a", "Short:"),
        ("subcooling 1350kPa 30C R-134a", "Too much:"),
        ("subcooling 1350kPa 45C R-134a", "As usual."),
        ("condensing-split 1350kPa 30C R-134a", "As usual."),
        ("condensing-split 700kPa 30C R-134a", "Little:"),
        ("condensing-split 2300kPa 30C R-134a", "Too much:"),
        ("condensing-split 900kPa 10C R-134a", "no figures beyond"),
        ("approach 20C±1C 30C", "Below zero cannot be"),
        ("superheat 190kPa 5C R-134a", "Charge by weight, never by gauge."),
    ],
)
def test_what_is_said_of_them(typed, words):
    # Source: CP, 3 to 8 K and 5 to 12 K; ARMY for the split.
    assert words in remarks(typed)


# -------------------------------------------------------------------------------------- the others


def test_a_ratio_of_gauge_readings_would_be_wrong():
    # Source: definition with 14.696 psi of air: (200 + 14.696) ÷ (28 + 14.696).
    assert value("pressure-ratio 28psi 200psi") == pytest.approx(214.696 / 42.696, rel=1e-4)
    up = value("pressure-ratio 28psi 200psi barometer=12.228psia")
    assert up == pytest.approx(212.228 / 40.228, rel=1e-4)


@pytest.mark.parametrize(
    ("typed", "words"),
    [
        ("static-check 470kPa 20C R-134a", "Some liquid is there"),
        ("static-check 68psi 68F 134a 68psi", "Some liquid is there"),
        ("static-check 300kPa 20C R-134a", "do not run the compressor"),
        ("static-check 560kPa 20C R-134a", "do not mix"),
        ("static-check 300kPa 20C R-134a 700kPa", "not equal yet"),
        ("static-check 450kPa±15kPa 20C±1C R-134a", "Unclear"),
    ],
)
def test_a_system_at_rest(typed, words):
    # Source: EOS, 470 kPa (68 psi) at 20 °C; ARMY TM 9-4120-381-14: below, no liquid.
    assert words in remarks(typed)


def test_figures_of_a_system_at_rest():
    result = found("static-check 400kPa 30C R-134a 410kPa")
    assert result["saturation"].value / 1e3 == pytest.approx(669, abs=1.6)
    assert result["above saturation"].value == pytest.approx(506.3 / 770.2 - 1, abs=2e-3)
    assert result["sides apart"].value == pytest.approx(10 / 506.3, abs=1e-3)


@pytest.mark.parametrize(
    ("fahrenheit", "high", "low"),
    [(70, (120, 190), (10, 20)), (90, (170, 240), (15, 30)), (110, (210, 300), (15, 30))],
)
def test_gauges_on_a_day(fahrenheit, high, low):
    # Source: ARMY, its column of pounds.
    result = found(f"gauge-windows {fahrenheit}F R-134a", UnitSystem.US)
    psi = [each.value / PSI_PA for each in result.values()]
    assert psi == pytest.approx([*low, *high], abs=2.5)


def test_gauges_on_a_day_in_the_mountains():
    sea, up = (found(f"gauge-windows 32C R-12 altitude={m}m") for m in (0, 2000))
    # Source: ISO 2533: 79.5 kPa at 2000 m.
    for name, each in sea.items():
        assert up[name].value - each.value == pytest.approx(101325 - 79495, abs=30)


@pytest.mark.parametrize(
    ("typed", "vent"),
    [
        ("vent-target 32C 50%", (13, 18)),
        ("vent-target 38C 70%", (22, 28)),
        ("vent-target 21C 20%", (4, 10)),
    ],
)
def test_the_vent_on_a_day(typed, vent):
    # Source: CP; ARMY for 21 °C.
    result = found(typed)
    assert [each.value - C0 for each in result.values()] == pytest.approx(vent)


def test_limits_that_reach_past_the_figures_end_with_them():
    vent = found("vent-target 37C±3C 60%±20%")
    assert vent["vent to"].high == pytest.approx(C0 + 28)
    # At the other end: 34 °C and 40 %, between the rows.
    assert vent["vent from"].low == pytest.approx(C0 + 11 + (14.5 - 11) * 2 / 6)
    assert found("gauge-windows 42C±3C R-134a")["high side to"].high == pytest.approx(2075e3)


# --------------------------------------------------------------------------------------- damp air


def test_the_handbook_s_example_of_damp_air():
    # Source: HB example 1: 40 °C, wet bulb 20 °C, sea level.
    result = found("dew-point 40C wet=20C")
    assert result["water"].value == pytest.approx(0.0065, abs=1e-4)
    assert result["dew point"].value - C0 == pytest.approx(7, abs=0.5)
    assert result["humidity"].value == pytest.approx(0.14, abs=0.01)
    assert result["heat"].value == pytest.approx(56.7e3, abs=100)


@pytest.mark.parametrize(("celsius", "water"), [(5, 0.005425), (50, 0.086863)])
def test_saturated_air(celsius, water):
    # Source: HB table 2.
    result = found(f"dew-point {celsius}C 100%")
    assert result["water"].value == pytest.approx(water, rel=0.01)
    assert result["dew point"].value == pytest.approx(celsius + C0, abs=0.01)
    assert result["wet bulb"].value == pytest.approx(celsius + C0, abs=0.01)


@pytest.mark.parametrize(("celsius", "humidity"), [(35, 40), (27, 50), (40, 20), (10, 80)])
@pytest.mark.parametrize("pascals", [101325, 80000])
def test_damp_air_by_another_library(celsius, humidity, pascals):
    # Source: HA.
    coolprop = pytest.importorskip("CoolProp.CoolProp")
    result = found(f"dew-point {celsius}C {humidity}% barometer={pascals}Pa")

    def theirs(what):
        return coolprop.HAPropsSI(what, "T", celsius + C0, "R", humidity / 100, "P", pascals)

    assert result["dew point"].value == pytest.approx(theirs("D"), abs=0.05)
    assert result["wet bulb"].value == pytest.approx(theirs("B"), abs=0.1)
    assert result["water"].value == pytest.approx(theirs("W"), rel=0.01)
    assert result["heat"].value == pytest.approx(theirs("H"), abs=600)


def test_what_an_evaporator_takes_out():
    # Source: HB formulas: 35 °C and 40 % in, 8 °C and 95 % out: 47.53 kJ and 7.812 g for each kg.
    result = found("evaporator-split 35C 8C 40% 95%")
    assert result["split"].value == 27
    assert result["takes in all"].value == pytest.approx(47526, abs=5)
    assert result["water taken out"].value == pytest.approx(7.8121e-3, abs=1e-6)
    parts = result["cools by"].value + result["dries by"].value
    assert parts == pytest.approx(result["takes in all"].value)
    # Sensible heat at the water of the air in: (1.006 + 1.86 W) x 27 K, W = 0.014132.
    assert result["cools by"].value == pytest.approx((1.006 + 1.86 * 0.014132) * 27e3, rel=1e-4)


def test_dry_air_is_only_cooled():
    result = found("evaporator-split 40C 20C 10%")
    assert result["dries by"].value == pytest.approx(0)
    assert "100 % cools the air" in remarks("evaporator-split 40C 20C 10%")
    assert list(found("evaporator-split 40C 20C")) == ["split"]


# ------------------------------------------------------------------- charge, clutch, condenser fan


def test_a_charge_is_balanced():
    # Source: CFR, 95 % or more is recovered.
    result = found("charge-balance 28oz 19oz evacuated=no", UnitSystem.US)
    ounces = {name: [x / 0.028349523 for x in (r.low, r.high)] for name, r in result.items()}
    assert ounces["was in"] == pytest.approx([19, 20])
    assert ounces["was short by"] == pytest.approx([8, 9])
    assert ounces["in it now"] == pytest.approx([0, 1])
    assert ounces["still to add"] == pytest.approx([27, 28])
    assert ounces["was over by"] == ounces["now over by"] == [0, 0]
    assert "never vent" in remarks("charge-balance 28oz 19oz")


def test_too_much_is_told_as_such():
    # Source: the same; 855 g and more was in where the label says 800 g.
    result = found("charge-balance 800g 855g 830g")
    grams = {name: [x * 1e3 for x in (r.low, r.high)] for name, r in result.items()}
    assert grams["was over by"] == pytest.approx([55, 100])
    assert grams["now over by"] == pytest.approx([30, 30])
    assert grams["was short by"] == grams["still to add"] == [0, 0]


def test_what_may_be_short_or_over_is_told_as_both():
    result = found("charge-balance 800g 779g")
    assert result["was short by"].high == pytest.approx(0.021)
    assert result["was over by"].high == pytest.approx(0.020)
    assert result["was short by"].low == result["was over by"].low == 0
    assert "Before: right, within" in remarks("charge-balance 800g 779g")


@pytest.mark.parametrize(
    ("typed", "words"),
    [
        ("charge-balance 800g 790g", "Before: right"),
        ("charge-balance 800g 900g", "Before: overcharged"),
        ("charge-balance 800g 500g", "look for the leak"),
        ("charge-balance 800g 500g 900g", "Now: too much"),
        ("charge-balance 800g 500g 790g±14g", "Now: right"),
        ("charge-balance 800g 500g 735g±14g", "In doubt"),
        ("charge-balance 800g 500g 400g evac=no", "air and moisture stay in"),
    ],
)
def test_what_is_said_of_a_charge(typed, words):
    # Source: ARMY TM 5-3805-290-23-1: within 30 to 60 g of the label.
    assert words in remarks(typed)


def test_a_conversion():
    # Source: CP.
    charge = found("conversion-charge 2lb 8oz")["R-134a"]
    assert (charge.low, charge.high) == pytest.approx((0.90718, 1.02058), abs=1e-5)
    assert "40 CFR 82 subpart G" in remarks("conversion-charge 1kg")


def test_a_clutch_cold_and_hot():
    # Source: CP, 7 to 8 V at 0.4 mm, 9 to 11 V at 1.0 mm, 3.6 ohm; copper as in coil-current.
    cold = found("clutch-pull-in 1mm 12V temperature=20C")
    assert (cold["pulls in at"].low, cold["pulls in at"].high) == pytest.approx((9, 11))
    assert cold["margin"].value == pytest.approx(2)
    hot = found("clutch-pull-in 1mm 13.8V 0.5V temperature=120C")
    factor = value("coil-current 3.6ohm 12V hot=120C", "resistance hot") / 3.6
    assert hot["pulls in at"].value == pytest.approx(10 * factor)
    assert hot["margin"].value == pytest.approx(13.3 - 10 * factor)
    assert hot["gets"].value == pytest.approx(13.3 / 3.6 / factor)


@pytest.mark.parametrize(
    ("typed", "words"),
    [
        ("clutch-pull-in 0.4mm 13.8V", "It pulls in, and holds."),
        ("clutch-pull-in 1.1mm 11.5V 1V temperature=120C", "It does not pull in"),
        ("clutch-pull-in 1mm 13.5V 0.3V", "In doubt"),
        ("clutch-pull-in 0.04in 13.5V", "0.41 to 0.79 mm"),
        ("condenser-fan 1.9MPa rising", "By the pressure switch: the fan should run."),
        ("condenser-fan 1.85MPa±100kPa rising", "the fan may run or stand"),
        ("condenser-fan 1.4MPa falling", "the fan should run"),
        ("condenser-fan 1.2MPa falling", "the fan may run or stand"),
        ("condenser-fan 800kPa falling", "the fan may stand"),
        ("condenser-fan 800kPa rising request", "By what asks for it: the fan should run"),
    ],
)
def test_what_is_said_of_clutch_and_fan(typed, words):
    # Source: CP; the gap: ARMY TM 9-2320-280-34.
    assert words in remarks(typed)
