"""What a person types for a reading, and how what is no reading is refused."""

import math
import re
import time
from collections.abc import Callable
from decimal import Decimal

import pytest
from hypothesis import assume, given, settings
from hypothesis import strategies as st

from faulttree.core.reading import (
    Entry,
    ReadingRefused,
    example,
    parse_fitting_reading,
    parse_reading,
)
from faulttree.core.units import UNITS, Quantity, Unit, UnitSystem

Q = Quantity
US, METRIC, BOTH = UnitSystem.US, UnitSystem.METRIC, UnitSystem.BOTH
MANY = settings(derandomize=True, max_examples=600, deadline=1000)

PSI = 6894.757293168
"""Pascals. Source: NIST SP 811 (2008), B.8, from the exact pound, inch and standard gravity."""

READINGS = [
    # typed, quantity, SI value, last digit typed [SI], unit
    ("11.6", Q.VOLTAGE, 11.6, 0.1, "V"),
    ("11,6 V", Q.VOLTAGE, 11.6, 0.1, "V"),
    ("12.60", Q.VOLTAGE, 12.6, 0.01, "V"),
    ("12.", Q.VOLTAGE, 12.0, 1.0, "V"),
    (".5", Q.VOLTAGE, 0.5, 0.1, "V"),
    (",5", Q.VOLTAGE, 0.5, 0.1, "V"),
    ("0,500", Q.VOLTAGE, 0.5, 0.001, "V"),
    ("+12", Q.VOLTAGE, 12.0, 1.0, "V"),
    ("-0.02", Q.VOLTAGE, -0.02, 0.01, "V"),
    ("- 0.5", Q.VOLTAGE, -0.5, 0.1, "V"),
    ("\u22120.5", Q.VOLTAGE, -0.5, 0.1, "V"),  # minus sign
    ("  12.6   V  ", Q.VOLTAGE, 12.6, 0.1, "V"),
    ("12.6\u00a0V", Q.VOLTAGE, 12.6, 0.1, "V"),  # no-break space
    ("12.6\u2009V", Q.VOLTAGE, 12.6, 0.1, "V"),  # thin space
    ("12.6\u202fV", Q.VOLTAGE, 12.6, 0.1, "V"),  # narrow no-break space
    ("-\u20090.5\u202fV", Q.VOLTAGE, -0.5, 0.1, "V"),
    ("12.6 volts", Q.VOLTAGE, 12.6, 0.1, "V"),
    ("12.6 Volts", Q.VOLTAGE, 12.6, 0.1, "V"),
    ("12.6VDC", Q.VOLTAGE, 12.6, 0.1, "V"),
    ("240mV", Q.VOLTAGE, 0.24, 0.001, "mV"),
    ("4.1 mV", Q.VOLTAGE, 0.0041, 0.0001, "mV"),
    ("50 \u00b5V", Q.VOLTAGE, 5e-5, 1e-6, "µV"),  # micro sign
    ("50 \u03bcV", Q.VOLTAGE, 5e-5, 1e-6, "µV"),  # Greek mu
    ("50uV", Q.VOLTAGE, 5e-5, 1e-6, "uV"),
    ("1.26e1", Q.VOLTAGE, 12.6, 0.1, "V"),
    ("250 mA", Q.CURRENT, 0.25, 0.001, "mA"),
    ("3,4 AMPS", Q.CURRENT, 3.4, 0.1, "A"),
    ("1.2k", Q.RESISTANCE, 1200, 100, "k"),
    ("4.7 kohm", Q.RESISTANCE, 4700, 100, "kΩ"),
    ("4.7 k\u03a9", Q.RESISTANCE, 4700, 100, "kΩ"),  # Greek omega
    ("4.7 k\u2126", Q.RESISTANCE, 4700, 100, "kΩ"),  # ohm sign
    ("4.7 KOHM", Q.RESISTANCE, 4700, 100, "KΩ"),
    ("4.7 kilohm", Q.RESISTANCE, 4700, 100, "k"),
    ("4k7", Q.RESISTANCE, 4700, 100, "k"),
    ("4K70 ohm", Q.RESISTANCE, 4700, 10, "k"),
    ("4R7", Q.RESISTANCE, 4.7, 0.1, "Ω"),
    ("1M2", Q.RESISTANCE, 1.2e6, 1e5, "M"),
    ("4k7\u2126", Q.RESISTANCE, 4700, 100, "k"),
    ("10M", Q.RESISTANCE, 10e6, 1e6, "M"),
    ("10 Mohm", Q.RESISTANCE, 10e6, 1e6, "MΩ"),
    ("0.3 R", Q.RESISTANCE, 0.3, 0.1, "Ω"),
    ("-0.1", Q.RESISTANCE, -0.1, 0.1, "Ω"),
    ("38 psi", Q.GAUGE_PRESSURE, 38 * PSI, PSI, "psi"),
    ("38 PSI", Q.GAUGE_PRESSURE, 38 * PSI, PSI, "psi"),
    ("38psig", Q.GAUGE_PRESSURE, 38 * PSI, PSI, "psi"),
    ("2.6 bar", Q.GAUGE_PRESSURE, 260e3, 10e3, "bar"),
    ("2,6 Bar", Q.GAUGE_PRESSURE, 260e3, 10e3, "bar"),
    ("2.6 kg/cm2", Q.GAUGE_PRESSURE, 254972.9, 9806.65, "kg/cm2"),
    ("2.6kgf/cm²", Q.GAUGE_PRESSURE, 254972.9, 9806.65, "kg/cm2"),
    ("38 lb/in2", Q.GAUGE_PRESSURE, 38 * PSI, PSI, "psi"),
    ('-18"Hg', Q.GAUGE_PRESSURE, -60955.002, 3386.389, "inHg"),
    ("-18 in.Hg", Q.GAUGE_PRESSURE, -60955.002, 3386.389, "inHg"),
    ("262", Q.GAUGE_PRESSURE, 262e3, 1e3, "kPa"),
    ("52 psia", Q.ABSOLUTE_PRESSURE, 52 * PSI, PSI, "psi"),
    ("5 psid", Q.PRESSURE_DIFFERENCE, 5 * PSI, PSI, "psi"),
    ("41F", Q.TEMPERATURE, 278.15, 5 / 9, "°F"),
    ("41 °F", Q.TEMPERATURE, 278.15, 5 / 9, "°F"),
    ("41 deg F", Q.TEMPERATURE, 278.15, 5 / 9, "°F"),
    ("41deg  F", Q.TEMPERATURE, 278.15, 5 / 9, "°F"),
    ("5", Q.TEMPERATURE, 278.15, 1.0, "°C"),
    ("-5.0 C", Q.TEMPERATURE, 268.15, 0.1, "°C"),
    ("18 F", Q.TEMPERATURE_DIFFERENCE, 10.0, 5 / 9, "°F"),
    ("10 C", Q.TEMPERATURE_DIFFERENCE, 10.0, 1.0, "K"),
    ("1 lb 10 oz", Q.MASS, 26 * 0.028349523125, 0.028349523125, "oz"),
    ("1lb10oz", Q.MASS, 26 * 0.028349523125, 0.028349523125, "oz"),
    ("-1 lb 10 oz", Q.MASS, -26 * 0.028349523125, 0.028349523125, "oz"),
    ("-0 lb 10 oz", Q.MASS, -10 * 0.028349523125, 0.028349523125, "oz"),
    ("1 LB 10.5 OZ", Q.MASS, 26.5 * 0.028349523125, 0.1 * 0.028349523125, "oz"),
    ("740 g", Q.MASS, 0.74, 0.001, "g"),
    ("0.020 in", Q.LENGTH, 0.000508, 0.0000254, "in"),
    ('0.020"', Q.LENGTH, 0.000508, 0.0000254, "in"),
    ("20 thou", Q.LENGTH, 0.000508, 0.0000254, "thou"),
    ("1 ft 2 in", Q.LENGTH, 0.3556, 0.0254, "in"),
    ("3 min 20 s", Q.TIME, 200.0, 1.0, "s"),
    ("1 h 5 min", Q.TIME, 3900.0, 60.0, "min"),
    ("85 %", Q.RATIO, 0.85, 0.01, "%"),
    ("85", Q.RATIO, 0.85, 0.01, "%"),
    ("7", Q.COUNT, 7.0, 1.0, ""),
    ("7x", Q.COUNT, 7.0, 1.0, ""),
    ("7 times", Q.COUNT, 7.0, 1.0, ""),
]


