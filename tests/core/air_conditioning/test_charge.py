"""Charge by weight. Sources: 40 CFR 82 subpart B appendix C (95 % recovered); common practice."""

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from faulttree.core.air_conditioning.charge import balance, conversion_charge

MOST = settings(derandomize=True, max_examples=60, deadline=None)
GRAMS = st.floats(0.001, 3.0)


def test_a_balance():
    found = balance(0.8, 0.57, 0.79)
    assert found.was_in == pytest.approx((0.57, 0.6))
    assert found.left == (0, 0)
    assert found.now == (0.79, 0.79)
    assert found.to_add == pytest.approx((0.01, 0.01))


def test_what_is_left_behind_counts_where_no_vacuum_was_drawn():
    found = balance(0.8, 0.57, 0.2, evacuated=False)
    assert found.left == pytest.approx((0, 0.03))
    assert found.now == pytest.approx((0.2, 0.23))
    assert found.to_add == pytest.approx((0.57, 0.6))


@MOST
@given(GRAMS, GRAMS, GRAMS, st.booleans())
def test_nothing_is_lost(label, out, put_in, evacuated):
    found = balance(label, out, put_in, evacuated=evacuated)
    assert found.was_in[1] * 0.95 == pytest.approx(out)
    for now, add in zip(found.now, reversed(found.to_add), strict=True):
        assert now + add == pytest.approx(label)
    assert found.now[0] <= found.now[1] <= put_in + 0.06 * out


def test_a_conversion_takes_80_to_90_percent():
    assert conversion_charge(1.0) == pytest.approx((0.8, 0.9))
