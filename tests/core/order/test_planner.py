"""Set-ups, tests that destroy, ties, limits: what a plan does and what it says of itself."""

import pytest
from core.order.networks import network_problem
from core.order.random_problems import random_problem
from core.order.samples import matrix_problem

from faulttree.core.order import problem as given
from faulttree.core.order import search, solver
from faulttree.core.order.following import SoFar
from faulttree.core.order.plan import Asked, End
from faulttree.core.order.planner import Planner

GLOVE_BOX = given.SetUp("glove box", {"in": 5, "out": 20}, "in")


def _two_tests(**needs: str) -> given.Problem:
    """Three faults in a row, two joints between them, both behind the glove box."""
    suspects = tuple(given.Suspect(c, c, 1) for c in "abc")
    tests = (
        given.Test("1", 2, (("0",), ("1",), ("1",)), needs),
        given.Test("2", 3, (("0",), ("0",), ("1",)), needs),
    )
    return given.Problem(suspects, tests, (GLOVE_BOX,))


def test_a_set_up_is_paid_once_by_all_tests_that_share_it() -> None:
    """20 + 2 for all, 3 more for two of three."""
    found = Planner(_two_tests(**{"glove box": "out"})).best()
    assert isinstance(found.plan, Asked)
    assert (found.plan.test, found.plan.set_up) == ("1", {"glove box": "out"})
    assert found.expected.most == pytest.approx(24)
    second = found.plan.go["1"]
    assert isinstance(second, Asked)
    assert (second.set_up, second.minutes) == ({}, 3)


def test_a_test_that_needs_the_set_up_undone_pays_for_that() -> None:
    suspects = tuple(given.Suspect(c, c, 1) for c in "abc")
    tests = (
        given.Test("1", 2, (("0",), ("1",), ("1",)), {"glove box": "out"}),
        given.Test("2", 3, (("0",), ("1",), ("2",)), {"glove box": "in"}),
        given.Test("3", 9, (("0",), ("0",), ("1",)), {"glove box": "in"}),
    )
    problem = given.Problem(suspects, tests, (GLOVE_BOX,))
    opened = {"glove box": "out"}
    assert Planner(problem).best().expected.most == pytest.approx(3)
    advice = Planner(problem).next_tests(SoFar(set_up=opened))
    assert [(o.test, o.minutes) for o in advice.options] == [("1", 2), ("2", 8), ("3", 14)]
    assert advice.expected.most == pytest.approx(2 + 2 / 3 * 8)
    without = Planner(problem).without({"2"}).best()
    assert isinstance(without.plan, Asked)
    assert without.plan.test == "3"
    assert without.expected.most == pytest.approx(9 + 2 / 3 * 22)


def test_what_is_set_up_already_is_not_paid_again() -> None:
    planner = Planner(_two_tests(**{"glove box": "out"}))
    assert planner.next_tests(SoFar()).expected.most == pytest.approx(24)
    opened = SoFar(set_up={"glove box": "out"})
    assert planner.next_tests(opened).expected.most == pytest.approx(4)


def test_what_destroys_evidence_comes_where_nothing_else_can_rule_out_more() -> None:
    """Cutting the harness open would tell everything in a minute."""
    suspects = tuple(given.Suspect(c, c, 1) for c in "abc")
    tests = (
        given.Test("cut", 1, (("a",), ("b",), ("c",)), destroys=True),
        given.Test("probe", 10, (("0",), ("1",), ("1",))),
    )
    plan = Planner(given.Problem(suspects, tests)).best()
    assert isinstance(plan.plan, Asked)
    assert plan.plan.test == "probe"
    assert isinstance(plan.plan.go["0"], End)
    last = plan.plan.go["1"]
    assert isinstance(last, Asked)
    assert last.test == "cut"
    assert plan.expected.most == pytest.approx(10 + 2 / 3)


def test_after_a_test_that_destroyed_evidence_the_others_are_not_asked_again() -> None:
    suspects = tuple(given.Suspect(c, c, 1) for c in "abc")
    tests = (
        given.Test("cut", 1, (("a",), ("b",), ("b",)), destroys=True),
        given.Test("probe", 10, (("0",), ("0",), ("1",))),
    )
    planner = Planner(given.Problem(suspects, tests))
    assert planner.next_tests(SoFar({"cut": "b"})).options == ()


def test_a_swap_ends_the_search_when_the_part_was_it() -> None:
    suspects = tuple(given.Suspect(c, c, 1) for c in "ab")
    swap = given.swap("swap a", 7, "a", suspects)
    planner = Planner(given.Problem(suspects, (swap,)))
    plan = planner.best().plan
    assert isinstance(plan, Asked)
    assert plan.go == {given.MENDED: End({"a": 1}, mends=True), given.AS_BEFORE: End({"b": 1})}
    assert planner.next_tests(SoFar({"swap a": given.MENDED})).options == ()


def test_of_equal_tests_the_one_with_less_to_set_up_fewer_tools_first_by_name_is_chosen() -> None:
    shows = (("0",), ("1",))
    suspects = tuple(given.Suspect(c, c, 1) for c in "ab")

    def first(*tests: given.Test) -> str:
        problem = given.Problem(suspects, tests, (GLOVE_BOX,))
        plan = Planner(problem).best().plan
        assert isinstance(plan, Asked)
        return plan.test

    behind = given.Test("a", 2, shows, {"glove box": "out"})
    plain = given.Test("b", 22, shows, tools=("meter", "lamp"))
    assert first(behind, plain) == "b"
    assert first(plain, given.Test("c", 22, shows, tools=("meter",))) == "c"
    assert first(given.Test("z", 22, shows), given.Test("y", 22, shows)) == "y"


