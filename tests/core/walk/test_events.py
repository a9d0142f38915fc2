"""Events to JSON and back: what is recorded is what is read again."""

import json

import pytest
from builders import Walk, at_verdict, lamp_with
from pydantic import ValidationError

from faulttree.core.usual_instruments import built_in
from faulttree.core.walk.events import (
    InstrumentChosen,
    Intake,
    NoteAdded,
    Started,
    event_from_json,
    event_to_json,
)


def _again(event):
    return event_from_json(json.loads(json.dumps(event_to_json(event), allow_nan=False)))


def test_every_event_of_a_whole_walk_is_read_back_as_it_was_recorded():
    walk = at_verdict().go("accept", "1", "1", "clean", "clean", "clean", "close")
    assert [_again(event) for event in walk.events] == walk.events


@pytest.mark.parametrize("instrument", built_in(), ids=lambda i: i.id)
def test_an_instrument_in_an_event_is_read_back_whole(instrument):
    started = Started(tree_id="a", tree_version="1.0.0", tree_hash="0", instruments=(instrument,))
    assert _again(started) == started
    assert _again(InstrumentChosen(instrument=instrument)) == InstrumentChosen(
        instrument=instrument
    )


def test_fields_at_their_usual_value_take_no_room():
    assert event_to_json(NoteAdded(seq=4, at="now", step="feed", text="wet")) == {
        "event": "note",
        "seq": 4,
        "at": "now",
        "step": "feed",
        "text": "wet",
    }


def test_a_field_of_a_later_version_is_passed_over():
    data = {"event": "note", "step": "feed", "text": "wet", "colour": "blue"}
    assert event_from_json(data) == NoteAdded(step="feed", text="wet")


def test_an_event_of_a_later_version_is_refused():
    with pytest.raises(ValidationError):
        event_from_json({"event": "photographed", "step": "feed"})


def test_an_open_circuit_worked_out_is_recorded_as_ol():
    tree = lamp_with(
        ("value: ground-loss / battery-voltage\n", "value: max(lamp-resistance, 1 ohm)\n"),
        ("quantity: ratio", "quantity: resistance"),
        ("plausible: {from: -10 %, below: 150 %}", "plausible: {from: 0 ohm, below: 40 Mohm}"),
        ("below: 2 %", "below: 20 ohm"),
        ("{name: open, is: fault, go: lamp-open", "{name: open, is: fault, go: feed"),
    )
    walk = Walk(tree=tree).go(
        "12.60", "stays dark", "both light", "LX-5", "OL", "12.50", "0.01", "1"
    )
    worked_out = walk.state.answers["lamp-share"]
    assert worked_out.value == "OL"
    assert _again(worked_out) == worked_out
    assert walk.labels[-1] == "too much"


def test_bytes_that_were_no_text_are_recorded_as_question_marks():
    assert Intake(words="caf\udce9").words == "caf?"
    assert NoteAdded(step="feed", text="caf\udce9").text == "caf?"
