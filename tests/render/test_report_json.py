"""The case as data."""

import json

import pytest
from builders import Walk, at_feed, at_verdict

from faulttree.render.report_json import report_json


def _data(walk):
    return json.loads(json.dumps(report_json(walk.state, "x"), allow_nan=False))


def test_a_concluded_case_has_path_conclusion_and_record():
    walk = at_verdict().go("accept", "1", "New earth point", "clean")
    data = _data(walk)
    assert (data["case"], data["tree"], data["version"]) == ("x", "lamp", "1.1.0")
    assert (data["stands-at"], data["stage"]) == ("ground-bad", "proving run")
    assert [v["taken"] for v in data["path"]] == ["charged", "glows dim", "full feed", "lossy"]
    assert data["conclusion"] == {
        "step": "ground-bad",
        "result": "fault",
        "title": "Ground of the reversing lamp",
        "part": "earth wire of the reversing lamp",
        "accepted": True,
        "proof": "held",
        "repair": "New earth point",
        "clean-cycles": 1,
        "proving-run": data["conclusion"]["proving-run"],
    }
    assert len(data["record"]) == len(walk.events)


def test_a_proving_run_is_told_in_numbers_and_in_words():
    walk = at_verdict()
    walk.count("2 of 4 at 90 %")
    run = _data(walk.go("accept", "1", "1", "clean"))["conclusion"]["proving-run"]
    assert run.pop("proves").startswith("Had nothing been changed")
    # 6/C(5, 2) for so long a run by luck; 1 - 0.1^(1/1) for the largest rate
    assert run.pop("chance-if-unchanged") == pytest.approx(6 / 10)
    assert run.pop("largest-rate") == pytest.approx(0.9)
    assert run == {
        "cycles": 1,
        "clean-in-a-row": 1,
        "wanted": 8,
        "came-back": 0,
        "before": {"seen": 2, "tries": 4},
        "confidence": 0.9,
    }


def test_without_a_repair_or_a_count_there_is_nothing_to_tell():
    assert _data(at_verdict().go("accept", "1", "0"))["conclusion"]["proving-run"] is None
    run = _data(at_verdict().go("accept", "1", "1"))["conclusion"]["proving-run"]
    assert (run["before"], run["chance-if-unchanged"], run["largest-rate"]) == (None, None, None)
    assert (run["wanted"], run["proves"]) == (3, "")


def test_values_are_si_with_their_limit_of_error():
    reading = _data(at_verdict())["path"][3]
    assert (reading["value"], round(reading["limit-of-error"], 6)) == (1.2, 0.013)
    assert reading["speaks-for"] == "fault"


def test_an_open_circuit_is_ol():
    walk = Walk().go("12.60", "stays dark", "both light", "LX-5", "OL")
    assert _data(walk)["path"][3]["value"] == "OL"


def test_what_is_still_fitted_is_told_in_this_cars_words():
    assert _data(at_feed().go("0.00", "done"))["still-fitted"] == {
        "switch-bypass": "fused lead from cavity a of S9, green wire, top of the gearbox to cavity "
        "b of S9, green/black wire, top of the gearbox"
    }


def test_a_case_without_a_conclusion_has_none():
    data = _data(Walk())
    assert (data["conclusion"], data["path"]) == (None, [])


def test_every_entry_says_how_it_stands():
    walk = at_feed().go("12.50")
    walk.change("feed", "6.00")
    walk.back()
    assert [r["standing"] for r in _data(walk)["record"]][4:] == [
        "in force",
        "withdrawn",
        "in force",
    ]
