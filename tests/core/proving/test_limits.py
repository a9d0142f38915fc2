"""Exact limits of a chance and of a rate, against published values and scipy."""

import pytest
from hypothesis import given
from hypothesis import strategies as st
from scipy import stats

from faulttree.core.proving import (
    chance_limits,
    count_limits,
    highest_chance,
    highest_count,
    lowest_chance,
    rate_limits,
)


def test_the_limits_of_a_handbook_example():
    # NIST/SEMATECH e-Handbook of Statistical Methods, 7.2.4.2: 4 defectives of 20, 90 % two-sided;
    # the page prints 0.071354 and 0.401029 (from memory; exact in the last digit: 0.401028).
    assert chance_limits(4, 20, 0.90) == pytest.approx((0.071354, 0.401029), abs=2e-6)


@pytest.mark.parametrize(
    ("seen", "tries", "low", "high", "highest"),
    # Clopper and Pearson, Biometrika 26 (1934) 404, 95 %: two-sided and one-sided upper, worked out
    # from the beta distribution with scipy 1.17.1.
    [
        (0, 30, 0.0, 0.1157033, 0.0950339),
        (0, 10, 0.0, 0.3084971, 0.2588656),
        (1, 20, 0.0012651, 0.2487328, 0.2161062),
        (3, 100, 0.00623, 0.0851761, 0.0757108),
        (10, 10, 0.6915029, 1.0, 1.0),
    ],
)
def test_limits_of_a_chance(seen, tries, low, high, highest):
    assert chance_limits(seen, tries) == pytest.approx((low, high), abs=1e-6)
    assert highest_chance(seen, tries) == pytest.approx(highest, abs=1e-6)


@given(st.integers(1, 400), st.data(), st.sampled_from((0.5, 0.8, 0.9, 0.95, 0.99, 0.999)))
def test_limits_of_a_chance_are_those_of_scipy(tries, data, confidence):
    seen = data.draw(st.integers(0, tries))
    reference = stats.binomtest(seen, tries).proportion_ci(confidence, method="exact")
    assert chance_limits(seen, tries, confidence) == pytest.approx(tuple(reference), abs=1e-9)


@given(st.integers(1, 60), st.data())
def test_at_a_limit_what_was_seen_is_as_unlikely_as_was_said(tries, data):
    seen = data.draw(st.integers(0, tries))
    if seen:
        low = lowest_chance(seen, tries, 0.9)
        assert stats.binom.sf(seen - 1, tries, low) == pytest.approx(0.1)
    if seen < tries:
        high = highest_chance(seen, tries, 0.9)
        assert stats.binom.cdf(seen, tries, high) == pytest.approx(0.1)


@pytest.mark.parametrize(
    ("count", "confidence", "low", "high"),
    # Garwood, Biometrika 28 (1936) 437, as tabulated: 25 at 90, 95 and 99 %, read at graphpad.com
    # (confidence interval of a count); 10 and 0 at 95 %, read at calculatorhub.com (Poisson
    # confidence interval) and rdocumentation.org (epitools, pois.exact).
    [
        (25, 0.90, 17.38, 34.92),
        (25, 0.95, 16.18, 36.90),
        (25, 0.99, 14.00, 41.00),
        (10, 0.95, 4.80, 18.39),
        (0, 0.95, 0, 3.689),
    ],
)
def test_limits_of_a_count(count, confidence, low, high):
    assert count_limits(count, confidence) == pytest.approx((low, high), abs=0.006)


@pytest.mark.parametrize(("count", "highest"), [(0, 2.99573), (1, 4.74386), (3, 7.75366)])
def test_one_sided_limits_of_a_count(count, highest):
    # Chi-square form of the Garwood limit, 95 %, worked out with scipy 1.17.1.
    assert highest_count(count) == pytest.approx(highest, abs=1e-5)


@given(st.integers(0, 5000), st.floats(0.01, 1e6), st.sampled_from((0.8, 0.95, 0.99)))
def test_limits_of_a_rate_are_those_of_scipy(count, duration, confidence):
    left = (1 - confidence) / 2
    low = stats.chi2.ppf(left, 2 * count) / 2 if count else 0
    high = stats.chi2.isf(left, 2 * count + 2) / 2
    expected = (low / duration, high / duration)
    assert rate_limits(count, duration, confidence) == pytest.approx(expected, rel=1e-8)


def test_a_count_of_none_still_bounds_the_rate():
    assert rate_limits(0, 2.0) == pytest.approx((0, 3.689 / 2), abs=0.001)


@pytest.mark.parametrize(("seen", "tries"), [(1, 0), (-1, 5), (6, 5)])
def test_counts_that_cannot_be_are_refused(seen, tries):
    with pytest.raises(ValueError, match="is no count"):
        chance_limits(seen, tries)


def test_a_negative_count_and_no_time_are_refused():
    with pytest.raises(ValueError, match="0 or more"):
        count_limits(-1)
    with pytest.raises(ValueError, match="the time watched must be above 0"):
        rate_limits(3, 0)


@pytest.mark.parametrize("confidence", [0, 1, -0.1, 95, float("nan")])
def test_what_is_no_confidence_is_refused(confidence):
    with pytest.raises(ValueError, match="between 0 and 1"):
        chance_limits(1, 2, confidence)
