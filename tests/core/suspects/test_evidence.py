"""What of a recorded walk is evidence, and what was taken together."""

import pytest
from builders import Walk, at_feed, at_verdict

from faulttree.core.suspects.evidence import Read, reads_of, stretches_of
from faulttree.core.suspects.hypotheses import Sighting, Stretch
from faulttree.core.walk.events import Complaint


def _steps(walk: Walk) -> list[str]:
    return [read.step_id for read in reads_of(walk.state)]


def _told(walk: Walk) -> list[tuple[str, Sighting, int]]:
    return [(read.step_id, read.sighting, read.stretch) for read in reads_of(walk.state)]


def test_readings_and_looks_in_order() -> None:
    reads = reads_of(at_feed().go("12.50", "1.20").state)
    assert [read.step_id for read in reads] == [
        "battery-rest", "lamp-seen", "feed", "ground-drop",
    ]  # fmt: skip
    assert [read.outcome for read in reads] == ["", "glows dim", "", ""]
    value = reads[2].value
    assert value is not None
    assert value.value == pytest.approx(12.5)
    assert value.radius > 0.0, "a reading is as wide as its instrument"


def test_a_step_that_cannot_be_done_is_no_evidence() -> None:
    walk = at_feed()
    before = reads_of(walk.state)
    walk.skip("the connector cannot be reached")
    assert reads_of(walk.state) == before


def test_what_was_gone_back_on_is_no_evidence() -> None:
    walk = at_feed().go("12.50")
    assert _steps(walk)[-1] == "feed"
    walk.back()
    assert "feed" not in _steps(walk)


def test_a_changed_answer_counts_once_and_as_it_stands() -> None:
    walk = at_feed().go("12.50", "1.20")
    walk.change("feed", "12.45")
    values = [r.value.value for r in reads_of(walk.state) if r.step_id == "feed" and r.value]
    assert values == [pytest.approx(12.45)]


def test_a_reading_kept_though_it_is_implausible_is_no_evidence() -> None:
    walk = at_feed()
    walk.answer("19.5")
    walk.answer("19.5", confirmed=True)
    assert "feed" not in _steps(walk)


def test_while_the_complaint_stays_as_it_is_readings_are_of_one_stretch() -> None:
    walk = Walk()
    walk.complaint(Complaint.PRESENT)
    walk.go("12.60", "glows dim")
    walk.complaint(Complaint.ABSENT)
    walk.go("12.50")
    walk.complaint(Complaint.PROVOKED, "hinge moved")
    walk.go("1.20")
    assert _told(walk) == [
        ("battery-rest", Sighting.PRESENT, 0),
        ("lamp-seen", Sighting.PRESENT, 0),
        ("feed", Sighting.ABSENT, 1),
        ("ground-drop", Sighting.PRESENT, 2),
    ]


def test_each_sighting_is_a_stretch_of_its_own() -> None:
    """It was noted twice that the complaint shows: between the two it may have been away."""
    walk = Walk()
    walk.complaint(Complaint.PRESENT)
    walk.go("12.60", "glows dim")
    walk.complaint(Complaint.ABSENT)
    walk.complaint(Complaint.PRESENT)
    walk.go("12.50")
    assert [stretch for _, _, stretch in _told(walk)] == [0, 0, 1]


def test_where_nobody_said_how_the_complaint_was_each_reading_is_by_itself() -> None:
    walk = Walk().go("12.60", "glows dim", "12.50")
    assert _told(walk) == [
        ("battery-rest", Sighting.UNKNOWN, 0),
        ("lamp-seen", Sighting.UNKNOWN, 1),
        ("feed", Sighting.UNKNOWN, 2),
    ]


def test_a_reading_knows_what_was_fitted_to_the_car() -> None:
    walk = at_feed().go("0.30", "done", "lights")
    fitted = {read.step_id: read.fitted for read in reads_of(walk.state)}
    assert fitted["feed"] == frozenset()
    assert fitted["bypass-seen"] == {"switch-bypass"}


def test_a_reading_put_right_later_is_still_of_the_car_before_the_bypass() -> None:
    """The slip is noticed while the lead is on; the reading was taken without it."""
    walk = at_feed().go("0.30", "done")
    walk.change("feed", "0.35")
    fitted = {read.step_id: read.fitted for read in reads_of(walk.state)}
    assert fitted["feed"] == frozenset()


def test_stretches_hold_the_places_of_their_readings() -> None:
    def read(stretch: int, sighting: Sighting) -> Read:
        return Read(1, "feed", frozenset(), None, "", sighting, stretch)

    reads = (read(0, Sighting.PRESENT), read(0, Sighting.PRESENT), read(1, Sighting.ABSENT))
    assert stretches_of(reads) == (
        Stretch(Sighting.PRESENT, (0, 1)), Stretch(Sighting.ABSENT, (2,)),
    )  # fmt: skip


def test_what_is_read_after_a_repair_tells_of_another_car() -> None:
    walk = at_verdict().go("1", "1", "1")
    before = _steps(walk)
    assert "ground-drop" in before
    walk.change("feed", "12.40")
    assert sorted(_steps(walk)) == sorted(before), "a slip put right is still of the car as it came"
