"""What is asked, and when: the step's own question last, what it needs before it."""

import pytest
from builders import Walk, at_feed, at_verdict, lamp_with

from faulttree.core.vehicle import VehicleSheet
from faulttree.core.walk.asks import AskKind
from faulttree.core.walk.battery import age_s
from faulttree.core.walk.car_words import missing_data, place_for, text_for
from faulttree.core.walk.events import Complaint
from faulttree.core.walk.respond import Typed, measure_battery

IDLING = (
    "engine: stopped\n      load: reverse engaged\n      connector: plugged in",
    "engine: idle\n      load: reverse engaged\n      connector: plugged in",
)
"""The feed is measured with the engine idling."""


def test_each_kind_of_step_asks_its_own_question():
    walk = Walk()
    kinds = {}
    walk.complaint(Complaint.PRESENT)
    for text in ("12.60", "glows dim", "11.00", "0.3 V", "1", "done", "lights", "done"):
        kinds[walk.at.step_id] = walk.ask.kind
        walk.go(text)
    assert kinds == {
        "battery-rest": AskKind.READING,
        "lamp-seen": AskKind.OUTCOME,
        "feed": AskKind.READING,
        "feed-drop": AskKind.WORKED_OUT,
        "fit-bypass": AskKind.DONE,
        "bypass-seen": AskKind.OUTCOME,
        "remove-bypass": AskKind.DONE,
    }
    assert walk.ask.kind is AskKind.VERDICT


def test_a_verdict_asks_for_proof_repair_cycles_and_closing():
    walk = at_verdict()
    kinds = []
    for text in ("accept", "1", "1", "clean", "clean", "clean", "close"):
        kinds.append(walk.ask.kind)
        walk.go(text)
    assert kinds == [
        AskKind.VERDICT,
        AskKind.PROOF,
        AskKind.REPAIR,
        *[AskKind.CYCLE] * 3,
        AskKind.CLOSE,
    ]
    assert walk.ask.kind is AskKind.NOTHING


def test_the_prompt_of_a_reading_names_the_unit_a_bare_number_is_taken_in():
    assert Walk().ask.prompt == "Reading [V]"


def test_an_action_without_an_exit_for_mishaps_offers_only_done():
    assert [o.key for o in at_feed().go("0.00").ask.options] == ["1", "0"]
    walk = at_feed().go("0.00", "done", "lights")
    assert [o.key for o in walk.ask.options] == ["1"]


def test_the_outcomes_are_numbered_and_none_of_these_is_nought():
    options = Walk().go("12.60").ask.options
    assert [(o.key, o.label) for o in options] == [
        ("1", "lights"),
        ("2", "stays dark"),
        ("3", "glows dim"),
        ("0", "none of these"),
    ]


def test_a_battery_that_was_never_measured_is_asked_for_where_a_band_needs_it():
    walk = Walk()
    walk.skip("battery under the seat")
    assert walk.ask.kind is AskKind.OUTCOME
    walk.go("glows dim")
    assert walk.ask.kind is AskKind.BATTERY
    assert "not been measured" in walk.ask.notes[0]
    assert walk.go("12.60").ask.kind is AskKind.READING


@pytest.mark.parametrize(("minutes", "kind"), [(10, AskKind.READING), (10.02, AskKind.BATTERY)])
def test_a_battery_older_than_ten_minutes_is_measured_again(minutes, kind):
    walk = at_feed()
    walk.clock.move(minutes)
    assert walk.ask.kind is kind


def test_a_battery_read_with_the_engine_in_another_state_is_measured_again():
    walk = at_feed(tree=lamp_with(IDLING))
    assert walk.ask.kind is AskKind.BATTERY
    assert "engine stopped" in walk.ask.notes[0]
    assert "engine idling" in walk.ask.prompt
    assert walk.go("14.10").ask.kind is AskKind.READING


def test_a_battery_read_in_a_state_that_was_not_recorded_is_measured_again():
    walk = at_feed().go("0.00")
    assert walk.at.step_id == "fit-bypass", "an action does not say how the engine is"
    walk.take(measure_battery(walk.state, "fit-bypass", Typed("12.50", walk.clock.now)))
    walk.back()
    assert walk.ask.kind is AskKind.BATTERY
    assert "not recorded" in walk.ask.notes[0]


def test_a_battery_read_before_the_clock_was_set_back_is_measured_again():
    walk = at_feed()
    walk.clock.move(-60)
    assert walk.ask.kind is AskKind.BATTERY
    assert "clock was set back" in walk.ask.notes[0]