def test_a_plan_is_the_same_however_much_was_asked_before() -> None:
    for seed in range(40):
        problem = random_problem(seed, 7, 6)
        fresh, used = Planner(problem), Planner(problem)
        for test in problem.tests:
            for outcome in test.outcomes:
                used.next_tests(SoFar({test.name: outcome}))
        assert fresh.best().plan == used.best().plan


def test_the_order_in_which_suspects_and_tests_are_given_does_not_matter() -> None:
    problem = network_problem(24, 32, 3)
    turned = given.Problem(
        problem.suspects[::-1],
        tuple(given.Test(t.name, t.minutes, t.shows[::-1], t.needs) for t in problem.tests[::-1]),
    )
    first, second = Planner(problem).best(), Planner(turned).best()
    assert first.expected.most == pytest.approx(second.expected.most, rel=1e-12)
    assert _tests(first.plan) == _tests(second.plan)


def _tests(plan: Asked | End) -> object:
    if isinstance(plan, End):
        return tuple(sorted(plan.suspects))
    return plan.test, {outcome: _tests(after) for outcome, after in plan.go.items()}


@pytest.mark.parametrize("limit", [0, 40, 400])
def test_what_is_not_proven_is_said_to_be_so(limit: int) -> None:
    problem = network_problem(40, 54, 3, straight=0.3)
    best = Planner(problem).best()
    quick = Planner(problem, given.Limits(expansions=limit)).best()
    assert best.expected.is_proven
    assert quick.expected.least <= best.expected.most * (1 + 1e-12)
    assert best.expected.most <= quick.expected.most * (1 + 1e-12)
    assert quick.expected.most == pytest.approx(quick.spent.expected)
    assert quick.expected.gap < 0.5
    assert quick == Planner(problem, given.Limits(expansions=limit)).best()


def test_a_full_table_stops_a_search_and_is_said_as_well() -> None:
    problem = network_problem(40, 54, 3, straight=0.3)
    small = Planner(problem, given.Limits(states=50))
    assert not small.best().expected.is_proven
    assert small.next_tests(SoFar()).options


def test_inspections_of_single_parts_are_worked_out_set_by_set() -> None:
    """The structure that searches worst: the optimum is the order of p / c, by the exchange of
    two neighbours; the last place needs no look."""
    weights, minutes = range(3, 23), [(7 * n) % 11 + 1 for n in range(20)]
    shows = [[int(n == test) for test in range(20)] for n in range(20)]
    found = Planner(matrix_problem(weights, minutes, shows)).best()
    assert found.expected.is_proven
    assert found.expected.most == pytest.approx(_best_of_last(list(weights), minutes))


def _best_of_last(weights: list[int], minutes: list[int]) -> float:
    """By p / c, with each place tried as the last one, which is not looked at."""
    whole, found = sum(weights), []
    for last in range(len(weights)):
        order = [n for n in range(len(weights)) if n != last]
        order.sort(key=lambda n: minutes[n] / weights[n])
        left, total = whole, 0
        for n in order:
            total += left * minutes[n]
            left -= weights[n]
        found.append(total / whole)
    return min(found)


@pytest.mark.parametrize("set_ups", [0, 4])
def test_a_network_is_proven_and_its_next_tests_agree_with_the_plan(set_ups: int) -> None:
    problem = network_problem(40, 54, 1, set_ups)
    planner = Planner(problem)
    found = planner.best()
    assert found.expected.is_proven
    assert isinstance(found.plan, Asked)
    advice = planner.next_tests(SoFar())
    assert advice.options[0].test == found.plan.test
    assert advice.expected.most == pytest.approx(found.expected.most)
    assert advice.options[0].regret.most == pytest.approx(0)
    assert all(o.regret.least >= 0 for o in advice.options)
    assert sum(left.share for left in advice.options[0].leaves) == pytest.approx(1)


def test_searching_and_working_out_every_set_come_to_the_same(monkeypatch) -> None:
    for seed in range(12):
        problem = network_problem(13, 18, seed, set_ups=seed % 3)
        whole = Planner(problem).best()
        with monkeypatch.context() as patched:
            patched.setattr(solver, "_BLOCK", 4)
            patched.setattr(solver, "_LATTICE_AT_MOST", 0)
            patched.setattr(search, "_TWINS_FROM", 9)
            searched = Planner(problem).best()
        assert searched.expected.most == pytest.approx(whole.expected.most, rel=1e-12)
        assert _tests(searched.plan) == _tests(whole.plan)


@pytest.mark.parametrize(
    ("so_far", "sentence"),
    [
        (SoFar({"9": "0"}), "9 is none of the tests."),
        (SoFar({"1": "0", "2": "1"}), "No suspect fits what was seen: check the readings."),
        (SoFar(suspects=frozenset()), "No suspect fits what was seen: check the readings."),
        (SoFar(set_up={"hood": "up"}), "No set-up hood can be up."),
    ],
)
def test_what_cannot_be_is_refused(so_far: SoFar, sentence: str) -> None:
    with pytest.raises(given.CannotOrder) as refused:
        Planner(_two_tests()).next_tests(so_far)
    assert str(refused.value) == sentence
