"""The small language of bands and sums: from text to a result."""

import math

import pytest
from hypothesis import assume, given, settings
from hypothesis import strategies as st
from pydantic import TypeAdapter, ValidationError

from faulttree.core.expression import Expression, ExpressionError
from faulttree.core.expression_parser import MAX_LENGTH
from faulttree.core.uncertain import CannotWorkOut, exactly
from faulttree.core.units import Quantity

Q = Quantity
MANY = settings(derandomize=True, max_examples=400, deadline=1000)

NAMES = {
    "battery-voltage": Q.VOLTAGE,
    "feed": Q.VOLTAGE,
    "drain": Q.CURRENT,
    "coil": Q.RESISTANCE,
    "suction": Q.GAUGE_PRESSURE,
    "outlet": Q.TEMPERATURE,
    "tries": Q.COUNT,
}
VALUES = {
    "battery-voltage": exactly(12.6),
    "feed": exactly(11.4),
    "drain": exactly(3.0),
    "coil": exactly(4.0),
    "suction": exactly(200e3),
    "outlet": exactly(280.15),
    "tries": exactly(7.0),
}


def worked_out(text: str | float, quantity: Quantity) -> float:
    return Expression.parse(text).evaluator(quantity, NAMES)(VALUES).value


@pytest.mark.parametrize(
    ("text", "quantity", "value"),
    [
        ("0.5 V", Q.VOLTAGE, 0.5),
        ("0.5V", Q.VOLTAGE, 0.5),
        (".5 V", Q.VOLTAGE, 0.5),
        ("5. V", Q.VOLTAGE, 5.0),
        ("240 mV", Q.VOLTAGE, 0.24),
        ("4.1 mV", Q.VOLTAGE, 0.0041),
        ("50 µV", Q.VOLTAGE, 5e-5),
        ("50 \u03bcV", Q.VOLTAGE, 5e-5),  # Greek mu
        ("4.7 k\u2126", Q.RESISTANCE, 4700.0),  # ohm sign
        ("0.5\u00a0V", Q.VOLTAGE, 0.5),  # no-break space
        ("12 V \u2212 0.5\u2009V", Q.VOLTAGE, 11.5),  # minus sign, thin space
        ("1e3 ohm", Q.RESISTANCE, 1000.0),
        ("5 C", Q.TEMPERATURE, 278.15),
        ("5 deg C", Q.TEMPERATURE, 278.15),
        ("-5 C", Q.TEMPERATURE, 268.15),
        ("-5 C", Q.TEMPERATURE_DIFFERENCE, -5.0),
        ("- -5 C", Q.TEMPERATURE, 278.15),
        ("-40 F", Q.TEMPERATURE, 233.15),
        ("5 C - 3 C", Q.TEMPERATURE_DIFFERENCE, 2.0),
        ("5 C + 3 K", Q.TEMPERATURE, 281.15),
        ("max(-5 C, -7 C)", Q.TEMPERATURE, 268.15),
        ("abs(-5 C)", Q.TEMPERATURE_DIFFERENCE, 5.0),
        ("3 min", Q.TIME, 180.0),
        ("3 min + 20 s", Q.TIME, 200.0),
        ("min(3 min, 200 s)", Q.TIME, 180.0),
        ("2 kg/cm2", Q.GAUGE_PRESSURE, 196133.0),
        ("-18 in.Hg", Q.GAUGE_PRESSURE, -60955.002),
        ("-5 psi", Q.GAUGE_PRESSURE, -34473.78646584),
        ("12 V/4 A", Q.RESISTANCE, 3.0),
        ("12 v-0.5 v", Q.VOLTAGE, 11.5),
        ("12 V-0.5 V", Q.VOLTAGE, 11.5),
        ("7", Q.COUNT, 7.0),
        ("7 x", Q.COUNT, 7.0),
        (7, Q.COUNT, 7.0),
        (0.25, Q.RATIO, 0.25),
        (-0.25, Q.RATIO, -0.25),
        (1e-7, Q.RATIO, 1e-7),
        ("battery-voltage", Q.VOLTAGE, 12.6),
        ("battery-voltage - 0.5 V", Q.VOLTAGE, 12.1),
        ("battery-voltage -0.5 V", Q.VOLTAGE, 12.1),
        ("battery-voltage- 0.5 V", Q.VOLTAGE, 12.1),
        ("battery-voltage minus 0.5 V", Q.VOLTAGE, 12.1),
        ("battery-voltage plus 0.5 V", Q.VOLTAGE, 13.1),
        ("battery-voltage - feed", Q.VOLTAGE, 1.2),
        ("90 % of battery-voltage", Q.VOLTAGE, 11.34),
        ("90 % of battery-voltage - 0.34 V", Q.VOLTAGE, 11.0),
        ("90 % of (battery-voltage - 0.6 V)", Q.VOLTAGE, 10.8),
        ("90% of -feed", Q.VOLTAGE, -10.26),
        ("10 V / 50 % of 10 V", Q.RATIO, 2.0),
        ("0.5 times feed", Q.VOLTAGE, 5.7),
        ("3 times 4 V", Q.VOLTAGE, 12.0),
        ("drain * coil", Q.VOLTAGE, 12.0),
        ("feed / drain", Q.RESISTANCE, 3.8),
        ("feed / coil", Q.CURRENT, 2.85),
        ("feed / battery-voltage", Q.RATIO, 11.4 / 12.6),
        ("suction + 5 psi", Q.GAUGE_PRESSURE, 234473.78646584),
        ("suction - 100 kPa", Q.PRESSURE_DIFFERENCE, 100e3),
        ("outlet - 5 C", Q.TEMPERATURE_DIFFERENCE, 2.0),
        ("tries / 2", Q.COUNT, 3.5),
        ("tries / tries", Q.RATIO, 1.0),
        ("min(feed, battery-voltage, 12 V)", Q.VOLTAGE, 11.4),
        ("max(feed)", Q.VOLTAGE, 11.4),
        ("abs(feed - battery-voltage)", Q.VOLTAGE, 1.2),
        ("  ( ( feed ) )\n", Q.VOLTAGE, 11.4),
        ("2 V + 3 V * 4", Q.VOLTAGE, 14.0),
        ("(2 V + 3 V) * 4", Q.VOLTAGE, 20.0),
        ("10 V - 3 V - 2 V", Q.VOLTAGE, 5.0),
        ("100 V / 5 / 2", Q.VOLTAGE, 10.0),
        ("-2 V - -3 V", Q.VOLTAGE, 1.0),
        ("2 V * -3", Q.VOLTAGE, -6.0),
    ],
)
def test_an_expression_is_worked_out(text: str | float, quantity: Quantity, value: float) -> None:
    assert worked_out(text, quantity) == pytest.approx(value, rel=1e-12, abs=1e-12)


