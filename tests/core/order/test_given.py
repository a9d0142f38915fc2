"""What a tree that somebody wrote takes, and where it loses minutes."""

from random import Random

import pytest
from core.order.brute_force import BruteForce
from core.order.random_problems import random_problem
from core.order.samples import matrix_problem, optimum_of, published, published_problem

from faulttree.core.order import problem as given
from faulttree.core.order.given import Given, GivenStep
from faulttree.core.order.plan import Asked, Plan
from faulttree.core.order.planner import Planner


def written(problem: given.Problem, rng: Random, tests: int) -> Given:
    """A tree that does so many tests in an order of its own, one ending early here and there."""
    steps: dict[str, GivenStep] = {}
    names = [test.name for test in problem.tests]

    def grow(place: str, left: list[str]) -> None:
        test = problem.tests[names.index(left[0])]
        go = {outcome: f"{place}.{outcome}" for outcome in test.outcomes}
        steps[place] = GivenStep(test.name, go)
        for after in go.values():
            if len(left) > 1 and rng.random() < 0.8:
                grow(after, rng.sample(left[1:], len(left) - 1))

    grow("start", rng.sample(names, min(tests, len(names))))
    return Given("start", steps)


def of_plan(plan: Plan) -> Given:
    """A plan as a tree that somebody wrote."""
    steps: dict[str, GivenStep] = {}

    def grow(place: str, at: Plan) -> None:
        if isinstance(at, Asked):
            steps[place] = GivenStep(at.test, {o: f"{place}.{o}" for o in at.go})
            for outcome, after in at.go.items():
                grow(f"{place}.{outcome}", after)

    grow("start", plan)
    return Given("start", steps)


def test_losses_less_what_was_saved_are_the_excess_over_the_best_plan() -> None:
    for seed in range(150):
        problem = random_problem(seed)
        tree = written(problem, Random(seed), 4)
        found = Planner(problem).cost(tree)
        assert found.is_proven
        assert found.best.most == pytest.approx(float(BruteForce(problem).least()), abs=1e-9)
        excess = sum(found.losses.values()) - sum(found.saved.values())
        assert found.excess == pytest.approx(excess, abs=1e-9), seed


def test_no_step_loses_less_than_nothing() -> None:
    for seed in range(150):
        problem = random_problem(seed)
        if not any(test.destroys for test in problem.tests):
            found = Planner(problem).cost(written(problem, Random(seed), 4))
            assert min(found.losses.values()) >= -1e-9
            assert min(found.saved.values(), default=0) >= -1e-9


@pytest.mark.parametrize("instance", published(), ids=lambda each: each["title"])
def test_the_best_plan_loses_nothing_anywhere(instance) -> None:
    planner = Planner(published_problem(instance))
    found = planner.cost(of_plan(planner.best().plan))
    assert found.spent.expected == pytest.approx(optimum_of(instance))
    assert found.ratio == pytest.approx(1)
    assert max(found.losses.values()) == pytest.approx(0, abs=1e-12)


def _row_of_four() -> given.Problem:
    """Four pieces in a row, equally likely; a test of 2 minutes at each of three joints."""
    return matrix_problem([1, 1, 1, 1], [2, 2, 2], ["000", "100", "110", "111"])


def test_testing_a_row_from_one_end_by_hand() -> None:
    """One after the other: 2, 4, 6, 6 minutes, 4.5 on average; halving takes 4."""
    tree = Given(
        "one",
        {
            "one": GivenStep("1", {"0": "first", "1": "two"}),
            "two": GivenStep("2", {"0": "second", "1": "three"}),
            "three": GivenStep("3", {"0": "third", "1": "fourth"}),
        },
    )
    found = Planner(_row_of_four()).cost(tree)
    assert found.spent.expected == pytest.approx(4.5)
    assert found.spent.worst == 6
    assert found.spent.means == {"a": 2, "b": 4, "c": 6, "d": 6}
    assert found.best.most == pytest.approx(4)
    assert found.losses == {"one": pytest.approx(0.5), "two": 0, "three": 0}


def test_a_test_that_tells_nothing_loses_all_its_minutes() -> None:
    tree = Given(
        "first",
        {
            "first": GivenStep("2", {"0": "again", "1": "rest"}),
            "again": GivenStep("2", {"0": "half", "1": "never"}),
        },
    )
    found = Planner(_row_of_four()).cost(tree)
    assert found.losses == {"first": pytest.approx(0), "again": pytest.approx(1)}
    assert found.saved == {"half": pytest.approx(1), "rest": pytest.approx(1)}


def test_a_step_with_any_outcome_leads_every_car_every_way() -> None:
    """Half of every car goes each way, so the mean is that of both ways."""
    suspects = tuple(given.Suspect(name, name, 1) for name in "ab")
    noise = given.Test("noise", 1, (("hum", "none"), ("hum", "none")))
    tell = given.Test("tell", 4, (("no",), ("yes",)))
    planner = Planner(given.Problem(suspects, (noise, tell)))
    tree = Given(
        "listen",
        {
            "listen": GivenStep("noise", {"hum": "look", "none": "nothing"}),
            "look": GivenStep("tell", {"no": "a", "yes": "b"}),
        },
    )
    found = planner.cost(tree)
    assert found.spent.means == {"a": 3, "b": 3}
    assert found.spent.worst == 5
    assert found.losses["listen"] == pytest.approx(1)
    assert found.saved["nothing"] == pytest.approx(2)


@pytest.mark.parametrize(
    ("steps", "sentence"),
    [
        ({"one": GivenStep("9", {"0": "x"})}, "Step one does 9, which is none of the tests."),
        ({"one": GivenStep("1", {"0": "x"})}, "Step one says nothing of 1: say where it leads."),
        (
            {"one": GivenStep("1", {"0": "one", "1": "x"})},
            "Step one leads back to itself: a tree has no loops.",
        ),
    ],
)
def test_a_tree_that_does_not_fit_is_refused(steps, sentence) -> None:
    with pytest.raises(given.CannotOrder) as refused:
        Planner(_row_of_four()).cost(Given("one", steps))
    assert str(refused.value) == sentence
