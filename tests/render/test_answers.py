"""An answer in a line or two."""

import pytest
from builders import Walk, at_feed, lamp_with

from faulttree.core.walk.events import Complaint
from faulttree.render import answers


def _last(walk):
    return walk.at.path[-1] if walk.at.pending is None else walk.at.pending


def _texts(walk):
    visit = _last(walk)
    return (
        answers.reading_text(walk.state, visit),
        answers.band_text(visit),
        answers.meaning(walk.state, visit),
    )


def test_a_reading_is_told_with_its_error_band_and_meaning():
    assert _texts(Walk().go("12.60")) == (
        "12.60 V ±0.08 V",
        "+ charged",
        "The reference is sound.",
    )


def test_an_open_circuit_is_told_in_words():
    walk = Walk().go("12.60", "stays dark", "both light", "LX-5", "OL")
    assert _texts(walk) == ("OL (open circuit)", "! open", "The filament is broken.")


def test_an_observation_is_told_by_its_name():
    assert _texts(Walk().go("12.60", "glows dim"))[:2] == ("glows dim", "! glows dim")


def test_a_step_that_was_not_done_is_told_with_the_reason_and_the_authors_advice():
    walk = Walk()
    walk.skip("no meter")
    assert _texts(walk) == (
        "not done: no meter",
        "cannot be done",
        "It is asked for where it is needed.",
    )


def test_what_cannot_be_is_told_with_the_authors_advice():
    walk = Walk()
    walk.answer("5.50", confirmed=True)
    assert _texts(walk)[1:] == ("implausible", "Check the range and read on the posts.")
    assert _texts(Walk().go("12.60", "0"))[2] == "Note what is seen and go on."


def test_an_action_that_went_wrong_is_told_with_what_to_do_now():
    assert _texts(at_feed().go("0.00", "0")) == (
        "went wrong",
        "went wrong",
        "Take the lead out at once.",
    )


def test_a_value_that_could_not_be_worked_out_is_told_with_why():
    walk = at_feed().go("11.00", "", "1")
    assert _texts(walk)[2] == "Not judged: drop-allowed has not been measured."


def test_names_in_a_meaning_are_those_of_this_car():
    tree = lamp_with(("means: Nothing arrives at the lamp.", 'means: "Nothing at {lamp-feed}."'))
    walk = at_feed(tree=tree).go("0.00")
    assert _texts(walk)[2] == "Nothing at cavity 1 of H7."


@pytest.mark.parametrize("complaint", [Complaint.ABSENT, Complaint.UNKNOWN])
def test_a_good_reading_without_the_complaint_has_a_warning(complaint):
    walk = Walk()
    walk.complaint(complaint)
    warning = answers.warning(_last(walk.go("12.60", "glows dim", "12.50")))
    assert warning == f"complaint {complaint}: clears nothing that comes and goes"
    assert answers.warning(_last(at_feed().go("12.50"))) == ""
