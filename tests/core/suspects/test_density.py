"""Densities of readings against scipy: a normal, a uniform convolved with a normal, their tails.

Reference: scipy.stats (Virtanen et al., SciPy 1.0, Nature Methods 17 (2020) 261) and numerical
integration of the same.
"""

import math

import numpy as np
import pytest
from hypothesis import assume, given, settings
from hypothesis import strategies as st
from scipy import integrate, stats

from faulttree.core.suspects.density import (
    AT_AN_END,
    LEAST_OHM,
    LOOK_BETWEEN,
    OPEN_SHARE,
    SLIP,
    STRETCH,
    STRETCHED,
    WRONG_LOOK,
    Spans,
    anything_density,
    between,
    evenly_between,
    normal_share,
    outcome_chance,
    reading_density,
)
from faulttree.core.units import Quantity

EXACT = 1e-9


def _one(*values: float) -> tuple[np.ndarray, ...]:
    return tuple(np.array([value]) for value in values)


def _spans(low: float, high: float) -> Spans:
    return Spans.of(np.array([[low]]), np.array([[high]]))


def _convolved(value: float, low: float, high: float, sigma: float) -> float:
    """Uniform convolved with normal; by the tail on the side where it is small."""
    tail = stats.norm.sf if value > (low + high) / 2 else stats.norm.cdf
    ends = [float(tail((value - end) / sigma)) for end in (low, high)]
    return abs(ends[0] - ends[1]) / (high - low)


@given(st.floats(-37, 8))
def test_the_normal_distribution_function(z: float) -> None:
    assert float(normal_share(np.array(z))) == pytest.approx(float(stats.norm.cdf(z)), rel=1e-12)


@settings(deadline=None)
@given(st.floats(-20, 20), st.floats(-10, 10), st.floats(1e-3, 15), st.floats(0.01, 5))
def test_what_lies_evenly_between_two_values(
    value: float, low: float, width: float, sigma: float
) -> None:
    expected = _convolved(value, low, low + width, sigma)
    assume(expected > 1e-290)
    (found,) = evenly_between(value, *_one(low, low + width, sigma))
    assert found == pytest.approx(expected, rel=1e-7 if width < 1e-2 * sigma else EXACT)


@pytest.mark.parametrize("sigmas", [10, 20, 35])
def test_the_upper_tail_keeps_its_digits(sigmas: float) -> None:
    """Far above the span both distribution functions are 1; their difference is not nothing."""
    (found,) = evenly_between(1.0 + sigmas * 0.1, *_one(0.0, 1.0, 0.1))
    (mirrored,) = evenly_between(-sigmas * 0.1, *_one(0.0, 1.0, 0.1))
    assert found > 0.0
    assert found == pytest.approx(mirrored, rel=EXACT)
    assert found == pytest.approx(float(stats.norm.sf(sigmas)), rel=EXACT)


@given(st.floats(-8, 8), st.floats(0.0, 3e-5))
def test_a_span_of_next_to_nothing_is_a_normal(z: float, width: float) -> None:
    """On both sides of the width from which the difference of two tails is taken."""
    (found,) = evenly_between(z, *_one(-width / 2, width / 2, 1.0))
    assert found == pytest.approx(float(stats.norm.pdf(z)), rel=1e-8)


@settings(max_examples=5, deadline=None)
@given(st.floats(0.0, 12.0), st.floats(0.0, 6.0), st.floats(0.02, 1.0))
def test_a_density_of_readings_adds_up_to_one(low: float, width: float, sigma: float) -> None:
    high, span = low + width, 200.0

    def density(value: float) -> float:
        return float(reading_density(value, _spans(low, high), np.array([sigma]), 1 / span)[0])

    points = [low - 4 * sigma, low, high, high + 4 * sigma]
    total, _ = integrate.quad(density, low - 100, low + 100, points=points, limit=400)
    assert total == pytest.approx(1.0, abs=1e-6)


@given(st.floats(-3, 20), st.floats(0.01, 1.0))
def test_a_reading_is_near_what_is_there_now_and_then_far_or_anything(
    value: float, sigma: float
) -> None:
    near, far = (float(stats.norm.pdf(value, 6.0, s)) for s in (sigma, STRETCH * sigma))
    expected = (1 - SLIP) * ((1 - STRETCHED) * near + STRETCHED * far) + SLIP / 17
    (found,) = reading_density(value, _spans(6.0, 6.0), np.array([sigma]), 1 / 17)
    assert found == pytest.approx(expected, rel=EXACT)


