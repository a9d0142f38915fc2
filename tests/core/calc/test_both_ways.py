"""Sums that are each other's way back, and which way results go with their inputs."""

import math

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from sums import found, value

from faulttree.core.calc.sizes import gauge_area, nearest_gauge, parse_size

MOST = settings(derandomize=True, max_examples=40, deadline=None)
VOLTS = st.floats(0.01, 60)
AMPS = st.floats(0.001, 300)
OHMS = st.floats(0.001, 1e6)


@MOST
@given(VOLTS, AMPS)
def test_ohm_s_law_from_any_two(volts, amps):
    ohm, watt = volts / amps, volts * amps
    pairs = [
        f"{volts:.12f}V {watt:.12f}W",
        f"{amps:.12f}A {ohm:.12f}ohm",
        f"{amps:.12f}A {watt:.12f}W",
    ]
    every = {"voltage": volts, "current": amps, "resistance": ohm, "power": watt}
    for line in (*pairs, f"{ohm:.12f}ohm {watt:.12f}W", f"{volts:.12f}V {ohm:.12f}ohm"):
        for name, result in found(f"ohm {line}").items():
            assert result.value == pytest.approx(every[name], rel=1e-6), line


@MOST
@given(VOLTS, AMPS)
def test_a_joint_from_any_two(volts, amps):
    ohm = value(f"joint {volts:.12f}V {amps:.12f}A")
    assert value(f"joint {amps:.12f}A {ohm:.12f}ohm") == pytest.approx(volts, rel=1e-6)
    assert value(f"joint {volts:.12f}V {ohm:.12f}ohm") == pytest.approx(amps, rel=1e-6)


@MOST
@given(st.floats(1, 60), OHMS, OHMS)
def test_a_pulled_up_line_is_the_way_back_of_a_divider(volts, upper, lower):
    tap = value(f"divider {volts:.12f}V {upper:.12f}ohm {lower:.12f}ohm")
    if 1e-3 < tap < volts * 0.999:
        back = value(f"pulled-up {volts:.12f}V {tap:.12f}V {upper:.12f}ohm")
        assert back == pytest.approx(lower, rel=1e-5)


@MOST
@given(st.floats(1, 60), st.floats(10, 1e6))
def test_two_meters_find_the_resistance_behind(volts, ohm):
    read = found(f"ghost-voltage {volts:.12f}V {ohm:.12f}ohm low=2.5k")
    usual, low = (each.value for each in read.values())
    back = found(f"source-resistance {usual:.12f}V {low:.12f}V low=2.5k")
    assert back["behind"].value == pytest.approx(ohm, rel=1e-4)
    assert back["open"].value == pytest.approx(volts, rel=1e-6)


@MOST
@given(st.floats(-40, 150), st.floats(2500, 4500))
def test_a_thermistor_both_ways_by_beta(celsius, beta):
    ohm = value(f"thermistor-beta 10k {beta:.12f} temperature={celsius:.12f}C")
    kelvin = value(f"thermistor-beta 10k {beta:.12f} resistance={ohm:.12f}ohm")
    assert kelvin == pytest.approx(celsius + 273.15, abs=1e-4)


@MOST
@given(st.floats(-40, 150))
def test_a_thermistor_both_ways_by_three_points(celsius):
    points = "0C 27936ohm 50C 4103ohm 100C 946.6ohm"
    ohm = value(f"thermistor-points {points} temperature={celsius:.12f}C")
    kelvin = value(f"thermistor-points {points} resistance={ohm:.12f}ohm")
    assert kelvin == pytest.approx(celsius + 273.15, abs=1e-4)


@MOST
@given(st.floats(-40, 200), st.floats(-40, 200), st.floats(0.1, 500))
def test_a_winding_both_ways(cold, hot, ohm):
    line = f"{ohm:.12f}ohm 12V hot={hot:.12f}C at={cold:.12f}C"
    then = value(f"coil-current {line}", "resistance hot")
    kelvin = value(f"winding-temperature {ohm:.12f}ohm {then:.12f}ohm at={cold:.12f}C")
    assert kelvin == pytest.approx(hot + 273.15, abs=1e-4)


@MOST
@given(st.floats(0.5, 30), st.floats(0.5, 60), st.floats(0.1, 2), st.floats(-20, 100))
def test_the_thinnest_wire_drops_just_what_it_may(metres, amps, volts, celsius):
    needed = (
        value(f"wire-size {metres:.12f}m {amps:.12f}A {volts:.12f}V {celsius:.12f}C")
        if (1.2 * 0.018 * 1.4 * metres * amps / volts < 90)
        else None
    )
    if needed is not None:
        size = f"{needed * 1e6:.12f}mm2"
        drop = found(f"wire-drop {metres:.12f}m {size} {amps:.12f}A {celsius:.12f}C")["drop"]
        assert drop.high == pytest.approx(volts, rel=1e-6)


@MOST
@given(st.floats(11.6, 12.6))
def test_charge_goes_up_with_the_voltage(volts):
    assert value(f"battery-charge {volts:.12f}V") <= value(f"battery-charge {volts + 0.05:.12f}V")


REFRIGERANTS = st.sampled_from(["R-134a", "R-12", "R-1234yf", "R-22"])
METRES = st.floats(-400, 4500)


