"""A case being worked on: what is told as recorded is on disk, whatever happens around it."""

import errno
import os
import shutil

import pytest
from builders import Clock, answered, lamp_case

from faulttree.core.instruments import Instrument
from faulttree.core.walk.asks import AskKind
from faulttree.core.walk.events import Complaint, Intake
from faulttree.core.walk.path import Stage
from faulttree.core.walk.respond import Confirm, NeedsReason, Recorded, Refused
from faulttree.files import cases
from faulttree.files.cases import CaseError
from faulttree.session import Session, wall_clock

OWN_METER = Instrument.model_validate(
    {
        "id": "own-meter",
        "name": "Own meter",
        "class": "meter",
        "load": "10 Mohm",
        "functions": {"voltage": [{"up-to": "60 V", "resolution": "0.01 V", "accuracy": "1 %"}]},
    }
)


def _seqs(session):
    return [record["seq"] for record in cases.read_case(session.folder).records]


@pytest.fixture
def clock():
    """A clock that the test moves."""
    return Clock()


@pytest.fixture
def session(tmp_path, clock):
    """A new case with the complaint present, at its first step."""
    begun = lamp_case(tmp_path, clock)
    begun.set_complaint(Complaint.PRESENT)
    return begun


def test_a_new_case_pins_its_tree_and_sheet(tmp_path):
    session = lamp_case(tmp_path, intake=Intake(words="dark"), instruments=(OWN_METER,))
    started = session.state.started
    assert (started.tree_id, started.tree_version, started.vehicle_id) == (
        "lamp",
        "1.1.0",
        "brindale-finch-1989",
    )
    assert len(started.tree_hash) == 64
    assert started.vehicle_name == "Brindale Finch 1.3, 1988-1991"
    assert session.ask.step_id == "battery-rest"


def test_a_case_is_gone_on_with_where_it_stood(session):
    answered(session, "12.60", "glows dim", "12.50")
    again = Session.resume(session.folder)
    assert again.state == session.state
    assert again.id == session.id
    assert answered(again, "1.20").position.step_id == "ground-bad"


def test_a_case_with_instruments_of_the_shop_is_gone_on_with(tmp_path):
    session = answered(lamp_case(tmp_path, instruments=(OWN_METER,)), "12.60")
    session.choose_instrument(OWN_METER.model_copy(update={"id": "other-meter"}))
    again = Session.resume(session.folder)
    assert again.state == session.state
    assert again.state.readings[2][1] == OWN_METER


def test_an_answer_is_on_disk_when_it_is_told_as_recorded(session):
    outcome = session.answer("12.60")
    assert [e.seq for e in outcome.events] == [3]
    assert _seqs(session) == [1, 2, 3]


def test_what_is_not_accepted_is_not_on_disk(session):
    assert isinstance(session.answer("abc"), Refused)
    assert isinstance(session.answer("5.5"), Confirm)
    assert isinstance(session.skip(""), NeedsReason)
    assert _seqs(session) == [1, 2]


def test_a_full_disk_refuses_the_answer_and_the_walk_stands_where_it_stood(session, monkeypatch):
    def no_space(_handle):
        raise OSError(errno.ENOSPC, os.strerror(errno.ENOSPC))

    with monkeypatch.context() as full:
        full.setattr("faulttree.files.journal._write_all", lambda *_: no_space(0))
        outcome = session.answer("12.60")
    assert isinstance(outcome, Refused)
    assert "No space left on device" in outcome.message
    assert session.position.step_id == "battery-rest"
    assert isinstance(session.answer("12.60"), Recorded)
    assert _seqs(session) == [1, 2, 3]


def test_a_case_folder_taken_away_is_told_and_nothing_crashes(session):
    shutil.rmtree(session.folder)
    outcome = session.answer("12.60")
    assert isinstance(outcome, Refused)
    assert "Not recorded" in outcome.message
    with pytest.raises(CaseError):
        Session.resume(session.folder)


# ---------------------------------------------------------------------------- the question stands


def test_a_reading_is_never_taken_for_the_battery_that_grew_old_meanwhile(session, clock):
    answered(session, "12.60", "glows dim")
    assert session.ask.kind is AskKind.READING
    clock.move(14)
    answered(session, "12.50")
    reading = session.state.answers["feed"]
    assert (reading.text, reading.slot) == ("12.50", "step")
    assert reading.battery.age_s == 14 * 60


def test_tries_counted_leave_a_reading_as_it_is_asked_and_renew_a_proving_run(session, clock):
    answered(session, "12.60", "glows dim")
    assert session.ask.kind is AskKind.READING
    clock.move(14)
    assert isinstance(session.count_tries("2 of 4"), Recorded)
    assert session.ask.kind is AskKind.READING
    assert isinstance(session.count_tries("5"), Refused)
    answered(session, "12.50", "1.20", "accept", "1", "1")
    assert "0 of 12 clean" in session.ask.prompt
    session.count_tries("3 of 5")
    assert "0 of 7 clean" in session.ask.prompt
    assert Session.resume(session.folder).ask.prompt == session.ask.prompt


def test_a_question_put_anew_asks_for_the_battery_that_grew_old(session, clock):
    answered(session, "12.60")
    clock.move(14)
    answered(session, "glows dim")
    assert session.ask.kind is AskKind.BATTERY
    assert Session.resume(session.folder, clock).ask.kind is AskKind.BATTERY


