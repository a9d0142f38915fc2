"""The small language of bands and sums."""

import itertools
import math
from collections.abc import Mapping

import pytest
from hypothesis import assume, given, settings
from hypothesis import strategies as st

from faulttree.core.expression import (
    LARGEST,
    MAX_LENGTH,
    Expression,
    ExpressionError,
    Name,
    Number,
    Operation,
)
from faulttree.core.uncertain import CannotWorkOut, Uncertain, exactly
from faulttree.core.units import UNITS, Quantity, Unit

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


def test_numbers_names_and_signs_become_a_tree_of_parts() -> None:
    bulk = Expression.parse("90 % of battery-voltage - 0.5 V").root
    share = Operation("*", (Number(90, "%"), Name("battery-voltage")))
    assert bulk == Operation("-", (share, Number(0.5, "V")))


def test_the_text_is_what_the_author_wrote_on_one_line() -> None:
    assert Expression.parse(" feed -\n  0.5 V ").text == "feed - 0.5 V"
    assert Expression.parse(7).text == "7"


def test_a_hyphen_inside_a_name_is_part_of_it() -> None:
    assert Expression.parse("battery-voltage-feed").names == {"battery-voltage-feed"}
    assert Expression.parse("battery-voltage - feed").names == {"battery-voltage", "feed"}
    assert Expression.parse("min(a, b2-3) * abs(-c) + 5 V").names == {"a", "b2-3", "c"}


def test_a_name_without_a_reading_cannot_be_worked_out() -> None:
    evaluate = Expression.parse("feed + 1 V").evaluator(Q.VOLTAGE, NAMES)
    with pytest.raises(CannotWorkOut, match="feed has not been measured"):
        evaluate({})


def test_errors_are_carried_through() -> None:
    evaluate = Expression.parse("battery-voltage - feed").evaluator(Q.VOLTAGE, NAMES)
    drop = evaluate(
        {
            "battery-voltage": Uncertain(12.6, {"gain": 0.063, "reading 1": 0.02}),
            "feed": Uncertain(12.4, {"gain": 0.062, "reading 2": 0.02}),
        }
    )
    assert drop.value == pytest.approx(0.2)
    assert drop.radius == pytest.approx(0.041)


@pytest.mark.parametrize(
    ("text", "message"),
    [
        ("", "empty; write a number with a unit, for example 0.5 V"),
        (" \n ", "empty; write a number with a unit, for example 0.5 V"),
        ("5 V +", "“5 V +” stops where a number or a name should follow"),
        ("90 % of", "“90 % of” stops where a number or a name should follow"),
        ("7 times", "“7 times” stops where a number or a name should follow"),
        ("-", "“-” stops where a number or a name should follow"),
        ("(feed", "“(feed”: expected ) but found the end"),
        ("(feed 5", "“(feed 5”: expected ) but found 5"),
        ("feed)", "“)” does not belong there in “feed)”"),
        ("()", "“)” in “()”: expected a number or a name"),
        ("* 5 V", "“*” in “* 5 V”: expected a number or a name"),
        ("+ 5 V", "“+” in “+ 5 V”: expected a number or a name"),
        ("5 V 6 V", "“6” does not belong there in “5 V 6 V”"),
        ("1 lb 10 oz", "“10” does not belong there in “1 lb 10 oz”"),
        ("feed feed", "“feed” does not belong there in “feed feed”"),
        ("feed 5 V", "“5” does not belong there in “feed 5 V”"),
        ("battery-voltage-0.5 V", "“.5” does not belong there in “battery-voltage-0.5 V”"),
        ("5 furlongs", "“furlongs” in “5 furlongs” is not a unit known here"),
        ("5 Volts", "“Volts” in “5 Volts” is not a unit known here"),
        ("5 feed", "“feed” in “5 feed” is not a unit known here"),
        ("5 max", "“max” in “5 max” is not a unit known here"),
        ("Battery", "“Battery” in “Battery”: expected a number or a name"),
        ("5,5 V", "“,” does not belong there in “5,5 V”"),
        ("min", "“min”: expected ( but found the end"),
        ("min feed", "“min feed”: expected ( but found feed"),
        ("min()", "“)” in “min()”: expected a number or a name"),
        ("min(feed; 5 V)", "“;” cannot be used in an expression"),
        ("abs(feed, 5 V)", "abs takes one value"),
        ("5 V ^ 2", "“^” cannot be used in an expression"),
        ("5 \x1b V", "“U+001B” cannot be used in an expression"),
        ("1e99 V", "a number in “1e99 V” is too large"),
        ("9" * 150, f"a number in “{'9' * 150}” is too large"),
        ("5 V" + " " * 10 + "+ 1 V" * 40, "longer than 200 characters; split it into steps"),
    ],
)
def test_what_is_no_expression_is_refused(text: str, message: str) -> None:
    with pytest.raises(ExpressionError) as refusal:
        Expression.parse(text)
    assert str(refusal.value) == message


