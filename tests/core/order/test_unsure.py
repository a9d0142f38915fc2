"""Tests that may be wrong: against trying every history in exact fractions, and by hand."""

from dataclasses import replace
from fractions import Fraction
from random import Random

import pytest
from core.order.samples import optimum_of, published, published_problem

from faulttree.core.order import problem as given
from faulttree.core.order.plan import Asked, End
from faulttree.core.order.unsure import order_unsure

Weights = dict[str, Fraction]
"""Suspect to its weight with what was seen."""


class Histories:
    """Every order of tests and every outcome, tried out; each test once."""

    def __init__(self, problem: given.Problem) -> None:
        self.problem = problem
        self._known: dict[frozenset[tuple[int, str]], Fraction] = {}

    def least(self, seen: frozenset[tuple[int, str]] = frozenset()) -> Fraction:
        if seen not in self._known:
            self._known[seen] = self._tried(seen)
        return self._known[seen]

    def _tried(self, seen: frozenset[tuple[int, str]]) -> Fraction:
        weights = self._weights(seen)
        whole = sum(weights.values())
        finds: dict[str, Fraction] = {}
        for suspect in self.problem.suspects:
            finds[suspect.find] = finds.get(suspect.find, Fraction(0)) + weights[suspect.id]
        best = Fraction(self.problem.wrong_minutes) * (whole - max(finds.values()))
        if not best:
            return best
        for n, test in enumerate(self.problem.tests):
            if n not in {each for each, _ in seen}:
                rest = sum(self.least(seen | {(n, outcome)}) for outcome in test.outcomes)
                best = min(best, Fraction(test.minutes) * whole + rest)
        return best

    def _weights(self, seen: frozenset[tuple[int, str]]) -> Weights:
        whole = sum(Fraction(s.weight) for s in self.problem.suspects)
        found = {}
        for n, suspect in enumerate(self.problem.suspects):
            weight = Fraction(suspect.weight) / whole
            for index, outcome in seen:
                weight *= _likelihood(self.problem.tests[index], n, outcome)
            found[suspect.id] = weight
        return found


def _likelihood(test: given.Test, suspect: int, outcome: str) -> Fraction:
    wrong, others = Fraction(test.wrong), len(test.outcomes) - 1
    if not others:
        return Fraction(1)
    return 1 - wrong if outcome in test.shows[suspect] else wrong / others


def _random(seed: int) -> given.Problem:
    rng = Random(seed)
    size = rng.randint(2, 4)
    suspects = tuple(
        given.Suspect(f"s{n}", f"f{n}", rng.randint(1, 9), rng.choice(["", "", "part"]))
        for n in range(size)
    )
    tests = []
    for n in range(rng.randint(1, 4)):
        outcomes = ["low", "in", "high"][: rng.choice([2, 2, 3])]
        shows = tuple((rng.choice(outcomes),) for _ in range(size))
        wrong = rng.choice([0, 0.0625, 0.25])
        tests.append(given.Test(f"t{n}", rng.choice([1, 2, 4]), shows, wrong=wrong))
    return given.Problem(suspects, tuple(tests), wrong_minutes=rng.choice([5, 20, 60]))


def test_the_least_minutes_are_those_of_every_history() -> None:
    for seed in range(120):
        problem = _random(seed)
        found = order_unsure(problem)
        assert found.expected.is_proven, seed
        least = float(Histories(problem).least())
        assert found.expected.most == pytest.approx(least, rel=1e-11, abs=1e-12), seed
        lost = problem.wrong_minutes * found.wrong
        assert found.spent.expected + lost == pytest.approx(least, rel=1e-11, abs=1e-12), seed


@pytest.mark.parametrize("instance", published(), ids=lambda each: each["title"])
def test_where_no_test_is_wrong_and_a_wrong_end_is_dear_it_is_the_plain_optimum(instance) -> None:
    problem = replace(published_problem(instance), wrong_minutes=10_000)
    found = order_unsure(problem)
    assert found.wrong == pytest.approx(0, abs=1e-15)
    assert found.expected.most == pytest.approx(optimum_of(instance))


def _one_test(wrong: float, wrong_minutes: float) -> given.Problem:
    suspects = (given.Suspect("a", "a", 3), given.Suspect("b", "b", 1))
    test = given.Test("listen", 4, (("click",), ("none",)), wrong=wrong)
    return given.Problem(suspects, (test,), wrong_minutes=wrong_minutes)


def test_a_test_is_done_when_it_saves_more_than_it_takes() -> None:
    """Ending at once is wrong for one car in four. The test errs in one of ten: 4 minutes."""
    dear = order_unsure(_one_test(0.1, 60))
    assert isinstance(dear.plan, Asked)
    assert dear.wrong == pytest.approx(0.1)
    assert dear.expected.most == pytest.approx(4 + 6)
    cheap = order_unsure(_one_test(0.1, 16))
    assert isinstance(cheap.plan, End)
    assert cheap.expected.most == pytest.approx(4)


def test_every_suspect_goes_every_way_with_its_share() -> None:
    plan = order_unsure(_one_test(0.1, 60)).plan
    assert isinstance(plan, Asked)
    click, none = plan.go["click"], plan.go["none"]
    assert isinstance(click, End)
    assert isinstance(none, End)
    assert click.suspects == {"a": pytest.approx(0.9), "b": pytest.approx(0.1)}
    assert none.suspects == {"a": pytest.approx(0.1), "b": pytest.approx(0.9)}


def test_what_is_too_much_work_has_a_bound_and_a_plan_and_is_the_same_again() -> None:
    rng = Random(5)
    suspects = tuple(given.Suspect(f"s{n}", f"f{n}", rng.randint(1, 9)) for n in range(9))
    tests = tuple(
        given.Test(
            f"t{n}", rng.randint(1, 9), tuple((rng.choice("01"),) for _ in suspects), wrong=0.05
        )
        for n in range(8)
    )
    problem = given.Problem(suspects, tests)
    best = order_unsure(problem)
    quick = order_unsure(problem, given.Limits(expansions=300))
    assert best.expected.is_proven
    assert not quick.expected.is_proven
    assert 0 < quick.expected.least <= best.expected.most <= quick.expected.most
    assert quick.expected.most < 1.2 * best.expected.most
    assert quick == order_unsure(problem, given.Limits(expansions=300))