def test_a_note_or_the_complaint_leaves_the_question_as_it_stands(session, clock):
    answered(session, "12.60", "glows dim")
    asked = session.ask
    clock.move(14)
    session.add_note("rocking the lever")
    session.set_complaint(Complaint.PROVOKED, "rocking")
    assert session.ask == asked


def test_a_clock_set_back_is_no_trouble(session, clock):
    answered(session, "12.60")
    clock.move(-600)
    answered(session, "glows dim")
    assert session.ask.kind is AskKind.BATTERY
    answered(session, "12.60", "12.50")
    assert _seqs(session) == list(range(1, 7))
    assert Session.resume(session.folder, clock).state == session.state


# ------------------------------------------------------------------------------ changing answers


def test_an_earlier_answer_is_changed_and_the_walk_goes_on(session):
    answered(session, "12.60", "glows dim", "12.50", "1.20")
    session.begin_change("feed")
    assert session.is_changing
    assert session.ask.step_id == "feed"
    answered(session, "12.45")
    assert not session.is_changing
    assert session.state.answers["feed"].text == "12.45"
    assert session.position.step_id == "ground-bad"


def test_going_back_leaves_off_changing_and_withdraws_nothing(session):
    answered(session, "12.60", "glows dim")
    session.begin_change("battery-rest")
    session.go_back()
    assert not session.is_changing
    assert session.position.step_id == "feed"
    assert _seqs(session)[-1] == 4


def test_the_battery_asked_for_during_a_change_does_not_end_it(session, clock):
    answered(session, "12.60", "glows dim", "12.50")
    clock.move(20)
    session.begin_change("feed")
    assert session.ask.kind is AskKind.BATTERY
    answered(session, "12.40")
    assert session.is_changing
    assert session.ask.kind is AskKind.READING
    answered(session, "12.30")
    assert not session.is_changing


def test_skipping_while_changing_skips_the_step_that_is_changed(session):
    answered(session, "12.60", "glows dim", "12.50")
    session.begin_change("feed")
    session.skip("the probe slipped")
    assert session.position.path[-1].label == "cannot be done"
    assert session.position.path[-1].step_id == "feed"
    assert not session.is_changing
    assert session.position.step_id == "ground-drop"


def test_a_battery_voltage_given_while_changing_is_under_the_conditions_of_that_step(session):
    answered(session, "12.60", "glows dim", "12.50")
    session.begin_change("battery-rest")
    session.measure_battery("12.55")
    assert session.state.events[-1].place.key == "out"
    assert session.state.events[-1].step == "battery-rest"


def test_a_changed_reading_that_is_too_close_and_measured_again_is_asked_for_again(session):
    answered(session, "12.60", "glows dim", "12.50", "1.20")
    session.begin_change("feed")
    answered(session, "12.07")
    assert session.position.stage is Stage.TOO_CLOSE
    answered(session, "m")
    assert session.ask.step_id == "feed"
    assert session.ask.kind is AskKind.READING
    answered(session, "11.00")
    assert session.position.path[-1].label == "weak feed"


def test_vehicle_data_told_wrongly_can_be_told_again(session):
    answered(session, "12.60", "glows dim", "11.00", "2 V")
    assert isinstance(session.begin_change("drop-allowed"), Recorded)
    assert session.ask.kind is AskKind.VEHICLE_VALUE
    answered(session, "0.2 V")
    assert not session.is_changing
    assert session.state.vehicle_values["drop-allowed"].value == 0.2
    assert isinstance(session.begin_change("no-such-name"), Refused)


# ----------------------------------------------------------------------------------- two windows


def test_the_second_window_is_told_and_takes_in_what_the_first_recorded(session):
    second = Session.resume(session.folder)
    answered(session, "12.60")
    outcome = second.answer("12.10")
    assert isinstance(outcome, Refused)
    assert "Another window works on this case and recorded 1 more" in outcome.message
    assert "not recorded" in outcome.message
    assert second.state == session.state
    assert _seqs(session) == [1, 2, 3]


def test_two_windows_in_turn_lose_and_double_nothing(session):
    second = Session.resume(session.folder)
    windows = [session, second] * 4
    for number, window in enumerate(windows):
        while not isinstance(window.add_note(f"note {number}"), Recorded):
            pass
    assert _seqs(session) == list(range(1, 11))
    texts = [r.get("text") for r in cases.read_case(session.folder).records[2:]]
    assert texts == [f"note {n}" for n in range(8)]


def test_a_change_begun_in_one_window_is_left_off_when_the_other_recorded(session):
    answered(session, "12.60", "glows dim")
    second = Session.resume(session.folder)
    second.begin_change("battery-rest")
    answered(session, "12.50")
    assert isinstance(second.answer("12.30"), Refused)
    assert not second.is_changing
    assert second.position.step_id == "ground-drop"


# ----------------------------------------------------------------------------------------- ending


def test_a_closed_case_is_opened_closed_and_takes_notes_only(session):
    answered(session, "12.60", "lights", "1", "close")
    again = Session.resume(session.folder)
    assert again.ask.kind is AskKind.NOTHING
    for outcome in (again.answer("1"), again.go_back(), again.begin_change("lamp-seen")):
        assert isinstance(outcome, Refused)
    assert isinstance(again.add_note("came back"), Recorded)


def test_the_time_of_this_machine_has_its_offset():
    assert wall_clock().utcoffset() is not None
