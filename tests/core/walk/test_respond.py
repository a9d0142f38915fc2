"""Every kind of answer: what is accepted, what is refused, what is asked once more."""

import pytest
from builders import Walk, at_feed, at_verdict

from faulttree.core.units import UnitSystem
from faulttree.core.usual_instruments import built_in
from faulttree.core.walk import respond
from faulttree.core.walk.events import (
    ActionDone,
    BandDecided,
    Closed,
    Complaint,
    Concluded,
    CycleRun,
    Observed,
    OtherTestTaken,
    ProofGiven,
    ReadingTaken,
    RepairChosen,
    Skipped,
    VehicleDataGiven,
    WentBack,
    WorkedOut,
)
from faulttree.core.walk.respond import Confirm, NeedsReason, Recorded, Refused, Typed


def _last(walk):
    return walk.events[-1]


# ------------------------------------------------------------------------------------- readings


def test_a_reading_is_recorded_with_where_how_and_when_it_was_taken():
    walk = at_feed()
    walk.clock.move(3)
    walk.go("12,50")
    event = _last(walk)
    assert isinstance(event, ReadingTaken)
    assert (event.text, event.value, event.digit, event.unit) == ("12,50", 12.5, 0.01, "V")
    assert event.place.red_lead == "cavity 1 of H7, green/black wire, left tail lamp"
    assert (event.place.key, event.place.engine) == ("run", "stopped")
    assert event.place.instrument == "usual-meter"
    assert event.complaint is Complaint.PRESENT
    assert (event.battery.value, event.battery.age_s) == (12.6, 180)
    assert [(r.name, r.seq) for r in event.references] == [("battery-voltage", 3)]


@pytest.mark.parametrize("typed", ["", "   ", "abc", "12 ohm", "12 13", "OL", "1.2.3", "1,000"])
def test_what_is_no_reading_is_refused_with_what_to_type(typed):
    walk = Walk()
    result = walk.answer(typed)
    assert isinstance(result, Refused)
    assert "type" in result.message.lower()
    assert walk.path == []


def test_an_implausible_reading_is_asked_about_once_and_recorded_when_confirmed():
    walk = Walk()
    result = walk.answer("5.50")
    assert isinstance(result, Confirm)
    assert "5.50 V is outside what this point can show (6 V to 15 V)" in result.question
    assert len(walk.events) == 1, "nothing is recorded before it is confirmed"
    walk.answer("5.50", confirmed=True)
    assert _last(walk).kept_though_implausible


@pytest.mark.parametrize(
    ("typed", "meant"),
    [("126", "12.6 V"), ("1.26", "12.6 V"), ("12600", "12.6 V"), ("1260", "12.6 V")],
)
def test_a_slipped_decimal_point_is_suggested(typed, meant):
    result = Walk().answer(typed)
    assert isinstance(result, Confirm)
    assert f"Did you mean {meant}?" in result.question


def test_no_suggestion_is_made_where_no_slip_explains_the_reading():
    assert "mean" not in Walk().answer("5.50").question
    assert "mean" not in Walk().answer("0").question


def test_a_reading_kept_though_implausible_is_no_reference_for_others():
    walk = Walk()
    walk.answer("5.50", confirmed=True)
    assert "battery-voltage" not in walk.state.latest


def test_a_bare_number_is_taken_in_the_unit_of_the_chosen_system():
    walk = Walk(units=UnitSystem.US)
    walk.go("12.60")
    assert _last(walk).unit == "V"


def test_a_battery_voltage_is_confirmed_where_no_battery_can_show_it():
    walk = at_feed()
    walk.clock.move(11)
    result = walk.answer("1.26")
    assert isinstance(result, Confirm)
    assert "12.6 V" in result.question
    walk.go("12.40")
    event = _last(walk)
    assert (event.slot, event.step) == ("battery-voltage", "feed")
    assert event.place.red_lead == "battery positive post"
    assert event.place.connector is None


