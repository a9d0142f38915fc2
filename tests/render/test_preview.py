"""What a reading would be taken as while it is typed; nothing is recorded."""

import pytest
import superheat_tree
from builders import Walk, at_feed

from faulttree.render.preview import preview_reading


def _seen(typed, battery="12.60"):
    walk = at_feed(battery)
    before = walk.state.events
    seen = preview_reading(walk.state, walk.tree.steps["feed"], typed)
    assert walk.state.events == before
    return seen


def test_a_reading_is_shown_with_its_error_and_band():
    assert _seen("12,55 V").text == "12.55 V ±0.08 V: full feed"


def test_the_mark_lies_where_the_reading_will_lie():
    seen = _seen("11.0")
    assert seen.judgement.placement.nominal == 1
    assert seen.digit == pytest.approx(0.1)


@pytest.mark.parametrize("typed", ["", "-", "12 psi", "abc", "OL"])
def test_what_is_no_reading_yet_says_nothing(typed):
    assert _seen(typed).text == ""
    assert _seen(typed).judgement is None


def test_a_reading_too_close_to_call_names_the_bands_and_the_remedy():
    assert _seen("12.1").text == (
        "12.1 V ±0.1 V: too close to call between weak feed and full feed; "
        "type every digit, on the 60 V range it reads to 0.01 V"
    )


def test_a_reading_that_the_point_can_hardly_show_says_so():
    assert _seen("120").text == "120 V ±1 V: full feed, outside what this point can show"


def test_a_doubtful_comma_is_settled_as_it_will_be_when_recorded():
    assert _seen("4,991").text.startswith("4.991 V")


def test_a_reading_beyond_every_range_says_so():
    assert "beyond every range of the instrument" in _seen("700").text


def test_a_reading_that_no_band_can_be_told_of_says_why():
    sheet = superheat_tree.sheet("facts: {refrigerant: R-134a}\nvalues: {altitude: 0 m}\n")
    walk = Walk(superheat_tree.tree(), sheet).go("15 C")
    seen = preview_reading(walk.state, walk.tree.steps["low-side"], "150 kPa")
    why = "what gauges usually read is published for air of 21 to 43 °C (70 to 110 °F)"
    assert seen.text.startswith(f"150 kPa ±17 kPa, in no band: {why}")
