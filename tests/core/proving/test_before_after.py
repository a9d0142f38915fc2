"""Clean cycles against what was counted before: against exact tests, and the promise kept."""

from math import comb

import pytest
from hypothesis import given
from hypothesis import strategies as st
from scipy import stats

from faulttree.core.proving import (
    chance_if_unchanged,
    clean_cycles_needed,
    clean_time_needed,
    confidence_after_returns,
)

CONFIDENCES = st.sampled_from((0.8, 0.9, 0.95, 0.975, 0.99))


def fisher(seen, tries, clean):
    """One-sided exact test of Fisher: seen and not seen, before and after."""
    table = [[seen, tries - seen], [0, clean]]
    return stats.fisher_exact(table, alternative="greater").pvalue


@pytest.mark.parametrize(
    ("seen", "tries", "clean", "chance"),
    # Fisher's exact test, one-sided, 3 of 10 and 4 of 10 before and 0 of 10 after; worked out with
    # scipy 1.17.1.
    [(3, 10, 10, 0.105263), (4, 10, 10, 0.043344)],
)
def test_the_chance_is_that_of_the_exact_test(seen, tries, clean, chance):
    assert chance_if_unchanged(seen, tries, clean) == pytest.approx(chance, abs=1e-6)


def test_the_reference_is_the_test_of_the_tea_table():
    # Fisher, The Design of Experiments (1935): 3 of 4 cups right, 17/70 = 0.2429.
    table = [[3, 1], [1, 3]]
    assert stats.fisher_exact(table, alternative="greater").pvalue == pytest.approx(17 / 70)


@given(st.integers(1, 40), st.data(), st.integers(0, 200))
def test_any_counts_agree_with_the_exact_test(tries, data, clean):
    seen = data.draw(st.integers(0, tries))
    assert chance_if_unchanged(seen, tries, clean) == pytest.approx(fisher(seen, tries, clean))


@given(st.integers(1, 30), st.data(), st.integers(0, 60))
def test_it_is_a_product_of_single_cycles(tries, data, clean):
    seen = data.draw(st.integers(0, tries))
    product = 1.0
    for i in range(1, clean + 1):
        product *= (tries - seen + i) / (tries + i)
    assert chance_if_unchanged(seen, tries, clean) == pytest.approx(product)


@pytest.mark.parametrize(
    ("seen", "tries", "cycles"),
    # Smallest m with C(n, k)/C(n + m, k) at most 1/20, worked out by hand for the first four:
    # 3/60, 10/200, 6/120 and 45/903.
    [
        (1, 3, 57),
        (1, 10, 190),
        (2, 4, 12),
        (2, 10, 33),
        (3, 5, 7),
        (3, 10, 16),
        (5, 10, 7),
        (5, 20, 15),
        (10, 20, 6),
        (10, 100, 34),
        (10, 10, 2),
    ],
)
def test_cycles_needed_at_95_percent(seen, tries, cycles):
    assert clean_cycles_needed(seen, tries) == cycles
    assert fisher(seen, tries, cycles) <= 0.05 + 1e-12
    assert fisher(seen, tries, cycles - 1) > 0.05


@given(st.integers(1, 200), st.data(), CONFIDENCES)
def test_it_is_the_fewest_cycles_that_do(tries, data, confidence):
    seen = data.draw(st.integers(1, tries))
    cycles = clean_cycles_needed(seen, tries, confidence)
    left = 1 - confidence
    assert chance_if_unchanged(seen, tries, cycles) <= left * (1 + 1e-9)
    assert chance_if_unchanged(seen, tries, cycles - 1) > left * (1 - 1e-9)


@given(st.integers(2, 200), st.data())
def test_seen_more_often_fewer_cycles_are_needed(tries, data):
    seen = data.draw(st.integers(1, tries - 1))
    assert clean_cycles_needed(seen + 1, tries) <= clean_cycles_needed(seen, tries)
    assert clean_cycles_needed(seen, tries) <= clean_cycles_needed(seen, tries + 1)


def test_a_confidence_is_taken_as_it_is_written():
    # 1 - 0.9 is a little less than a tenth in binary numbers; 1/(1 + 9) is exactly a tenth.
    assert clean_cycles_needed(1, 1, 0.9) == 9


def test_large_counts_are_no_trouble():
    assert clean_cycles_needed(1, 10_000) == 190_000
    assert clean_cycles_needed(5_000, 10_000) == 5


def passes_though_unchanged(seen, chance, confidence=0.95):
    """How often a repair that changes nothing passes, where tries are counted until it was seen
    `seen` times: summed over all numbers of tries, without chance."""
    total, rest, tries = 0.0, 1.0, seen
    while rest > 1e-9:
        this_many = comb(tries - 1, seen - 1) * chance**seen * (1 - chance) ** (tries - seen)
        total += this_many * (1 - chance) ** clean_cycles_needed(seen, tries, confidence)
        rest -= this_many
        tries += 1
    return total + max(rest, 0)


@pytest.mark.parametrize("seen", [1, 2, 3, 5])
@pytest.mark.parametrize("chance", [0.02, 0.05, 0.1, 0.2, 0.35, 0.5, 0.7, 0.9])
@pytest.mark.parametrize("confidence", [0.8, 0.95])
def test_counted_until_seen_so_often_no_more_repairs_pass_than_was_said(seen, chance, confidence):
    assert passes_though_unchanged(seen, chance, confidence) <= 1 - confidence


