"""What a word without quotes means."""

import math

import pytest

from faulttree.files.yaml_scalars import MAX_NUMBER, NumberError, Scalar, plain_value


# YAML 1.2.2, 2021, section 10.3.2, example 10.9 (core tag resolution), word by word.
@pytest.mark.parametrize(
    ("text", "expected"),
    [
        ("null", None),
        ("", None),
        ("true", True),
        ("True", True),
        ("false", False),
        ("FALSE", False),
        ("0", 0),
        ("0o7", 7),
        ("0x3A", 58),
        ("-19", -19),
        ("0.", 0.0),
        ("-0.0", -0.0),
        (".5", 0.5),
        ("+12e03", 12000.0),
        ("-2E+05", -200000.0),
    ],
)
def test_the_example_of_the_standard(text: str, expected: Scalar) -> None:
    value = plain_value(text)
    assert value == expected
    assert type(value) is type(expected)
    if isinstance(value, float) and isinstance(expected, float):
        assert math.copysign(1, value) == math.copysign(1, expected)


@pytest.mark.parametrize("text", [".inf", "-.Inf", "+.INF", ".NAN", ".nan", "1e400", "-1e999"])
def test_a_number_that_is_not_finite_is_refused(text: str) -> None:
    with pytest.raises(NumberError):
        plain_value(text)


# The table of section 10.3.2 again: what it does not list is a text.
@pytest.mark.parametrize(
    "text",
    [
        *("on", "off", "yes", "no", "y", "n", "On", "OFF", "tRUE", "nULL"),
        *("2024-01-05", "12:30", "1:30:00", "1_000", "0b101", "-0o7", "+0x1F", "0o8", "0xG"),
        *("1.2.3", "12 V", "3.9k", "10W-40", "1/4", "50%", "=", "<<", ".", "-", "+", "e3", "1e"),
        *("١٢", "１２", "-inf", "nan", "1.5.", "--1", "1-1", "+-1", "0o", "0x"),
    ],
)
def test_everything_else_stays_a_text(text: str) -> None:
    assert plain_value(text) == text


@pytest.mark.parametrize(
    ("text", "expected"),
    [("~", None), ("Null", None), ("NULL", None), ("TRUE", True), ("False", False)],
)
def test_the_other_spellings_of_the_standard(text: str, expected: Scalar) -> None:
    assert plain_value(text) is expected


@pytest.mark.parametrize(
    ("text", "expected"),
    [("012", 12), ("+7", 7), ("0x0f", 15), ("1e3", 1000.0), ("1.10", 1.1), ("12.6", 12.6)],
)
def test_common_numbers(text: str, expected: Scalar) -> None:
    assert plain_value(text) == expected


def test_a_number_may_be_forty_characters_long_and_no_longer() -> None:
    assert plain_value("9" * MAX_NUMBER) == 10**40 - 1
    for text in ("9" * 41, "0." + "1" * 39, "0x" + "f" * 39, "9" * 5000):
        with pytest.raises(NumberError, match="40 are the most"):
            plain_value(text)
