"""What is said of counts and clean cycles: never more than the numbers."""

import re

import pytest
from builders import Walk, at_verdict

from faulttree.core.proving import chance_if_unchanged, largest_rate
from faulttree.core.walk.events import Complaint
from faulttree.core.walk.proving_run import ProvingRun, Tries, proving_run
from faulttree.core.walk.results import Recorded
from faulttree.core.walk.run_words import just_counted, proves


def said_to(text: str, walk: Walk | None = None) -> str:
    walk = walk or at_verdict()
    result = walk.count(text)
    assert isinstance(result, Recorded)
    return just_counted(walk.state, result.events)


def notes(walk: Walk) -> str:
    return " ".join(walk.ask.notes)


def test_a_count_says_at_once_what_it_means_for_the_run():
    assert said_to("3 of 10") == (
        "It showed in 3 of 10 tries: after the repair 16 clean cycles in a row will do (95 % "
        "confidence)."
    )


def test_seen_rarely_it_advises_to_go_on_counting_where_that_is_less_work():
    # 3 of 30 wants 50: 4060/C(80, 3) = 0.0494
    text = said_to("1 of 10")
    assert "190 clean cycles" in text
    assert "until it has shown 3 times, some 20 more tries, about 50 would do" in text
    assert "Counted on" not in said_to("2 of 4")
    assert "Counted on" not in said_to("3 of 40")


def test_never_seen_it_says_that_no_run_can_tell():
    # 1 - 0.05^(1/10) = 25.9 %
    text = said_to("0 of 10")
    assert "no clean run can tell whether a repair changed anything" in text
    assert "At most 26 % chance per try is left" in text


def test_a_count_taken_back_is_said_to_be():
    assert said_to("none") == "How often it shows is not counted."
    assert just_counted(at_verdict().state, ()) == ""


def test_while_the_fault_is_there_it_advises_to_count_what_comes_and_goes():
    walk = at_verdict().go("accept")
    assert notes(walk) == "", "present throughout: nothing to count"
    walk.complaint(Complaint.PROVOKED, "rocking the lever")
    assert "count how often it shows" in notes(walk)
    walk.count("2 of 4")
    assert notes(walk).startswith("It showed in 2 of 4 tries: after the repair 12 clean cycles")


def test_the_question_says_where_the_run_stands():
    walk = at_verdict()
    walk.count("2 of 4")
    walk.go("accept", "1", "1", *["clean"] * 5)
    assert walk.ask.prompt == "Proving run, 5 of 12 clean in a row: this cycle"
    # 1 - 0.05^(1/5) = 45.1 %, 1 - 0.05^(1/12) = 22.1 %, rounded up
    assert notes(walk) == (
        "It showed in 2 of 4 tries before: 12 clean in a row would be luck of at most 5 in 100. "
        "Chance per try that can be left: 5 clean, at most 46 %; 12 clean, at most 23 % (95 % "
        "confidence)."
    )


def test_without_a_count_the_question_says_only_what_may_be_left():
    walk = at_verdict().go("accept", "1", "1")
    assert notes(walk) == (
        "Chance per try that can be left: 3 clean, at most 64 % (95 % confidence)."
    )


def test_when_the_tree_asks_for_more_that_is_said():
    walk = at_verdict()
    walk.count("10 of 10")
    walk.go("accept", "1", "1")
    assert "at most 5 in 100; the tree asks for 3." in notes(walk)
    walk.go("clean", "clean")
    assert notes(walk).endswith("The tree asks for 3: more leave less room for what is rare.")
    walk.go("3")
    assert "The tree asks" not in notes(walk)


def test_after_a_return_it_says_why_more_are_wanted():
    walk = at_verdict()
    walk.count("2 of 4")
    walk.go("accept", "1", "1", "clean", "clean", "clean", "came back")
    assert "It showed in 3 of 8 tries, this run counted in: 17 clean in a row" in notes(walk)
    run = proving_run(walk.state, "ground-bad")
    assert run is not None
    assert proves(run) == "It came back in the last cycle, so nothing is proved."
    walk.go("clean")
    run = proving_run(walk.state, "ground-bad")
    assert run is not None
    assert "and the run was begun 2 times" in proves(run)


@pytest.mark.parametrize("confidence", [0.5, 0.8, 0.9, 0.95, 0.999])
@pytest.mark.parametrize("before", [(1, 1), (1, 3), (2, 4), (3, 10), (10, 10), (1, 100)])
@pytest.mark.parametrize("clean", [1, 2, 5, 13, 60, 700])
def test_no_number_is_rounded_to_more_than_was_found(confidence, before, clean):
    run = ProvingRun(clean, clean, 0, clean, 3, Tries(*before), False, confidence)
    luck, rate, runs = re.findall(r"([0-9.]+) (?:in 100|% of tries or|of 100 such)", proves(run))
    assert float(luck) >= 100 * chance_if_unchanged(*before, clean) - 1e-6
    assert float(luck) - 1 <= 100 * chance_if_unchanged(*before, clean)
    if float(rate) < 100:
        assert 1 - (1 - float(rate) / 100) ** clean >= confidence - 1e-9
    assert float(rate) - 1 <= 100 * largest_rate(clean, confidence)
    assert float(runs) == pytest.approx(100 * confidence)
