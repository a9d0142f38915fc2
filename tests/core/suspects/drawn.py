"""Hypotheses and evidence drawn at random, for property tests."""

import numpy as np
from hypothesis import strategies as st

from faulttree.core.suspects.hypotheses import Evidence, Hypotheses, Pairs, Sighting, Stretch

Case = tuple[Hypotheses, Evidence, float, Pairs | None]
"""Single suspects, what was read, the weight of none of these, pairs."""

_LIKELY = st.floats(1e-6, 5.0)
_SHARE = st.one_of(st.sampled_from([0.0, 1.0]), st.floats(0.01, 0.99))


@st.composite
def evidences(draw: st.DrawFn, stretches: int = 3, readings: int = 4) -> Evidence:
    """A few stretches of a few readings each; some of them are sightings alone."""
    n = draw(st.integers(0, readings))
    found: list[list[int]] = [[] for _ in range(draw(st.integers(1, stretches)))]
    for reading in range(n):
        found[draw(st.integers(0, len(found) - 1))].append(reading)
    sightings = [draw(st.sampled_from(list(Sighting))) for _ in found]
    told = tuple(Stretch(s, tuple(r)) for s, r in zip(sightings, found, strict=True))
    return Evidence(told, _column(draw, n), _column(draw, n))


@st.composite
def cases(draw: st.DrawFn, most: int = 4) -> Case:
    """Suspects in one form or several, with or without pairs."""
    evidence = draw(evidences())
    n, n_readings = draw(st.integers(1, most)), len(evidence.healthy)
    hypotheses = Hypotheses(
        np.array([draw(st.integers(0, 2)) for _ in range(n)], np.intp),
        _column(draw, n),
        np.array([draw(_SHARE) for _ in range(n)]),
        np.array([draw(_SHARE) for _ in range(n)]),
        np.array([draw(_SHARE) for _ in range(n)]),
        _column(draw, n * n_readings).reshape(n, n_readings),
    )
    of = hypotheses.suspect.tolist()
    both = [(i, j) for i in range(n) for j in range(n) if of[i] != of[j]]
    pairs = draw(st.none() | _pairs(both, n_readings)) if both else None
    return hypotheses, evidence, draw(_LIKELY), pairs


@st.composite
def _pairs(draw: st.DrawFn, both: list[tuple[int, int]], n_readings: int) -> Pairs:
    picked = draw(st.lists(st.sampled_from(both), min_size=1, max_size=3))
    count = len(picked)
    return Pairs(
        np.array([one for one, _ in picked], np.intp),
        np.array([other for _, other in picked], np.intp),
        _column(draw, count),
        np.array([draw(_SHARE) for _ in range(count)]),
        _column(draw, count * n_readings).reshape(count, n_readings),
    )


def _column(draw: st.DrawFn, n: int) -> "np.ndarray[tuple[int], np.dtype[np.float64]]":
    return np.array([draw(_LIKELY) for _ in range(n)], np.float64)
