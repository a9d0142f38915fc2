"""What a step would read on every car, with its bands."""

import pytest
from benches import TREES, gate, on_bench

from faulttree.core.proof.expected import Expected, expected_at
from faulttree.core.tree import Conclude, Do


def _of(found: tuple[Expected, ...], suspect: str, form: str = "") -> list[Expected]:
    return [
        e
        for e in found
        if (e.row.suspect.id if e.row.suspect else "healthy") == suspect
        and e.row.form.words == form
    ]


def test_a_measurement_is_told_healthy_and_under_every_fault() -> None:
    bench, judge = gate()
    found = expected_at(bench, judge, "feed")
    assert len(found) == len(bench.rows)
    healthy = _of(found, "healthy")
    assert [e.places for e in healthy] == [(1,)] * 3
    assert all(e.span and e.span.value.value > 12 for e in healthy)
    assert [e.places for e in _of(found, "socket.open")] == [(0,)] * 3


def test_its_bands_are_judged_by_the_battery_of_the_same_car() -> None:
    bench, judge = gate()
    weak, normal, charging = _of(expected_at(bench, judge, "feed"), "healthy")
    edges = [e.judged.edges[0].value for e in (weak, normal, charging) if e.judged]
    assert edges[0] < edges[1] < edges[2]


def test_what_is_seen_is_told_by_its_outcomes() -> None:
    bench, judge = gate()
    found = expected_at(bench, judge, "watch")
    assert {e.places for e in _of(found, "lamp.open")} == {(0,)}
    assert {e.places for e in _of(found, "healthy")} == {(2,)}


def test_a_step_without_a_reading_has_none() -> None:
    bench, judge = gate()
    with pytest.raises(KeyError):
        expected_at(bench, judge, "fit-bridge")


@pytest.mark.parametrize("name", TREES)
def test_every_step_of_the_shipped_trees_can_be_told(name: str) -> None:
    bench, judge = on_bench(name)
    for step_id, step in bench.tree.steps.items():
        if isinstance(step, Conclude | Do):
            continue
        healthy = [e for e in expected_at(bench, judge, step_id) if e.row.suspect is None]
        assert len(healthy) == 3
        assert any(e.places for e in healthy), step_id
