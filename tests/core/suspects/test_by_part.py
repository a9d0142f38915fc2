"""Suspects by part: a technician thinks in parts, and two faults of one part are one part."""

import pytest
from suspicions import ranked, suspicion

from faulttree.core.suspects.by_part import by_part, cleared_faults
from faulttree.core.suspects.shares import Share, Standing, share_of


def test_a_part_is_as_likely_as_its_faults_together():
    found = suspicion(
        ranked("lamp.open", 0.5, 0.2, 0.1),
        ranked("wire.open", 0.3, 0.3, 0.5),
        ranked("lamp.shorted", 0.1, 0.3, 0.1),
    )
    lamp, wire = by_part(found)
    assert (lamp.name, wire.name) == ("lamp", "wire")
    assert lamp.share == Share(pytest.approx(0.6), pytest.approx(0.5), pytest.approx(0.2))
    assert [fault.suspect.id for fault in lamp.faults] == ["lamp.open", "lamp.shorted"]


def test_two_faults_of_one_part_at_once_count_once():
    """P(A or B) = P(A) + P(B) - P(A and B)."""
    found = suspicion(
        ranked("lamp.open", 0.6, 0.4, 0.1),
        ranked("lamp.shorted", 0.5, 0.3, 0.1),
        ranked("wire.open", 0.2, 0.1, 0.1),
        pairs=((0, 1, 0.3, 0.2), (0, 2, 0.2, 0.1)),
    )
    lamp = share_of(found, {"lamp.open", "lamp.shorted"})
    assert lamp.now == pytest.approx(0.6 + 0.5 - 0.3)
    assert lamp.before == pytest.approx(0.4 + 0.3 - 0.2)
    assert share_of(found, {"lamp.open"}).now == pytest.approx(0.6)


@pytest.mark.parametrize(
    ("now", "prior", "standing"),
    [
        (0.019, 0.2, Standing.CLEARED),
        (0.021, 0.2, Standing.OPEN),
        (0.49, 0.2, Standing.OPEN),
        (0.5, 0.2, Standing.LIKELY),
        (0.0, 0.0, Standing.OPEN),
    ],
)
def test_cleared_is_less_than_a_tenth_of_before_and_likely_most_of_the_weight(now, prior, standing):
    assert Share(now, 0.1, prior).standing is standing


def test_faults_are_cleared_one_by_one():
    found = suspicion(
        ranked("lamp.open", 0.9, 0.5, 0.3),
        ranked("lamp.shorted", 0.001, 0.1, 0.1),
        ranked("wire.open", 0.002, 0.2, 0.3),
    )
    assert [each.suspect.id for each in cleared_faults(found)] == ["lamp.shorted", "wire.open"]
    lamp, wire = by_part(found)
    assert (lamp.is_cleared, wire.is_cleared) == (False, True)


def test_nothing_is_likely_where_nothing_is_asked_for():
    assert share_of(suspicion(), {"lamp.open"}) == Share(0.0, 0.0, 0.0)
