"""Exact Bayes against every world counted by itself, and what must not change a probability."""

from dataclasses import replace

import numpy as np
import pytest
from core.suspects.drawn import Case, cases
from core.suspects.worlds import counted
from hypothesis import given, settings
from hypothesis import strategies as st

from faulttree.core.suspects.bayes import posterior
from faulttree.core.suspects.hypotheses import Evidence, Hypotheses, Sighting, Stretch
from faulttree.core.suspects.modes import FALSE_SIGHT

EXACT = 1e-9


def _hypotheses(rows: list[tuple[float, float, float, float]], likelihood: object) -> Hypotheses:
    """Suspects by weight, share for good, chance, chance to show."""
    prior, good, chance, shows = (np.array(column, float) for column in zip(*rows, strict=True))
    table = np.array(likelihood, float).reshape(len(rows), -1)
    return Hypotheses(np.arange(len(rows)), prior, good, chance, shows, table)


def _evidence(stretches: list[Stretch], healthy: list[float], anything: list[float]) -> Evidence:
    return Evidence(tuple(stretches), np.array(healthy, float), np.array(anything, float))


@settings(max_examples=120, deadline=None)
@given(cases())
def test_it_is_what_counting_every_world_gives(case: Case) -> None:
    hypotheses, evidence, none_prior, pairs = case
    found = posterior(hypotheses, evidence, none_prior, pairs, 3)
    worlds = counted(hypotheses, evidence, none_prior, pairs)
    assert found.forms == pytest.approx(worlds.forms, abs=EXACT)
    assert found.pairs == pytest.approx(worlds.pairs, abs=EXACT)
    assert found.none == pytest.approx(worlds.none, abs=EXACT)
    of = [
        sum(f for f, s in zip(worlds.forms, hypotheses.suspect, strict=True) if s == suspect)
        for suspect in range(3)
    ]
    assert found.single == pytest.approx(of, abs=EXACT)
    assert found.single.sum() + found.pairs.sum() + found.none == pytest.approx(1.0, abs=EXACT)


@settings(max_examples=60, deadline=None)
@given(cases(), st.randoms(use_true_random=False), st.floats(1e-6, 1e6))
def test_order_and_scale_change_nothing(case: Case, chance: object, scale: float) -> None:
    hypotheses, evidence, none_prior, pairs = case
    before = posterior(hypotheses, evidence, none_prior, pairs, 3)
    mixed = []
    for stretch in evidence.stretches:
        readings = list(stretch.readings)
        chance.shuffle(readings)  # type: ignore[attr-defined]
        mixed.append(Stretch(stretch.sighting, tuple(readings)))
    chance.shuffle(mixed)  # type: ignore[attr-defined]
    scaled = replace(hypotheses, prior=scale * hypotheses.prior)
    both = None if pairs is None else replace(pairs, prior=scale * pairs.prior)
    other = Evidence(tuple(mixed), evidence.healthy, evidence.anything)
    after = posterior(scaled, other, scale * none_prior, both, 3)
    assert after.forms == pytest.approx(before.forms, abs=EXACT)
    assert after.pairs == pytest.approx(before.pairs, abs=EXACT)


@settings(max_examples=60, deadline=None)
@given(cases())
def test_a_suspect_that_is_impossible_changes_nothing(case: Case) -> None:
    hypotheses, evidence, none_prior, pairs = case
    more = Hypotheses(
        np.append(hypotheses.suspect, 3),
        np.append(hypotheses.prior, 0.0),
        np.append(hypotheses.for_good, 0.5),
        np.append(hypotheses.chance, 0.5),
        np.append(hypotheses.shows, 0.98),
        np.vstack([hypotheses.likelihood, np.ones((1, len(evidence.healthy)))]),
    )
    before = posterior(hypotheses, evidence, none_prior, pairs, 4)
    after = posterior(more, evidence, none_prior, pairs, 4)
    assert after.single == pytest.approx(before.single, abs=EXACT)
    assert after.none == pytest.approx(before.none, abs=EXACT)


