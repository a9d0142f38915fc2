"""Results of sums as text, as a note, and as data."""

import json
import math

import pytest
from sums import done

from faulttree.core.calc.answered import Found
from faulttree.core.calc.kinds import Kind
from faulttree.core.calc.registry import SUMS
from faulttree.core.units import UnitSystem
from faulttree.render.calc import note_text
from faulttree.render.calc_figures import figure
from faulttree.render.calc_json import answered_json, sum_json

K, METRIC = Kind, UnitSystem.METRIC


def shown(kind: Kind, value: float, low: float | None = None, high: float | None = None) -> str:
    low, high = (value if x is None else x for x in (low, high))
    return figure(Found("", kind, low, value, high), METRIC)


@pytest.mark.parametrize(
    ("kind", "value", "text"),
    [
        (K.RESISTANCE, 0.025, "25 mΩ"),
        (K.RESISTANCE, 0.0344828, "34.5 mΩ"),
        (K.RESISTANCE, 6.857, "6.86 Ω"),
        (K.RESISTANCE, 4750, "4.75 kΩ"),
        (K.RESISTANCE, 1e7, "10 MΩ"),
        (K.RESISTANCE, math.inf, "OL (open circuit)"),
        (K.VOLTAGE, 0.0311, "31.1 mV"),
        (K.VOLTAGE, 12.0, "12 V"),
        (K.VOLTAGE, 11.4545, "11.5 V"),
        (K.CURRENT, 9e-6, "9 µA"),
        (K.CURRENT, 0.0019, "1.9 mA"),
        (K.CURRENT, 1.75, "1.75 A"),
        (K.POWER, 3.6, "3.6 W"),
        (K.POWER, 0.05, "50 mW"),
        (K.TIME, 90, "90 s"),
        (K.TIME, 600, "10 min"),
        (K.TIME, 12345, "3.43 h"),
        (K.TIME, 2160000, "25 days"),
        (K.CHARGE, 1.2, "1.2 Ah"),
        (K.SHARE, 0.139, "13.9 %"),
        (K.COUNT, 16, "16"),
        (K.BETA, 3497.05, "3497 K"),
        (K.AREA, 4.14e-6, "4.14 mm²"),
        (K.AREA, math.inf, "more than is sold"),
        (K.GAUGE, -1, "2/0 AWG"),
        (K.GAUGE, 14, "14 AWG"),
        (K.TEMPERATURE, 273.15 + 69.7, "69.7 °C"),
        (K.TEMPERATURE_DIFFERENCE, 9.14, "9.14 K"),
        (K.GAUGE_PRESSURE, 1.65e6, "1650 kPa"),
        (K.MASS, 0.79, "790 g"),
        (K.HUMIDITY, 0.405, "40.5 %"),
        (K.WATER, 0.014132, "14.1 g/kg"),
        (K.ENTHALPY, 71473.2, "71.5 kJ/kg"),
        (K.RATIO, 4.98, "4.98"),
        (K.RESISTANCE, 0.0, "0 mΩ"),
    ],
)
def test_a_result_of_which_nothing_is_said(kind, value, text):
    assert shown(kind, value) == text


@pytest.mark.parametrize(
    ("low", "value", "high", "text"),
    [
        (24.2, 25.0, 25.9, "25.0 Ω ±0.9 Ω"),
        (6.545, 7.7, 8.855, "7.7 Ω ±1.2 Ω"),
        (99.96, 100, 100.04, "100.00 Ω ±0.04 Ω"),
        (0.457, 0.686, 0.857, "0.69 Ω (0.45 Ω to 0.86 Ω)"),
        (34.48, 34.48, 41.38, "34.5 Ω, up to 41.4 Ω"),
        (30, 34.48, 34.48, "34.5 Ω, down to 30.0 Ω"),
        (142, 498, math.inf, "498 Ω, at least 142 Ω"),
        (5, 5 + 1e-12, 5 + 2e-12, "5 Ω"),
    ],
)
def test_a_result_with_limits(low, value, high, text):
    assert shown(K.RESISTANCE, value, low, high) == text


@pytest.mark.parametrize(
    ("ounces", "low", "text"),
    [
        (12, 12, "12 oz"),
        (28, 28, "1 lb 12 oz"),
        (32, 32, "2 lb 0 oz"),
        (26.96, 26.96, "1 lb 11 oz"),
        (31.97, 31.97, "2 lb 0 oz"),
        (-20, -20, "-1 lb 4 oz"),
        (28, 27.5, "1 lb 12.00 oz, down to 1 lb 11.50 oz"),
    ],
)
def test_pounds_and_ounces_as_on_a_label(ounces, low, text):
    # Source: NIST SP 811: 1 oz = 28.349523125 g, 16 to the pound.
    low, value = (each * 0.028349523125 for each in (low, ounces))
    assert figure(Found("", K.MASS, low, value, value), UnitSystem.US) == text


def test_limits_are_never_rounded_inwards():
    for n in range(1, 400):
        low, high = 10 - n * 0.0137, 10 + n * 0.0139
        text = shown(K.VOLTAGE, 10, low, high)
        middle, radius = (float(part.split()[0]) for part in text.split("±"))
        assert middle - radius <= low + 0.06 * radius
        assert radius >= high - 10 - 1e-9


def test_a_temperature_is_told_in_both_units_with_a_limit_that_has_no_zero():
    found = Found("", K.TEMPERATURE, 370.0, 371.0, 372.0)
    assert figure(found, UnitSystem.BOTH) == "208.1 °F ±1.8 °F (97.9 °C ±1.0 °C)"


@pytest.mark.parametrize(
    ("typed", "note"),
    [
        (
            "joint 0.30V±0.01 12A",
            "Worked out (joint): drop 0.30V ±0.01 V, current 12A: "
            "resistance 25.0 mΩ ±0.9 mΩ, heat 3.60 W ±0.12 W.",
        ),
        (
            "fuse-current 1mV 15A mini",
            "Worked out (fuse-current): drop 1mV, rating 15A, type mini: "
            "current 0.217 A (0.189 A to 0.256 A), fuse taken as 4.6 mΩ ±0.7 mΩ.",
        ),
    ],
)
def test_a_sum_as_a_note(typed, note):
    assert note_text(done(typed), METRIC) == note


def test_data_of_a_result_is_si_and_says_how_far_off():
    data = answered_json(done("joint 300mV±10mV 12A"))
    assert data["given"][0] == {
        "name": "drop",
        "text": "300mV ±10mV",
        "value": 0.3,
        "limit-of-error": pytest.approx(0.01),
        "unit": "V",
    }
    assert data["results"][0] == {
        "name": "resistance",
        "value": pytest.approx(0.025),
        "low": pytest.approx(0.29 / 12),
        "high": pytest.approx(0.31 / 12),
        "unit": "ohm",
    }


@pytest.mark.parametrize("name", SUMS)
def test_every_sum_can_be_told_as_data(name):
    the_sum = SUMS[name]
    for data in (sum_json(the_sum), answered_json(done(f"{name} {the_sum.example}"))):
        assert json.loads(json.dumps(data, allow_nan=False)) == data


def test_no_limit_is_no_number():
    data = answered_json(done("pulled-up 5V±0.05V 4.98V 2k"))
    assert data["results"][0]["high"] is None
