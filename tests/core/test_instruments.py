"""Instruments: what a reading is worth on which range, and a technician's own."""

import math
from typing import Any

import pytest
from pydantic import ValidationError

from faulttree.core.instruments import (
    Instrument,
    InstrumentClass,
    InstrumentSheet,
    is_beyond_range,
    measured,
    read_in_full,
)
from faulttree.core.reading import Entry, parse_reading
from faulttree.core.units import Quantity
from faulttree.core.usual_instruments import one_per_class

Q = Quantity


def meter(
    *ranges: tuple[str, str, str], autorange: bool = True, quantity: str = "voltage"
) -> Instrument:
    keys = ("up-to", "resolution", "accuracy")
    return Instrument.model_validate(
        {
            "id": "bench-meter",
            "name": "Bench meter",
            "class": "meter",
            "load": "10 Mohm",
            "autorange": autorange,
            "functions": {quantity: [dict(zip(keys, each, strict=True)) for each in ranges]},
        }
    )


VOLTS = (
    ("2 V", "0.001 V", "0.5 % + 2 digits"),
    ("20 V", "0.01 V", "0.5 % + 2 digits"),
    ("200 V", "0.1 V", "0.8 % + 2 digits"),
)
AUTO = meter(*VOLTS)
BY_HAND = meter(*VOLTS, autorange=False)


def volts(text: str) -> Entry:
    return parse_reading(text, Q.VOLTAGE)


def range_used(instrument: Instrument, text: str, quantity: Quantity = Q.VOLTAGE) -> str | None:
    found = instrument.range_for(parse_reading(text, quantity))
    return found.up_to.text if found else None


def finer(instrument: Instrument, text: str) -> str | None:
    found = instrument.finer_range(volts(text))
    return found.up_to.text if found else None


def test_the_limit_of_error_of_a_reading_is_that_of_its_range() -> None:
    # Source: a meter maker's published accuracy note: 98.8 to 101.2 V.
    ranges = meter(("200 V", "0.1 V", "1 % + 2 digits"))
    assert measured(volts("100.0"), ranges, "1").radius == pytest.approx(1.2)


def test_a_negative_reading_has_the_error_of_its_amount() -> None:
    assert measured(volts("-2.000"), AUTO, "1").radius == pytest.approx(0.012)


@pytest.mark.parametrize(
    ("typed", "error"),
    [
        ("12.58", 0.0629 + 0.02),
        ("12.6", 0.063 + 0.02 + 0.05),  # read to 0.1 V on a range that shows 0.01 V
        ("13", 0.065 + 0.02 + 0.5),
        ("12.583", 0.062915 + 0.02),  # more digits than the range has
    ],
)
def test_digits_left_out_by_the_reader_add_to_the_error(typed: str, error: float) -> None:
    assert measured(volts(typed), AUTO, "1").radius == pytest.approx(error)


def test_full_scale_and_fixed_amounts_count() -> None:
    gauge = meter(("120 psi", "1 psi", "2 % of full scale"), quantity="gauge-pressure")
    entry = parse_reading("38 psi", Q.GAUGE_PRESSURE)
    # 2 % of 120 psi = 2.4 psi; 1 psi = 6.894 757 kPa, NIST SP 811 (2008), B.8.
    assert measured(entry, gauge, "1").radius == pytest.approx(2.4 * 6894.757, rel=1e-6)
    ohms = meter(("600 ohm", "0.1 ohm", "1 % + 3 digits + 0.3 ohm"), quantity="resistance")
    found = measured(parse_reading("100.0", Q.RESISTANCE), ohms, "1")
    assert found.radius == pytest.approx(1 + 0.3 + 0.3)


@pytest.mark.parametrize(("amount", "kelvins"), [("2 K", 2.0), ("2 °C", 2.0), ("3.6 F", 2.0)])
def test_the_error_of_a_thermometer_is_no_share_of_its_kelvins(amount: str, kelvins: float) -> None:
    thermometer = meter(("200 C", "0.1 C", amount), quantity="temperature")
    found = measured(parse_reading("41.0 F", Q.TEMPERATURE), thermometer, "1")
    assert found.value == pytest.approx(278.15)
    assert found.radius == pytest.approx(kelvins)


def test_without_an_instrument_only_the_rounding_of_what_was_typed_counts() -> None:
    assert measured(volts("12.6"), None, "1").radius == pytest.approx(0.05)
    assert measured(parse_reading("7", Q.COUNT), None, "1").radius == 0


@pytest.mark.parametrize(
    ("typed", "error"),
    [
        ("250.0", 0.008 * 250 + 0.2),
        ("-250.0", 0.008 * 250 + 0.2),
        ("250", 0.008 * 250 + 0.2 + 0.5),  # read to 1 V on a range that shows 0.1 V
        ("250.00", 0.008 * 250 + 0.2),
    ],
)
@pytest.mark.parametrize("instrument", [AUTO, BY_HAND], ids=["autorange", "by hand"])
def test_a_reading_beyond_every_range_has_the_error_of_the_largest_one(
    instrument: Instrument, typed: str, error: float
) -> None:
    assert instrument.range_for(volts(typed)) is None
    assert measured(volts(typed), instrument, "1").radius == pytest.approx(error)


