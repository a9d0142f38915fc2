"""Instruments: limits of error, ranges, and a technician's own."""

import math
from typing import Any

import pytest
from pydantic import ValidationError

from faulttree.core.instruments import (
    Accuracy,
    Instrument,
    InstrumentClass,
    InstrumentSheet,
    built_in,
    limit_of_error,
    measured,
    one_per_class,
)
from faulttree.core.reading import Entry, parse_reading
from faulttree.core.units import Quantity

Q = Quantity

WORKED_EXAMPLES = [
    # reading [V], accuracy, last digit [V], limit of error [V]
    # Source: accuracy note of a meter dealer, victorruoshui.com/newsinfo/72611.html:
    # 1.9964 to 2.0036 V.
    ("2.000", "0.08 % + 2 digits", "0.001 V", 0.0036),
    # Source: meter maker's note, gvda-instrument.com, introduction to digital multimeter accuracy:
    # 98.8 to 101.2 V.
    ("100.0", "1 % + 2 digits", "0.1 V", 1.2),
    # Source: meter maker's note, gvda-instrument.com/info/multimeter-error-69432302.html:
    # 1.987 to 2.013 V.
    ("2.000", "0.5 % + 3 digits", "0.001 V", 0.013),
    # Source: meter maker's note, fluke.com/learn/blog/digital-multimeters/accuracy-precision:
    # 97.8 to 102.2 V.
    ("100.0", "2 % + 2 digits", "0.1 V", 2.2),
]


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


@pytest.mark.parametrize(("typed", "accuracy", "resolution", "limit"), WORKED_EXAMPLES)
def test_the_limit_of_error_is_that_of_the_makers_examples(
    typed: str, accuracy: str, resolution: str, limit: float
) -> None:
    reading = measured(volts(typed), meter(("200 V", resolution, accuracy)), "1")
    assert reading.radius == pytest.approx(limit, abs=1e-6)
    step = float(resolution.removesuffix(" V"))
    accurate = Accuracy.parse(accuracy)
    assert limit_of_error(float(typed), accurate, step, 200.0) == pytest.approx(limit, abs=1e-6)


def test_percent_of_reading_and_of_range_add_up_as_in_the_guide_to_uncertainty() -> None:
    # Source: JCGM 100:2008 4.3.7 example 2 and 5.1.5, from memory: 14 ppm of the reading plus
    # 2 ppm of the 1 V range, at 0.928571 V, is a half-width of 15 uV and a standard
    # uncertainty of 8.7 uV.
    half_width = limit_of_error(0.928571, Accuracy("", reading=14e-6, full_scale=2e-6), 0.0, 1.0)
    assert half_width == pytest.approx(15e-6, abs=0.5e-6)
    assert half_width / math.sqrt(3) == pytest.approx(8.7e-6, abs=0.05e-6)
    written = Accuracy.parse("0.0014 % of reading + 0.0002 % of full scale")
    assert limit_of_error(0.928571, written, 0.0, 1.0) == pytest.approx(half_width)


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


def test_a_reading_that_no_range_holds_has_the_rounding_only() -> None:
    assert measured(volts("250.0"), AUTO, "1").radius == pytest.approx(0.05)


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


def test_there_is_one_built_in_instrument_of_each_class() -> None:
    instruments = built_in()
    assert {i.class_ for i in instruments} == set(InstrumentClass)
    assert len({i.id for i in instruments}) == len(instruments) == len(InstrumentClass)


@pytest.mark.parametrize("instrument", built_in(), ids=lambda i: i.id)
def test_the_ranges_of_a_built_in_instrument_rise_and_hold_their_own_ends(
    instrument: Instrument,
) -> None:
    for quantity, ranges in instrument.functions.items():
        limits = [each.limits(quantity) for each in ranges]
        assert limits == sorted(limits)
        assert all(0 < resolution < upper for upper, resolution in limits)


def test_the_usual_meter_reads_a_resting_battery_to_a_tenth_of_a_volt() -> None:
    usual = next(i for i in built_in() if i.class_ is InstrumentClass.METER)
    # 0.5 % of 12.58 V + 2 digits of 0.01 V.
    assert measured(volts("12.58"), usual, "1").radius == pytest.approx(0.0829)


def test_an_instrument_of_the_shop_wins_over_the_built_in_one() -> None:
    chosen = one_per_class([AUTO])
    assert chosen[InstrumentClass.METER] is AUTO
    assert chosen[InstrumentClass.SCALE].id == "usual-scale"
    assert set(chosen) == set(InstrumentClass)


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


@pytest.mark.parametrize(
    ("text", "accuracy"),
    [
        ("0.5 % + 2 digits", Accuracy("", reading=0.005, digits=2)),
        ("±0.5%+2digits", Accuracy("", reading=0.005, digits=2)),
        ("± .5 % of reading + 1 digit", Accuracy("", reading=0.005, digits=1)),
        ("0.5 % + 2 counts", Accuracy("", reading=0.005, digits=2)),
        ("1 % of full scale", Accuracy("", full_scale=0.01)),
        ("1 % + 0.5 % of full scale", Accuracy("", reading=0.01, full_scale=0.005)),
        ("2 K", Accuracy("", fixed=(2, "K"))),
        ("0.3 \u2126 + 1 %", Accuracy("", reading=0.01, fixed=(0.3, "Ω"))),
        ("10 g", Accuracy("", fixed=(10, "g"))),
        ("0.1 kg/cm²", Accuracy("", fixed=(0.1, "kg/cm²"))),
    ],
)
def test_an_accuracy_is_a_sum_of_what_makers_state(text: str, accuracy: Accuracy) -> None:
    found = Accuracy.parse(text)
    assert found.text == text
    assert (found.digits, found.fixed) == (accuracy.digits, accuracy.fixed)
    assert found.reading == pytest.approx(accuracy.reading)
    assert found.full_scale == pytest.approx(accuracy.full_scale)


@pytest.mark.parametrize(
    ("text", "says"),
    [
        ("", "“” is no accuracy; write 0.5 % \\+ 2 digits"),
        ("0.5", "“0.5” is no accuracy"),
        ("0.5 % +", "“” is no accuracy"),
        ("-0.5 %", "“-0.5 %” is no accuracy"),
        ("0,5 %", "“0,5 %” is no accuracy"),
        ("0,5%", "“0,5%” is no accuracy"),
        ("1..2 %", "“1..2 %” is no accuracy"),
        ("1.2.3 %", "“1.2.3 %” is no accuracy"),
        ("nan %", "“nan %” is no accuracy"),
        ("\u0661 %", "is no accuracy"),  # Arabic-Indic digit
        ("5 furlongs", "“5 furlongs” is no accuracy"),
        ("2 % of scale", "“2 % of scale” is no accuracy"),
        ("0.5 % - 2 digits", "is no accuracy"),
        ("good", "“good” is no accuracy"),
        ("1 % + 2 %", "says the same twice"),
        ("2 digits + 3 counts", "says the same twice"),
        ("2 K + 3 F", "says the same twice"),
    ],
)
def test_an_accuracy_that_cannot_be_read_is_refused(text: str, says: str) -> None:
    with pytest.raises(ValueError, match=says):
        Accuracy.parse(text)


def test_a_fixed_amount_counts_only_for_its_own_quantity() -> None:
    assert Accuracy.parse("2 K").fixed_si(Q.TEMPERATURE) == 2
    assert Accuracy.parse("2 K").fixed_si(Q.VOLTAGE) == 0
    assert Accuracy.parse("1 %").fixed_si(Q.VOLTAGE) == 0


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