def test_while_the_complaint_is_away_a_reading_tells_faults_that_come_and_go_not_apart() -> None:
    """Neither reading nor absence changes their ratio where they read alike away, show alike and
    come alike; one that is there for good falls."""
    rows = [(2.0, 0.0, 0.3, 0.98), (1.0, 0.0, 0.3, 0.98), (1.0, 1.0, 1.0, 0.98)]
    reads = [[8.0], [0.001], [0.001]]
    away = _evidence([Stretch(Sighting.ABSENT, (0,))], [5.0], [0.1])
    found = posterior(_hypotheses(rows, reads), away, 0.02)
    first, second, lasting = found.single
    assert first / second == pytest.approx(2.0, rel=FALSE_SIGHT), "but for a state noted wrongly"
    assert lasting < 0.01
    while_there = replace(away, stretches=(Stretch(Sighting.PRESENT, (0,)),))
    found = posterior(_hypotheses(rows, reads), while_there, 0.02)
    assert found.single[0] / found.single[1] > 50


def test_two_sightings_count_as_two() -> None:
    """A fault that is there one time in three is less likely with each stretch that shows it."""
    rows = [(1.0, 1.0, 1.0, 0.98), (1.0, 0.0, 0.25, 0.98)]
    for count in (1, 2, 3):
        evidence = _evidence([Stretch(Sighting.PRESENT)] * count, [], [])
        lasting, coming = posterior(_hypotheses(rows, []), evidence, 0.0).single
        away = 0.75 * FALSE_SIGHT  # said to show though it is away
        assert coming / lasting == pytest.approx(((0.25 * 0.98 + away) / 0.98) ** count)


def test_readings_of_one_stretch_see_the_same_state() -> None:
    """Two readings, one of the fault and one of a healthy car: impossible together, usual apart."""
    rows, reads = [(1.0, 0.0, 0.5, 0.98)], [[1.0, 1e-8]]
    healthy, anything = [1e-8, 1.0], [1e-3, 1e-3]
    apart = [Stretch(Sighting.UNKNOWN, (0,)), Stretch(Sighting.UNKNOWN, (1,))]
    together = [Stretch(Sighting.UNKNOWN, (0, 1))]
    found = posterior(_hypotheses(rows, reads), _evidence(apart, healthy, anything), 0.02)
    assert found.single[0] > 0.99
    found = posterior(_hypotheses(rows, reads), _evidence(together, healthy, anything), 0.02)
    assert found.none > 0.9


def test_none_of_these_grows_where_readings_contradict_every_fault() -> None:
    rows = [(1.0, 1.0, 1.0, 0.98), (1.0, 0.5, 0.3, 0.98)]
    nones = []
    for count in range(5):
        reads = np.full((2, count), 1e-5)
        whole = Stretch(Sighting.PRESENT, tuple(range(count)))
        found = posterior(
            _hypotheses(rows, reads),
            _evidence([whole], [1e-5] * count, [0.05] * count),
            0.04,
        )
        nones.append(found.none)
    assert nones == sorted(nones)
    assert nones[0] < 0.05
    assert nones[2] > 0.99


def test_none_of_these_is_not_talked_away_by_readings_of_a_healthy_car() -> None:
    """A fault that nobody thought of leaves most of a car as it was: ten sound readings and then
    two that nothing explains are none of these."""
    n = 12
    reads = np.array([[10.0] * 10 + [1e-4, 1e-4], [10.0] * 10 + [1e-4, 1e-4]])
    healthy = [10.0] * 10 + [1e-4, 1e-4]
    anything = [0.1] * 10 + [0.06, 0.06]
    evidence = _evidence([Stretch(Sighting.PRESENT, tuple(range(n)))], healthy, anything)
    rows = [(1.0, 1.0, 1.0, 0.98), (1.0, 1.0, 1.0, 0.98)]
    assert posterior(_hypotheses(rows, reads), evidence, 0.04).none > 0.8


def test_forty_readings_that_nobody_expects_stay_numbers() -> None:
    """Likelihoods far below what a float holds as a product."""
    n = 40
    reads = np.vstack([np.full(n, 1e-30), np.full(n, 1e-31), np.zeros(n)])
    rows = [(1.0, 1.0, 1.0, 1.0), (1.0, 0.5, 0.3, 0.0), (1.0, 0.5, 0.3, 0.5)]
    stretches = [Stretch(Sighting.PRESENT, (r,)) for r in range(n)]
    found = posterior(_hypotheses(rows, reads), _evidence(stretches, [0.0] * n, [1e-29] * n), 0.02)
    assert np.isfinite(found.forms).all()
    assert found.single.sum() + found.none == pytest.approx(1.0, abs=EXACT)
