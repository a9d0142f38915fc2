"""What clean cycles prove, against the handbook's rule of three."""

import math

import pytest

from faulttree.core.proving import largest_rate


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
    # The rule of three: Hanley and Lippman-Hand, JAMA 249 (1983).
    assert largest_rate(cycles) == pytest.approx(3 / cycles, rel=0.03)


def test_a_complaint_with_that_rate_would_have_stayed_away_with_one_chance_in_twenty():
    assert (1 - largest_rate(7)) ** 7 == pytest.approx(0.05)


def test_more_cycles_and_less_confidence_narrow_it():
    assert largest_rate(20) < largest_rate(10)
    assert largest_rate(10, 0.8) < largest_rate(10, 0.95)


@pytest.mark.parametrize(("cycles", "confidence"), [(0, 0.95), (-1, 0.95), (5, 0), (5, 1)])
def test_without_a_cycle_or_a_chance_there_is_no_limit(cycles, confidence):
    with pytest.raises(ValueError, match="at least one cycle"):
        largest_rate(cycles, confidence)
    assert math.isfinite(largest_rate(1, 0.5))
