"""Where answers lead: every band at its edges, every exit of every kind of step."""

import pytest
from builders import Walk, at_feed, at_verdict, lamp, lamp_with

from faulttree.core.instruments import Instrument
from faulttree.core.tree import Conclude
from faulttree.core.walk.events import Complaint
from faulttree.core.walk.path import Stage, missing_evidence, uncleared
from faulttree.core.walk.proving_run import clean_cycles
from faulttree.core.walk.respond import Recorded

EXACT = Instrument.model_validate(
    {
        "id": "exact-meter",
        "name": "Meter without error",
        "class": "meter",
        "load": "none",
        "functions": {
            q: [
                {"up-to": f"40000000 {unit}", "resolution": f"0.001 {unit}", "accuracy": "0 digits"}
            ]
            for q, unit in (("voltage", "V"), ("resistance", "ohm"))
        },
    }
)
"""With it a reading lies in one band only, so that the edges themselves can be seen."""
STRAIGHT_TO_THE_SUM = (
    "other-test: feed-with-lamp\n    cannot: {go: ground-drop}",
    "other-test: feed-with-lamp\n    cannot: {go: feed-drop}",
)
"""The step that measures the feed leads to the sum of it where it cannot be done."""


def _exact(**options):
    return Walk(started={"instruments": [EXACT]}, **options)


def _exact_at_feed(battery):
    walk = _exact()
    walk.complaint(Complaint.PRESENT)
    return walk.go(battery, "glows dim")


@pytest.mark.parametrize(
    ("reading", "band"),
    [
        ("11.799", "flat"),
        ("11.800", "low"),
        ("12.199", "low"),
        ("12.200", "charged"),
    ],
)
def test_an_edge_belongs_to_the_band_above_it(reading, band):
    assert _exact().go(reading).labels == [band]


@pytest.mark.parametrize("battery", ["12.600", "11.900", "13.100"])
def test_an_edge_relative_to_the_battery_belongs_to_the_band_above_it(battery):
    edge = float(battery) - 0.5
    for reading, band in [
        ("0.999", "no feed"),
        ("1.000", "weak feed"),
        (f"{edge - 0.001:.3f}", "weak feed"),
        (f"{edge:.3f}", "full feed"),
    ]:
        assert _exact_at_feed(battery).go(reading).labels[-1] == band


@pytest.mark.parametrize(
    ("ground", "label"),
    [("0.200", "lossy"), ("0.199", "as it should be"), ("0.001", "as it should be")],
)
def test_a_ratio_of_two_readings_has_its_edges_too(ground, label):
    walk = _exact_at_feed("12.600").go("12.500", ground)
    if walk.at.step_id == "lamp-share":
        walk.go("1")
    assert walk.labels[-1] == label


def test_an_open_circuit_lies_in_the_last_band():
    walk = Walk().go("12.60", "stays dark", "both light", "LX-5", "OL")
    assert walk.labels[-1] == "open"
    assert walk.at.step_id == "lamp-open"


def test_none_of_these_takes_the_exit_for_what_cannot_be():
    walk = Walk().go("12.60", "none of these")
    assert walk.labels[-1] == "none of these"
    assert walk.at.step_id == "feed"


def test_an_exit_that_says_again_stays_at_the_step_with_the_answer_pending():
    walk = Walk().go("12.60", "stays dark", "none of these")
    assert walk.at.step_id == "fuse-look"
    assert walk.at.stage is Stage.ANSWER
    assert walk.at.pending.label == "none of these"
    assert walk.go("both light").at.step_id == "lamp-resistance"


def test_a_reading_that_cannot_be_right_is_asked_for_again_and_the_next_takes_its_place():
    walk = Walk()
    walk.answer("5.50", confirmed=True)
    assert walk.at.step_id == "battery-rest"
    assert walk.at.pending.label == "implausible"
    walk.go("12.60")
    assert walk.labels == ["charged"]
    assert walk.state.answers["battery-rest"].replaces == 2


def test_an_action_that_went_wrong_takes_its_own_exit():
    walk = at_feed().go("0.00", "0")
    assert walk.labels[-1] == "went wrong"
    assert walk.at.step_id == "fuse-duty"


def test_a_worked_out_value_that_cannot_be_right_takes_its_exit():
    narrow = ("plausible: {from: -0.3 V, below: 16 V}", "plausible: {from: -0.3 V, below: 1 V}")
    walk = at_feed(tree=lamp_with(narrow)).go("11.00", "0.3 V", "1")
    assert walk.labels[-1] == "implausible"
    assert walk.at.step_id == "not-settled"


def test_a_step_that_cannot_be_done_takes_its_exit_with_the_reason():
    walk = Walk()
    walk.skip("no meter at hand")
    assert walk.at.path[0].label == "cannot be done"
    assert walk.at.path[0].answer.reason == "no meter at hand"
    assert walk.at.step_id == "lamp-seen"


