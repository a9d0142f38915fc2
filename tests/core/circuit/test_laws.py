"""Laws of wires, windings, batteries and thermistors against published tables."""

import math

import pytest

from faulttree.core.circuit.laws import (
    battery_emf,
    copper_factor,
    interpolated,
    steinhart_hart,
    thermistor_resistance,
    wire_resistance,
)

FOOT = 0.3048


def awg_area(gauge: int) -> float:
    """Cross-section [m2]. Source: ASTM B258, diameter 0.127 mm x 92^((36-n)/39)."""
    return math.pi / 4 * (0.127e-3 * 92 ** ((36 - gauge) / 39)) ** 2


@pytest.mark.parametrize(
    ("gauge", "ohm_per_kft"), [(10, 0.9988), (14, 2.5254), (16, 4.0155), (20, 10.1524)]
)
def test_ideal_copper_wire_by_gauge(gauge, ohm_per_kft):
    # Source: ASTM B258 with the IACS resistivity; NBS Handbook 100 table 6 prints the same
    # (from memory).
    assert wire_resistance(1000 * FOOT, awg_area(gauge)) == pytest.approx(ohm_per_kft, rel=0.0015)


IEC_60228 = [(0.5, 39.0), (0.75, 26.0), (1.5, 13.3), (2.5, 7.98), (6, 3.30), (10, 1.91), (25, 0.78)]


@pytest.mark.parametrize(("mm2", "most"), IEC_60228)
def test_wire_lies_just_below_the_largest_resistance_the_standard_allows(mm2, most):
    # Source: IEC 60228, classes 5 and 6, plain, ohm/km at 20 degC, as reprinted: the stated areas
    # are nominal and the limits leave room for lay and tolerance.
    assert 0.84 * most < wire_resistance(1000.0, mm2 * 1e-6) < most


@pytest.mark.parametrize(
    ("gauge", "length_m", "temperature_c", "amps", "drop"),
    [(16, 5.0, 20, 7.5, 0.49403), (18, 4.2, 60, 5.0, 0.50906), (12, 3.5, 20, 20.0, 0.36475)],
)
def test_drop_over_a_wire(gauge, length_m, temperature_c, amps, drop):
    # Source: definition with IACS resistivity, ASTM B258 diameter, alpha 0.00393.
    ohm = wire_resistance(length_m, awg_area(gauge), temperature_c + 273.15)
    assert ohm * amps == pytest.approx(drop, rel=0.001)


@pytest.mark.parametrize(("t2", "length_ft", "shorter_ft"), [(60, 39, 33.703), (105, 100, 74.963)])
def test_a_hot_wire_may_be_shorter_by_the_handbook_s_factor(t2, length_ft, shorter_ft):
    # Source: AC 43.13-1B change 1, 11-66d(4): L2 = 254.5 L1 / (234.5 + T2).
    assert length_ft / copper_factor(t2 + 273.15) == pytest.approx(shorter_ft, rel=2e-4)


@pytest.mark.parametrize(("t", "factor"), [(5, 1.064), (25, 0.98), (50, 0.893), (100, 0.758)])
def test_hot_copper_by_the_other_temperature_law_differs_by_half_a_percent(t, factor):
    # Source: IEC 60228 annex (250/(230+T), alpha 0.004), as reprinted.
    assert 1 / copper_factor(t + 273.15) == pytest.approx(factor, rel=0.006)


@pytest.mark.parametrize("ohms", [(8.14, 8.57, 9.01, 9.45), (2.01, 2.12, 2.23, 2.33)])
def test_ratios_of_hot_cable_resistances(ohms):
    # Source: AS/NZS 3008 table 3.26 at 45, 60, 75 and 90 degC, as reprinted.
    for t, ohm in zip((45, 60, 75, 90), ohms, strict=True):
        ratio = copper_factor(t + 273.15) / copper_factor(45 + 273.15)
        assert ohm / ohms[0] == pytest.approx(ratio, rel=0.004)


@pytest.mark.parametrize(
    ("charge", "emf"), [(1.0, 12.6), (0.75, 12.4), (0.5, 12.2), (0.25, 12.0), (0.0, 11.6)]
)
def test_rested_battery_voltage_by_charge(charge, emf):
    # Source: a rule-of-thumb list; lists differ by 0.1 V.
    assert battery_emf(charge) == pytest.approx(emf, abs=1e-12)


TABLE = {-35: 158090, -20: 71668, 0: 27936, 25: 10000, 40: 5774, 50: 4103, 60: 2967, 80: 1629,
         100: 946.6, 120: 578.1, 150: 298.9}  # fmt: skip
"""Source: a motorsport sensor's data sheet, 10 kohm at 25 degC."""


def points(*celsius):
    return tuple((t + 273.15, float(TABLE[t])) for t in celsius)


def test_steinhart_hart_coefficients():
    # Source: three points of the table above, computed with numpy.
    found = steinhart_hart(points(0, 50, 100))
    expected = (0.00086885155, 0.00025740734, 1.4621379e-07)
    assert found == pytest.approx(expected, rel=1e-6)


@pytest.mark.parametrize("t", [-20, 0, 25, 40, 60, 80, 100, 120, 150])
def test_a_three_point_fit_keeps_to_the_table(t):
    # The fit errs by 0.05 K from -20 to 150 degC, 5 % of 1 K, so 0.35 % in resistance.
    found = thermistor_resistance(t + 273.15, points(0, 50, 100))
    assert found == pytest.approx(TABLE[t], rel=0.0035)


def test_two_points_are_the_beta_formula():
    # Source: beta 3497.05 K from 25 and 100 degC of the table.
    beta = math.log(10000 / 946.6) / (1 / 298.15 - 1 / 373.15)
    assert beta == pytest.approx(3497.05, abs=0.05)
    found = thermistor_resistance(333.15, points(25, 100))
    assert found == pytest.approx(10000 * math.exp(beta * (1 / 333.15 - 1 / 298.15)), rel=1e-12)


def test_many_points_are_met_exactly_and_drawn_on_beyond_the_ends():
    every = points(-20, 0, 25, 60, 100)
    for t, ohm in every:
        assert thermistor_resistance(t, every) == pytest.approx(ohm, rel=1e-12)
    assert thermistor_resistance(120 + 273.15, every) == pytest.approx(TABLE[120], rel=0.02)


def test_straight_lines_are_level_beyond_their_ends():
    line = ((0.0, 240.0), (0.5, 90.0), (1.0, 30.0))
    assert [interpolated(x, line) for x in (-1, 0, 0.25, 0.5, 1, 2)] == [240, 240, 165, 90, 30, 30]
