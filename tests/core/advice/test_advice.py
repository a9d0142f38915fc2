"""Tests of a tree as a problem of least minutes: what they tell, the best order, the next test."""

from dataclasses import replace

import pytest
from benches import gate

from faulttree.core.advice.as_problem import READY, problem_of
from faulttree.core.advice.compared import Compared, compare
from faulttree.core.advice.next_test import next_tests
from faulttree.core.advice.outcomes import HEALTHY, Tellings, tellings
from faulttree.core.order.plan import Asked
from faulttree.core.order.planner import Planner
from faulttree.core.order.problem import CannotOrder


@pytest.fixture(scope="module")
def told() -> Tellings:
    return tellings(*gate())


@pytest.fixture(scope="module")
def compared(told: Tellings) -> Compared:
    return compare(*gate(), told)


def _shares(told: Tellings, **only: float) -> dict[str, float]:
    named = {name.replace("__", ".").replace("_", "-"): share for name, share in only.items()}
    return named or {r.suspect.id: r.weight for r in told.rows if r.suspect}


def test_cars_that_show_the_complaint_are_told_apart_and_from_a_sound_one(told: Tellings) -> None:
    bench, _ = gate()
    ill = [car for car, row in zip(told.cars, told.rows, strict=True) if row.suspect is not HEALTHY]
    assert len(ill) == len(told.cars) - 1
    assert all(bench.complaint[car] == 2 for car in ill)
    assert {row.supply for row in told.rows} == {"normal"}


def test_what_the_author_gives_no_weight_takes_no_part() -> None:
    weightless = ("part: lamp housing, inputs", "part: lamp housing, weight: 0, inputs")
    bench = gate(bench=(weightless,))
    told = tellings(*bench)
    assert "mud-packed" not in {row.suspect.id for row in told.rows if row.suspect}
    assert compare(*bench, told).best.expected.is_proven


def test_a_test_that_tells_nothing_apart_is_none(told: Tellings) -> None:
    names = {test.step_id for test in told.tests}
    assert "lead-ohms" not in names  # it reads the leads alone
    assert "gate-seen" not in names  # the circuit cannot answer it
    assert {"watch", "feed", "ground-drop"} <= names


def test_what_a_test_needs_is_paid_for_once(told: Tellings) -> None:
    problem = problem_of(told)
    feed = next(t for t in problem.tests if t.name == "feed")
    assert feed.minutes == 1
    assert feed.needs == {"gate-trim": READY}
    (trim,) = problem.set_ups
    assert trim.minutes[READY] == 4
    assert problem_of(told, ready=("gate-trim",)).set_ups[0].at_first == READY


def test_cars_without_weight_are_no_longer_suspect(told: Tellings) -> None:
    problem = problem_of(told, weights={told.cars[0]: 1.0})
    assert len(problem.suspects) == 1
    with pytest.raises(CannotOrder):
        problem_of(told, weights={})


def test_the_best_order_is_proven_and_takes_no_more_than_the_tree(compared: Compared) -> None:
    assert compared.best.expected.is_proven
    assert compared.best.expected.most <= compared.tree.expected
    assert compared.best.spent.worst > 0
    assert isinstance(compared.best.plan, Asked)


def test_losses_are_told_with_the_better_test(compared: Compared) -> None:
    assert compared.losses
    for loss in compared.losses:
        assert loss.better != loss.step_id
        assert 0 < loss.share <= 1
        assert loss.regret.most >= 0


def test_the_next_test_tells_the_suspects_apart(told: Tellings) -> None:
    shares = _shares(told, lamp__open=0.5, ground__open=0.5)
    found = next_tests(told, shares, (), "watch")
    assert found.best
    first = found.best[0]
    assert {part for leaves in first.leaves for part in leaves.parts} == {
        "bulb",
        "ground of the gate",
    }
    assert all(len(leaves.parts) == 1 for leaves in first.leaves)
    assert first.regret == pytest.approx(0.0, abs=1e-9)


def test_what_was_done_is_not_proposed_again(told: Tellings) -> None:
    shares = _shares(told, lamp__open=0.5, ground__open=0.5)
    first = next_tests(told, shares, (), "watch").best[0].step_id
    again = next_tests(told, shares, (first,), "watch").best
    assert first not in {p.step_id for p in again}


def test_with_one_part_left_there_is_nothing_to_test(told: Tellings) -> None:
    assert next_tests(told, {"lamp.open": 1.0}, (), "watch").best == ()
    assert next_tests(told, {}, (), "watch").best == ()


def test_a_test_that_may_cure_the_fault_comes_only_where_no_other_leads_on(told: Tellings) -> None:
    shares = _shares(told, lamp__open=0.5, ground__open=0.5)
    every = [t.step_id for t in told.tests]
    curing = tuple(replace(t, disturbs=t.step_id == "ground-drop") for t in told.tests)
    curing_told = replace(told, tests=curing)
    found = next_tests(curing_told, shares, (), "watch", count=9)
    assert "ground-drop" not in {p.step_id for p in found.best}
    rest = [name for name in every if name != "ground-drop"]
    (last,) = next_tests(curing_told, shares, (), "watch", cannot=rest).best
    assert (last.step_id, last.disturbs) == ("ground-drop", True)


def test_the_trees_own_test_is_compared_and_what_is_left_is_weighed(told: Tellings) -> None:
    shares = _shares(told, lamp__open=0.6, ground__open=0.3, switch__main_open=0.1)
    found = next_tests(told, shares, (), "feed", count=1)
    assert len(found.best) == 1
    assert found.own is not None
    assert found.own.regret == pytest.approx(found.own.expected - found.best[0].expected)
    for proposal in (*found.best, found.own):
        assert sum(leaves.share for leaves in proposal.leaves) == pytest.approx(1.0)
        bulb = sum(leaves.share * leaves.parts.get("bulb", 0.0) for leaves in proposal.leaves)
        assert bulb == pytest.approx(0.6)
        rest = sum(leaves.share * leaves.minutes for leaves in proposal.leaves)
        assert proposal.expected == pytest.approx(proposal.minutes + rest)


def test_what_is_ready_costs_no_more_and_what_could_not_be_done_made_nothing_ready(
    told: Tellings,
) -> None:
    shares = _shares(told, lamp__open=0.5, ground__open=0.5)
    needs = frozenset({"gate-trim"})
    both = replace(told, tests=tuple(replace(t, needs=needs | t.needs) for t in told.tests))

    def bridged(**given: tuple[str, ...]) -> float:
        found = next_tests(
            both, shares, given.get("done", ()), "bridged", 1, given.get("cannot", ())
        )
        assert found.own is not None
        return found.own.minutes

    assert bridged() == bridged(cannot=("watch",)) == bridged(done=("watch",)) + 4


def test_its_minutes_are_not_far_above_the_proven_least(told: Tellings) -> None:
    ill = [(c, r) for c, r in zip(told.cars, told.rows, strict=True) if r.suspect is not HEALTHY]
    shares: dict[str, float] = {}
    for _, row in ill:
        assert row.suspect is not None
        shares[row.suspect.id] = shares.get(row.suspect.id, 0.0) + row.weight
    found = next_tests(told, shares, (), "feed")
    proven = Planner(problem_of(told, {car: row.weight for car, row in ill})).best().expected
    assert proven.is_proven
    assert proven.least <= found.best[0].expected * 1.001
    assert found.best[0].expected <= 1.15 * proven.least