def passes_with_new_beginnings(seen, chance, beginnings):
    """The same where the run begins anew, held to a halved chance, whenever the complaint returns.

    `at` holds how likely each number of tries so far is, when a run begins.
    """
    at, rest, tries = {}, 1.0, seen
    while rest > 1e-6:
        at[tries] = comb(tries - 1, seen - 1) * chance**seen * (1 - chance) ** (tries - seen)
        rest -= at[tries]
        tries += 1
    total = rest
    for returns in range(beginnings):
        confidence = confidence_after_returns(0.95, returns)
        later: dict[int, float] = {}
        for tries, likely in at.items():
            cycles = clean_cycles_needed(seen + returns, tries, confidence)
            total += likely * (1 - chance) ** cycles
            for clean in range(cycles):
                here = tries + clean + 1
                later[here] = later.get(here, 0) + likely * (1 - chance) ** clean * chance
        at = later
    return total


@pytest.mark.parametrize(("seen", "chance"), [(2, 0.3), (3, 0.2), (3, 0.5), (5, 0.2)])
def test_however_often_it_begins_anew_less_than_twice_as_many_pass(seen, chance):
    once = passes_with_new_beginnings(seen, chance, 1)
    assert once == pytest.approx(passes_though_unchanged(seen, chance), abs=1e-5)
    assert once < passes_with_new_beginnings(seen, chance, 3) < 2 * 0.05


def test_every_new_beginning_halves_what_is_left_to_luck():
    assert [confidence_after_returns(0.95, n) for n in range(3)] == [0.95, 0.975, 0.9875]


def passes_of_ten(chance, cycles_for):
    """The same where ten tries are made in any case: joint with having seen it, and given it."""
    passed = seen_at_all = 0.0
    for seen in range(1, 11):
        this_often = stats.binom.pmf(seen, 10, chance)
        passed += this_often * (1 - chance) ** cycles_for(seen)
        seen_at_all += this_often
    return passed, passed / seen_at_all


@pytest.mark.parametrize("chance", [0.005, 0.05, 0.1, 0.2, 0.3, 0.5, 0.8])
def test_with_ten_tries_in_any_case_it_holds_for_seen_and_passed_together(chance):
    joint, given_seen = passes_of_ten(chance, lambda seen: clean_cycles_needed(seen, 10))
    assert joint <= 0.05
    assert given_seen <= 0.05 or chance < 0.05, "only what was caught by luck passes more often"


def test_the_formula_that_is_not_offered_would_let_too_many_pass():
    def plugged_in(seen):
        return next(m for m in range(1, 100) if (1 - seen / 10) ** m <= 0.05)

    passed = [passes_of_ten(chance, plugged_in)[1] for chance in (0.05, 0.1, 0.2, 0.3, 0.5)]
    assert all(each > 0.05 for each in passed)
    assert max(passed) == pytest.approx(0.29, abs=0.01)


@pytest.mark.parametrize(
    ("seen", "hours"), [(1, 19.0), (2, 3.472), (3, 1.714), (5, 0.8206), (10, 0.3493)]
)
def test_clean_time_after_one_hour_of_watching(seen, hours):
    assert clean_time_needed(seen, 1.0) == pytest.approx(hours, abs=0.001)
    # conditional test of two Poisson counts: all `seen` of `seen` fall into the share 1/(1 + t)
    test = stats.binomtest(seen, seen, 1 / (1 + hours), alternative="greater")
    assert test.pvalue == pytest.approx(0.05, abs=1e-4)


@given(st.integers(1, 50), st.floats(0.01, 1e4), CONFIDENCES)
def test_clean_time_leaves_what_the_confidence_leaves(seen, watched, confidence):
    clean = clean_time_needed(seen, watched, confidence)
    all_before = stats.binom.pmf(seen, seen, watched / (watched + clean))
    assert all_before == pytest.approx(1 - confidence)


@pytest.mark.parametrize("seen", [1, 2, 3])
def test_by_time_too_no_more_pass_than_was_said(seen):
    # Watched until the k-th time, T has a gamma distribution; a fault that is still there stays
    # away for T (20^(1/k) - 1) with the chance exp(-that), in units of its mean time. Integrated.
    factor = clean_time_needed(seen, 1.0)
    passed, steps = 0.0, 4000
    for i in range(steps):
        watched = stats.gamma.ppf((i + 0.5) / steps, seen)
        passed += stats.expon.sf(watched * factor) / steps
    assert passed == pytest.approx(0.05, abs=0.001)


def test_what_was_never_seen_cannot_be_shown_to_be_gone():
    assert chance_if_unchanged(0, 10, 1000) == 1
    with pytest.raises(ValueError, match="never seen"):
        clean_cycles_needed(0, 10)
    with pytest.raises(ValueError, match="never seen"):
        clean_time_needed(0, 10)


@pytest.mark.parametrize(
    "call",
    [
        lambda: chance_if_unchanged(1, 2, -1),
        lambda: chance_if_unchanged(3, 2, 1),
        lambda: clean_cycles_needed(1, 2, 1.0),
        lambda: clean_time_needed(1, -2.0),
    ],
)
def test_what_cannot_be_is_refused(call):
    with pytest.raises(ValueError, match=r"0 or more|no count|above 0|between 0 and 1"):
        call()
