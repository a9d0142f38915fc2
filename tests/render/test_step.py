"""A step as it is read: cautions first, then where, how and beside what."""

from builders import Walk, at_feed, at_verdict, lamp

from faulttree.render.step import (
    band_lines,
    current_edges,
    drawn_bands,
    mark_of,
    preview,
    repair_lines,
    step_lines,
    why_lines,
)


def _lines(walk):
    return [(x.label, x.text) for x in step_lines(walk.state, walk.at.step_id, walk.clock.now)]


def test_cautions_stand_first():
    lines = step_lines(at_feed().state, "feed", "")
    assert [line.tone for line in lines][:2] == ["caution", "plain"]


def test_a_measurement_says_where_the_leads_go_on_this_car_and_beside_what():
    lines = dict(_lines(at_feed()))
    assert lines["With"] == "meter (10 MΩ): Usual digital meter, 6000 counts"
    assert lines["Red lead"] == "cavity 1 of H7, green/black wire, left tail lamp"
    assert lines["Black lead"] == "battery negative post"
    assert lines["Set-up"] == (
        "key run; engine stopped; reverse engaged; plugged in, probed from the wire side; "
        "complaint must show itself now"
    )
    assert lines["Judged by"] == "battery voltage: 12.6 V, just now"


def test_the_age_of_the_battery_voltage_is_told():
    walk = at_feed()
    walk.clock.move(7)
    assert dict(_lines(walk))["Judged by"] == "battery voltage: 12.6 V, 7 min old"
    walk.clock.move(-30)
    assert dict(_lines(walk))["Judged by"].endswith("age unknown (the clock was set back)")


def test_a_step_that_needs_the_complaint_warns_while_it_does_not_show():
    walk = Walk().go("12.60", "glows dim")
    assert "The complaint is unknown now" in dict(_lines(walk))["Note"]
    assert "Note" not in dict(_lines(at_feed()))


def test_what_is_fitted_and_taken_out_is_named_in_this_cars_words():
    walk = at_feed().go("0.00")
    bridge = "fused lead from cavity a of S9, green wire, top of the gearbox to cavity b of S9"
    assert dict(_lines(walk))["Stays fitted"].startswith(bridge)
    walk.go("done", "lights")
    assert dict(_lines(walk))["Take out"].startswith(bridge)


def test_a_sum_is_shown_with_the_readings_in_it():
    walk = at_feed().go("11.00", "0.3 V")
    assert dict(_lines(walk))["Sum"] == (
        "battery-voltage - feed (battery voltage: 12.6 V; Feed at the lamp, lamp in place: 11 V)"
    )
    judgement, event = preview(walk.state, "feed-drop", lamp().steps["feed-drop"])
    assert round(event.value, 6) == 1.6
    assert judgement.band(lamp().steps["feed-drop"]).name == "large"


def test_a_conclusion_says_how_it_is_proved_before_a_part_is_sold():
    labels = [label for label, _ in _lines(at_verdict())]
    assert labels == [
        "Finding",
        "Part",
        "Cause behind it",
        "Prove it first",
        "It is proved when",
        "Undo it",
        "Proving run",
    ]


def test_repairs_are_told_with_costs_and_limits():
    lines = repair_lines(at_verdict().state, lamp().steps["ground-bad"])
    assert [line.label.strip() for line in lines] == [
        "1",
        "Costs",
        "Limits",
        "2",
        "Costs",
        "Limits",
    ]
    assert "for a part no longer made" in lines[3].text


def test_why_names_time_source_and_ways_out():
    lines = {x.label: x.text for x in why_lines(Walk().state, "battery-rest")}
    assert lines["Minutes"] == "2, for a prepared technician"
    assert lines["Bands from"] == "common practice"
    assert lines["If it cannot be done"] == (
        "It is asked for where it is needed. → Look at the reversing lamp"
    )
    source = {x.label: x.text for x in why_lines(Walk().state, "lamp-resistance")}["Bands from"]
    assert source == "Shop notes of the invented Harrow Lane garage, 2026"


def test_bands_say_what_they_mean_and_where_they_lead():
    line = band_lines(Walk().state, lamp().steps["battery-rest"])[0]
    assert (line.label, line.text) == ("flat", "Too little to judge by. → Battery first")


def test_an_edge_without_its_reference_shows_what_was_written():
    walk, step = Walk(), lamp().steps["feed"]
    drawn = drawn_bands(walk.state, step, current_edges(walk.state, step))
    assert [band.from_label for band in drawn] == ["", "1 V", "battery-voltage - 0.5 V"]
    walk = at_feed()
    drawn = drawn_bands(walk.state, step, current_edges(walk.state, step))
    assert [band.from_label for band in drawn] == ["", "1 V", "12.1 V"]


def test_the_mark_lies_in_its_band_as_far_as_the_reading_lies():
    walk = at_feed().go("6.55")
    visit = walk.at.path[-1]
    mark = mark_of(walk.state, visit.step, visit.judgement, visit.answer.digit)
    assert (mark.band, round(mark.share, 2)) == (1, 0.5)
    assert mark.low[1] < mark.share < mark.high[1]
    assert mark.label.startswith("6.55 V ±")