def test_a_reading_just_beyond_the_range_is_no_more_certain_than_one_just_within() -> None:
    within, beyond = (measured(volts(typed), AUTO, "1").radius for typed in ("200.0", "200.1"))
    assert beyond >= within


def test_full_scale_and_fixed_amounts_count_beyond_the_range_too() -> None:
    gauge = meter(("120 psi", "1 psi", "2 % of full scale"), quantity="gauge-pressure")
    entry = parse_reading("150 psi", Q.GAUGE_PRESSURE)
    assert measured(entry, gauge, "1").radius == pytest.approx(2.4 * 6894.757, rel=1e-6)
    thermometer = meter(("200 C", "0.1 C", "1 % + 2 K"), quantity="temperature")
    entry = parse_reading("250.0 C", Q.TEMPERATURE)
    assert measured(entry, thermometer, "1").radius == pytest.approx(2.5 + 2)


def test_a_quantity_that_the_instrument_does_not_measure_has_the_rounding_only() -> None:
    entry = parse_reading("4.7 ohm", Q.RESISTANCE)
    assert measured(entry, AUTO, "1").radius == pytest.approx(0.05)


@pytest.mark.parametrize(
    ("typed", "is_beyond"),
    [
        ("0", False),
        ("12.6", False),
        ("200.0", False),
        ("-200.0", False),
        ("200.1", True),
        ("-200.1", True),
        ("250 kV", True),
    ],
)
def test_a_reading_is_beyond_the_range_when_it_is_larger_than_the_largest(
    typed: str, is_beyond: bool
) -> None:
    assert is_beyond_range(volts(typed), AUTO) is is_beyond
    assert is_beyond_range(volts(typed), BY_HAND) is is_beyond


def test_the_order_in_which_ranges_are_written_does_not_matter() -> None:
    turned = meter(*reversed(VOLTS))
    assert not is_beyond_range(volts("150.0"), turned)
    assert measured(volts("250.0"), turned, "1").radius == pytest.approx(2.2)


def test_a_temperature_is_beyond_the_range_by_the_degrees_shown() -> None:
    thermometer = meter(("200 C", "0.1 C", "2 K"), quantity="temperature")
    assert not is_beyond_range(parse_reading("199 C", Q.TEMPERATURE), thermometer)
    assert is_beyond_range(parse_reading("201 C", Q.TEMPERATURE), thermometer)


def test_nothing_is_beyond_the_range_of_what_has_none() -> None:
    assert not is_beyond_range(volts("250.0"), None)
    assert not is_beyond_range(parse_reading("4.7 ohm", Q.RESISTANCE), AUTO)


def test_an_open_circuit_is_not_beyond_the_range() -> None:
    ohms = meter(("600 ohm", "0.1 ohm", "1 %"), quantity="resistance")
    assert not is_beyond_range(parse_reading("OL", Q.RESISTANCE), ohms)
    assert is_beyond_range(parse_reading("601 ohm", Q.RESISTANCE), ohms)


def test_the_gain_of_one_range_cancels_between_two_readings() -> None:
    first, second = measured(volts("12.58"), AUTO, "1"), measured(volts("12.58"), AUTO, "2")
    assert first.radius == pytest.approx(0.0829)
    assert (first - second).radius == pytest.approx(0.04)


def test_the_gains_of_two_ranges_do_not_cancel() -> None:
    first, second = measured(volts("1.999"), AUTO, "1"), measured(volts("2.01"), AUTO, "2")
    assert (first - second).radius == pytest.approx(first.radius + second.radius)


def test_a_reading_minus_itself_is_exactly_nothing() -> None:
    reading = measured(volts("12.58"), AUTO, "1")
    assert (reading - reading).radius == 0


def test_an_open_circuit_has_no_error() -> None:
    ohms = meter(("600 ohm", "0.1 ohm", "1 %"), quantity="resistance")
    found = measured(parse_reading("OL", Q.RESISTANCE), ohms, "1")
    assert (found.value, found.radius) == (math.inf, 0)
    assert ohms.range_for(parse_reading("OL", Q.RESISTANCE)) is None


@pytest.mark.parametrize(
    ("typed", "upper"),
    [
        ("1.234", "2 V"),
        ("-1.234", "2 V"),
        ("2.000", "2 V"),
        ("240 mV", "2 V"),
        ("2.01", "20 V"),
        ("12.6", "20 V"),
        ("20.1", "200 V"),
        ("200.0", "200 V"),
        ("200.1", None),
    ],
)
def test_an_autoranging_meter_uses_the_lowest_range_that_holds_the_value(
    typed: str, upper: str | None
) -> None:
    assert range_used(AUTO, typed) == upper


