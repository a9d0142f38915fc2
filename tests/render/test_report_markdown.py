"""The report: all that was measured, changed, left undone; and nothing that people wrote acts."""

from pathlib import Path

import pytest
from builders import Walk, at_feed, at_verdict, lamp_with
from golden import assert_golden
from markdown_it import MarkdownIt

from faulttree.core.instruments import InstrumentClass
from faulttree.core.walk import respond
from faulttree.core.walk.events import Complaint, Intake
from faulttree.render.report_markdown import report_markdown

GOLDEN = Path(__file__).parent / "golden"
INTAKE = Intake(
    words="The white light at the back is out on some days.",
    car="Brindale Finch 1.3 L, green",
    registration="HL 42 RVN",
    odometer="183 240 km",
    customer="P. Ostrow",
    technician="K. Reeve",
    weather="wet, 4 °C",
)


def _said(walk, found=()):
    """The report on one line, so that where its lines break does not matter."""
    return " ".join(report_markdown(walk.state, "x", found).split())


def _note(walk, text):
    walk.take(respond.add_note(walk.state, walk.at.step_id, text))


def _whole_walk():
    """Changed and withdrawn answers, a skip, notes, an absent complaint, proof, repair, cycles."""
    walk = Walk(
        started={
            "intake": INTAKE,
            "vehicle_id": "brindale-finch-1989",
            "vehicle_hash": "1" * 64,
            "tree_hash": "2" * 64,
            "program": "0",
            "vehicle_name": "Brindale Finch 1.3, 1988-1991",
        }
    )
    walk.go("12.55")
    walk.clock.move(2)
    walk.complaint(Complaint.PROVOKED, "rocking the gear lever")
    walk.go("stays dark")
    walk.skip("fuse box behind the trim, no time today")
    _note(walk, "Connector H7 is green inside.")
    walk.go("LX-5", "4.2")
    walk.clock.move(3)
    walk.go("12.03", "m", "12.40")
    walk.complaint(Complaint.ABSENT)
    walk.go("0.15")
    walk.back()
    walk.complaint(Complaint.PRESENT)
    walk.clock.move(6)
    walk.go("1.35")
    walk.change("lamp-resistance", "4.1")
    walk.go("accept", "1", "Clean the eyelet", "clean", "came back")
    _note(walk, "Eyelet bolt was loose.")
    walk.go("clean", "clean", "clean", "close")
    return walk


def test_a_whole_walk_is_reported_as_it_was():
    text = report_markdown(_whole_walk().state, "2026-11-25-lamp-k3f9")
    assert_golden(GOLDEN / "report-whole.md", text)


def test_an_open_case_says_where_it_stands_and_what_is_still_fitted():
    text = _said(at_feed().go("0.00", "done"), ("Line 2 of x/events.jsonl is left out.",))
    assert "**Open**: it stands at “Look at the lamp with the switch bridged”" in text
    assert "fused lead from cavity a of S9" in text
    assert "till fitted" in text
    assert "Line 2 of x/events.jsonl is left out." in text


def test_a_verdict_accepted_in_spite_of_the_absent_complaint_says_so():
    walk = Walk()
    walk.complaint(Complaint.ABSENT)
    walk.go("12.60", "glows dim", "12.50", "1.20")
    walk.answer("accept", confirmed=True)
    text = _said(walk)
    assert "complaint absent: clears nothing that comes and goes" in text
    assert "that comes and goes:** “Feed at the lamp, lamp in place”: good while" in text
    assert "but **not ruled out for a fault that comes and goes**: step 3, Feed at the" in text


def test_evidence_that_is_missing_is_named_with_the_reason():
    walk = at_feed()
    walk.skip("connector out of reach")
    walk.go("1.20")
    walk.answer("accept", confirmed=True)
    text = _said(walk)
    assert "the finding rests on it" in text
    assert "connector out of reach" in text


def test_a_proof_that_was_not_done_says_why():
    walk = at_verdict().go("accept")
    walk.answer("3", reason="no lead long enough")
    assert "**Proof:** **not done**: no lead long enough" in _said(walk)


def test_a_reading_decided_by_the_technician_says_so_with_the_reason():
    walk = at_feed().go("12.07")
    walk.answer("1", reason="the lamp is dim")
    text = _said(walk)
    assert "too close to call" in text
    assert "the lamp is dim" in text