@pytest.mark.parametrize(("typed", "quantity", "value", "step", "unit"), READINGS)
def test_a_reading_is_understood(
    typed: str, quantity: Quantity, value: float, step: float, unit: str
) -> None:
    entry = parse_reading(typed, quantity)
    assert entry.quantity is quantity
    assert entry.value == pytest.approx(value, rel=1e-9, abs=1e-12)
    assert entry.step == pytest.approx(step, rel=1e-9)
    assert entry.unit == unit


@pytest.mark.parametrize("typed", ["OL", "ol", "0L", "O.L", "0.L", " OL ", "O.L.", "open"])
def test_over_range_on_ohms_is_an_open_circuit(typed: str) -> None:
    entry = parse_reading(typed, Q.RESISTANCE)
    assert entry.is_open_circuit
    assert entry == Entry(Q.RESISTANCE, math.inf, 0.0, typed.strip(), "Ω")


def test_a_number_is_no_open_circuit() -> None:
    assert not parse_reading("40 Mohm", Q.RESISTANCE).is_open_circuit


@pytest.mark.parametrize("quantity", [q for q in Q if q is not Q.RESISTANCE])
def test_over_range_is_refused_where_it_is_no_open_circuit(quantity: Quantity) -> None:
    with pytest.raises(ReadingRefused, match="OL is an open circuit on ohms only"):
        parse_reading("OL", quantity)


