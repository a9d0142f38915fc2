"""Tries until a complaint of known chance shows, against scipy."""

import pytest
from hypothesis import given
from hypothesis import strategies as st
from scipy import stats

from faulttree.core.proving import expected_tries, tries_to_see


@pytest.mark.parametrize("rate", [0.05, 0.2, 1 / 3, 0.5, 0.9])
def test_tries_on_average_are_those_of_the_geometric_distribution(rate):
    assert expected_tries(rate) == pytest.approx(stats.geom.mean(rate))


@given(st.floats(0.001, 0.999), st.sampled_from((0.5, 0.8, 0.9, 0.95, 0.99)))
def test_so_many_tries_show_it_with_that_confidence(rate, confidence):
    tries = tries_to_see(rate, confidence)
    assert stats.geom.cdf(tries, rate) >= confidence - 1e-9
    assert tries == 1 or stats.geom.cdf(tries - 1, rate) <= confidence + 1e-9


def test_what_shows_always_shows_at_once():
    assert (expected_tries(1.0), tries_to_see(1.0)) == (1.0, 1)


@pytest.mark.parametrize("call", [expected_tries, tries_to_see])
def test_without_a_chance_it_never_shows(call):
    with pytest.raises(ValueError, match="above 0"):
        call(0)