def test_a_proving_run_says_what_it_proves_and_no_more():
    text = _said(at_verdict().go("accept", "1", "1", "clean", "clean", "clean"))
    # 1 - 0.05^(1/3) = 63.2 %, rounded up: exact bound for no event in three trials, Clopper and
    # Pearson (1934)
    assert (
        "3 clean cycles in a row. What shows in 64 % of tries or more would have come back in 95 "
        "of 100 such runs, and what shows less often may still be there."
    ) in text


def test_a_proving_run_is_held_against_the_tries_before_the_repair():
    walk = at_verdict()
    walk.count("2 of 4")
    text = _said(walk.go("accept", "1", "1", *["clean"] * 12))
    # C(4, 2)/C(16, 2) = 6/120: Fisher's exact test (1935); 1 - 0.05^(1/12) = 22.1 %
    assert (
        "**Proving run:** 12 clean cycles in a row. Had nothing been changed, so long a clean run "
        "after it showed in 2 of 4 tries would be luck of at most 5 in 100; what shows in 23 % of "
        "tries or more would have come back in 95 of 100 such runs"
    ) in text
    assert "09:30: it showed in 2 of 4 tries" in text


def test_a_count_written_down_after_the_repair_or_corrected_says_so():
    walk = at_verdict().go("accept", "1", "1", "clean")
    walk.count("3 of 4")
    walk.count("2 of 4")
    text = _said(walk)
    assert "the tries before the repair were written down only after it" in text
    assert "it showed in 3 of 4 tries (counted anew later)" in text
    walk.count("none")
    assert "the count of tries taken back" in _said(walk)
    assert "1 clean cycle in a row of the 3 wanted." in _said(walk)


def test_what_was_never_seen_before_is_not_said_to_be_cured():
    walk = at_verdict()
    walk.count("0 of 10")
    text = _said(walk.go("accept", "1", "1", "clean", "clean", "clean"))
    assert "a clean run cannot tell whether the repair changed anything;" in text
    assert "Had nothing been changed" not in text


def test_a_proving_run_that_was_not_done_says_so():
    assert "**Proving run:** **not done**" in _said(at_verdict().go("accept", "1", "1"))


def test_a_proving_run_that_was_broken_off_says_how_many_cycles_were_wanted():
    text = _said(at_verdict().go("accept", "1", "1", "came back", "clean", "4"))
    assert (
        "1 clean cycle in a row of the 3 wanted; before that the complaint came back once" in text
    )
    assert "**Closed**: closed before the proving run was complete." in text


def test_the_times_a_complaint_came_back_are_counted():
    cycles = ("came back", "came back", "clean", "clean")
    text = _said(at_verdict().go("accept", "1", "1", *cycles))
    assert "2 clean cycles in a row of the 3 wanted; before that the complaint came back 2" in text


def test_a_verdict_whose_proof_failed_is_told_with_what_was_done_for_it():
    walk = at_verdict().go("accept", "1", "Clean the eyelet", "came back", "go on looking")
    text = _said(walk)
    assert (
        "- **Suspected before:** “Ground of the reversing lamp”; the proof did not hold, though "
        "“Clean the eyelet” was done"
    ) in text
    assert "**Ground of the reversing lamp**: suspected; the proof did not hold" in text
    assert "the complaint came back during the proving run" in text


def test_the_first_page_answers_what_a_customer_asks_in_that_order():
    page = report_markdown(_whole_walk().state, "2026-11-25-lamp-k3f9").splitlines()[:24]
    labels = [line.split(":**")[0].removeprefix("- **") for line in page if line.startswith("- **")]
    assert labels == [
        *("Complaint", "Car", "Customer", "Fault found", "Done", "Limits of the repair"),
        *("Proof", "Proving run", "Not tested", "Look also for the cause behind it"),
    ]


def test_the_day_is_told_again_only_when_it_has_changed():
    walk = Walk().go("12.55")
    walk.clock.move(24 * 60)
    text = _said(walk.go("stays dark"))
    assert "begun 2026-11-25 09:30, last entry 2026-11-26 09:30" in text
    assert "- 09:30; meter (10 MΩ)" in text
    assert "- 2026-11-26 09:30; key run" in text


def test_two_instruments_of_one_class_are_told_apart():
    walk = at_feed()
    meter = walk.state.instruments[InstrumentClass.METER]
    spare = meter.model_copy(update={"id": "spare", "name": "Spare meter"})
    walk.take(respond.choose_instrument(walk.state, spare))
    text = _said(walk.go("12.50"))
    assert "Spare meter; key run" in text
    assert "Usual digital meter, 6000 counts; key out" in text


def test_what_was_typed_in_another_unit_is_told_as_it_was_typed():
    assert "typed as 1200 mV" in _said(at_feed().go("12.50", "1200 mV"))


