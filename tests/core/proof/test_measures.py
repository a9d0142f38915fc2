"""The figures of a proof, by hand from the weights of a few faults.

Terms: IEEE Std 1522-2004 and MIL-STD-2165; the formulas stand in core/proof/measures.py.
"""

import pytest
from benches import Changes, gate, gate_proof

from faulttree.core.proof.ends import Worth
from faulttree.core.proof.measures import Measures, holds_up, measures_of
from faulttree.core.proof.standing import Mode
from faulttree.core.proof.tree_proof import TreeProof

ONLY: Changes = (
    ("emf: 12.6 V}", "emf: 12.6 V, faults: {flat: {weight: 0}, internal: {weight: 0}}}"),
    ("rating: 10 A}", "rating: 10 A, faults: {series: {weight: 0}}}"),
    ("words: relay socket}", "words: relay socket, faults: {series: {weight: 0}}}"),
    (
        "faults: {coil-turns: {weight: 0}, main-make-welded: {weight: 0}}",
        "faults: {coil-turns: {weight: 0}, main-make-welded: {weight: 0}, pull-in: {weight: 0}, "
        "main-make-series: {weight: 0}}",
    ),
    (
        "words: reversing switch\n    faults: {main-stuck: {weight: 0}}",
        "words: reversing switch\n    faults: {main-stuck: {weight: 0}, main-series: {weight: 0}}",
    ),
    (
        "words: spring plates of the gate\n    faults: {main-stuck: {weight: 0}}",
        "words: spring plates of the gate\n"
        "    faults: {main-stuck: {weight: 0}, main-series: {weight: 0}}",
    ),
    ("shifted-down: {weight: 0.5}", "shifted-down: {weight: 0}"),
    ("power: 21 W, part: bulb}", "power: 21 W, part: bulb, faults: {shorted: {weight: 0}}}"),
    ("words: ground of the gate}", "words: ground of the gate, faults: {series: {weight: 0}}}"),
)
"""Leaves opens alone: fuse 2, socket 2, relay coil 0.7 and contact 1, switch 1, plates 1, lamp 3,
ground 1.5; with them the situation of the packed housing, 1. All in all 13.2."""
ALL = 13.2
GROUPED = 2 + 0.7 + 1
"""Relay and its socket, two parts that share a verdict."""


def _proof(*bench: tuple[str, str]) -> tuple[TreeProof, Measures]:
    proof = gate_proof(circuit=ONLY, bench=bench)
    return proof, measures_of(proof)


def test_every_open_is_detected_and_most_are_isolated_to_one_part() -> None:
    _, found = _proof()
    assert found.faults == 9
    assert found.cars == 9 * 3
    assert found.quiet == 0
    assert found.detected == pytest.approx(1.0)
    assert found.isolated == pytest.approx((ALL - GROUPED) / ALL)
    assert found.isolated_faults == 6


def test_isolation_is_counted_up_over_the_size_of_the_group() -> None:
    _, found = _proof()
    assert [size for size, _ in found.isolated_to] == [1, 2]
    assert [share for _, share in found.isolated_to] == pytest.approx([(ALL - GROUPED) / ALL, 1.0])
    assert found.group_size == pytest.approx((ALL - GROUPED + 2 * GROUPED) / ALL)


def test_minutes_are_those_of_the_steps() -> None:
    proof, found = _proof()
    lamp = next(s for s in proof.bench.suspects if s.id == "lamp.open")
    # battery 2, watch 1, chime 1, relay 1, gate 1, feed 2, ground 2, current 2, leads 1, bulb 2
    assert {w.mean_minutes for w in proof.of(lamp, Mode.PRESENT)} == {15.0}
    assert found.worst_minutes == 15.0
    assert 5.0 < found.mean_minutes < 15.0


def test_a_wrong_name_is_a_wrong_conclusion_and_brings_the_tree_down() -> None:
    proof, found = _proof(
        ("names: [lamp]", "names: [ground]"), ("replaces: [lamp]}", "replaces: [lamp, ground]}")
    )
    assert found.wrong == pytest.approx(3 / ALL)
    assert not holds_up(proof, found, 0.0)
    suspects = [proof.row(w).suspect for w, _ in proof.wrong]
    assert {s.id for s in suspects if s} == {"lamp.open"}


def test_less_isolation_than_declared_brings_the_tree_down() -> None:
    proof, found = _proof()
    assert holds_up(proof, found, found.isolated)
    assert not holds_up(proof, found, found.isolated + 0.001)


def test_a_healthy_car_is_cleared() -> None:
    proof, found = _proof()
    assert found.false_alarms == (0, 3)
    assert {e.worth for w in proof.of(None) for e in w.ends} == {Worth.CLEARED}


def test_an_intermittent_fault_that_is_away_may_be_missed_but_not_mistaken() -> None:
    comes = "words: ground of the gate, faults: {series: {weight: 0}, open: {weight: 1.5, "
    comes += "intermittent: {trigger: vibration, chance: 30 %}}}}"
    circuit = (*ONLY[:-1], ("words: ground of the gate}", comes))
    proof = gate_proof(circuit=circuit)
    ground = next(s for s in proof.bench.suspects if s.id == "ground.open")
    back = {e.worth for w in proof.of(ground, Mode.COMES_BACK) for e in w.ends}
    assert Worth.NAMED in back
    assert Worth.MISSED in back
    assert measures_of(proof).returning is not None


def test_cars_without_the_complaint_count_in_no_share() -> None:
    proof = gate_proof()
    found = measures_of(proof)
    quiet = [w for w in proof.walked if w.mode is Mode.PRESENT and not proof.shows(w)]
    assert found.quiet == len(quiet) > 0
    mild = next(s for s in proof.bench.suspects if s.id == "switch.main-series")
    assert not any(proof.shows(w) for w in proof.of(mild))


def test_the_weights_left_are_those_added_up_by_hand() -> None:
    bench, _ = gate(circuit=ONLY)
    assert sum(s.weight for s in bench.suspects) == pytest.approx(ALL)
