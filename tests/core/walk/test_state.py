"""The fold: the same events always give the same state, and nothing is ever lost from them."""

import json

import pytest
from builders import Walk, at_feed, at_verdict, lamp, lamp_sheet

from faulttree.core.instruments import InstrumentClass
from faulttree.core.usual_instruments import built_in
from faulttree.core.walk.events import (
    Complaint,
    InstrumentChosen,
    VehicleDataGiven,
    WentBack,
    event_from_json,
    event_to_json,
)
from faulttree.core.walk.respond import Refused
from faulttree.core.walk.state import fold


def test_the_same_events_give_the_same_state():
    walk = at_verdict()
    assert fold(lamp(), lamp_sheet(), walk.events) == fold(lamp(), lamp_sheet(), walk.events)


def test_a_recorded_walk_replays_to_the_live_state():
    walk = at_verdict().go("accept", "1", "2", "clean")
    lines = [json.dumps(event_to_json(event)) for event in walk.events]
    replayed = fold(lamp(), lamp_sheet(), [event_from_json(json.loads(line)) for line in lines])
    assert replayed == walk.state


def test_going_back_until_refused_leads_to_the_start_and_keeps_every_event():
    walk = at_verdict().go("accept", "1", "1", "clean")
    walk.change("feed", "12.45")
    before = list(walk.events)
    count = 0
    while not isinstance(walk.back(), Refused):
        count += 1
        assert count < 50
    assert walk.path == []
    assert walk.at.step_id == "battery-rest"
    assert walk.events[: len(before)] == before
    assert all(isinstance(event, WentBack) for event in walk.events[len(before) :])


def test_each_going_back_gives_the_state_before_except_for_the_record():
    walk = Walk()
    walk.complaint(Complaint.PRESENT)
    seen = []
    for text in ("12.60", "glows dim", "12.50", "1.20", "accept", "1", "1", "clean"):
        seen.append((walk.path, walk.at.stage, walk.state.latest, walk.state.cycles))
        walk.go(text)
    for before in reversed(seen):
        walk.back()
        assert (walk.path, walk.at.stage, walk.state.latest, walk.state.cycles) == before


def test_a_changed_answer_stands_and_the_old_one_stays_in_the_record():
    walk = at_feed().go("12.50")
    old = walk.state.answers["feed"]
    walk.change("feed", "6.00")
    assert walk.state.answers["feed"].text == "6.00"
    assert old in walk.state.events
    assert walk.state.in_force(old.seq) == walk.state.answers["feed"].seq


def test_going_back_on_a_change_brings_the_old_answer_back():
    walk = at_feed().go("12.50")
    walk.change("feed", "6.00")
    assert walk.path[-1] == "feed"
    walk.back()
    assert walk.state.answers["feed"].text == "12.50"


def test_a_battery_voltage_taken_beside_an_answer_is_no_answer_and_is_not_gone_back_on():
    walk = at_feed()
    walk.clock.move(11)
    walk.go("12.40", "12.30")
    assert walk.state.answers["feed"].text == "12.30"
    walk.back()
    assert "feed" not in walk.state.answers
    assert walk.ask.kind == "reading", "the battery voltage still counts"


def test_vehicle_data_told_last_counts_and_unknown_hides_the_sheet():
    walk = Walk()
    walk.record(VehicleDataGiven(name="lamp-power", text="2 A", value=2.0))
    assert walk.state.vehicle_values["lamp-power"].value == 2.0
    walk.record(VehicleDataGiven(name="lamp-power", text=None))
    assert "lamp-power" not in walk.state.vehicle_values


def test_values_come_from_the_sheet_until_something_else_is_told():
    assert Walk().state.vehicle_values["lamp-power"].value == 1.75
    assert Walk(sheet=None).state.vehicle_values == {}


def test_an_instrument_counts_from_where_it_was_chosen():
    own = built_in()[0].model_copy(update={"id": "own-meter", "name": "Own meter"})
    walk = Walk().go("12.60")
    walk.record(InstrumentChosen(instrument=own))
    walk.go("glows dim", "12.50")
    used = [walk.state.readings[v.answer.seq][1].id for v in walk.at.path if v.judgement]
    assert used == ["usual-meter", "own-meter"]
    assert walk.state.instruments[InstrumentClass.METER].id == "own-meter"


def test_what_was_fitted_stays_listed_until_it_is_taken_out():
    walk = at_feed().go("0.00", "done")
    assert list(walk.state.fitted) == ["switch-bypass"]
    walk.go("lights", "done")
    assert walk.state.fitted == {}


def test_what_could_not_be_taken_out_stays_listed():
    walk = at_feed().go("0.00", "done", "lights")
    walk.skip("cannot reach it")
    assert list(walk.state.fitted) == ["switch-bypass"]


def test_the_complaint_is_unknown_until_it_is_told():
    walk = Walk()
    assert walk.state.complaint.complaint is Complaint.UNKNOWN
    walk.complaint(Complaint.PROVOKED, "rocking the lever")
    assert walk.state.complaint.how == "rocking the lever"


@pytest.mark.parametrize("start", ["2026-11-25T09:30:00+00:00", "", "no time at all"])
def test_the_order_of_events_counts_and_not_their_time(start):
    events = [e.model_copy(update={"at": start}) for e in at_verdict().events]
    assert list(fold(lamp(), lamp_sheet(), events).answers) == [
        "battery-rest",
        "lamp-seen",
        "feed",
        "ground-drop",
    ]