def test_only_a_closed_record_leaves_lines_for_the_shop_to_sign():
    walk = at_verdict().go("accept", "1", "0")
    assert "Date and signature" not in _said(walk)
    assert "Date and signature: ...." in _said(walk.go("close"))


def test_a_repair_that_was_not_made_says_so():
    assert "no repair" in _said(at_verdict().go("accept", "1", "0")).lower()


def test_vehicle_data_that_was_told_is_listed_with_what_is_not_known():
    walk = at_feed(sheet=None)
    text = _said(walk.go("left tail lamp", "11.00", ""))
    assert "feed terminal of the reversing lamp: left tail lamp (told during the work)" in text
    assert "Largest voltage drop allowed from battery to lamp: not known" in text


def test_a_case_without_its_first_entry_is_still_reported():
    walk = at_verdict()
    bare = Walk()
    bare.events.clear()
    bare.record(*walk.events[1:])
    assert "12.50 V" in _said(bare)


def test_no_line_is_longer_than_wanted_unless_it_is_one_word():
    for line in report_markdown(_whole_walk().state, "x", width=60).splitlines():
        assert len(line) <= 60 or " " not in line.strip("-> ") or line.startswith("#")


# ---------------------------------------------------------------------------------- hostile words

HOSTILE = (
    "<script>alert(1)</script>",
    "<img src=x onerror=alert(1)>",
    "[press here](http://bad.example)",
    "![picture](http://bad.example/x.png)",
    "<http://bad.example>",
    "# heading",
    "- list",
    "1. list",
    "---",
    "===",
    "```\ncode\n```",
    "`code`",
    "**bold** _thin_ ~~gone~~",
    "| a | b |\n|---|---|",
    "> quote",
    "&lt;b&gt; &#60;b&#62; &copy;",
    "\\<b\\> \\[a\\](b)",
    "line\n\n# heading after it",
    "[a]: http://bad.example",
    "\x1b[31mred\x1b[0m \u202egnp",
    "x" * 1900,
)


def _hostile_walk(word):
    intake = Intake(words=word, car=word, customer=word, technician=word, weather=word)
    walk = Walk(started={"intake": intake}, sheet=None)
    walk.complaint(Complaint.PROVOKED, word)
    walk.go("12.60", "stays dark")
    walk.skip(word)
    _note(walk, word)
    walk.go(word, "4.2", word, "12.50", word, "1.20")
    walk.answer("accept", confirmed=True, reason=word)
    walk.answer("3", reason=word)
    walk.answer("1", reason=word)
    return walk


@pytest.mark.parametrize("word", HOSTILE, ids=lambda w: repr(w[:18]))
def test_words_of_people_are_words_in_the_report(word):
    markdown = report_markdown(_hostile_walk(word).state, word)
    harmless = report_markdown(_hostile_walk("word").state, "word")
    parser = MarkdownIt("commonmark").enable(["table", "strikethrough"])
    assert _shape(parser, markdown) == _shape(parser, harmless)
    assert "\x1b" not in markdown
    assert "\u202e" not in markdown


@pytest.mark.parametrize("word", HOSTILE, ids=lambda w: repr(w[:18]))
def test_words_of_people_come_out_whole(word):
    markdown = report_markdown(_hostile_walk(word).state, "x")
    shown = "".join(
        " " if child.type == "softbreak" else child.content
        for token in MarkdownIt("commonmark").parse(markdown)
        for child in token.children or ()
    )
    expected = " ".join(word.replace("\x1b", "?").replace("\u202e", "?").split())
    assert expected in shown


def _shape(parser, markdown):
    """The kinds of everything in a document, in order: no word may add to them or change them.

    Where lines are broken depends on how long words are, and means nothing.
    """
    kinds = []
    for token in parser.parse(markdown):
        kinds.append(token.type)
        kinds += [child.type for child in token.children or () if child.type != "text_special"]
    return [kind for kind in kinds if kind not in ("text", "softbreak")]


def test_words_of_a_tree_are_words_in_the_report():
    tree = lamp_with(
        ("title: Reversing lamp stays dark", 'title: "<b>Lamp</b> [a](http://bad.example)"'),
        ("means: The ground takes voltage.", 'means: "<i>x</i> ![p](q) `c` # h"'),
        ("title: Ground of the lamp\n", 'title: "# <u>Ground</u>"\n'),
    )
    markdown = report_markdown(at_verdict(tree=tree).state, "x")
    parser = MarkdownIt("commonmark")
    assert _shape(parser, markdown) == _shape(parser, report_markdown(at_verdict().state, "x"))
