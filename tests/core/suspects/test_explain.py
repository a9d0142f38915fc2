"""What speaks for and against a suspect: Bayes factors, against working it all out again."""

import numpy as np
import pytest
from core.suspects.drawn import Case, cases
from hypothesis import given, settings

from faulttree.core.suspects.bayes import posterior
from faulttree.core.suspects.explain import (
    Speaks,
    sightings_speaking,
    speaking,
    speaks_of,
)
from faulttree.core.suspects.hypotheses import Evidence, Hypotheses, Sighting, Stretch

EXACT = 1e-9


def _odds(case: Case) -> np.ndarray:
    hypotheses, evidence, none_prior, pairs = case
    share = posterior(hypotheses, evidence, none_prior, pairs, 3).involved(pairs, hypotheses)
    return np.asarray(share / np.maximum(1.0 - share, 1e-15))


def _well_known(odds: np.ndarray) -> np.ndarray:
    """Where the odds made of a probability have digits left to compare."""
    return np.asarray((odds > 1e-12) & (odds < 1e6))


def _two(reads: list[list[float]], stretches: list[Stretch], prior: tuple[float, ...]) -> Case:
    """Suspects that are there for good."""
    n, ones = len(prior), np.ones(len(prior))
    count = len(reads[0])
    hypotheses = Hypotheses(np.arange(n), np.array(prior), ones, ones, 0.98 * ones, np.array(reads))
    evidence = Evidence(tuple(stretches), np.ones(count), np.full(count, 1e-12))
    return hypotheses, evidence, 1e-300, None


@settings(max_examples=40, deadline=None)
@given(cases())
def test_each_reading_speaks_as_if_it_alone_were_left_out(case: Case) -> None:
    hypotheses, evidence, none_prior, pairs = case
    times = speaking(hypotheses, evidence, none_prior, 3, pairs)
    whole = _odds(case)
    for reading in range(len(evidence.healthy)):
        without = _odds((hypotheses, evidence.without(reading), none_prior, pairs))
        fits = _well_known(whole) & _well_known(without)
        assert times[reading][fits] == pytest.approx(whole[fits] / without[fits], rel=1e-6)


@settings(max_examples=40, deadline=None)
@given(cases())
def test_so_does_each_sighting_of_the_complaint(case: Case) -> None:
    hypotheses, evidence, none_prior, pairs = case
    times = sightings_speaking(hypotheses, evidence, none_prior, 3, pairs)
    whole = _odds(case)
    for place, stretch in enumerate(evidence.stretches):
        blind = list(evidence.stretches)
        blind[place] = Stretch(Sighting.UNKNOWN, stretch.readings)
        other = Evidence(tuple(blind), evidence.healthy, evidence.anything)
        without = _odds((hypotheses, other, none_prior, pairs))
        fits = _well_known(whole) & _well_known(without)
        assert times[place][fits] == pytest.approx(whole[fits] / without[fits], rel=1e-6)


def test_between_two_suspects_the_factors_multiply_to_the_odds() -> None:
    """Each factor is a ratio of likelihoods, and prior odds times all of them are the odds."""
    reads = [[0.8, 0.1, 0.5], [0.2, 0.4, 0.5]]
    case = _two(reads, [Stretch(Sighting.UNKNOWN, (0, 1, 2))], (3.0, 1.0))
    times = speaking(*case[:3], 2)[:, 0]
    assert times == pytest.approx([4.0, 0.25, 1.0], rel=EXACT)
    share = posterior(*case[:3]).single
    assert share[0] / share[1] == pytest.approx(3.0 * np.prod(times), rel=EXACT)


def test_the_sighting_is_no_part_of_what_a_reading_says() -> None:
    """A reading that is the same for both says nothing, though its stretch says much."""
    hypotheses, _, none, _ = _two([[0.5], [0.5]], [], (1.0, 1.0))
    shows = Hypotheses(
        hypotheses.suspect, hypotheses.prior, np.ones(2), np.ones(2), np.array([0.98, 0.02]),
        hypotheses.likelihood,
    )  # fmt: skip
    evidence = Evidence((Stretch(Sighting.PRESENT, (0,)),), np.ones(1), np.full(1, 1e-12))
    assert speaking(shows, evidence, none, 2)[0] == pytest.approx([1.0, 1.0], rel=1e-6)
    seen = sightings_speaking(shows, evidence, none, 2)[0]
    assert seen == pytest.approx([49.0, 1 / 49.0], rel=1e-6)


def test_what_made_a_suspect_as_good_as_sure_is_still_told() -> None:
    """Odds beyond the digits of a probability: nothing cancels where the rest is added up."""
    reads = [[1.0, 1.0], [1e-14, 1e-13]]
    case = _two(reads, [Stretch(Sighting.UNKNOWN, (0, 1))], (1.0, 1.0))
    assert posterior(*case[:3]).single[0] == 1.0
    assert speaking(*case[:3], 2)[:, 0] == pytest.approx([1e14, 1e13], rel=1e-6)


def test_the_strongest_first_and_none_that_does_not_matter() -> None:
    times = np.array([[3.0], [1.1], [0.01], [0.9]])
    assert speaks_of(times, 0) == (Speaks(2, 0.01), Speaks(0, 3.0))
    assert speaks_of(times[[2, 0]], 0, [7, 4]) == (Speaks(7, 0.01), Speaks(4, 3.0))
