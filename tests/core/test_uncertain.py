"""Values with their limit of error: whatever the errors are, the true result lies inside."""

import itertools
import math
import operator
from collections.abc import Callable, Mapping
from dataclasses import dataclass

import pytest
from hypothesis import assume, given, settings
from hypothesis import strategies as st

from faulttree.core.uncertain import (
    CannotWorkOut,
    Uncertain,
    bent,
    exactly,
    largest,
    smallest,
    within,
)

MOST = settings(derandomize=True, max_examples=200, deadline=None)
OPEN = exactly(math.inf)

NAMES = ("gain", "zero", "reading 1", "reading 2")
sizes = st.sampled_from([0.0, 0.01, 0.3]) | st.floats(-5, 5)
uncertain_values = st.builds(
    Uncertain,
    st.sampled_from([0.0, 1.0, 12.6]) | st.floats(-100, 100),
    st.dictionaries(st.sampled_from(NAMES), sizes, max_size=3),
    st.sampled_from([0.0, 0.05]) | st.floats(0, 3),
)
shares = st.sampled_from([-1.0, 1.0, 0.0]) | st.floats(-1, 1)
errors = st.fixed_dictionaries(dict.fromkeys(NAMES, shares))


@dataclass(frozen=True)
class Case:
    """A value with its limits, and what it truly is for one draw of all errors."""

    stated: Uncertain
    true: float
    scale: float

    def is_enclosed(self) -> bool:
        slack = 1e-9 * (1 + self.scale + self.stated.radius)
        return abs(self.true - self.stated.value) <= self.stated.radius + slack


def drawn(value: Uncertain, error: Mapping[str, float], rest_share: float) -> Case:
    moved = sum(size * error[name] for name, size in value.terms.items())
    return Case(value, value.value + moved + rest_share * value.rest, abs(value.value))


TWO: dict[str, tuple[Callable[..., Uncertain], Callable[..., float]]] = {
    "+": (operator.add, operator.add),
    "-": (operator.sub, operator.sub),
    "*": (operator.mul, operator.mul),
    "/": (operator.truediv, operator.truediv),
    "min": (lambda a, b: smallest([a, b]), min),
    "max": (lambda a, b: largest([a, b]), max),
}
ONE: dict[str, tuple[Callable[..., Uncertain], Callable[..., float]]] = {
    "negate": (operator.neg, operator.neg),
    "abs": (abs, abs),
}


def applied(name: str, *cases: Case) -> Case:
    on_limits, on_truth = (ONE | TWO)[name]
    stated = on_limits(*(c.stated for c in cases))
    true = on_truth(*(c.true for c in cases))
    return Case(stated, true, max(abs(true), abs(stated.value), *(c.scale for c in cases)))


@pytest.mark.parametrize("name", TWO)
@MOST
@given(uncertain_values, uncertain_values, errors, shares, shares)
def test_a_sum_of_two_values_encloses_the_truth(
    name: str,
    a: Uncertain,
    b: Uncertain,
    error: Mapping[str, float],
    rest_a: float,
    rest_b: float,
) -> None:
    try:
        assert applied(name, drawn(a, error, rest_a), drawn(b, error, rest_b)).is_enclosed()
    except CannotWorkOut:
        assert name == "/"
        assert b.low <= 0 <= b.high or abs(b.value) < 1e-100  # the quotient overflows


@pytest.mark.parametrize("name", ONE)
@MOST
@given(uncertain_values, errors, shares)
def test_a_sum_of_one_value_encloses_the_truth(
    name: str, a: Uncertain, error: Mapping[str, float], rest: float
) -> None:
    assert applied(name, drawn(a, error, rest)).is_enclosed()


