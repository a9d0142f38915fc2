"""Incomplete beta and gamma functions and their inverses: what exact limits are made of.

Good to twelve digits for counts of some hundred, to eight for counts of a million.
"""

import math
from collections.abc import Callable, Iterator

_EPSILON = math.ulp(1.0)
_TINY = math.ldexp(1.0, -1022)
_MOST_TERMS = 1_000_000


def beta_share(x: float, a: float, b: float) -> float:
    """Regularised incomplete beta function I_x(a, b), for a and b above 0 and x from 0 to 1.

    Source: NIST Digital Library of Mathematical Functions, 8.17.22 (continued fraction) and
    8.17.4 (I_x(a, b) = 1 - I_1-x(b, a)).
    """
    if x <= 0 or x >= 1:
        return float(x >= 1)
    if x > (a + 1) / (a + b + 2):
        return 1 - _beta_below(1 - x, b, a)
    return _beta_below(x, a, b)


def gamma_share(shape: float, x: float) -> float:
    """Regularised lower incomplete gamma function P(shape, x), for a shape above 0.

    Source: NIST Digital Library of Mathematical Functions, 8.11.4 (series) and 8.9.2 (continued
    fraction of the upper function).
    """
    if x <= 0:
        return 0.0
    front = math.exp(shape * math.log(x) - x - math.lgamma(shape))
    if x < shape + 1:
        return front * _gamma_series(shape, x)
    return 1 - front / _continued_fraction(x + 1 - shape, _gamma_terms(shape, x))


def beta_quantile(share: float, a: float, b: float) -> float:
    """The x at which I_x(a, b) reaches a share between 0 and 1."""
    return _bisected(lambda x: beta_share(x, a, b), share, 1.0)


def gamma_quantile(share: float, shape: float) -> float:
    """The x at which P(shape, x) reaches a share between 0 and 1."""
    high = shape + 1
    while gamma_share(shape, high) < share:
        high *= 2
    return _bisected(lambda x: gamma_share(shape, x), share, high)


def _bisected(rising: Callable[[float], float], wanted: float, high: float) -> float:
    """Where a rising function reaches a value, as near as two neighbouring numbers can say."""
    low = 0.0
    while True:
        middle = low + (high - low) / 2
        if not low < middle < high:
            return middle
        if rising(middle) < wanted:
            low = middle
        else:
            high = middle


def _beta_below(x: float, a: float, b: float) -> float:
    log_front = a * math.log(x) + b * math.log1p(-x)
    log_front += math.lgamma(a + b) - math.lgamma(a) - math.lgamma(b)
    return math.exp(log_front) / (a * _continued_fraction(1.0, _beta_terms(x, a, b)))


def _beta_terms(x: float, a: float, b: float) -> Iterator[tuple[float, float]]:
    """Numerators and denominators of DLMF 8.17.22."""
    for m in range(_MOST_TERMS):
        yield -(a + m) * (a + b + m) * x / ((a + 2 * m) * (a + 2 * m + 1)), 1.0
        n = m + 1
        yield n * (b - n) * x / ((a + 2 * n - 1) * (a + 2 * n)), 1.0


def _gamma_terms(shape: float, x: float) -> Iterator[tuple[float, float]]:
    """Numerators and denominators of DLMF 8.9.2, two steps of it drawn into one."""
    for n in range(1, _MOST_TERMS):
        yield -n * (n - shape), x + 2 * n + 1 - shape


def _gamma_series(shape: float, x: float) -> float:
    term = total = 1 / shape
    above = shape
    while term > total * _EPSILON:
        above += 1
        term *= x / above
        total += term
    return total


def _continued_fraction(first: float, terms: Iterator[tuple[float, float]]) -> float:
    """`first` + n1/(d1 + n2/(d2 + ...)), for pairs (n, d).

    Evaluated from the front as in Lentz, Applied Optics 15 (1976), with Thompson and Barnett's
    guard against a zero on the way.
    """
    value = above = first or _TINY
    below = 0.0
    for numerator, denominator in terms:
        below = 1 / ((denominator + numerator * below) or _TINY)
        above = (denominator + numerator / above) or _TINY
        step = above * below
        value *= step
        if abs(step - 1) < _EPSILON:
            break
    return value
