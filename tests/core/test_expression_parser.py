"""The grammar of expressions: what is read as what, and what is refused."""

import math

import pytest

from faulttree.core.expression_parser import (
    LARGEST,
    Call,
    ExpressionError,
    Name,
    Node,
    Number,
    Operation,
    functions_in,
    names_in,
    parse,
)
from faulttree.core.units import UNITS

FEED, COIL, HALF_VOLT = Name("feed"), Name("coil"), Number(0.5, "V")


@pytest.mark.parametrize(
    ("text", "node"),
    [
        ("0.5 V", HALF_VOLT),
        (".5V", HALF_VOLT),
        ("5", Number(5, "")),
        ("3 min", Number(3, "min")),
        ("5 deg C", Number(5, "deg C")),
        ("feed", FEED),
        ("(feed)", FEED),
        ("-feed", Operation("negate", (FEED,))),
        ("minus feed", Operation("negate", (FEED,))),
        ("feed - 0.5 V", Operation("-", (FEED, HALF_VOLT))),
        ("feed minus 0.5 V", Operation("-", (FEED, HALF_VOLT))),
        ("feed plus coil", Operation("+", (FEED, COIL))),
        ("feed times coil", Operation("*", (FEED, COIL))),
        ("90 % of feed", Operation("*", (Number(90, "%"), FEED))),
        ("abs(feed)", Operation("abs", (FEED,))),
        ("dew-point(feed, coil)", Call("dew-point", (FEED, COIL))),
        ("dew-point (feed)", Call("dew-point", (FEED,))),
        ("feed - negate(feed)", Operation("-", (FEED, Call("negate", (FEED,))))),
        ("dew-point - feed", Operation("-", (Name("dew-point"), FEED))),
        ("min(feed, coil, feed)", Operation("min", (FEED, COIL, FEED))),
        ("feed - coil - feed", Operation("-", (Operation("-", (FEED, COIL)), FEED))),
        ("feed - (coil - feed)", Operation("-", (FEED, Operation("-", (COIL, FEED))))),
        ("feed + coil * feed", Operation("+", (FEED, Operation("*", (COIL, FEED))))),
        ("-feed * coil", Operation("*", (Operation("negate", (FEED,)), COIL))),
    ],
)
def test_numbers_names_and_signs_become_a_tree_of_parts(text: str, node: Node) -> None:
    assert parse(text) == node


def test_a_share_of_a_name_is_a_factor_of_its_own() -> None:
    share = Operation("*", (Number(90, "%"), Name("battery-voltage")))
    assert parse("90 % of battery-voltage - 0.5 V") == Operation("-", (share, HALF_VOLT))


def test_a_hyphen_inside_a_name_is_part_of_it() -> None:
    assert names_in(parse("battery-voltage-feed")) == {"battery-voltage-feed"}
    assert names_in(parse("battery-voltage - feed")) == {"battery-voltage", "feed"}
    assert names_in(parse("min(a, b2-3) * abs(-c) + 5 V")) == {"a", "b2-3", "c"}


def test_functions_are_no_names() -> None:
    node = parse("max(dew-point(a, 50 %), saturation(b) - c) + abs(d)")
    assert functions_in(node) == {"dew-point", "saturation"}
    assert names_in(node) == {"a", "b", "c", "d"}


@pytest.mark.parametrize(
    ("text", "message"),
    [
        ("dew-point(", "“dew-point(” stops where a number or a name should follow"),
        ("dew-point()", "“)” in “dew-point()”: expected a number or a name"),
        ("dew-point(feed", "“dew-point(feed”: expected ) but found the end"),
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
        parse(text)
    assert str(refusal.value) == message


def test_the_largest_number_allowed_stays_finite_in_every_unit() -> None:
    assert all(math.isfinite(unit.to_si(LARGEST)) for unit in UNITS)
