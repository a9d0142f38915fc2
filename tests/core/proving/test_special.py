"""Incomplete beta and gamma functions against scipy."""

import pytest
from hypothesis import given
from hypothesis import strategies as st
from scipy import special as reference

from faulttree.core.proving.special import (
    beta_quantile,
    beta_share,
    gamma_quantile,
    gamma_share,
)

SIZES = (0.5, 1, 2, 5, 37, 1000, 100_000)
SHARES = (0.0005, 0.025, 0.2, 0.5, 0.95, 0.9995)


@pytest.mark.parametrize("a", SIZES)
@pytest.mark.parametrize("b", SIZES)
def test_the_beta_function_and_its_inverse(a, b):
    for share in SHARES:
        x = float(reference.betaincinv(a, b, share))
        assert beta_share(x, a, b) == pytest.approx(reference.betainc(a, b, x), rel=1e-8)
        assert beta_quantile(share, a, b) == pytest.approx(x, rel=1e-9)


@pytest.mark.parametrize("shape", SIZES)
def test_the_gamma_function_and_its_inverse(shape):
    for share in SHARES:
        x = float(reference.gammaincinv(shape, share))
        assert gamma_share(shape, x) == pytest.approx(share, rel=1e-8)
        assert gamma_quantile(share, shape) == pytest.approx(x, rel=1e-9)


@given(st.floats(0, 1), st.floats(0.5, 500), st.floats(0.5, 500))
def test_both_sides_of_the_beta_function_make_one(x, a, b):
    assert 0 <= beta_share(x, a, b) <= 1
    assert beta_share(x, a, b) + beta_share(1 - x, b, a) == pytest.approx(1)


@pytest.mark.parametrize(("x", "share"), [(-1, 0), (0, 0), (1, 1), (2, 1)])
def test_nothing_lies_outside(x, share):
    assert beta_share(x, 2, 3) == share
    assert gamma_share(2, min(x, 0)) == 0
