"""What is said of a trace: golden texts, widths, and sentences that claim no more than was seen."""

from pathlib import Path

import pytest
from golden import assert_golden
from hypothesis import given, settings
from hypothesis import strategies as st
from traces import analysed, feed_text, known_text

from faulttree.core.trace.limits import Counting, Side
from faulttree.core.trace.marks import Mark
from faulttree.render.page import WIDTH
from faulttree.render.trace_json import trace_json
from faulttree.render.trace_text import trace_text
from faulttree.render.trace_words import TraceWords, chance, per_hour, percent, span

GOLDEN = Path(__file__).parent / "golden"
MARKS = [
    *(Mark(at, "wiggle") for at in (3.0, 11.0, 24.0, 39.5)),
    *(Mark(at, "tap") for at in (20.0, 50.0, 99.0)),
]


def _marks(clock):
    return MARKS


def _text(findings, only_ascii=False, everything=False):
    return trace_text(TraceWords(findings, "feed.csv", only_ascii), everything)


def _said(findings):
    return " ".join(_text(findings).split())


def test_the_known_trace_is_told():
    assert_golden(GOLDEN / "trace-known.txt", _text(analysed(known_text())))


def test_marks_merging_and_gaps_are_told_in_ascii():
    lines = [line for i, line in enumerate(known_text().splitlines(True)) if not 4400 < i < 4700]
    findings = analysed(
        "".join(lines), low="11", high="12", counting=Counting(0.2, 0.03), marks=_marks
    )
    text = _text(findings, only_ascii=True)
    assert text.isascii()
    assert_golden(GOLDEN / "trace-marks.txt", text)


def test_a_temperature_by_the_clock_is_told():
    rows = (f"23:59:{30 + i // 10}.{i % 10};{5 if i < 200 else 21:.1f}\n" for i in range(290))
    text = "Uhrzeit;Vent (°C)\n" + "".join(rows).replace(".", ",")
    assert_golden(GOLDEN / "trace-clock.txt", _text(analysed(text, side=Side.ABOVE)))


@given(
    values=st.lists(st.sampled_from([13.8, 13.7, 5.0, 0.0, 20.0]), min_size=2, max_size=120),
    above=st.booleans(),
    only_ascii=st.booleans(),
)
@settings(max_examples=60)
def test_every_line_fits_eighty_columns(values, above, only_ascii):
    side = Side.ABOVE if above else Side.BELOW
    findings = analysed(feed_text(values), low="6", high="12", side=side, marks=_marks)
    text = _text(findings, only_ascii)
    assert all(len(line) <= WIDTH for line in text.splitlines())
    assert text.isascii() or not only_ascii


def test_a_long_list_is_cut_with_a_count():
    findings = analysed(feed_text([13.8, 2.0] * 40 + [13.8] + [2.0] * 7 + [13.8]), low="11")
    text = _text(findings)
    assert "and 21 more, which --all lists; the longest lasts 70 ms, at 0.81 s" in text
    assert "  41  " in _text(findings, everything=True)


def test_a_dropout_that_was_under_way_lasts_at_least_so_long():
    text = _text(analysed(feed_text([2.0] * 30 + [13.8] * 30), low="11"))
    assert "> 300 ms" in text
    assert "it lasts at least so long" in text


def test_what_is_shorter_than_a_step_is_said_to_be_unseen():
    said = _said(analysed(feed_text([13.8] * 100), low="11"))
    assert "No dropout." in said
    assert "shorter than the 10 ms between two samples is caught with the chance of its" in said
    assert "one of 1 ms one time in ten" in said


def test_too_few_episodes_are_said_to_tell_nothing():
    def marks(clock):
        return [Mark(0.2, "tap")]

    findings = analysed(feed_text([13.8] * 30 + [2.0] + [13.8] * 30), low="11", marks=marks)
    assert "Too few episodes to tell (p = 0.67): chance could let even all" in _said(findings)


def test_bursts_are_told_as_episodes_too():
    findings = analysed(feed_text([13.8, 2.0] * 3 + [13.8] * 300 + [2.0, 13.8]), low="11")
    assert "Those taken together, they are 2 episodes" in _said(findings)


def test_what_was_passed_over_in_the_file_is_told():
    text = "Logger,7\nBegun,today\n" + feed_text([13.8] * 9) + "0.09"
    said = _said(analysed(text, low="11", is_cut=True))
    assert "2 lines above the header are passed over." in said
    assert "Line 13, the last one, is cut off and was left out." in said


def test_names_from_a_file_cannot_command_a_terminal():
    text = feed_text([13.8] * 9).replace("volts", "ev\x1b[2Jil (V)")
    assert "\x1b" not in _text(analysed(text, low="11"))


def test_the_data_hold_what_the_text_says():
    data = trace_json(TraceWords(analysed(known_text(), marks=_marks), "feed.csv"))
    assert (data["count"], data["unit"], data["side"]) == (5, "V", "below")
    assert data["dropouts"][0] == {
        "at": "3.20 s",
        "begins-s": 3.2,
        "lasts-s": pytest.approx(0.04),
        "furthest": 0.174,
        "begin-seen": True,
        "end-seen": True,
    }
    wiggle, tap = data["marks"]
    assert (wiggle["hits"], wiggle["episodes"], wiggle["more-than-chance"]) == (4, 4, True)
    assert (tap["outside"], tap["hits"]) == (1, 0)


@pytest.mark.parametrize(
    ("text", "wanted"),
    [
        (per_hour(0), "0"),
        (per_hour(0.01234), "0.0123"),
        (per_hour(240.2), "240"),
        (per_hour(36000), "36,000"),
        (percent(0.000123), "0.0123 %"),
        (percent(1), "100 %"),
        (chance(0.00001), "less than 0.0001"),
        (chance(0.01234), "0.012"),
        (span(2), "2 s"),
        (span(0.02), "20 ms"),
        (span(5e-7), "500 ns"),
    ],
)
def test_numbers_have_the_digits_they_need(text, wanted):
    assert text == wanted
