"""Suspects in words: percent, changes, why, and the circuit drawn with them."""

import re
from pathlib import Path

import pytest
from benches import opened
from builders import Walk, at_feed
from golden import assert_golden
from suspicions import ranked, suspected, suspicion

from faulttree.case_bench.battery import PostVolts
from faulttree.case_bench.suspects_on_bench import Known, SuspectsOnBench
from faulttree.core.bench.suspects import Suspect
from faulttree.core.circuit.circuit import Circuit
from faulttree.core.suspects.by_part import by_part
from faulttree.core.suspects.evidence import Read, reads_of
from faulttree.core.suspects.hypotheses import Sighting
from faulttree.core.suspects.shares import Share
from faulttree.core.suspects.suspected import Suspected
from faulttree.core.uncertain import Uncertain
from faulttree.core.walk.events import Complaint
from faulttree.render import suspects_words as say
from faulttree.render.line import Line
from faulttree.render.suspects_along import along_lines
from faulttree.render.suspects_here import entries, list_lines
from faulttree.render.suspects_more import meant, more
from faulttree.render.suspects_why import why_lines

GOLDEN = Path(__file__).parent / "golden"
FEED_FAULT = (
    ranked("switch.series", 0.62, 0.3, 0.2, "switch on the gearbox", ((2, 8.2), (0, 0.4)), True),
    ranked("wire.series", 0.3, 0.41, 0.1, "wire to the lamp", ((2, 2.0),)),
    ranked("lamp.open", 0.004, 0.1, 0.3, "lamp", ((2, 0.0005),)),
    ranked("eyelet.series", 0.004, 0.1, 0.3, "eyelet", ((2, 0.02),)),
)
"""Made-up shares after three readings, the last of which was the feed."""


def _texts(lines: object) -> list[str]:
    assert not isinstance(lines, str)
    return [f"{line.label}: {line.text}" if line.label else line.text for line in lines]  # type: ignore[attr-defined]


def _walk(*answers: str) -> Walk:
    return at_feed().go(*(answers or ("11.6",)))


def _found(*more_ranked: object, **options: object) -> tuple[Walk, Suspected]:
    walk = _walk()
    found = suspicion(*FEED_FAULT, reads=reads_of(walk.state), none=(0.07, 0.02), **options)  # type: ignore[arg-type]
    return walk, suspected(found, (("switch", "wire"), ("lamp",), ("eyelet",)))


@pytest.mark.parametrize(
    ("share", "words"),
    [
        (0.0, "<1 %"),
        (0.0049, "<1 %"),
        (0.006, "1 %"),
        (0.333, "33 %"),
        (0.994, "99 %"),
        (0.996, ">99 %"),
        (1.0, ">99 %"),
    ],
)
def test_odds_are_never_certain(share, words):
    assert say.percent(share) == words


@pytest.mark.parametrize(
    ("now", "before", "words"),
    [
        (0.333, 0.07, "up: 7 → 33 %"),
        (0.0, 0.43, "down: 43 → <1 %"),
        (0.332, 0.333, "as before"),
        (0.999, 0.5, "up: 50 → >99 %"),
    ],
)
def test_what_the_last_reading_changed_is_told_in_words(now, before, words):
    assert say.change(Share(now, before, 0.1)) == words


@pytest.mark.parametrize(
    ("factor", "words"),
    [
        (1.54, "1.5 times as likely with this fault"),
        (2.0, "twice as likely with this fault"),
        (40.2, "40 times as likely with this fault"),
        (287.0, "290 times as likely with this fault"),
        (1e7, "over 1000 times as likely with this fault"),
        (0.025, "40 times as likely without this fault"),
        (1e-9, "over 1000 times as likely without this fault"),
        (999.9, "1000 times as likely with this fault"),
    ],
)
def test_how_strongly_a_reading_speaks(factor, words):
    assert say.times(factor) == words


@pytest.mark.parametrize(
    ("share", "bar"), [(0.0, "...."), (0.01, "#..."), (0.5, "##.."), (1.0, "####")]
)
def test_a_bar_is_ascii_and_shows_what_is_not_negligible(share, bar):
    assert say.bar(share, 4) == bar


def test_the_list_has_parts_none_of_these_what_is_cleared_and_the_circuit():
    walk, found = _found()
    assert _texts(list_lines(walk.state, found)) == [
        "Suspects: after 3 readings. Percent are odds of this circuit model, not certainties.",
        "Last: Feed at the lamp, lamp in place, 11.6 V",
        " 1  62 %  switch on the gearbox (up: 30 → 62 %)",
        " 2  30 %  wire to the lamp (down: 41 → 30 %)",
        "     7 %  none of these: a fault not in the model, or none (up: 2 → 7 %; suspects none)",
        "    cleared: 2 of 4 faults (suspects cleared)",
        "    along the circuit: 2 proved good, 0 in question, 1 likely (suspects circuit)",
    ]


def test_pairs_are_told_where_there_are_any_and_parts_too_many_together():
    many = [ranked(f"joint-{i}.open", 0.08, 0.08, 0.08) for i in range(11)]
    found = suspected(suspicion(*many, pairs=((0, 1, 0.03, 0.01), (2, 3, 0.001, 0.0))))
    rows = entries(found)
    assert [row.is_part for row in rows] == [True] * 8 + [False] * 5
    assert rows[8].words == "3 other parts together"
    assert rows[9].words == "both at once: joint-0: open, and joint-1: open"
    assert rows[9].numbers(40).split()[0] == "3"
    walk = _walk()
    assert more(walk.state, found, "both")[1][1:] == [
        Line("3 %", "joint-0: open, and joint-1: open")
    ]
    assert len(more(walk.state, found, "others")[1]) == 3