def test_the_text_is_what_the_author_wrote_on_one_line() -> None:
    assert Expression.parse(" feed -\n  0.5 V ").text == "feed - 0.5 V"
    assert Expression.parse(7).text == "7"


def test_the_names_are_those_it_refers_to() -> None:
    assert Expression.parse("min(feed, 90 % of battery-voltage)").names == {
        "feed",
        "battery-voltage",
    }


def test_an_expression_has_every_quantity_that_it_can_be_read_as() -> None:
    assert Expression.parse("5 C").quantities({}) == {Q.TEMPERATURE, Q.TEMPERATURE_DIFFERENCE}
    assert Expression.parse("feed - 0.5 V").quantities(NAMES) == {Q.VOLTAGE}


@pytest.mark.parametrize(
    ("text", "message"),
    [
        ("feed / coil", "“feed / coil” is current, not voltage"),
        ("5", "“5” is count or ratio, not voltage"),
        ("5 C", "“5 C” is temperature or temperature difference, not voltage"),
        ("feed  +\n coil", "voltage and resistance cannot be added"),
    ],
)
def test_what_cannot_be_read_as_the_quantity_is_refused(text: str, message: str) -> None:
    with pytest.raises(ExpressionError) as refusal:
        Expression.parse(text).evaluator(Q.VOLTAGE, NAMES)
    assert str(refusal.value) == message


@pytest.mark.parametrize(("written", "text"), [("feed  - 0.5 V", "feed - 0.5 V"), (7, "7")])
def test_the_field_of_a_document_can_be_an_expression(written: str | float, text: str) -> None:
    field = TypeAdapter(Expression)
    expression = field.validate_python(written)
    assert expression == Expression.parse(text)
    assert field.dump_python(expression) == text


@pytest.mark.parametrize("written", [True, None, ["5 V"], "5 V +"])
def test_what_is_no_expression_is_no_field(written: object) -> None:
    with pytest.raises(ValidationError):
        TypeAdapter(Expression).validate_python(written)


