"""Everything against trying everything, in exact fractions, on small problems at random."""

from collections.abc import Iterator

import pytest
from core.order.brute_force import BruteForce, Car
from core.order.random_problems import random_problem

from faulttree.core.order import search, solver
from faulttree.core.order.following import SoFar
from faulttree.core.order.plan import Asked, End
from faulttree.core.order.planner import Planner

SEEDS = range(120)


@pytest.fixture(params=["one block", "blocks of two", "blocks without set-ups", "no twins"])
def blocks(request, monkeypatch: pytest.MonkeyPatch) -> None:
    """So small a problem is one block, which is exact; smaller blocks make it be searched."""
    monkeypatch.setattr(solver, "_LATTICE_AT_MOST", 0)
    if request.param != "one block":
        monkeypatch.setattr(solver, "_BLOCK", 2)
        monkeypatch.setattr(search, "_TWINS_FROM", 99 if request.param == "no twins" else 3)
    if request.param == "blocks without set-ups":
        monkeypatch.setattr(solver, "_WAYS_IN_BLOCKS", 1)


@pytest.mark.usefixtures("blocks")
def test_the_least_minutes_are_those_of_trying_everything() -> None:
    for seed in SEEDS:
        problem = random_problem(seed)
        found = Planner(problem).best()
        least = float(BruteForce(problem).least())
        assert found.expected.is_proven, seed
        assert found.expected.most == pytest.approx(least, rel=1e-11), seed
        assert found.spent.expected == pytest.approx(least, rel=1e-11), seed


def test_a_plan_holds_for_every_way_that_a_car_may_show() -> None:
    for seed in SEEDS:
        problem = random_problem(seed, 7, 6)
        brute, plan = BruteForce(problem), Planner(problem).best().plan
        names = [test.name for test in problem.tests]
        ended: dict[int, list[Car]] = {}
        ends: dict[int, End] = {}
        for car in brute.cars:
            end = _followed(plan, car, names)
            assert car.suspect in end.suspects, seed
            ended.setdefault(id(end), []).append(car)
            ends[id(end)] = end
        for key, cars in ended.items():
            assert ends[key].mends or brute.least(frozenset(cars)) >= 0
            assert ends[key].mends or not brute.can_rule_out(frozenset(cars)), seed


def _followed(plan: Asked | End, car: Car, names: list[str]) -> End:
    while isinstance(plan, Asked):
        plan = plan.go[car.shows[names.index(plan.test)]]
    return plan


def test_the_mean_is_over_the_ways_and_the_worst_is_the_longest() -> None:
    for seed in SEEDS:
        problem = random_problem(seed, 7, 6)
        found, names = Planner(problem).best(), [test.name for test in problem.tests]
        minutes: dict[str, list[float]] = {}
        for car in BruteForce(problem).cars:
            minutes.setdefault(car.suspect, []).append(sum(_minutes(found.plan, car, names)))
        for suspect, spent in minutes.items():
            assert found.spent.means[suspect] == pytest.approx(sum(spent) / len(spent)), seed
            assert found.spent.worsts[suspect] == pytest.approx(max(spent)), seed


def _minutes(plan: Asked | End, car: Car, names: list[str]) -> Iterator[float]:
    while isinstance(plan, Asked):
        yield plan.minutes
        plan = plan.go[car.shows[names.index(plan.test)]]


@pytest.mark.usefixtures("blocks")
def test_every_next_test_takes_what_trying_everything_after_it_takes() -> None:
    for seed in SEEDS[:60]:
        problem = random_problem(seed)
        brute, planner = BruteForce(problem), Planner(problem)
        advice = planner.next_tests(SoFar(), count=99)
        for option in advice.options:
            n = [test.name for test in problem.tests].index(option.test)
            first = brute.with_first(n, brute.cars, brute.at_first, problem.tests[n].destroys)
            assert option.expected.most == pytest.approx(float(first), rel=1e-11), seed
            regret = float(first - brute.least())
            assert option.regret.most == pytest.approx(regret, rel=1e-9, abs=1e-9), seed


def test_after_a_reading_the_rest_is_ordered_as_if_it_were_all() -> None:
    """Only cars that fit what was seen, with the car set up as that test left it."""
    for seed in SEEDS:
        problem = random_problem(seed, 7, 6)
        brute, planner = BruteForce(problem), Planner(problem)
        first = planner.best().plan
        if isinstance(first, End):
            continue
        n = [test.name for test in problem.tests].index(first.test)
        set_up = {**problem.at_first, **problem.tests[n].needs}
        for outcome in set(first.go) - problem.tests[n].ends:
            cars = frozenset(car for car in brute.cars if car.shows[n] == outcome)
            least = brute.least(cars, tuple(set_up.values()), problem.tests[n].destroys)
            found = planner.next_tests(SoFar({first.test: outcome}, set_up=set_up))
            whole = float(sum(car.weight for car in cars))
            assert found.expected.most * whole == pytest.approx(float(least), abs=1e-9), seed
            assert set(found.suspects) == {car.suspect for car in cars}


def test_some_suspects_alone_are_ordered_as_a_problem_of_their_own() -> None:
    for seed in SEEDS:
        problem = random_problem(seed, 7, 6)
        kept = frozenset(s.id for n, s in enumerate(problem.suspects) if n % 3 != 1)
        brute, planner = BruteForce(problem), Planner(problem)
        cars = frozenset(car for car in brute.cars if car.suspect in kept)
        whole = float(sum(car.weight for car in cars))
        found = planner.next_tests(SoFar(suspects=kept))
        assert found.expected.most * whole == pytest.approx(float(brute.least(cars)), abs=1e-9)


def test_without_some_tests_the_least_is_that_of_the_others() -> None:
    for seed in SEEDS:
        problem = random_problem(seed, 7, 6)
        gone = problem.tests[0].name
        least = float(BruteForce(problem.without({gone})).least())
        planner = Planner(problem)
        assert planner.without({gone}).best().expected.most == pytest.approx(least, abs=1e-9)
        found = planner.next_tests(SoFar(cannot=frozenset({gone})))
        assert found.expected.most == pytest.approx(least, abs=1e-9), seed


def test_all_of_this_was_tried_on_problems_with_everything() -> None:
    problems = [random_problem(seed) for seed in SEEDS]
    assert sum(bool(p.set_ups) for p in problems) > 40
    assert sum(any(t.destroys for t in p.tests) for p in problems) > 20
    assert sum(any(t.ends for t in p.tests) for p in problems) > 20
    assert sum(any(len(o) > 1 for t in p.tests for o in t.shows) for p in problems) > 25
    assert sum(len({s.fault for s in p.suspects}) < len(p.suspects) for p in problems) > 30