@MOST
@given(REFRIGERANTS, st.floats(-25, 70), METRES)
def test_saturation_both_ways_at_any_altitude(name, celsius, metres):
    line = f"{name} altitude={metres:.9f}m"
    pascals = value(f"saturation {line} temperature={celsius:.9f}C")
    kelvins = value(f"saturation {line} pressure={pascals:.6f}Pa")
    assert kelvins == pytest.approx(celsius + 273.15, abs=1e-4)
    pipe = f"{celsius + 7:.9f}C"
    assert value(f"superheat {line} {pascals:.6f}Pa {pipe}") == pytest.approx(7, abs=1e-4)
    assert value(f"subcooling {line} {pascals:.6f}Pa {pipe}") == pytest.approx(-7, abs=1e-4)
    assert value(f"static-check {line} {pascals:.6f}Pa {celsius:.9f}C") == pytest.approx(
        0, abs=1e-6
    )


@MOST
@given(REFRIGERANTS, st.floats(50, 400), METRES, METRES)
def test_higher_up_the_same_gauges_mean_colder_refrigerant(name, kilopascals, one, other):
    low, high = (f"altitude={each:.6f}m" for each in sorted((one, other)))
    for the_sum, sign in (("superheat", 1), ("subcooling", -1), ("condensing-split", -1)):
        line = f"{the_sum} {name} {kilopascals:.6f}kPa 20C"
        assert sign * value(f"{line} {high}") >= sign * value(f"{line} {low}") - 1e-9
    ratio = f"pressure-ratio {kilopascals:.6f}kPa 1500kPa"
    assert value(f"{ratio} {high}") >= value(f"{ratio} {low}") - 1e-9


@MOST
@given(st.floats(0, 45), st.floats(5, 100), METRES)
def test_damp_air_both_ways(celsius, percent, metres):
    line = f"air={celsius:.9f}C altitude={metres:.9f}m"
    damp = found(f"dew-point {line} humidity={percent:.9f}%")
    wet = damp["wet bulb"].value - 273.15
    back = found(f"dew-point {line} wet={wet:.12f}C")
    assert back["humidity"].value == pytest.approx(percent / 100, abs=2e-3)
    assert back["water"].value == pytest.approx(damp["water"].value, rel=0.05, abs=2e-5)
    assert damp["dew point"].value <= damp["wet bulb"].value + 1e-3 <= celsius + 273.15 + 2e-3


@pytest.mark.parametrize(
    ("more", "less"),
    [
        ("superheat 190kPa 10C R-134a", "superheat 200kPa 10C R-134a"),
        ("superheat 190kPa 11C R-134a", "superheat 190kPa 10C R-134a"),
        ("subcooling 1400kPa 40C R-134a", "subcooling 1350kPa 40C R-134a"),
        ("condensing-split 1400kPa 30C R-12", "condensing-split 1400kPa 30C R-22"),
        ("pressure-ratio 100kPa 1400kPa", "pressure-ratio 200kPa 1400kPa"),
        ("static-check 400kPa 20C R-134a", "static-check 400kPa 25C R-134a"),
        ("gauge-windows 40C R-134a", "gauge-windows 25C R-134a"),
        ("vent-target 35C 40%", "vent-target 30C 40%"),
        ("vent-target 35C 60%", "vent-target 35C 40%"),
        ("dew-point 35C 60%", "dew-point 35C 40%"),
        ("dew-point 30C wet=20C", "dew-point 33C wet=20C"),
        ("clutch-pull-in 0.5mm 13V", "clutch-pull-in 0.7mm 13V"),
        ("clutch-pull-in 0.5mm 13V temp=60C", "clutch-pull-in 0.5mm 13V temp=120C"),
        ("clutch-pull-in 0.5mm 13V", "clutch-pull-in 0.5mm 13V 1V"),
        ("wire-drop 5m 2.5mm2 10A 80C", "wire-drop 5m 2.5mm2 10A 20C"),
        ("wire-drop 5m 2.5mm2 10A", "wire-drop 5m 4mm2 10A"),
        ("wire-drop 5m 14AWG 10A", "wire-drop 5m 12AWG 10A"),
        ("ghost-voltage 12V 1k", "ghost-voltage 12V 1M"),
        ("parallel 30ohm 20ohm", "parallel 30ohm 20ohm 40ohm"),
        ("thermistor-beta 10k 3435 5k", "thermistor-beta 10k 3435 6k"),
        ("fuse-current 2mV 10A mini", "fuse-current 1mV 10A mini"),
        ("fuse-current 1mV 20A mini", "fuse-current 1mV 10A mini"),
        ("stand-time 40mA 60Ah", "stand-time 50mA 60Ah"),
        ("clean-cycles 2 10", "clean-cycles 4 10"),
        ("clean-cycles 3 10 confidence=99%", "clean-cycles 3 10"),
        ("clean-run 10", "clean-run 20"),
        ("tries 10%", "tries 20%"),
    ],
)
def test_which_way_results_go(more, less):
    assert value(more) > value(less)


@pytest.mark.parametrize("gauge", range(-3, 41))
def test_gauges_come_back_from_their_cross_section(gauge):
    assert nearest_gauge(gauge_area(gauge)) == gauge


@pytest.mark.parametrize("gauge", range(-3, 35))
def test_six_gauges_are_half_the_diameter(gauge):
    # Source: ASTM B258: 92^(6/39) is 2.005.
    ratio = math.sqrt(gauge_area(gauge) / gauge_area(gauge + 6))
    assert ratio == pytest.approx(2.005, abs=0.001)


@pytest.mark.parametrize(
    ("typed", "gauge"),
    [
        *(("14AWG", 14), ("14 awg", 14), ("AWG14", 14), ("AWG 14", 14), ("#14", 14)),
        *(("14ga", 14), ("0AWG", 0), ("1/0AWG", 0), ("00 AWG", -1), ("2/0", -1), ("4/0 AWG", -3)),
        *(("0000AWG", -3), ("36AWG", 36)),
    ],
)
def test_ways_to_type_a_gauge(typed, gauge):
    assert parse_size(typed)[0] == gauge_area(gauge)
