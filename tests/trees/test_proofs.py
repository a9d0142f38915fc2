"""The shipped trees are proved: no wrong conclusion, and nearly every fault down to one part."""

import pytest
from benches import TREES, on_bench, opened, proof_of

from faulttree.core.circuit.faults import faults_of
from faulttree.core.proof.apart import splits
from faulttree.core.proof.measures import holds_up, measures_of
from faulttree.core.proof.standing import Mode
from faulttree.core.tree import Conclude

ISOLATED = 0.95
"""Share of the fault weight that a tree must bring down to one part."""

each_tree = pytest.mark.parametrize("name", TREES)


@each_tree
def test_no_conclusion_is_wrong_at_any_supply_in_any_form(name: str) -> None:
    wrong = [
        (suspect.id if suspect else "healthy", proof.row(w).supply, w.mode, e.end.conclusion)
        for proof in (proof_of(name),)
        for w, e in proof.wrong
        for suspect in (proof.row(w).suspect,)
    ]
    assert wrong == []


@each_tree
def test_nearly_all_fault_weight_is_isolated_to_one_part(name: str) -> None:
    found = measures_of(proof_of(name))
    assert found.isolated >= ISOLATED
    assert found.detected >= 0.99
    assert holds_up(proof_of(name), found, ISOLATED)


@each_tree
def test_what_is_not_is_in_a_named_group_that_no_test_can_split(name: str) -> None:
    proof = proof_of(name)
    assert proof.ungrouped == ()
    assert list(splits(*on_bench(name))) == []


@each_tree
def test_no_healthy_car_is_condemned(name: str) -> None:
    assert measures_of(proof_of(name)).false_alarms == (0, 3)


@each_tree
def test_most_faults_that_come_and_go_can_be_isolated_while_they_are_there(name: str) -> None:
    proof = proof_of(name)
    assert any(w.mode is Mode.COMES_BACK for w in proof.walked)
    assert (measures_of(proof).returning or 0.0) >= ISOLATED


@each_tree
def test_a_model_has_enough_faults_and_every_fault_verdict_is_reached(name: str) -> None:
    there = opened(name)
    assert len(faults_of(there.circuit.document)) >= 15
    steps = there.tree.document.steps
    verdicts = {n for n, s in steps.items() if isinstance(s, Conclude) and s.result == "fault"}
    assert verdicts.isdisjoint(proof_of(name).unreached)


@each_tree
def test_no_test_is_idle_without_need(name: str) -> None:
    """A test that parts no cars is there for what no circuit shows: it is named here."""
    known = {
        "ac-airflow-fades": {"identity"},
        "ac-clutch-cycles-fast": {"battery-running"},
        "ac-clutch-drops-out-hot": {"fin-heat", "margin-worn", "liquid-pipe"},
        "ac-clutch-request": {"battery-rest"},
        "ac-poor-cooling": {"ambient", "vent-margin"},
        "ac-warm-at-idle": {
            *("air-outside", "identify-for-switch", "switch-pressure", "liquid-pipe", "weigh"),
        },
    }
    assert set(proof_of(name).idle) <= known.get(name, set())