@pytest.mark.parametrize(
    ("system", "value", "unit"),
    [(US, 38 * PSI, "psi"), (BOTH, 38 * PSI, "psi"), (METRIC, 38e3, "kPa")],
)
def test_a_bare_number_is_in_the_unit_of_the_prompt(
    system: UnitSystem, value: float, unit: str
) -> None:
    entry = parse_reading("38", Q.GAUGE_PRESSURE, system)
    assert entry.value == pytest.approx(value)
    assert entry.unit == unit


def test_the_text_is_kept_as_typed_with_plain_spaces() -> None:
    assert parse_reading(" 1\u00a0lb  10\u2009oz\n", Q.MASS).text == "1 lb 10 oz"
    assert parse_reading("11,60 V", Q.VOLTAGE).text == "11,60 V"
    assert parse_reading("4k7\u2126", Q.RESISTANCE).text == "4k7\u2126"


REFUSALS = [
    # typed, quantity, what the refusal says
    ("", Q.VOLTAGE, "Type a reading"),
    (" \t\u00a0", Q.VOLTAGE, "Type a reading"),
    ("12 V A", Q.VOLTAGE, "Two units in one reading"),
    ("12 psi", Q.VOLTAGE, "psi is a unit of pressure; this step asks for voltage"),
    ("12 PSI", Q.VOLTAGE, "PSI is a unit of pressure"),
    ("52 psia", Q.GAUGE_PRESSURE, "psia is a unit of absolute pressure; this step asks for gauge"),
    ("38 psig", Q.ABSOLUTE_PRESSURE, "psig is a unit of gauge pressure"),
    ("240 mV", Q.RESISTANCE, "mV is a unit of voltage"),
    ("4.7k", Q.VOLTAGE, "k is a unit of resistance"),
    ("4k7", Q.VOLTAGE, "k is a unit of resistance"),
    ("240 MV", Q.VOLTAGE, "“MV” is not a unit known here"),  # never taken for millivolts
    ("4.7 MOHMS", Q.RESISTANCE, "“MOHMS” is not a unit known here"),
    ("12 furlongs", Q.LENGTH, "“furlongs” is not a unit known here"),
    ("1,000", Q.RESISTANCE, "1,000 can mean 1.000 or 1000"),
    ("-1,000 V", Q.VOLTAGE, "-1,000 can mean -1.000 or -1000"),
    ("12,580 V", Q.VOLTAGE, "12,580 can mean 12.580 or 12580"),
    ("1.234,5", Q.RESISTANCE, "without thousands separators"),
    ("1,234.5", Q.RESISTANCE, "without thousands separators"),
    ("1,000,000", Q.RESISTANCE, "without thousands separators"),
    ("1 000", Q.RESISTANCE, "Two readings or two units"),
    ("12..5", Q.VOLTAGE, "is not a reading"),
    ("12.5.", Q.VOLTAGE, "Two readings or two units"),
    ("12-", Q.VOLTAGE, "is not a reading"),
    ("12-13", Q.VOLTAGE, "is not a reading"),
    ("--5", Q.VOLTAGE, "is not a reading"),
    ("- - 5", Q.VOLTAGE, "is not a reading"),
    ("+-5", Q.VOLTAGE, "is not a reading"),
    ("-", Q.VOLTAGE, "is not a reading"),
    (".", Q.VOLTAGE, "is not a reading"),
    ("V", Q.VOLTAGE, "is not a reading"),
    ("about 12", Q.VOLTAGE, "is not a reading"),
    ("0x10", Q.COUNT, "Two readings or two units"),
    ("0x10", Q.VOLTAGE, "x is a unit of count"),
    ("1_0", Q.VOLTAGE, "“_” is not a unit known here"),
    ("nan", Q.VOLTAGE, "is not a reading"),
    ("NaN", Q.RESISTANCE, "is not a reading"),
    ("inf", Q.RESISTANCE, "is not a reading"),
    ("-inf", Q.RESISTANCE, "is not a reading"),
    ("1e999", Q.VOLTAGE, "not a unit known here"),
    ("1e99", Q.VOLTAGE, "too large"),
    ("-1e13", Q.VOLTAGE, "too large"),
    ("12e", Q.VOLTAGE, "“e” is not a unit known here"),
    ("\uff11\uff12 V", Q.VOLTAGE, "is not a reading"),  # full-width digits
    ("12.\uff15 V", Q.VOLTAGE, "is not a reading"),
    ("\u0661\u0662", Q.VOLTAGE, "is not a reading"),  # Arabic-Indic digits
    ("\u0967\u0968", Q.VOLTAGE, "is not a reading"),  # Devanagari digits
    ("\u00bd V", Q.VOLTAGE, "is not a reading"),  # vulgar fraction
    ("12²", Q.VOLTAGE, "“²” is not a unit known here"),
    ("12 V 13 V", Q.VOLTAGE, "Two readings or two units"),
    ("12 13 14", Q.VOLTAGE, "One reading at a time"),
    ("10 oz 1 lb", Q.MASS, "Two readings or two units"),
    ("1 lb -10 oz", Q.MASS, "The sign goes in front"),
    ("1 lb +10 oz", Q.MASS, "The sign goes in front"),
    ("1 lb 10 V", Q.MASS, "V is a unit of voltage"),
    ("12\x1b[31m", Q.VOLTAGE, "“?[” is not a unit known here"),
    ("\x1b]0;x\x07", Q.VOLTAGE, "“?]0;x?” is not a reading"),
    ("12 \u202eV", Q.VOLTAGE, "“?V” is not a unit known here"),  # right-to-left override
    ("12\u200bV", Q.VOLTAGE, "“?V” is not a unit known here"),  # zero-width space
    ("\ud800", Q.VOLTAGE, "“?” is not a reading"),  # half of a surrogate pair
    ("1" * 10_000, Q.VOLTAGE, "too long"),
    ("x" * 10_000, Q.VOLTAGE, "too long"),
]


