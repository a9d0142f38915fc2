"""Accuracy: the limit of error as makers state it."""

import math

import pytest

from faulttree.core.accuracy import Accuracy, limit_of_error
from faulttree.core.units import Quantity

Q = Quantity

WORKED_EXAMPLES = [
    # reading [V], accuracy, last digit [V], limit of error [V]
    # Source: a meter dealer's published accuracy note: 1.9964 to 2.0036 V.
    (2.0, "0.08 % + 2 digits", 0.001, 0.0036),
    # Source: a meter maker's published accuracy note: 98.8 to 101.2 V.
    (100.0, "1 % + 2 digits", 0.1, 1.2),
    # Source: a meter maker's published accuracy note: 1.987 to 2.013 V.
    (2.0, "0.5 % + 3 digits", 0.001, 0.013),
    # Source: a meter maker's published accuracy note: 97.8 to 102.2 V.
    (100.0, "2 % + 2 digits", 0.1, 2.2),
]


@pytest.mark.parametrize(("value", "accuracy", "resolution", "limit"), WORKED_EXAMPLES)
def test_the_limit_of_error_is_that_of_the_makers_examples(
    value: float, accuracy: str, resolution: float, limit: float
) -> None:
    found = limit_of_error(value, Accuracy.parse(accuracy), resolution, 200.0)
    assert found == pytest.approx(limit, abs=1e-6)


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
    accuracy = Accuracy.parse("0.5 % + 2 digits")
    assert limit_of_error(-2.0, accuracy, 0.001, 2.0) == pytest.approx(0.012)


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