@pytest.mark.parametrize(
    ("typed", "upper"),
    [
        ("1.234", "2 V"),
        ("1.23", "20 V"),
        ("1.2", "200 V"),
        ("1234 mV", "2 V"),
        ("1.20", "20 V"),
        ("12.60", "20 V"),
        ("12.6", "200 V"),
        ("1", "2 V"),  # no range shows whole volts: the lowest, with the rounding on top
        ("12.600", "20 V"),  # the 2 V range shows 0.001 V but does not reach 12 V
    ],
)
def test_on_a_meter_switched_by_hand_the_digits_typed_tell_the_range(
    typed: str, upper: str
) -> None:
    assert range_used(BY_HAND, typed) == upper


@pytest.mark.parametrize(
    ("typed", "upper"),
    [
        ("1.2", "2 V"),
        ("12.6", "20 V"),
        ("1.234", None),
        ("12.60", None),
        ("150.0", None),
        ("250.0", None),
    ],
)
def test_a_finer_range_is_offered_where_there_is_one(typed: str, upper: str | None) -> None:
    assert finer(BY_HAND, typed) == upper


def test_the_range_in_use_is_offered_where_digits_were_left_out() -> None:
    assert finer(AUTO, "12.6") == "20 V"
    assert finer(AUTO, "12.60") is None


def sheet(**changes: Any) -> dict[str, Any]:
    own = {
        "id": "my-meter",
        "name": "My meter, 2000 counts",
        "class": "meter",
        "load": "10 Mohm on volts",
        "autorange": False,
        "functions": {
            "voltage": [{"up-to": "20 V", "resolution": "10 mV", "accuracy": "0.5 % + 2 digits"}],
            "temperature": [{"up-to": "200 C", "resolution": "1 C", "accuracy": "1 % + 2 K"}],
        },
        "source": "maker's data sheet",
    }
    return {"format": "instruments/1", "instruments": [own | changes]}


def voltage_range(**changes: str) -> dict[str, Any]:
    plain = {"up-to": "20 V", "resolution": "10 mV", "accuracy": "0.5 %"}
    return {
        "functions": {"voltage": [plain | {k.replace("_", "-"): v for k, v in changes.items()}]}
    }


def test_an_own_instrument_is_a_document_of_the_same_shape() -> None:
    (own,) = InstrumentSheet.model_validate(sheet()).instruments
    assert own.class_ is InstrumentClass.METER
    assert not own.autorange
    assert measured(volts("12.60"), own, "1").radius == pytest.approx(0.083)
    temperature = parse_reading("50 C", Q.TEMPERATURE)
    assert measured(temperature, own, "2").radius == pytest.approx(0.5 + 2)


@pytest.mark.parametrize(
    ("changes", "says"),
    [
        ({"colour": "yellow"}, "Extra inputs are not permitted"),
        ({"class": "hammer"}, "Input should be 'meter'"),
        ({"id": "My Meter"}, "should match pattern"),
        ({"name": ""}, "at least 1 character"),
        ({"functions": {"voltage": []}}, "at least 1 item"),
        ({"functions": {"speed": []}}, "Input should be 'voltage'"),
        (voltage_range(up_to="20 A"), "“20 A” is current, not voltage"),
        (voltage_range(up_to="battery-voltage"), "neither an earlier step nor a value"),
        (voltage_range(up_to="20 V / 0"), "may be zero"),
        (voltage_range(up_to="-20 V"), "greater than zero"),
        (voltage_range(resolution="0 V"), "greater than zero"),
        (voltage_range(resolution="10 mohm"), "is resistance, not voltage"),
        (voltage_range(accuracy="2 K"), "“K” in the accuracy is no unit of voltage"),
        (voltage_range(accuracy="good"), "“good” is no accuracy"),
    ],
)
def test_an_own_instrument_that_is_wrong_is_refused(changes: dict[str, Any], says: str) -> None:
    with pytest.raises(ValidationError, match=says.replace("(", r"\(")):
        InstrumentSheet.model_validate(sheet(**changes))


def test_instruments_with_two_leads_are_those_put_between_two_points() -> None:
    assert InstrumentClass.TEST_LIGHT.has_two_leads
    assert not InstrumentClass.CLAMP.has_two_leads


def test_a_class_is_named_in_words() -> None:
    assert InstrumentClass.METER.words == "meter (10 MΩ)"
    assert InstrumentClass.FEELER_GAUGE.words == "feeler gauge"


def test_an_instrument_is_written_as_it_was_read() -> None:
    own = InstrumentSheet.model_validate(sheet())
    written = own.model_dump(mode="json", by_alias=True)
    assert InstrumentSheet.model_validate(written) == own


def test_a_value_read_in_full_is_one_with_every_digit_typed():
    usual = one_per_class(())[InstrumentClass.METER]
    for value, digit in ((12.6, 0.01), (0.2, 0.0001), (3.2, 0.001)):
        typed = measured(Entry(Quantity.VOLTAGE, value, digit, "", "V"), usual, "1")
        assert read_in_full(Quantity.VOLTAGE, value, usual, "1") == typed
    assert read_in_full(Quantity.RESISTANCE, math.inf, usual, "1").value == math.inf
    assert read_in_full(Quantity.VOLTAGE, 1.0, None, "1").radius == 0.0