def assert_is_one_plain_sentence(message: str, quantity: Quantity) -> None:
    assert message.isprintable()
    assert message.endswith(".")
    in_own_words = re.sub("“.*”", "", message)
    assert re.search(r"[.!?]\s", in_own_words) is None
    assert example(quantity) in message or re.search(r"can mean -?\+?\d+\.\d+ or ", message)


@pytest.mark.parametrize(("typed", "quantity", "says"), REFUSALS)
def test_what_is_no_reading_is_refused_with_an_example(
    typed: str, quantity: Quantity, says: str
) -> None:
    with pytest.raises(ReadingRefused) as refusal:
        parse_reading(typed, quantity)
    assert says in str(refusal.value)
    assert_is_one_plain_sentence(str(refusal.value), quantity)


@pytest.mark.parametrize("quantity", Q)
def test_every_example_can_be_typed(quantity: Quantity) -> None:
    plain = re.sub(r"\(.*\)| for an open circuit", "", example(quantity))
    for typed in re.split(r", | or ", plain):
        assert parse_reading(typed, quantity).quantity is quantity


SPELLED = [(unit, spelling) for unit in UNITS for spelling in unit.spellings if spelling]


@MANY
@given(
    st.integers(-999_999, 999_999),
    st.integers(0, 5),
    st.sampled_from(SPELLED),
    st.sampled_from([".", ","]),
    st.sampled_from(["", " ", "  ", "\u00a0", "\u2009", "\u202f"]),
)
def test_any_number_in_any_unit_comes_back(
    digits: int, decimals: int, spelled: tuple[Unit, str], point: str, space: str
) -> None:
    unit, spelling = spelled
    number = f"{Decimal(digits).scaleb(-decimals):f}"
    assume(point == "." or not re.fullmatch(r"-?[1-9]\d{0,2}\.\d{3}", number))
    entry = parse_reading(number.replace(".", point) + space + spelling, unit.quantity)
    expected = float(number) * unit.factor + unit.offset
    assert entry.value == pytest.approx(expected, rel=1e-12, abs=1e-15)
    assert entry.step == pytest.approx(10.0**-decimals * unit.factor, rel=1e-9)