def test_a_battery_voltage_can_be_given_at_any_time():
    walk = at_feed()
    typed = Typed("12.40", walk.clock.now)
    assert isinstance(walk.take(respond.measure_battery(walk.state, "feed", typed)), Recorded)
    assert _last(walk).place.engine == "stopped"
    at_seen = Walk().go("12.60")
    at_seen.take(respond.measure_battery(at_seen.state, "lamp-seen", typed))
    assert _last(at_seen).place.engine == "stopped", "an observation says how the engine is"


# ---------------------------------------------------------------------------- choosing an answer


@pytest.mark.parametrize("typed", ["2", "stays dark", "STAYS DARK", " stays ", "sta"])
def test_an_outcome_is_chosen_by_number_name_or_beginning(typed):
    walk = Walk().go("12.60")
    walk.go(typed)
    assert isinstance(_last(walk), Observed)
    assert _last(walk).outcome == "stays dark"


@pytest.mark.parametrize("typed", ["", "4", "bright", "-1", "1 2"])
def test_what_is_none_of_the_outcomes_is_refused_with_the_choices(typed):
    result = Walk().go("12.60").answer(typed)
    assert isinstance(result, Refused)
    assert "1, 2, 3, 0" in result.message


def test_a_beginning_that_fits_several_answers_is_refused():
    walk = at_verdict().go("accept")
    assert isinstance(walk.answer("the proof"), Refused)


def test_none_of_these_is_recorded_without_an_outcome():
    walk = Walk().go("12.60", "0")
    assert _last(walk).outcome is None


def test_an_action_is_done_or_went_wrong():
    assert _last(at_feed().go("0.00", "done")) == ActionDone(
        seq=6, at="2026-11-25T09:30:00+00:00", step="fit-bypass"
    )
    assert _last(at_feed().go("0.00", "0")).went_wrong


def test_a_worked_out_value_is_recorded_with_what_it_was_and_its_readings():
    walk = at_feed().go("11.00", "0.3 V", "1")
    event = _last(walk)
    assert isinstance(event, WorkedOut)
    assert event.value == pytest.approx(1.6)
    assert {r.name for r in event.references} == {"battery-voltage", "feed"}


# --------------------------------------------------------------------------------- vehicle data


def test_vehicle_values_are_read_with_their_unit():
    walk = at_feed().go("11.00")
    assert isinstance(walk.answer("a lot"), Refused)
    walk.go("300 mV")
    assert _last(walk) == VehicleDataGiven(
        seq=6, at="2026-11-25T09:30:00+00:00", name="drop-allowed", text="300 mV", value=0.3
    )


def test_an_empty_line_means_that_it_is_not_known():
    walk = at_feed().go("11.00", "")
    assert (_last(walk).text, _last(walk).value) == (None, None)


def test_a_vehicle_text_is_taken_as_it_is():
    walk = Walk().go("12.60", "stays dark", "both light", "  LX-5 <21 W>  ")
    assert _last(walk).text == "LX-5 <21 W>"


def test_vehicle_data_can_be_given_again_and_readings_follow():
    walk = at_feed().go("11.00", "2 V", "1")
    assert walk.labels[-1] == "small"
    assert respond.may_change(walk.state, "drop-allowed") is None
    walk.change("drop-allowed", "0.3 V")
    assert walk.labels[-1] == "large"


# --------------------------------------------------------------------------- too close to call


def test_a_reading_too_close_can_be_measured_again():
    walk = at_feed().go("12.07")
    assert isinstance(walk.answer("m"), Recorded)
    assert isinstance(_last(walk), WentBack)
    assert walk.go("12.50").labels[-1] == "full feed"


def test_a_reading_too_close_can_be_settled_by_the_other_test():
    walk = at_feed().go("12.07", "t")
    assert isinstance(_last(walk), OtherTestTaken)


def test_a_reading_too_close_can_be_decided_with_a_reason():
    walk = at_feed().go("12.07")
    assert isinstance(walk.answer("1", reason="the lamp is bright"), Recorded)
    assert isinstance(_last(walk), BandDecided)
    assert (_last(walk).band, _last(walk).reason) == ("weak feed", "the lamp is bright")


def test_without_another_test_none_is_offered():
    assert [o.key for o in Walk().go("12.20").ask.options] == ["m", "1", "2"]