@settings(derandomize=True, max_examples=500, deadline=None)
@given(
    st.tuples(uncertain_values, uncertain_values, uncertain_values),
    errors,
    st.tuples(shares, shares, shares),
    st.lists(
        st.tuples(st.sampled_from([*ONE, *TWO]), st.integers(0, 99), st.integers(0, 99)),
        min_size=2,
        max_size=6,
    ),
)
def test_sums_built_on_sums_enclose_the_truth(
    values: tuple[Uncertain, ...],
    error: Mapping[str, float],
    rests: tuple[float, ...],
    steps: list[tuple[str, int, int]],
) -> None:
    known = [drawn(v, error, r) for v, r in zip(values, rests, strict=True)]
    for name, *picks in steps:
        operands = [known[pick % len(known)] for pick in picks[: 1 if name in ONE else 2]]
        try:
            known.append(applied(name, *operands))
        except CannotWorkOut:
            continue
        assume(known[-1].scale < 1e6)
        assert known[-1].is_enclosed()


def test_limits_are_value_and_radius() -> None:
    value = Uncertain(12.0, {"gain": -0.06, "reading 1": 0.02}, 0.01)
    assert value.radius == pytest.approx(0.09)
    assert (value.low, value.high) == pytest.approx((11.91, 12.09))


def test_a_constant_has_no_error() -> None:
    assert exactly(3.0).radius == 0


def test_a_shared_gain_cancels_in_the_difference_of_equal_readings() -> None:
    first = Uncertain(12.6, {"gain": 0.063, "reading 1": 0.02})
    second = Uncertain(12.6, {"gain": 0.063, "reading 2": 0.02})
    assert (first - second).radius == pytest.approx(0.04)


def test_a_shared_gain_cancels_in_the_quotient_of_equal_readings() -> None:
    first, second = Uncertain(12.0, {"gain": 0.06}), Uncertain(12.0, {"gain": 0.06})
    assert (first / second).value == 1
    assert (first / second).radius == pytest.approx(0.0, abs=1e-12)


def test_what_has_no_name_never_cancels() -> None:
    value = Uncertain(5.0, rest=0.1)
    assert (value - value).radius == pytest.approx(0.2)


def test_independent_errors_of_a_product_add_up() -> None:
    # 2 +- 0.1 by 3 +- 0.2 lies between 1.9 * 2.8 = 5.32 and 2.1 * 3.2 = 6.72.
    product = Uncertain(2.0, {"a": 0.1}) * Uncertain(3.0, {"b": 0.2})
    assert product.value == 6
    assert product.high == pytest.approx(6.72)
    assert product.low <= 5.32


def test_the_least_keeps_its_named_errors_where_it_is_surely_the_least() -> None:
    low, high = Uncertain(5.0, {"gain": 0.1}), Uncertain(6.0, {"gain": 0.1})
    assert smallest([high, low]) is low
    assert largest([low, high]) is high


def test_a_shared_error_does_not_put_the_choice_in_doubt() -> None:
    low, high = Uncertain(12.55, {"gain": 0.06}), Uncertain(12.60, {"gain": 0.06})
    assert smallest([low, high]) is low
    assert largest([low, high]) is high


def test_the_error_of_the_other_value_counts_where_it_may_be_the_least() -> None:
    least = smallest([Uncertain(5.0, {"a": 1.0}), Uncertain(5.5, {"b": 3.0})])
    assert least.value == 5
    assert least.low <= 2.5
    assert least.high >= 6


def test_the_error_of_the_other_value_counts_where_it_may_be_the_greatest() -> None:
    greatest = largest([Uncertain(5.0, {"a": 3.0}), Uncertain(5.5, {"b": 1.0})])
    assert greatest.value == 5.5
    assert greatest.low <= 4.5
    assert greatest.high >= 8


def test_a_choice_is_never_less_sure_than_the_least_sure_value() -> None:
    values = [Uncertain(v, {n: r}) for v, n, r in ((5.0, "a", 1.0), (5.5, "b", 3.0), (6, "c", 2.0))]
    for chosen, pair in itertools.product((smallest, largest), itertools.permutations(values, 2)):
        assert chosen(pair).radius <= max(v.radius for v in pair) + 1e-12


def test_an_amount_keeps_its_named_errors_where_its_sign_is_sure() -> None:
    assert abs(Uncertain(-5.0, {"gain": 0.1})) == Uncertain(5.0, {"gain": -0.1})
    assert abs(Uncertain(5.0, {"gain": 0.1})) == Uncertain(5.0, {"gain": 0.1})


