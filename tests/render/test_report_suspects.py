"""What the readings say, in the report: the suspects, and whether they bear the finding out."""

import json

from builders import Walk, at_verdict
from suspicions import ranked, suspected, suspicion

from faulttree.core.suspects.evidence import reads_of
from faulttree.core.suspects.suspected import Suspected
from faulttree.render.report_json import report_json
from faulttree.render.report_markdown import report_markdown
from faulttree.render.report_suspects import section, section_without
from faulttree.render.suspects_json import suspects_json

TINY = {"series": 0.004, "open": 0.003, "short": 0.003}
EYELET, LAMP = "eyelet.series", "lamp.open"


def _accepted(*more: str) -> Walk:
    return at_verdict().go("1", *more)


def _found(walk: Walk, eyelet: float, lamp: float, none: float = 0.0) -> Suspected:
    shares = sorted(
        (
            ranked(EYELET, eyelet, 0.2, 0.3, "ground of the lamp", ((3, 29.0), (0, 0.5))),
            ranked(LAMP, lamp, 0.2, 0.3, "reversing lamp"),
            ranked("fuse.open", 0.0, 0.2, 0.3, "fuse"),
        ),
        key=lambda r: -r.share,
    )
    found = suspected(suspicion(*shares, none=(none, 0.0), reads=reads_of(walk.state)))
    return Suspected(
        found.suspicion, found.parts, found.along, {}, {}, {"ground-bad": frozenset({EYELET})}
    )


def _text(walk: Walk, *shares: float) -> str:
    return " ".join("\n".join(section(walk.state, _found(walk, *shares))).split())


def test_a_part_that_is_only_worth_telling_with_all_its_faults_names_the_likeliest():
    parts = [ranked(f"eyelet.{name}", share, 0.2, 0.3, "ground") for name, share in TINY.items()]
    walk = _accepted()
    lamp = ranked(LAMP, 0.99, 0.2, 0.3, "reversing lamp")
    found = suspected(suspicion(lamp, *parts, reads=reads_of(walk.state)))
    told = list(section(walk.state, found))
    assert "- 1 %: ground (eyelet: series)" in told


def test_it_tells_the_suspects_and_what_spoke_for_the_finding():
    walk = _accepted()
    assert list(section(walk.state, _found(walk, 0.9, 0.08, 0.02))) == [
        "## What the readings say",
        "",
        "Worked out from the circuit model after 4 readings. Percent are odds of this circuit "
        "model, not certainties.",
        "",
        "- 90 %: ground of the lamp (eyelet: series)",
        "- 8 %: reversing lamp (lamp: open)",
        "- 2 %: none of these: a fault not in the model, or none",
        "- Cleared: 1 of 3 faults",
        "",
        "The finding is the likeliest: 90 %.",
        "",
        "What spoke for “eyelet: series”:",
        "",
        "- Ground of the lamp, 1.20 V: 29 times as likely with this fault",
        "",
        "What spoke against “eyelet: series”:",
        "",
        "- Battery voltage at rest, 12.60 V: twice as likely without this fault",
        "",
    ]


def test_it_says_so_where_the_finding_is_not_the_likeliest():
    told = _text(_accepted(), 0.2, 0.7)
    assert (
        "**By the readings the finding is not the likeliest:** it has 20 %, lamp: open has 70 %."
    ) in told
    assert "Its proof was not done." in told
    held = _text(_accepted("1"), 0.2, 0.7)
    assert "Its proof held, which these odds leave out." in held


def test_it_says_so_where_nothing_known_explains_the_readings():
    told = _text(_accepted(), 0.5, 0.1, 0.4)
    assert "**No fault that the circuit model knows explains these readings well:** 40 %" in told
    assert "explains these readings well" not in _text(_accepted(), 0.9, 0.05, 0.05)


def test_before_a_conclusion_there_is_no_word_of_a_finding():
    told = _text(at_verdict(), 0.9, 0.1)
    assert "finding" not in told
    assert "- 90 %: ground of the lamp" in told


def test_before_the_first_reading_there_is_no_section():
    walk = Walk()
    assert list(section(walk.state, _found(walk, 0.3, 0.3))) == []


def test_where_nothing_can_be_worked_out_one_sentence_says_why():
    assert list(section_without("bench.yaml *is* torn.")) == [
        "## What the readings say",
        "",
        r"bench.yaml \*is\* torn.",
        "",
    ]


def test_the_section_stands_behind_what_the_finding_rests_on():
    walk = _accepted()
    say = tuple(section(walk.state, _found(walk, 0.9, 0.1)))
    heads = [
        line
        for line in report_markdown(walk.state, "x", readings_say=say).splitlines()
        if line.startswith("## ")
    ]
    assert heads[:4] == [
        "## In short",
        "## What the finding rests on",
        "## What the readings say",
        "## Step by step",
    ]
    assert "What the readings say" not in report_markdown(walk.state, "x")


def test_as_data_the_odds_come_by_part_and_fault():
    walk = _accepted()
    data = json.loads(
        json.dumps(suspects_json(walk.state, _found(walk, 0.9, 0.08, 0.02)), allow_nan=False)
    )
    assert data["readings"] == [read.seq for read in reads_of(walk.state)]
    assert data["none-of-these"] == 0.02
    assert data["finding"] == 0.9
    assert data["cleared"] == ["fuse.open"]
    first = data["parts"][0]
    assert (first["part"], first["probability"]) == ("ground of the lamp", 0.9)
    assert first["faults"][0]["speaks"] == {str(data["readings"][3]): 29.0, "3": 0.5}
    whole = report_json(walk.state, "x", data)
    assert whole["suspects"] == data
    assert "suspects" not in report_json(walk.state, "x")


def test_names_of_the_circuit_are_words_in_the_report():
    walk = _accepted()
    hostile = ranked(EYELET, 0.9, 0.2, 0.3, "# a [link](http://x) <b>")
    found = suspected(suspicion(hostile, reads=reads_of(walk.state)))
    told = "\n".join(section(walk.state, found))
    assert "<b>" not in told
    assert r"\[link\]" in told