# ------------------------------------------------------------------------------------- verdicts


def test_a_fault_verdict_on_readings_without_the_complaint_asks_before_it_is_accepted():
    walk = Walk()
    walk.complaint(Complaint.ABSENT)
    walk.go("12.60", "glows dim", "12.50", "1.20")
    result = walk.answer("accept")
    assert isinstance(result, Confirm)
    assert "Feed at the lamp, lamp in place" in result.question
    assert "record will say so" in result.question
    walk.answer("accept", confirmed=True)
    event = _last(walk)
    assert isinstance(event, Concluded)
    assert event.uncleared == (walk.state.answers["feed"].seq,)


def test_a_fault_verdict_without_its_evidence_asks_before_it_is_accepted():
    walk = at_feed()
    walk.skip("connector out of reach")
    walk.go("1.20")
    assert "Not measured on this path" in walk.answer("accept").question
    walk.answer("accept", confirmed=True)
    assert _last(walk).missing == ("feed",)


def test_a_fault_verdict_that_was_earned_is_accepted_at_once():
    walk = at_verdict().go("accept")
    assert (_last(walk).uncleared, _last(walk).missing) == ((), ())


def test_a_conclusion_that_blames_nothing_is_accepted_at_once():
    assert isinstance(Walk().go("12.60", "lights").answer("1"), Recorded)


def test_a_proof_that_was_not_done_needs_a_reason():
    walk = at_verdict().go("accept")
    assert walk.answer("not done") == NeedsReason("Why was the proof not done?")
    walk.answer("not done", reason="no lead long enough")
    assert _last(walk).result == "not-done"
    assert _last(walk).reason == "no lead long enough"


@pytest.mark.parametrize(("typed", "result"), [("1", "held"), ("failed", "failed")])
def test_a_proof_held_or_failed(typed, result):
    walk = at_verdict().go("accept", typed)
    assert isinstance(_last(walk), ProofGiven)
    assert _last(walk).result == result


def test_a_repair_is_chosen_by_name_or_none_was_made():
    walk = at_verdict().go("accept", "1", "new earth point")
    assert isinstance(_last(walk), RepairChosen)
    assert _last(walk).repair == "New earth point"
    assert _last(at_verdict().go("accept", "1", "0")).repair is None


def test_a_cycle_is_clean_or_the_complaint_came_back():
    walk = at_verdict().go("accept", "1", "1", "clean", "came back")
    assert [e.clean for e in walk.events if isinstance(e, CycleRun)] == [True, False]


def test_a_proving_run_can_be_stopped_and_the_case_says_so():
    walk = at_verdict().go("accept", "1", "1", "clean", "stop here")
    assert isinstance(_last(walk), Closed)
    assert "before the proving run was complete" in _last(walk).note


@pytest.mark.parametrize("how", ["stop here", "close"])
def test_a_case_with_something_still_fitted_is_closed_only_when_confirmed(how):
    walk = at_feed().go("0.00", "done", "lights")
    walk.skip("cannot reach it")
    walk.go("accept", "1", "New switch")
    walk.go(*(["clean"] * 3 if how == "close" else []))
    result = walk.answer(how)
    assert isinstance(result, Confirm)
    assert "cavity a of S9" in result.question
    assert isinstance(walk.answer(how, confirmed=True), Recorded)


# ------------------------------------------------------------------------ beside the questions


def test_skipping_needs_a_reason():
    walk = Walk()
    assert isinstance(walk.skip(" "), NeedsReason)
    walk.skip("no meter")
    assert isinstance(_last(walk), Skipped)


def test_an_answered_step_can_be_skipped_after_all():
    walk = at_feed().go("12.50")
    walk.take(respond.skip(walk.state, "feed", "the probe slipped"))
    assert _last(walk).replaces == 5
    assert walk.labels[-1] == "cannot be done"


def test_a_conclusion_cannot_be_skipped():
    assert isinstance(at_verdict().skip("no time"), Refused)


def test_at_the_start_there_is_nothing_to_go_back_on():
    assert isinstance(Walk().back(), Refused)