@MANY
@given(st.integers(0, 999), st.sampled_from("RkKM"), st.integers(0, 999))
def test_a_letter_may_stand_for_the_point_of_a_resistance(
    whole: int, letter: str, rest: int
) -> None:
    entry = parse_reading(f"{whole}{letter}{rest}", Q.RESISTANCE)
    factor = {"R": 1.0, "k": 1e3, "K": 1e3, "M": 1e6}[letter]
    assert entry.value == pytest.approx(float(f"{whole}.{rest}") * factor, rel=1e-12)
    assert entry.step == pytest.approx(10.0 ** -len(str(rest)) * factor)


any_text = st.text(st.characters(exclude_categories=()), max_size=80)
nearly_a_reading = st.text(
    '0123456789.,+-eEkKmMVAΩFClbozpsinHg%"²²/ \u00a0\u2009\x1b\n', max_size=30
)
pieces = st.lists(
    st.sampled_from(["1", "12.5", "0,3", "-", "V", "lb", "oz", "deg F", "e5", " ", "OL", "k", "."]),
    max_size=8,
).map("".join)


@settings(MANY, max_examples=1500)
@given(any_text | nearly_a_reading | pieces, st.sampled_from(Q), st.sampled_from(UnitSystem))
def test_any_text_is_a_reading_or_is_refused_in_one_sentence(
    text: str, quantity: Quantity, system: UnitSystem
) -> None:
    try:
        entry = parse_reading(text, quantity, system)
    except ReadingRefused as refusal:
        assert_is_one_plain_sentence(str(refusal), quantity)
    else:
        assert math.isfinite(entry.value) or (entry.value > 0 and quantity is Q.RESISTANCE)
        assert entry.is_open_circuit or entry.step > 0
        assert entry.text.isprintable()


@pytest.mark.parametrize(
    "text",
    [
        "1" * 60,
        "1 " * 30,
        "-" * 60,
        "1e" * 30,
        "1," * 30,
        "1." * 30,
        "1lb" * 20,
        "." * 60,
        "e1" * 30,
    ]
    + [piece * 1_000_000 for piece in ("1", " ", "1 ", "\u00a0")],
)
def test_no_text_takes_long(text: str) -> None:
    began = time.perf_counter()
    with pytest.raises(ReadingRefused):
        parse_reading(text, Q.MASS)
    assert time.perf_counter() - began < 0.5


def _below_20(value: float) -> bool:
    return value < 20


def test_a_doubtful_comma_is_settled_by_what_can_be_shown() -> None:
    entry = parse_fitting_reading("4,991 V", Quantity.VOLTAGE, UnitSystem.METRIC, _below_20)
    assert entry.value == pytest.approx(4.991)
    assert entry.step == pytest.approx(0.001)
    assert entry.text == "4,991 V"


@pytest.mark.parametrize("fits", [lambda _value: True, lambda _value: False])
def test_a_comma_that_stays_doubtful_is_refused(fits: Callable[[float], bool]) -> None:
    with pytest.raises(ReadingRefused):
        parse_fitting_reading("4,991 V", Quantity.VOLTAGE, UnitSystem.METRIC, fits)