def joined(parts: tuple[str, list[tuple[str, str]]]) -> str:
    first, more = parts
    return first + "".join(f" {sign} {part}" for sign, part in more)


numbers = st.decimals("0", "999", places=2).map(lambda d: f"{d.normalize():f}")


def sums_of(parts: st.SearchStrategy[str]) -> st.SearchStrategy[str]:
    sums = st.tuples(
        parts, st.lists(st.tuples(st.sampled_from("+-*/"), parts), min_size=1, max_size=3)
    ).map(joined)
    return st.one_of(
        sums,
        sums.map("({})".format),
        parts.map("abs({})".format),
        parts.map("-{}".format),
        st.tuples(st.sampled_from(["min", "max"]), parts, parts).map(
            "{0[0]}({0[1]}, {0[2]})".format
        ),
    )


@MANY
@given(st.recursive(numbers, sums_of, max_leaves=12))
def test_arithmetic_is_that_of_python(text: str) -> None:
    assume(len(text) <= MAX_LENGTH)
    try:
        expected = float(eval(text, {"__builtins__": {}, "min": min, "max": max, "abs": abs}))
    except ZeroDivisionError:
        with pytest.raises(CannotWorkOut, match="may be zero"):
            worked_out(text, Q.RATIO)
    else:
        assert worked_out(text, Q.RATIO) == expected


@pytest.mark.parametrize(
    "text",
    [
        "__import__('os')",
        "__import__('os').system('true')",
        "lambda: 1",
        "(lambda x: x)(1)",
        "a.b",
        "feed.__class__",
        "feed[0]",
        "[1 for x in y]",
        "{feed}",
        "feed if feed else feed",
        "feed == 1",
        "feed := 1",
        "2 ** 9999999",
        "9 // 2",
        "7 % 3",
        "0x10",
        "1_000",
        "1e",
        "10j",
        '"a" * 100000000',
        "f(1)",
        "exec(1)",
        "min(*feed)",
        "#",
        "\\",
        "feed\x00",
        "(" * 10_000,
        "(" * MAX_LENGTH,
        "-" * MAX_LENGTH,
        "(" * (MAX_LENGTH // 2) + ")" * (MAX_LENGTH // 2),
        "min(" * (MAX_LENGTH // 4),
        "\uff11\uff12 V",  # full-width digits
        "\u0661 V",  # Arabic-Indic digit
        "fe\u0435d",  # Cyrillic letter
        "feed \u202e + 1 V",  # right-to-left override
        "\ud800",  # half of a surrogate pair
        "nan",
        "inf V",
        "Infinity",
    ],
)
def test_hostile_text_is_refused_and_never_run(text: str) -> None:
    with pytest.raises(ExpressionError) as refusal:
        Expression.parse(text).quantities(NAMES)
    assert str(refusal.value).isprintable()


def test_brackets_may_be_as_deep_as_the_text_is_long() -> None:
    depth = (MAX_LENGTH - 3) // 2
    assert worked_out("(" * depth + "5 V" + ")" * depth, Q.VOLTAGE) == 5
    assert worked_out("-" * (MAX_LENGTH - 3) + "5 V", Q.VOLTAGE) == -5
    assert worked_out("1" + "+1" * ((MAX_LENGTH - 1) // 2), Q.RATIO) == 100


any_text = st.text(st.characters(exclude_categories=()), max_size=40)
NUMBERS_AND_UNITS = ["5", "0.5", "1e3", "V", "C", "%", "x", "k", "psi"]
WORDS = ["min", "max", "abs", "of", "minus", "times", "feed", "coil", "outlet"]
nearly_an_expression = st.lists(
    st.sampled_from([*NUMBERS_AND_UNITS, *WORDS, *"-+*/(), "]), max_size=12
).flatmap(lambda words: st.sampled_from(["", " "]).map(lambda space: space.join(words)))


@settings(MANY, max_examples=1000)
@given(any_text | nearly_an_expression, st.sampled_from(Q))
def test_any_text_is_an_expression_or_is_refused_in_plain_words(
    text: str, quantity: Quantity
) -> None:
    value, said = 0.0, ""
    try:
        value = worked_out(text, quantity)
    except (ExpressionError, CannotWorkOut) as refusal:
        said = str(refusal)
    assert math.isfinite(value)
    assert said.isprintable()