def test_the_battery_is_not_asked_for_where_no_band_needs_it():
    walk = at_feed().go("12.50")
    walk.clock.move(60)
    assert walk.at.step_id == "ground-drop"
    assert walk.ask.kind is AskKind.READING


def test_vehicle_data_is_asked_for_at_the_step_that_needs_it_and_not_before():
    walk = at_feed()
    assert missing_data(walk.state, walk.tree.steps["feed"]) == ()
    assert walk.ask.kind is AskKind.READING
    walk.go("11.00")
    assert (walk.ask.kind, walk.ask.name) == (AskKind.VEHICLE_VALUE, "drop-allowed")
    walk.go("0.3 V")
    assert walk.ask.kind is AskKind.WORKED_OUT


def test_without_a_sheet_points_are_asked_for_in_general_words():
    walk = at_feed(sheet=None)
    assert (walk.ask.kind, walk.ask.name) == (AskKind.VEHICLE_TEXT, "lamp-feed")
    assert "feed terminal of the reversing lamp" in walk.ask.prompt


def test_facts_are_asked_for_with_their_own_question():
    walk = Walk().go("12.60", "stays dark", "both light")
    assert (walk.ask.name, walk.ask.prompt) == ("lamp-type", "Lamp type printed on the lens")


def test_what_is_not_known_stays_unknown_and_is_not_asked_twice():
    walk = Walk().go("12.60", "stays dark", "both light", "")
    assert walk.ask.kind is AskKind.READING
    shown = text_for(walk.state, walk.tree.steps["lamp-resistance"].how)
    assert "(lamp type printed on the lens: not known)" in shown


def test_a_value_that_is_not_known_leaves_its_bands_unjudged():
    walk = at_feed().go("11.00", "")
    assert walk.ask.kind is AskKind.WORKED_OUT
    assert walk.go("1").labels[-1] == "cannot be judged"


def test_a_name_that_the_sheet_gives_as_something_else_is_asked_for():
    sheet = VehicleSheet.model_validate(
        {
            "format": "vehicle/1",
            "id": "x",
            "version": "1.0.0",
            "make": "Brindale",
            "model": "Finch",
            "years": "1988",
            "facts": {"lamp-feed": "somewhere"},
        }
    )
    assert at_feed(sheet=sheet).ask.name == "lamp-feed"


def test_texts_use_the_names_of_this_car():
    walk = Walk()
    in_full = "cavity 1 of H7, green/black wire, left tail lamp"
    assert place_for(walk.state, "{lamp-feed}") == in_full
    assert text_for(walk.state, "{lamp-feed}") == "cavity 1 of H7"
    assert text_for(walk.state, "{lamp-power}") == "1.75 A"
    assert text_for(Walk(sheet=None).state, "{lamp-feed}") == "feed terminal of the reversing lamp"
    assert text_for(walk.state, "{no-such-name}") == "{no-such-name}"


def test_closing_reminds_of_what_is_still_fitted_in_this_cars_words():
    walk = at_feed().go("0.00", "done", "lights")
    walk.skip("cannot reach it")
    walk.go("accept", "1", "no repair")
    assert walk.ask.kind is AskKind.CLOSE
    assert walk.ask.notes == (
        "Still fitted: fused lead from cavity a of S9, green wire, top of the gearbox to cavity b "
        "of S9, green/black wire, top of the gearbox",
    )


@pytest.mark.parametrize(
    ("then", "now", "seconds"),
    [
        ("2026-11-25T09:30:00+00:00", "2026-11-25T09:40:00+00:00", 600),
        ("2026-11-25T09:30:00+00:00", "2026-11-25T10:40:00+01:00", 600),
        ("2026-11-25T09:30:00+00:00", "2026-11-25T09:29:59+00:00", None),
        ("2026-11-25T09:30:00", "2026-11-25T09:29:59+00:00", None),
        ("", "2026-11-25T09:29:59+00:00", None),
    ],
)
def test_the_age_of_a_reading_is_known_only_while_the_clock_went_on(then, now, seconds):
    assert age_s(then, now) == seconds


def test_measuring_again_says_how_it_is_read_finer_or_that_it_is_not():
    rounded = at_feed().go("12.1")
    assert rounded.ask.options[0].detail == "type every digit, on the 60 V range it reads to 0.01 V"
    in_full = at_feed().go("12.10")
    assert in_full.ask.options[0].detail.startswith("no range of this instrument reads it finer")