def test_a_sum_without_its_readings_takes_the_exit_for_what_cannot_be_done():
    walk = at_feed(tree=lamp_with(STRAIGHT_TO_THE_SUM))
    walk.skip("connector out of reach")
    walk.go("0.3 V", "1")
    assert walk.labels[-1] == "cannot be judged"
    assert walk.at.step_id == "ground-drop"


def test_a_sum_counts_a_reading_that_was_skipped_first_and_taken_later():
    walk = at_feed(tree=lamp_with(STRAIGHT_TO_THE_SUM))
    walk.skip("connector out of reach")
    walk.go("0.3 V", "1")
    walk.change("feed", "11.00")
    assert walk.labels[-2:] == ["weak feed", "large"]


def test_the_other_test_settles_a_reading_too_close_to_call():
    walk = at_feed().go("12.07")
    assert walk.at.stage is Stage.TOO_CLOSE
    walk.go("t")
    assert walk.labels[-1] == "other test"
    assert walk.at.step_id == "feed-with-lamp"


def test_a_proof_that_failed_leads_on_from_the_verdict():
    walk = at_verdict().go("accept", "2")
    assert walk.path[-1] == "ground-bad"
    assert walk.labels[-1] == "proof failed"
    assert walk.at.step_id == "not-settled"


def test_a_proving_run_given_up_leads_on_as_a_proof_that_failed():
    walk = at_verdict().go("accept", "1", "1", "clean", "3")
    assert walk.labels[-1] == "proof failed"
    assert walk.at.step_id == "not-settled"


def test_the_stages_of_a_verdict_follow_each_other():
    walk = at_verdict()
    stages = []
    for text in ("accept", "1", "1", "clean", "clean", "clean", "close"):
        stages.append(walk.at.stage)
        walk.go(text)
    assert stages == [
        Stage.VERDICT,
        Stage.PROOF,
        Stage.REPAIR,
        *[Stage.PROVING_RUN] * 3,
        Stage.CLOSE,
    ]
    assert walk.at.stage is Stage.CLOSED


def test_without_a_repair_there_is_nothing_to_prove_by_a_run():
    assert at_verdict().go("accept", "1", "no repair").at.stage is Stage.CLOSE


def test_clean_cycles_count_in_a_row_and_start_again_when_it_came_back():
    walk = at_verdict().go("accept", "1", "1", "clean", "clean")
    assert clean_cycles(walk.state, "ground-bad") == 2
    walk.go("came back")
    assert clean_cycles(walk.state, "ground-bad") == 0
    walk.go("clean", "clean", "clean")
    assert walk.at.stage is Stage.CLOSE
    walk.back()
    assert clean_cycles(walk.state, "ground-bad") == 2


def test_all_five_kinds_of_conclusion_are_in_the_example():
    results = {s.result for s in lamp().steps.values() if isinstance(s, Conclude)}
    assert len(results) == 5


def test_a_good_reading_without_the_complaint_is_marked():
    walk = Walk()
    walk.complaint(Complaint.ABSENT)
    walk.go("12.60", "glows dim", "12.50")
    assert [v.step_id for v in uncleared(walk.at.path)] == ["feed"]


@pytest.mark.parametrize("complaint", [Complaint.PRESENT, Complaint.PROVOKED])
def test_a_good_reading_taken_while_the_complaint_showed_is_not_marked(complaint):
    walk = Walk()
    walk.complaint(complaint, "rocking the lever")
    assert uncleared(walk.go("12.60", "glows dim", "12.50").at.path) == ()


def test_a_bad_reading_is_bad_whether_the_complaint_showed_or_not():
    walk = Walk()
    walk.complaint(Complaint.ABSENT)
    assert uncleared(walk.go("12.60", "glows dim", "0.10").at.path) == ()


def test_a_value_worked_out_from_a_marked_reading_is_marked():
    walk = Walk()
    walk.complaint(Complaint.ABSENT)
    walk.go("12.60", "glows dim", "12.50", "0.01", "1")
    assert [v.step_id for v in uncleared(walk.at.path)] == ["feed", "ground-drop", "lamp-share"]


def test_evidence_that_was_skipped_is_missing():
    walk = at_feed()
    walk.skip("connector out of reach")
    walk.go("1.20")
    assert missing_evidence(walk.state, walk.at) == ("feed",)
    assert missing_evidence(at_verdict().state, at_verdict().at) == ()


def test_a_changed_answer_leads_where_the_new_one_leads_and_old_answers_count_again():
    walk = at_feed().go("12.50", "1.20")
    assert isinstance(walk.change("lamp-seen", "stays dark"), Recorded)
    assert walk.at.step_id == "fuse-look"
    walk.go("both light", "LX-5", "4.0")
    assert walk.path[-2:] == ["feed", "ground-drop"], "what was measured once is not asked again"
