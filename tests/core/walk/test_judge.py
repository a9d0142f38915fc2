"""How a reading is judged: its error against the edges, and edges that move with a reference."""

import math

import pytest
from builders import Walk, at_feed, lamp_with

from faulttree.core.walk.events import ReadingTaken
from faulttree.core.walk.judge import is_plausible, judge, reference_values
from faulttree.core.walk.path import Stage
from faulttree.core.walk.respond import Typed, measure_battery

ALIKE = (
    "below: battery-voltage - 0.5 V, go: feed-drop,\n         means: Something on the way",
    "below: battery-voltage - 0.5 V, go: fit-bypass,\n         means: Something on the way",
)
"""Weak feed says and leads what no feed does."""


def _judgement(walk, step_id):
    return judge(walk.state, walk.tree.steps[step_id], walk.state.answers[step_id])


def test_the_limit_of_error_is_the_makers():
    # 0.5 % of 12.60 V and 2 digits of 0.01 V, the usual meter: 0.063 + 0.020 V
    value = _judgement(Walk().go("12.60"), "battery-rest").value
    assert value.value == 12.6
    assert math.isclose(value.radius, 0.083)


def test_a_reading_near_an_edge_is_too_close_to_call():
    walk = Walk().go("12.25")
    assert walk.at.stage is Stage.TOO_CLOSE
    judgement = _judgement(walk, "battery-rest")
    assert [b.name for b in judgement.reached(walk.tree.steps["battery-rest"])] == [
        "low",
        "charged",
    ]
    assert judgement.placement.margin < 1


def test_a_reading_just_outside_its_error_is_not():
    assert Walk().go("12.29").at.stage is Stage.ANSWER


def test_bands_that_say_and_lead_alike_need_no_decision():
    walk = at_feed(tree=lamp_with(ALIKE)).go("1.00")
    assert walk.labels[-1] == "weak feed"
    assert not _judgement(walk, "feed").placement.is_clear


def test_bands_that_lead_alike_but_speak_differently_need_one():
    # low is unclear, charged is good; both lead on to the lamp
    assert Walk().go("12.20").at.stage is Stage.TOO_CLOSE


def test_one_meters_gain_error_cancels_against_a_battery_read_on_the_same_range():
    # alone, 12.14 V is known to 0.081 V; against battery - 0.5 V only digits and 0.5 % of 0.5 V
    walk = at_feed("12.60").go("12.16")
    assert walk.labels[-1] == "full feed"


def test_a_reading_decided_by_the_technician_goes_where_it_was_put():
    walk = Walk().go("12.20")
    low = next(o.key for o in walk.ask.options if o.label.endswith("low"))
    walk.go(low)
    assert walk.labels == ["low"]


def test_edges_follow_a_battery_voltage_that_is_changed_later():
    walk = at_feed("12.60").go("12.00")
    assert walk.labels[-1] == "weak feed"
    walk.change("battery-rest", "12.30")
    assert walk.labels[-1] == "full feed"


def test_a_decision_counts_only_while_the_reading_is_too_close():
    walk = at_feed("12.60").go("12.10")
    full = next(o.key for o in walk.ask.options if o.label.endswith("full feed"))
    walk.go(full)
    assert walk.labels[-1] == "full feed"
    walk.change("battery-rest", "13.60")
    assert walk.labels[-1] == "weak feed"


def test_another_test_counts_only_while_the_reading_is_too_close():
    walk = at_feed("12.60").go("12.10", "t", "bright")
    assert walk.labels[-2:] == ["other test", "bright"]
    walk.change("battery-rest", "13.60")
    assert walk.labels[-1] == "weak feed"


def test_a_reading_is_judged_by_the_battery_it_was_taken_with_and_not_by_a_later_one():
    walk = at_feed("12.60").go("12.00")
    walk.take(measure_battery(walk.state, "feed", Typed("11.90", walk.clock.now)))
    assert walk.state.readings[walk.state.latest["battery-voltage"]][0].value == 11.9
    assert walk.labels[-1] == "weak feed"


def test_the_old_reading_of_a_changed_answer_keeps_its_own_value():
    walk = at_feed().go("12.50")
    old = walk.state.answers["feed"]
    walk.change("feed", "6.00")
    step = walk.tree.steps["feed"]
    assert judge(walk.state, step, old).value.value == 12.5
    assert judge(walk.state, step, walk.state.answers["feed"]).value.value == 6.0


def test_a_reading_without_its_reference_cannot_be_judged():
    walk = Walk(sheet=None)
    walk.go("12.60", "glows dim", "left rear", "11.00", "")
    assert walk.at.step_id == "feed-drop"
    walk.go("1")
    assert walk.labels[-1] == "cannot be judged"
    assert "drop-allowed" in _judgement(walk, "feed-drop").trouble


def test_a_reference_that_was_lost_from_the_record_counts_as_not_measured():
    walk = at_feed().go("12.50")
    feed = walk.state.answers["feed"]
    assert isinstance(feed, ReadingTaken)
    lost = [e for e in walk.events if getattr(e, "step", "") != "battery-rest"]
    bare = Walk()
    bare.record(*lost[1:])
    assert "battery-voltage" not in reference_values(bare.state, feed.references)


@pytest.mark.parametrize(
    ("volts", "plausible"), [(5.99, False), (6.0, True), (14.99, True), (15.0, False)]
)
def test_the_plausible_window_holds_its_lower_end_and_not_its_upper(volts, plausible):
    walk = Walk()
    assert is_plausible(walk.state, walk.tree.steps["battery-rest"], volts, {}) is plausible


def test_an_open_circuit_is_always_plausible():
    walk = Walk()
    assert is_plausible(walk.state, walk.tree.steps["lamp-resistance"], math.inf, {})
