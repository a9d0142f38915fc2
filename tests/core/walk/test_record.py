"""The record: every event, and how it stands today."""

from builders import Walk, at_feed

from faulttree.core.walk.events import Complaint
from faulttree.core.walk.record import Standing, record


def _standings(walk):
    return [(line.event.event, line.standing) for line in record(walk.state) if line.visit]


def test_nothing_is_left_out_of_the_record():
    walk = at_feed().go("12.50", "1.20")
    walk.back()
    walk.change("feed", "6.00")
    assert [line.event for line in record(walk.state)] == walk.events


def test_a_changed_answer_is_told_with_the_value_it_had():
    walk = at_feed().go("12.50")
    walk.change("feed", "6.00")
    old, new = (line for line in record(walk.state) if getattr(line.event, "step", "") == "feed")
    assert (old.standing, old.visit.judgement.value.value) == (Standing.CHANGED, 12.5)
    assert (new.standing, new.visit.judgement.value.value) == (Standing.IN_FORCE, 6.0)


def test_a_withdrawn_answer_is_told():
    walk = at_feed().go("12.50")
    walk.back()
    assert _standings(walk)[-1] == ("reading", Standing.WITHDRAWN)


def test_answers_off_the_path_are_told_apart_from_those_in_force():
    walk = at_feed().go("12.50", "1.20")
    walk.change("lamp-seen", "lights")
    assert [s for _, s in _standings(walk)] == [
        Standing.IN_FORCE,
        Standing.CHANGED,
        Standing.ASIDE,
        Standing.ASIDE,
        Standing.IN_FORCE,
    ]


def test_an_answer_that_does_not_lead_on_yet_is_in_force():
    walk = Walk().go("12.20")
    assert _standings(walk) == [("reading", Standing.IN_FORCE)]


def test_a_battery_voltage_beside_an_answer_is_told_without_a_meaning():
    walk = Walk()
    walk.complaint(Complaint.PRESENT)
    walk.skip("battery covered")
    walk.go("glows dim", "12.60")
    line = record(walk.state)[-1]
    assert line.event.slot == "battery-voltage"
    assert line.visit is None
