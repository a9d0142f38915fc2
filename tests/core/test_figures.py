"""Values as they are shown."""

import re
from decimal import Decimal

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from faulttree.core.figures import OPEN_CIRCUIT, show, show_altitude, show_error
from faulttree.core.reading import parse_reading
from faulttree.core.units import Quantity, UnitSystem, display_units, find_unit

Q = Quantity
US, METRIC, BOTH = UnitSystem.US, UnitSystem.METRIC, UnitSystem.BOTH
MANY = settings(derandomize=True, max_examples=400, deadline=None)
SHOWN = re.compile(r"(-?\d+(?:\.(\d+))?) ?(\D*)")


def shown_as_typed(text: str, quantity: Quantity, system: UnitSystem = METRIC) -> str:
    entry = parse_reading(text, quantity, system)
    return show(entry.value, quantity, system, entry.step)


@pytest.mark.parametrize(
    ("typed", "quantity", "system", "shown"),
    [
        ("12.60", Q.VOLTAGE, METRIC, "12.60 V"),
        ("12.6", Q.VOLTAGE, METRIC, "12.6 V"),
        ("12", Q.VOLTAGE, METRIC, "12 V"),
        ("240 mV", Q.VOLTAGE, METRIC, "0.240 V"),
        ("240.0 mV", Q.VOLTAGE, METRIC, "0.2400 V"),
        ("-0.02", Q.VOLTAGE, METRIC, "-0.02 V"),
        ("4.7k", Q.RESISTANCE, METRIC, "4.7 kΩ"),
        ("4700", Q.RESISTANCE, METRIC, "4.700 kΩ"),
        ("0.3", Q.RESISTANCE, METRIC, "0.3 Ω"),
        ("1.20 Mohm", Q.RESISTANCE, METRIC, "1.20 MΩ"),
        ("41 F", Q.TEMPERATURE, METRIC, "5 °C"),
        ("41.0 F", Q.TEMPERATURE, METRIC, "5.0 °C"),
        ("5 C", Q.TEMPERATURE, US, "41 °F"),
        ("18 F", Q.TEMPERATURE_DIFFERENCE, METRIC, "10 K"),
        ("38 psi", Q.GAUGE_PRESSURE, METRIC, "262 kPa"),
        ("2.6 bar", Q.GAUGE_PRESSURE, US, "38 psi"),
        ("1 lb 10 oz", Q.MASS, US, "26 oz"),
        ("0.020 in", Q.LENGTH, METRIC, "0.51 mm"),
        ("85 %", Q.RATIO, METRIC, "85 %"),
        ("7", Q.COUNT, METRIC, "7"),
    ],
)
def test_a_reading_is_shown_with_the_digits_typed(
    typed: str, quantity: Quantity, system: UnitSystem, shown: str
) -> None:
    assert shown_as_typed(typed, quantity, system) == shown


@pytest.mark.parametrize(
    ("typed", "quantity", "shown"),
    [
        # 38 psi = 262.0 kPa, 41 degF = 5 degC, 26 oz = 737.1 g; NIST SP 811 (2008), B.8.
        ("38 psi", Q.GAUGE_PRESSURE, "38 psi (262 kPa)"),
        ("41 F", Q.TEMPERATURE, "41 °F (5 °C)"),
        ("26 oz", Q.MASS, "26 oz (737 g)"),
        ("0.020 in", Q.LENGTH, "0.020 in (0.51 mm)"),
        ("18 F", Q.TEMPERATURE_DIFFERENCE, "18 °F (10 K)"),
    ],
)
def test_both_shows_two_units(typed: str, quantity: Quantity, shown: str) -> None:
    assert shown_as_typed(typed, quantity, BOTH) == shown


@pytest.mark.parametrize("quantity", [q for q in Q if len(display_units(q, BOTH)) == 1])
def test_both_shows_one_unit_where_there_is_only_one(quantity: Quantity) -> None:
    assert "(" not in show(1.0, quantity, BOTH)


@pytest.mark.parametrize("system", UnitSystem)
@pytest.mark.parametrize("quantity", [q for q in Q if q is not Q.TEMPERATURE])
def test_zero_has_no_minus(quantity: Quantity, system: UnitSystem) -> None:
    for step in (None, 0.01, 1.0):
        assert "-" not in show(-0.0, quantity, system, step)


def test_what_rounds_to_zero_has_no_minus() -> None:
    assert show(-0.001, Q.VOLTAGE, step=0.01) == "0.00 V"
    assert show(273.149, Q.TEMPERATURE, step=0.1) == "0.0 °C"


def test_an_open_circuit_is_shown_in_words() -> None:
    assert show(float("inf"), Q.RESISTANCE, BOTH) == OPEN_CIRCUIT


@pytest.mark.parametrize(
    ("value", "quantity", "shown"),
    [
        (12.6, Q.VOLTAGE, "12.6 V"),
        (12.583, Q.VOLTAGE, "12.58 V"),
        (0.1234, Q.VOLTAGE, "0.123 V"),
        (0.0, Q.VOLTAGE, "0 V"),
        (1e-7, Q.VOLTAGE, "0 V"),
        (-1e-7, Q.VOLTAGE, "0 V"),
        (0.9, Q.RATIO, "90 %"),
        (3.0, Q.COUNT, "3"),
        (2.5, Q.COUNT, "2.5"),
        (47.0, Q.RESISTANCE, "47 Ω"),
        (1e12, Q.RESISTANCE, "1000000 MΩ"),
        (1e12, Q.VOLTAGE, "1000000000000 V"),
        (262e3, Q.GAUGE_PRESSURE, "262 kPa"),
    ],
)
def test_a_value_without_a_step_is_shown_with_four_digits_at_most(
    value: float, quantity: Quantity, shown: str
) -> None:
    assert show(value, quantity) == shown


