"""Which quantities go together, and what comes out."""

import itertools
from collections.abc import Mapping

import pytest

from faulttree.core.expression_kinds import typings
from faulttree.core.expression_parser import ExpressionError, parse
from faulttree.core.expression_values import Typings, kinds_in_words
from faulttree.core.uncertain import CannotWorkOut, Uncertain
from faulttree.core.units import UNITS, Quantity, Unit

Q = Quantity

NAMES = {
    "battery-voltage": Q.VOLTAGE,
    "feed": Q.VOLTAGE,
    "coil": Q.RESISTANCE,
    "suction": Q.GAUGE_PRESSURE,
    "outlet": Q.TEMPERATURE,
}


def typed(text: str, names: Mapping[str, Quantity] = NAMES) -> Typings:
    return typings(parse(text), names)


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
    text = f"a {sign} b"
    for right in Q:
        kinds = {"a": left, "b": right}
        expected = TABLES[sign].get((left, right))
        if expected is None:
            with pytest.raises(ExpressionError):
                typed(text, kinds)
        else:
            assert set(typed(text, kinds)) == {expected}, (left, right)


@pytest.mark.parametrize("quantity", Q)
def test_a_minus_an_amount_and_a_choice_keep_the_kind(quantity: Quantity) -> None:
    for text in ("min(a, a)", "max(a, a)"):
        assert set(typed(text, {"a": quantity})) == {quantity}
    for text in ("-a", "abs(a)"):
        if quantity in (Q.TEMPERATURE, Q.ABSOLUTE_PRESSURE):
            with pytest.raises(ExpressionError, match="takes no minus"):
                typed(text, {"a": quantity})
        else:
            assert set(typed(text, {"a": quantity})) == {quantity}


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
    ],
)
def test_kinds_that_do_not_fit_are_refused(text: str, message: str) -> None:
    with pytest.raises(ExpressionError) as refusal:
        typed(text)
    assert str(refusal.value) == message


def test_kinds_are_named_in_the_order_of_the_alphabet() -> None:
    assert kinds_in_words([Q.RATIO, Q.COUNT]) == "count or ratio"
    assert kinds_in_words({Q.VOLTAGE}) == "voltage"


@pytest.mark.parametrize("unit", [u for u in UNITS if u.symbol])
def test_every_spelling_of_a_unit_can_be_written(unit: Unit) -> None:
    for spelling, space in itertools.product(filter(None, unit.spellings), (" ", "")):
        if spelling == "times":
            continue
        value = typed(f"12.5{space}{spelling}")[unit.quantity]({}).value
        assert value == pytest.approx(unit.to_si(12.5), rel=1e-12), spelling


def test_a_name_without_a_reading_cannot_be_worked_out() -> None:
    evaluate = typed("feed + 1 V")[Q.VOLTAGE]
    with pytest.raises(CannotWorkOut, match="feed has not been measured"):
        evaluate({})


def test_errors_are_carried_through() -> None:
    evaluate = typed("battery-voltage - feed")[Q.VOLTAGE]
    drop = evaluate(
        {
            "battery-voltage": Uncertain(12.6, {"gain": 0.063, "reading 1": 0.02}),
            "feed": Uncertain(12.4, {"gain": 0.062, "reading 2": 0.02}),
        }
    )
    assert drop.value == pytest.approx(0.2)
    assert drop.radius == pytest.approx(0.041)


def test_a_result_too_large_to_be_a_number_is_refused() -> None:
    with pytest.raises(CannotWorkOut, match="too large"):
        typed("*".join(["1e15"] * 25))[Q.RATIO]({})