@pytest.mark.parametrize(
    ("text", "message"),
    [
        ("lamp", "“lamp” is neither an earlier step nor a value under needs"),
        ("feed + lamp", "“lamp” is neither an earlier step nor a value under needs"),
        ("feed + coil", "voltage and resistance cannot be added"),
        ("feed - coil", "resistance cannot be taken from voltage"),
        ("feed * battery-voltage", "voltage and voltage cannot be multiplied"),
        ("coil / feed", "resistance cannot be divided by voltage"),
        ("feed + 5", "voltage and count or ratio cannot be added"),
        ("outlet + outlet", "temperature and temperature cannot be added"),
        ("2 * suction", "count or ratio and gauge pressure cannot be multiplied"),
        ("min(feed, coil)", "min needs values of one kind"),
        ("max(feed, 5 ohm)", "max needs values of one kind"),
        ("-outlet", "temperature takes no minus and no abs; take those of a difference"),
        ("abs(outlet)", "temperature takes no minus and no abs; take those of a difference"),
        ("feed / coil", "“feed / coil” is current, not voltage"),
        ("5", "“5” is count or ratio, not voltage"),
        ("5 C", "“5 C” is temperature or temperature difference, not voltage"),
    ],
)
def test_kinds_that_do_not_fit_are_refused(text: str, message: str) -> None:
    with pytest.raises(ExpressionError) as refusal:
        Expression.parse(text).evaluator(Q.VOLTAGE, NAMES)
    assert str(refusal.value) == message


AFFINE = {
    Q.TEMPERATURE: Q.TEMPERATURE_DIFFERENCE,
    Q.GAUGE_PRESSURE: Q.PRESSURE_DIFFERENCE,
    Q.ABSOLUTE_PRESSURE: Q.PRESSURE_DIFFERENCE,
}
PLAIN = (Q.RATIO, Q.COUNT)
Kinds = Mapping[tuple[Quantity, Quantity], Quantity]
AMOUNTS = [q for q in Q if q not in AFFINE]
SUMS: Kinds = (
    {(q, q): q for q in AMOUNTS}
    | {(point, step): point for point, step in AFFINE.items()}
    | {(step, point): point for point, step in AFFINE.items() if point is not Q.ABSOLUTE_PRESSURE}
    | {(Q.PRESSURE_DIFFERENCE, Q.ABSOLUTE_PRESSURE): Q.ABSOLUTE_PRESSURE}
)
DIFFERENCES: Kinds = (
    {(q, q): q for q in AMOUNTS}
    | {(point, point): step for point, step in AFFINE.items()}
    | {(point, step): point for point, step in AFFINE.items()}
)
PRODUCTS: Kinds = (
    {(q, p): q for q in AMOUNTS for p in PLAIN}
    | {(p, q): q for q in AMOUNTS for p in PLAIN}
    | {(Q.CURRENT, Q.RESISTANCE): Q.VOLTAGE, (Q.RESISTANCE, Q.CURRENT): Q.VOLTAGE}
)
QUOTIENTS: Kinds = (
    {(q, p): q for q in AMOUNTS for p in PLAIN}
    | {(q, q): Q.RATIO for q in (*AMOUNTS, Q.ABSOLUTE_PRESSURE)}
    | {(Q.VOLTAGE, Q.CURRENT): Q.RESISTANCE, (Q.VOLTAGE, Q.RESISTANCE): Q.CURRENT}
)
TABLES = {"+": SUMS, "-": DIFFERENCES, "*": PRODUCTS, "/": QUOTIENTS}


@pytest.mark.parametrize("sign", TABLES)
@pytest.mark.parametrize("left", Q)
def test_the_kind_of_a_result_follows_from_the_kinds_of_its_parts(
    sign: str, left: Quantity
) -> None:
    expression = Expression.parse(f"a {sign} b")
    for right in Q:
        kinds = {"a": left, "b": right}
        expected = TABLES[sign].get((left, right))
        if expected is None:
            with pytest.raises(ExpressionError):
                expression.quantities(kinds)
        else:
            assert expression.quantities(kinds) == {expected}, (left, right)


@pytest.mark.parametrize("quantity", Q)
def test_a_minus_an_amount_and_a_choice_keep_the_kind(quantity: Quantity) -> None:
    for text in ("min(a, a)", "max(a, a)"):
        assert Expression.parse(text).quantities({"a": quantity}) == {quantity}
    for text in ("-a", "abs(a)"):
        if quantity in (Q.TEMPERATURE, Q.ABSOLUTE_PRESSURE):
            with pytest.raises(ExpressionError, match="takes no minus"):
                Expression.parse(text).quantities({"a": quantity})
        else:
            assert Expression.parse(text).quantities({"a": quantity}) == {quantity}


@pytest.mark.parametrize("unit", [u for u in UNITS if u.symbol])
def test_every_spelling_of_a_unit_can_be_written(unit: Unit) -> None:
    for spelling, space in itertools.product(filter(None, unit.spellings), (" ", "")):
        if spelling == "times":
            continue
        expression = Expression.parse(f"12.5{space}{spelling}")
        value = expression.evaluator(unit.quantity, {})({}).value
        assert value == pytest.approx(unit.to_si(12.5), rel=1e-12), spelling


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


def test_the_largest_number_allowed_stays_finite_in_every_unit() -> None:
    assert all(math.isfinite(unit.to_si(LARGEST)) for unit in UNITS)


def test_a_result_too_large_to_be_a_number_is_refused() -> None:
    with pytest.raises(CannotWorkOut, match="too large"):
        worked_out("*".join(["1e15"] * 25), Q.RATIO)