def test_an_amount_gives_up_the_names_where_its_sign_is_in_doubt() -> None:
    value = Uncertain(0.1, {"gain": 1.0})
    assert abs(value) == Uncertain(0.1, rest=1.0)
    # For a gain error of -1 the true value is -0.9, its amount 0.9: 1.8 apart.
    assert (abs(value) - value).high >= 1.8


@pytest.mark.parametrize("divisor", [exactly(0.0), Uncertain(0.1, {"a": 0.1}), Uncertain(1, {}, 2)])
def test_dividing_by_what_may_be_zero_has_no_answer(divisor: Uncertain) -> None:
    with pytest.raises(CannotWorkOut, match="may be zero"):
        exactly(1.0) / divisor


@pytest.mark.parametrize("name", ["+", "-", "*", "/"])
@pytest.mark.parametrize("other", [exactly(0.0), exactly(5.0), OPEN])
def test_a_sum_with_an_open_circuit_has_no_answer(name: str, other: Uncertain) -> None:
    on_limits, _ = TWO[name]
    for pair in ((OPEN, other), (other, OPEN)):
        with pytest.raises(CannotWorkOut, match=r"open circuit \(OL\)|may be zero"):
            on_limits(*pair)


def test_an_open_circuit_has_no_opposite() -> None:
    with pytest.raises(CannotWorkOut, match="open circuit"):
        operator.neg(OPEN)


def test_an_open_circuit_is_greater_than_any_number() -> None:
    five = Uncertain(5.0, {"a": 1.0})
    assert smallest([OPEN, five]) is five
    assert largest([five, OPEN]) is OPEN
    assert smallest([OPEN, OPEN]) is OPEN
    assert abs(OPEN) is OPEN


@pytest.mark.parametrize(
    ("name", "a", "b"), [("*", 1e300, 1e300), ("/", 1e300, 1e-300), ("/", 0.0, 5e-324)]
)
def test_a_result_too_large_for_a_number_is_not_called_an_open_circuit(
    name: str, a: float, b: float
) -> None:
    on_limits, _ = TWO[name]
    with pytest.raises(CannotWorkOut, match="too large"):
        on_limits(exactly(a), exactly(b))


BENT: dict[str, Callable[[float], float]] = {
    "root": lambda x: math.sqrt(x + 200),
    "square": lambda x: (x + 200) ** 2,
    "inverse": lambda x: 1 / (x + 200),
    "exponential": lambda x: math.exp(x / 40),
    "straight": lambda x: 3 * x - 7,
}


@pytest.mark.parametrize("name", BENT)
@MOST
@given(uncertain_values, errors, shares)
def test_a_curve_that_bends_one_way_encloses_the_truth(
    name: str, value: Uncertain, error: Mapping[str, float], rest: float
) -> None:
    curve, case = BENT[name], drawn(value, error, rest)
    found = bent(curve, value)
    assert Case(found, curve(case.true), abs(found.value)).is_enclosed()
    assert found.value == curve(value.value)
    # The named errors as drawn account for all of it but the rest.
    moved = sum(term * error[each] for each, term in found.terms.items())
    off = abs(curve(case.true) - found.value - moved)
    assert off <= found.rest + 1e-9 * (1 + abs(found.value) + found.radius)


def test_a_straight_line_keeps_every_named_error() -> None:
    found = bent(lambda x: 2 * x, Uncertain(5.0, {"gain": 0.5}, 0.25))
    assert found.terms == pytest.approx({"gain": 1.0})
    assert found.rest == pytest.approx(0.5)


def test_a_curve_has_nothing_for_an_open_circuit() -> None:
    with pytest.raises(CannotWorkOut, match="open circuit"):
        bent(lambda x: x, OPEN)


def test_a_value_between_two_limits_reaches_both() -> None:
    assert within(5.0, 4.5, 7.0) == Uncertain(5.0, rest=2.0)
    assert within(5.0, 5.0, 5.0) == exactly(5.0)
