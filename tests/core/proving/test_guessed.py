"""Planning with a guess, against scipy's beta-binomial and Poisson-gamma distributions."""

import pytest
from hypothesis import given
from hypothesis import strategies as st
from scipy import stats

from faulttree.core.proving import (
    ChancePrior,
    chance_clean_if_missed,
    chance_repaired,
    clean_cycles_for_belief,
)


@given(
    st.integers(0, 50),
    st.data(),
    st.integers(0, 300),
    st.sampled_from(((1, 1), (0.5, 0.5), (2, 7))),
)
def test_a_clean_run_of_what_was_missed_is_beta_binomial(tries, data, clean, prior):
    seen = data.draw(st.integers(0, tries))
    a, b = prior[0] + seen, prior[1] + tries - seen
    expected = stats.betabinom.pmf(0, clean, a, b)
    assert chance_clean_if_missed(seen, tries, clean, ChancePrior(*prior)) == pytest.approx(
        expected, rel=1e-8
    )


def _predicted(seen, tries):
    """Clean cycles after which a fault that was missed would have shown with 95 %."""
    return next(m for m in range(10_000) if chance_clean_if_missed(seen, tries, m) <= 0.05 + 1e-12)


@pytest.mark.parametrize(
    ("seen", "tries", "predicted", "likely", "even"),
    # Fewest cycles at 95 % with a uniform prior: predicted, hit with 0.8, hit with 0.5.
    [
        (1, 3, 12, 5, 12),
        (1, 10, 37, 13, 36),
        (2, 4, 7, 3, 7),
        (2, 10, 18, 7, 17),
        (3, 5, 5, 3, 5),
        (3, 10, 11, 5, 11),
        (5, 10, 6, 3, 6),
        (5, 20, 12, 6, 12),
        (10, 20, 5, 3, 5),
        (10, 100, 31, 15, 30),
    ],
)
def test_cycles_for_planning(seen, tries, predicted, likely, even):
    a, b = 1 + seen, 1 + tries - seen
    assert _predicted(seen, tries) == predicted
    assert stats.betabinom.pmf(0, predicted, a, b) <= 0.05 + 1e-9
    assert stats.betabinom.pmf(0, predicted - 1, a, b) > 0.05
    for hit, cycles in ((0.8, likely), (0.5, even)):
        assert clean_cycles_for_belief(hit, seen, tries) == cycles
        assert chance_repaired(hit, seen, tries, cycles) >= 0.95 - 1e-9
        assert chance_repaired(hit, seen, tries, cycles - 1) < 0.95


@given(st.integers(1, 50), st.data(), st.integers(0, 100), st.floats(0.01, 0.99))
def test_belief_follows_the_rule_of_bayes(tries, data, clean, hit):
    seen = data.draw(st.integers(0, tries))
    missed = stats.betabinom.pmf(0, clean, 1 + seen, 1 + tries - seen)
    expected = hit / (hit + (1 - hit) * missed)
    assert chance_repaired(hit, seen, tries, clean) == pytest.approx(expected)
    assert chance_repaired(hit, seen, tries, clean) >= hit * (1 - 1e-12)


def test_what_is_sure_needs_no_run_and_what_cannot_be_is_never_believed():
    assert clean_cycles_for_belief(1.0, 2, 4) == 0
    assert clean_cycles_for_belief(0.99, 2, 4) == 0
    assert chance_repaired(0.0, 2, 4, 100) == 0


def test_without_tries_the_prior_alone_counts():
    # uniform prior, none counted: 1/(m + 1) <= 0.05
    assert _predicted(0, 0) == 19


def test_with_a_uniform_prior_what_shows_rarely_passes_too_often():
    # Why the record of a repair does not rest on it: ten tries, a fault that shows in one of 20.
    passed = seen_at_all = 0.0
    for seen in range(1, 11):
        this_often = stats.binom.pmf(seen, 10, 0.05)
        passed += this_often * 0.95 ** _predicted(seen, 10)
        seen_at_all += this_often
    assert passed / seen_at_all == pytest.approx(0.21, abs=0.01)


@pytest.mark.parametrize(
    "call",
    [
        lambda: chance_repaired(1.5, 1, 2, 3),
        lambda: clean_cycles_for_belief(0, 1, 2),
        lambda: chance_clean_if_missed(3, 2, 1),
        lambda: chance_clean_if_missed(1, 2, -1),
        lambda: ChancePrior(0, 1),
    ],
)
def test_what_cannot_be_is_refused(call):
    with pytest.raises(ValueError, match=r"between 0 and 1|above 0|no count|0 or more"):
        call()


def test_a_run_without_end_is_refused():
    with pytest.raises(ValueError, match="no run is long enough"):
        clean_cycles_for_belief(0.5, 0, 5, 0.95, ChancePrior(0.001, 1))