@MANY
@given(
    st.sampled_from(Q), st.sampled_from(UnitSystem), st.integers(-99999, 99999), st.integers(0, 4)
)
def test_what_is_typed_in_the_unit_shown_is_shown_as_typed(
    quantity: Quantity, system: UnitSystem, digits: int, decimals: int
) -> None:
    unit = display_units(quantity, system)[0]
    if quantity is Q.RESISTANCE:
        digits %= 1000  # more than that is shown in kilohms
    typed = f"{Decimal(digits).scaleb(-decimals):f} {unit.symbol}".strip()
    shown = shown_as_typed(typed, quantity, system).partition(" (")[0]
    assert shown == (typed.lstrip("-") if digits == 0 else typed)


@MANY
@given(
    st.sampled_from(Q),
    st.sampled_from(UnitSystem),
    st.floats(-1e12, 1e12),
    st.integers(-4, 4),
)
def test_the_last_decimal_shown_is_the_one_nearest_to_the_step(
    quantity: Quantity, system: UnitSystem, value: float, power: int
) -> None:
    step = 10.0**power
    for text in re.split(r" \(|\)", show(value, quantity, system, step)):
        if match := SHOWN.fullmatch(text):
            unit = find_unit(match[3], quantity)
            assert unit is not None
            decimals = len(match[2] or "")
            last = 10.0**-decimals * unit.factor
            assert decimals == 0 or last * 10**0.5 > step * 0.9999
            assert decimals == 6 or last < step * 10**0.5 * 1.0001 or decimals == 0


@MANY
@given(st.sampled_from(Q), st.sampled_from(UnitSystem), st.floats(-1e11, 1e11), st.integers(-6, 2))
def test_what_is_shown_reads_back_as_the_same_value(
    quantity: Quantity, system: UnitSystem, value: float, power: int
) -> None:
    step = 10.0**power
    shown = show(value, quantity, system, step).partition(" (")[0]
    entry = parse_reading(shown, quantity, system)
    assert entry.value == pytest.approx(value, rel=1e-12, abs=1.001 * max(step, entry.step) / 2)


@MANY
@given(
    st.sampled_from(Q),
    st.sampled_from(UnitSystem),
    st.floats(-1e15, 1e15),
    st.none() | st.floats(1e-12, 1e12),
)
def test_any_value_is_shown_as_a_plain_number(
    quantity: Quantity, system: UnitSystem, value: float, step: float | None
) -> None:
    for text in re.split(r" \(|\)", show(value, quantity, system, step)):
        assert text == "" or SHOWN.fullmatch(text)


@pytest.mark.parametrize(
    ("radius", "quantity", "system", "shown"),
    [
        (0.083, Q.VOLTAGE, METRIC, "±0.083 V"),
        (1.2, Q.VOLTAGE, METRIC, "±1.2 V"),
        (0.0, Q.VOLTAGE, METRIC, "±0 V"),
        (12e-6, Q.VOLTAGE, METRIC, "±0.000012 V"),
        (49.0, Q.RESISTANCE, METRIC, "±49 Ω"),
        (202e3, Q.RESISTANCE, METRIC, "±202 kΩ"),
        (2.0, Q.TEMPERATURE, METRIC, "±2.0 °C"),
        (2.0, Q.TEMPERATURE, US, "±3.6 °F"),
        (2.0, Q.TEMPERATURE_DIFFERENCE, METRIC, "±2.0 K"),
        (0.0, Q.COUNT, METRIC, "±0"),
    ],
)
def test_a_limit_of_error_is_shown_with_two_digits(
    radius: float, quantity: Quantity, system: UnitSystem, shown: str
) -> None:
    assert show_error(radius, quantity, system) == shown


@pytest.mark.parametrize(
    ("radius", "quantity", "step", "shown"),
    [
        (0.083, Q.VOLTAGE, 0.01, "±0.08 V"),
        (0.083, Q.VOLTAGE, 0.001, "±0.083 V"),
        (0.083, Q.VOLTAGE, 1.0, "±0.08 V"),
        (0.53, Q.VOLTAGE, 1.0, "±0.5 V"),
        (16.7e3, Q.GAUGE_PRESSURE, 1e3, "±17 kPa"),
        (0.0, Q.VOLTAGE, 0.01, "±0 V"),
    ],
)
def test_a_limit_of_error_has_no_more_decimals_than_the_step_unless_nothing_would_be_left(
    radius: float, quantity: Quantity, step: float, shown: str
) -> None:
    assert show_error(radius, quantity, step=step) == shown


@pytest.mark.parametrize(
    ("system", "shown"),
    [
        (UnitSystem.METRIC, "500 m"),
        (UnitSystem.US, "1640 ft"),
        (UnitSystem.BOTH, "1640 ft (500 m)"),
    ],
)
def test_an_altitude_is_shown_in_metres_or_feet(system: UnitSystem, shown: str) -> None:
    assert show_altitude(500.0, system) == shown