def test_numbers_fit_any_width():
    row = entries(_found()[1])[0]
    assert row.numbers(60) == " 62 % #######..... up: 30 → 62 %"
    assert row.numbers(30) == " 62 % ####... up: 30 → 62 %"
    assert row.numbers(10) == " 62 % up: 30 → 62 %"


def test_why_tells_what_speaks_for_and_against_and_what_clears_nothing():
    walk = Walk()
    walk.complaint(Complaint.ABSENT)
    walk.go("12.60")
    walk.complaint(Complaint.PRESENT)
    walk.go("glows dim", "11.6")
    found = suspected(suspicion(*FEED_FAULT, reads=reads_of(walk.state)))
    switch, wire, lamp, _ = found.parts
    assert _texts(why_lines(walk.state, found, switch)) == [
        "62 % now, 30 % before the last reading, 20 % before any.",
        "",
        "switch: series: 62 % (up: 30 → 62 %), comes and goes",
        "  Speaks for it: Feed at the lamp, lamp in place, 11.6 V: 8.2 times as likely with this "
        "fault",
        "  Speaks against it: Battery voltage at rest, 12.60 V: 2.5 times as likely without this "
        "fault",
        "",
        "Clears nothing that comes and goes: Battery voltage at rest, 12.60 V (the complaint was "
        "away)",
    ]
    assert "Clears nothing" not in " ".join(_texts(why_lines(walk.state, found, wire)))
    assert "It is cleared: less than a tenth" in _texts(why_lines(walk.state, found, lamp))[0]


@pytest.mark.parametrize(
    ("typed", "names"),
    [
        ("1", ["switch on the gearbox"]),
        ("2", ["wire to the lamp"]),
        ("3", []),
        ("0", []),
        ("99", []),
        ("Lamp", ["lamp"]),
        ("wire", ["wire to the lamp"]),
        ("switch.series", ["switch on the gearbox"]),
        ("to the", ["wire to the lamp"]),
        ("series", ["switch on the gearbox", "wire to the lamp", "eyelet"]),
        ("circuit", ["circuit"]),
        ("none", ["none"]),
        ("horn", []),
        ("", []),
    ],
)
def test_a_suspect_is_asked_for_by_number_name_or_id(typed, names):
    assert meant(_found()[1], typed) == names


def test_what_is_called_by_no_name_is_a_mistake():
    walk, found = _found()
    with pytest.raises(KeyError):
        more(walk.state, found, "horn")


def test_the_circuit_is_drawn_from_plus_to_ground_with_signs_and_words():
    _, found = _found()
    assert _texts(along_lines(found)) == [
        "Percent now (and before any reading); proved good: less than a tenth of that.",
        "",
        "Main way: point a to point d",
        "o point a",
        "| ! likely, 92 % (30 %): the switch, the wire",
        "o point b",
        "| + proved good, <1 % (30 %): the lamp",
        "o point c",
        "| + proved good, <1 % (30 %): the eyelet",
        "o point d",
        "",
        "None of these: 7 %",
    ]


def test_a_way_that_is_good_throughout_is_one_line_and_what_is_on_none_is_told():
    shares = (
        ranked("lamp.open", 0.3, 0.3, 0.3),
        ranked("coil.open", 0.01, 0.2, 0.3),
        ranked("cold.day", 0.6, 0.3, 0.3, "weather"),
    )
    lines = _texts(along_lines(suspected(suspicion(*shares), (("lamp",),), (("coil",), ()))))
    assert "+ Way 2, proved good throughout: point c to point e" in lines
    assert "On none of these ways: weather: cold: day, 60 %" in lines


def test_words_of_a_fault_leave_out_an_element_that_is_called_as_its_part():
    lamp = ranked("lamp.open", 0.1, 0.1, 0.1, "lamp")
    clip = ranked("clip.open", 0.1, 0.1, 0.1, "fuse and clips")
    assert say.fault(lamp) == "open"
    assert say.faults((clip, ranked("clip.shorted", 0.1, 0.1, 0.1, "fuse and clips"))) == (
        "clip: open, shorted"
    )


def _read(seq: int, step: str, told: float | str) -> Read:
    value = Uncertain(told, {"meter": 0.02}) if isinstance(told, float) else None
    outcome = told if isinstance(told, str) else ""
    return Read(seq, step, frozenset(), value, outcome, Sighting.PRESENT, 0)


def test_a_shipped_circuit_looks_as_it_should():
    """The blower with full feed and high return: percent are left out, so that what is drawn does
    not change with every weight."""
    found = opened("blower-some-speeds")
    circuit = Circuit.from_document(found.circuit.document)
    bench = SuspectsOnBench(found.tree.document, circuit, found.sheet.document)
    reads = (
        _read(1, "pattern", "turns, but weak on high as well"),
        _read(2, "motor-feed", 12.3),
        _read(3, "motor-return", 3.55),
    )
    suspects = bench.after(Known(reads, PostVolts(12.6), (), {}))
    drawn = "\n".join(_texts(along_lines(suspects))) + "\n"
    assert_golden(GOLDEN / "suspects-circuit.txt", re.sub(r"[<>]?\d+ %", "n %", drawn))
    assert {part.name for part in suspects.parts} == {
        part.name for part in by_part(suspects.suspicion)
    }
    assert all(isinstance(r.suspect, Suspect) for r in suspects.suspicion.ranked)