def test_a_note_needs_words():
    walk = Walk()
    assert isinstance(walk.take(respond.add_note(walk.state, "battery-rest", " ")), NeedsReason)
    assert isinstance(walk.take(respond.add_note(walk.state, "battery-rest", "wet")), Recorded)


def test_a_complaint_that_was_brought_on_needs_what_brought_it_on():
    walk = Walk()
    assert isinstance(walk.complaint(Complaint.PROVOKED), NeedsReason)
    assert isinstance(walk.complaint(Complaint.PROVOKED, "rocking the lever"), Recorded)


@pytest.mark.parametrize(
    ("typed", "meant"),
    [
        ("present", (Complaint.PRESENT, "")),
        (" Absent ", (Complaint.ABSENT, "")),
        ("provoked by rocking", (Complaint.PROVOKED, "rocking")),
        ("provoked  by  rocking", (Complaint.PROVOKED, "rocking")),
        ("provoked", (Complaint.PROVOKED, "")),
    ],
)
def test_the_state_of_the_complaint_is_read_from_words(typed, meant):
    assert respond.read_complaint(typed) == meant


@pytest.mark.parametrize("typed", ["", "gone", "presents"])
def test_other_words_are_refused(typed):
    assert isinstance(respond.read_complaint(typed), Refused)


def test_only_what_lies_on_the_path_can_be_changed():
    walk = at_feed()
    assert isinstance(respond.may_change(walk.state, "ground-drop"), Refused)
    assert isinstance(respond.may_change(walk.state, "no-such-step"), Refused)
    assert respond.may_change(walk.state, "lamp-seen") is None


@pytest.mark.parametrize("how", ["note", "reason", "answer"])
def test_a_text_that_is_too_long_is_refused_and_not_cut(how):
    walk, long = Walk(), "x" * 2001
    result = {
        "note": lambda: respond.add_note(walk.state, "battery-rest", long),
        "reason": lambda: respond.skip(walk.state, "battery-rest", long),
        "answer": lambda: walk.answer(long),
    }[how]()
    assert isinstance(result, Refused)
    assert "2000 at most" in result.message


def test_a_closed_case_takes_notes_and_nothing_else():
    walk = at_verdict().go("accept", "1", "0", "close")
    state, now = walk.state, walk.clock.now
    for result in (
        walk.answer("1"),
        walk.skip("no"),
        walk.back(),
        walk.complaint(Complaint.ABSENT),
        respond.measure_battery(state, "feed", Typed("12.0", now)),
        respond.choose_instrument(state, built_in()[0]),
        respond.may_change(state, "feed"),
    ):
        assert result == Refused("This case is closed; its record stays as it is.")
    note = respond.add_note(state, "ground-bad", "Came back after two weeks.")
    assert isinstance(walk.take(note), Recorded)


def test_going_back_over_a_fitted_bypass_asks_whether_it_is_out_again():
    walk = at_feed().go("0.2", "done")
    assert walk.at.step_id == "bypass-seen"
    asked = respond.go_back(walk.state)
    assert isinstance(asked, Confirm)
    assert "fused lead from" in asked.question
    assert isinstance(respond.go_back(walk.state, confirmed=True), Recorded)


def test_going_back_over_a_reading_asks_nothing():
    assert isinstance(respond.go_back(at_feed().go("12.5").state), Recorded)


def test_details_of_car_and_owner_can_be_told_later_and_stay_in_the_record():
    walk = Walk(started={"intake": {"words": "It is dark", "customer": "A"}})
    walk.take(respond.change_details(walk.state, {"customer": " B.  Holt ", "odometer": "90,100"}))
    assert walk.state.intake.model_dump(exclude_defaults=True) == {
        "words": "It is dark",
        "customer": "B. Holt",
        "odometer": "90,100",
    }
    assert walk.state.started.intake.customer == "A"


def test_the_same_details_told_again_record_nothing():
    walk = Walk(started={"intake": {"customer": "A"}})
    assert respond.change_details(walk.state, {"customer": "A"}) == Recorded(())


def test_details_that_no_intake_has_are_refused():
    assert isinstance(respond.change_details(Walk().state, {"mood": "fine"}), Refused)
