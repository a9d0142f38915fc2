"""What clean cycles prove by themselves, against printed tables, both conventions apart."""

import pytest
from hypothesis import given
from hypothesis import strategies as st
from scipy import stats

from faulttree.core.proving import (
    RunConvention,
    clean_cycles_for_rate,
    cycles_with_returns,
    largest_rate,
)

CONFIDENCES = st.sampled_from((0.5, 0.8, 0.9, 0.95, 0.99))


@pytest.mark.parametrize(
    ("cycles", "percent"),
    # Exact upper 95 % limits for no event in n trials, one-sided (Clopper and Pearson 1934; from
    # memory, as in common tables: n = 10, 20, 30, 50, 100).
    [(10, 25.9), (20, 13.9), (30, 9.5), (50, 5.8), (100, 2.95)],
)
def test_the_limit_is_that_of_the_tables(cycles, percent):
    assert round(100 * largest_rate(cycles), 1) == pytest.approx(percent, abs=0.06)


@pytest.mark.parametrize("cycles", [60, 100, 1000])
def test_for_many_cycles_it_is_three_over_their_number(cycles):
    # The rule of three: Hanley and Lippman-Hand, JAMA 249 (1983) 1743.
    assert largest_rate(cycles) == pytest.approx(3 / cycles, rel=0.03)


@pytest.mark.parametrize(
    ("rate", "confidence", "cycles"),
    # Success-run theorem, n = ln(1 - C)/ln R rounded up; R = 1 - rate. 59 and 299 are the cases
    # usually quoted; 2995 read at reliability.readthedocs.io, sample size required for no failures.
    [
        (0.10, 0.90, 22),
        (0.10, 0.95, 29),
        (0.05, 0.95, 59),
        (0.01, 0.95, 299),
        (0.01, 0.99, 459),
        (0.20, 0.90, 11),
        (0.001, 0.95, 2995),
    ],
)
def test_clean_cycles_that_exclude_a_rate(rate, confidence, cycles):
    assert clean_cycles_for_rate(rate, confidence) == cycles


@pytest.mark.parametrize(
    ("cycles", "confidence", "reliability"),
    # Success-run table in the form R = (1 - C)^(1/(n + 1)), read at codingace.net (success run
    # theorem): 10, 29, 59 and 99 successes.
    [(10, 0.90, 0.811131), (29, 0.95, 0.904966), (59, 0.95, 0.951297), (99, 0.99, 0.954993)],
)
def test_the_other_convention_counts_one_cycle_more(cycles, confidence, reliability):
    rate = largest_rate(cycles, confidence, RunConvention.UNIFORM_PRIOR)
    assert 1 - rate == pytest.approx(reliability, abs=1e-6)
    # it is the limit of a uniform prior, Beta(1, 1), after n successes
    assert rate == pytest.approx(stats.beta.ppf(confidence, 1, cycles + 1))
    assert largest_rate(cycles, confidence) > rate


def test_the_two_conventions_differ_by_one_cycle():
    # 95 % reliability at 95 % confidence: 59 cycles or 58, as tables disagree.
    assert clean_cycles_for_rate(0.05, 0.95, RunConvention.LIMIT) == 59
    assert clean_cycles_for_rate(0.05, 0.95, RunConvention.UNIFORM_PRIOR) == 58
    assert clean_cycles_for_rate(0.99, 0.5, RunConvention.UNIFORM_PRIOR) == 1


@pytest.mark.parametrize(
    ("rate", "confidence", "returns", "cycles"),
    # Inversion of the exact binomial limit, worked out with scipy 1.17.1.
    [(0.1, 0.9, 1, 38), (0.1, 0.95, 1, 46), (0.05, 0.95, 1, 93), (0.1, 0.9, 2, 52)],
)
def test_cycles_needed_when_some_returns_are_allowed(rate, confidence, returns, cycles):
    assert cycles_with_returns(rate, returns, confidence) == cycles


@given(st.floats(0.002, 1), st.integers(0, 12), CONFIDENCES)
def test_it_is_the_fewest_cycles_that_do(rate, returns, confidence):
    cycles = cycles_with_returns(rate, returns, confidence)
    assert stats.binom.cdf(returns, cycles, rate) <= (1 - confidence) * (1 + 1e-9)
    assert stats.binom.cdf(returns, cycles - 1, rate) >= (1 - confidence) * (1 - 1e-9)


@given(st.integers(1, 5000), CONFIDENCES)
def test_limit_and_cycles_are_each_others_inverse(cycles, confidence):
    rate = largest_rate(cycles, confidence)
    assert (1 - rate) ** cycles == pytest.approx(1 - confidence)
    assert clean_cycles_for_rate(rate, confidence) in (cycles, cycles + 1)


@given(st.integers(1, 999), CONFIDENCES)
def test_more_cycles_and_less_confidence_narrow_it(cycles, confidence):
    assert largest_rate(cycles + 1, confidence) < largest_rate(cycles, confidence)
    assert largest_rate(cycles, confidence - 0.1) < largest_rate(cycles, confidence)


@pytest.mark.parametrize("cycles", [0, -1])
def test_without_a_cycle_there_is_no_limit(cycles):
    with pytest.raises(ValueError, match="number of clean cycles must be above 0"):
        largest_rate(cycles)


@pytest.mark.parametrize("confidence", [0, 1])
def test_without_a_chance_there_is_no_limit(confidence):
    with pytest.raises(ValueError, match="between 0 and 1"):
        largest_rate(5, confidence)


@pytest.mark.parametrize("rate", [0, -0.1, 1.01])
def test_what_is_no_rate_is_refused(rate):
    with pytest.raises(ValueError, match="chance per try"):
        clean_cycles_for_rate(rate)
    with pytest.raises(ValueError, match="0 or more"):
        cycles_with_returns(0.1, -1)
