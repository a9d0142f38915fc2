"""Limits of results: exact at the corners, never narrower than what the inputs allow."""

import math
import random

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from sums import done, found, value

from faulttree.core.calc.amounts import Amount
from faulttree.core.calc.answered import answered
from faulttree.core.calc.kinds import Kind
from faulttree.core.calc.registry import SUMS
from faulttree.core.calc.sums import SumRefused
from faulttree.core.calc.typed import complete, inputs_of
from faulttree.core.uncertain import Uncertain
from faulttree.core.units import UnitSystem

MOST = settings(derandomize=True, max_examples=25, deadline=None)
EXACT_KINDS = (Kind.WORD, Kind.WIRE_SIZE, Kind.COUNT)
SMOOTH = [name for name in SUMS if name not in ("wire-size", "wire-gauge", "battery-charge")]


def test_a_quotient_has_the_limits_that_interval_arithmetic_gives():
    drop, current = Uncertain(0.3, rest=0.01), Uncertain(12.0, rest=0.1)
    resistance = found("joint 0.3V±0.01 12A±0.1")["resistance"]
    quotient = drop / current
    assert resistance.high == pytest.approx(0.31 / 11.9)
    assert resistance.low == pytest.approx(0.29 / 12.1)
    assert quotient.low <= resistance.low < resistance.high <= quotient.high + 1e-15


def test_an_input_that_stands_in_the_formula_twice_does_not_count_twice():
    line = found("pulled-up 5V 2V±0.1V 2k")["to ground"]
    assert (line.low, line.high) == pytest.approx((2000 * 1.9 / 3.1, 2000 * 2.1 / 2.9))


def test_a_meter_s_accuracy_is_taken_as_its_maker_states_it():
    # Source: GUM-like worked notes of meter makers: ±(0.5 % + 2 digits) of 0.300 V is 3.5 mV.
    volts = done("ohm 0.300V±0.5%+2digits 1A").given["voltage"][0].measured
    assert volts.radius == pytest.approx(0.0035)


@pytest.mark.parametrize(
    ("typed", "radius"),
    [
        ("300mV±10mV", 0.01),
        ("300mV±10", 0.01),
        ("300mV +/-10", 0.01),
        ("300mV +- 0.01 V", 0.01),
        ("300mV±2%", 0.006),
        ("0.30V ± 2 digits", 0.02),
    ],
)
def test_ways_to_type_a_limit_of_error(typed, radius):
    assert done(f"ohm {typed} 1A").given["voltage"][0].measured.radius == pytest.approx(radius)


def test_an_error_that_reaches_zero_leaves_the_result_open_above():
    assert math.isinf(found("joint 1V 1A±2A")["resistance"].high)
    assert math.isinf(found("pulled-up 5V±0.05V 4.98V 2k")["to ground"].high)
    assert found("joint 5mV±10mV 10A")["resistance"].low == 0


def test_a_number_of_which_nothing_is_said_has_no_limits():
    resistance = found("joint 0.3V 12A")["resistance"]
    assert resistance.low == resistance.value == resistance.high


@pytest.mark.parametrize("name", SMOOTH)
@MOST
@given(st.randoms(use_true_random=False))
def test_no_inputs_within_their_errors_give_a_result_outside_the_limits(name, chance):
    the_sum = SUMS[name]
    system = UnitSystem.METRIC
    whole = complete(the_sum, inputs_of(the_sum, the_sum.example, system), system)
    unsure = {
        key: tuple(a if _is_exact(the_sum, key) else _unsure(a, chance) for a in amounts)
        for key, amounts in whole.items()
    }
    sure = {key: tuple(_within(a, chance) for a in amounts) for key, amounts in unsure.items()}
    limits, inside = answered(the_sum, unsure), answered(the_sum, sure)
    for wide, narrow in zip(limits.found, inside.found, strict=True):
        assert wide.low - _slack(wide) <= narrow.value <= wide.high + _slack(wide), wide.name


def _is_exact(the_sum, key):
    return the_sum.input(key).kind in EXACT_KINDS or key in ("rating", "confidence", "charge")


def _unsure(amount: Amount, chance: random.Random) -> Amount:
    middle = amount.measured.value
    return Amount(Uncertain(middle, rest=abs(middle) * chance.uniform(0, 0.004)), "")


def _within(amount: Amount, chance: random.Random) -> Amount:
    low, high = amount.measured.low, amount.measured.high
    return Amount(Uncertain(chance.uniform(low, high)), "", amount.word)


def _slack(found_):
    return 1e-9 * abs(found_.value)


def test_sizes_that_are_sold_have_limits_too():
    size = found("wire-size 4m±1m 15A 0.3V")["next size sold"]
    assert (size.low * 1e6, size.value * 1e6, size.high * 1e6) == pytest.approx((4, 6, 6))


def test_limits_of_the_charge_grow_with_the_error_of_the_meter():
    charge = found("battery-charge 12.4V±0.1V")["charge"]
    assert (charge.low, charge.value, charge.high) == pytest.approx((0.5, 0.75, 1.0))


def test_too_many_errors_at_once_are_refused():
    points = "0C±1C 27.9k±1% 50C±1C 4.1k±1% 100C±1C 947ohm±1% 2.2k±1%"
    assert done(f"thermistor-points {points}").found[0].low < value(f"thermistor-points {points}")
    assert done("coil-current 3.6ohm±1% 12V±1% hot=100C±5C at=20C±5C").found[0].low < 3.4
    with pytest.raises(SumRefused, match="three points go from cold to hot"):
        done("thermistor-points 0C 4.1k 50C 27.9k 100C 947ohm 2.2k")