def test_half_of_what_lies_between_lies_at_an_end() -> None:
    """Where a relay lets go between two sizes, a reading is at one end or at the other."""
    (at_end,) = between(12.0, *_one(0.0, 12.0, 0.05))
    (inside,) = between(6.0, *_one(0.0, 12.0, 0.05))
    peak = float(stats.norm.pdf(0.0, 0.0, 0.05))
    assert inside == pytest.approx((1 - AT_AN_END) / 12, rel=EXACT)
    assert at_end == pytest.approx((1 - AT_AN_END) / 24 + AT_AN_END * peak / 2, rel=EXACT)


def test_an_open_circuit_is_a_probability() -> None:
    open_circuit, closed = _spans(math.inf, math.inf), _spans(4.0, 5.0)
    sigma = np.array([0.1])
    assert reading_density(math.inf, open_circuit, sigma, 0.2)[0] == pytest.approx(1 - SLIP * 0.8)
    assert reading_density(math.inf, closed, sigma, 0.2)[0] == pytest.approx(SLIP * 0.2)
    assert reading_density(4.5, open_circuit, sigma, 0.1)[0] == pytest.approx(SLIP * 0.1)


def test_a_cell_that_is_open_at_one_end_is_half_of_each() -> None:
    half = Spans.of(np.array([[4.0, math.inf]]), np.array([[4.0, math.inf]]))
    whole, sigma = _spans(4.0, 4.0), np.array([0.1])
    found = reading_density(4.0, half, sigma, 0.0)[0]
    assert found == pytest.approx(reading_density(4.0, whole, sigma, 0.0)[0] / 2)
    assert reading_density(math.inf, half, sigma, 0.0)[0] == pytest.approx((1 - SLIP) / 2)


@pytest.mark.parametrize("value", [0.0, 7.3, math.inf])
def test_a_car_that_gives_no_reading_may_show_anything(value: float) -> None:
    """The fuse of the ammeter goes; what is typed then says nothing of this fault."""
    spans = _spans(math.nan, math.nan)
    assert reading_density(value, spans, np.array([0.1]), 0.06)[0] == pytest.approx(0.06)
    half = Spans.of(np.array([[math.nan, 7.3]]), np.array([[math.nan, 7.3]]))
    assert np.isfinite(reading_density(value, half, np.array([0.1]), 0.06)).all()


def test_a_reading_that_swings_is_anywhere_between() -> None:
    swings = Spans.of(np.array([[0.0, 1.0]]), np.array([[11.0, 12.0]]))
    assert (swings.low[0], swings.high[0]) == (0.0, 12.0)
    assert reading_density(6.0, swings, np.array([0.1]), 0.06)[0] > 0.04


def test_resistances_that_may_be_anything_are_even_in_their_logarithm() -> None:
    low, high = 0.0, 40e6

    def density(log: float) -> float:
        value = math.exp(log)
        return value * anything_density(value, Quantity.RESISTANCE, low, high)

    ends = math.log(LEAST_OHM), math.log(high)
    total, _ = integrate.quad(density, *ends)
    assert total == pytest.approx(1.0 - OPEN_SHARE, abs=1e-9)
    assert density(math.log(1.0)) == pytest.approx(density(math.log(1e6)))
    assert anything_density(math.inf, Quantity.RESISTANCE, low, high) == OPEN_SHARE
    assert anything_density(3.0, Quantity.VOLTAGE, -1.0, 16.0) == pytest.approx(1 / 17)


def test_outcomes_that_may_be_seen_are_alike_and_any_may_be_told() -> None:
    may_be = np.array([[True, True, False], [False, True, False], [False, False, False]])
    found = outcome_chance(may_be[:, :, None])
    assert found.sum(axis=0) == pytest.approx(np.ones(3))
    assert found[:, 0] == pytest.approx([1 - WRONG_LOOK * 2 / 3, WRONG_LOOK / 3, WRONG_LOOK / 3])
    assert found[0, 1] == pytest.approx(found[1, 1])
    assert found[:, 2] == pytest.approx(np.full(3, 1 / 3))


def test_between_two_sizes_that_show_different_things_another_may_be_seen() -> None:
    """Weak at the one size, still at the other; in between it may stutter."""
    may_be = np.array([[[True, False]], [[False, True]], [[False, False]]])
    found = outcome_chance(may_be)[:, 0]
    sure = (1.0 - LOOK_BETWEEN) / 2 + LOOK_BETWEEN / 3
    assert found == pytest.approx([sure, sure, LOOK_BETWEEN / 3])
