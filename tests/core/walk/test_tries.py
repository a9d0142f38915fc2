"""How a count of tries is typed."""

import pytest
from builders import Walk, at_verdict

from faulttree.core.walk.events import TriesCounted
from faulttree.core.walk.respond import NeedsReason, Recorded, Refused


def counted(text: str) -> TriesCounted:
    result = Walk().count(text)
    assert isinstance(result, Recorded), result
    (event,) = result.events
    assert isinstance(event, TriesCounted)
    return event


@pytest.mark.parametrize(
    "text", ["3 of 10", "3/10", "3 in 10", "3 out of 10", "3of10", " 3  of 10 tries ", "3 OF 10"]
)
def test_a_count_in_many_ways(text):
    event = counted(text)
    assert (event.seen, event.tries, event.confidence) == (3, 10, 0.95)


@pytest.mark.parametrize(
    ("text", "confidence"),
    [
        ("3 of 10 at 90 %", 0.9),
        ("3 of 10, 99%", 0.99),
        ("3 of 10 tries at 99,9 %", 0.999),
        ("3/10 at 80%", 0.8),
    ],
)
def test_a_confidence_may_stand_behind_it(text, confidence):
    assert counted(text).confidence == confidence


def test_a_count_is_taken_back():
    assert (counted("None").seen, counted("none").tries) == (0, 0)


@pytest.mark.parametrize(
    ("text", "why"),
    [
        ("3", "how many of how many"),
        ("often", "how many of how many"),
        ("3 of ten", "how many of how many"),
        ("-1 of 3", "how many of how many"),
        ("3.5 of 10", "how many of how many"),
        ("4 of 3", "cannot be"),
        ("0 of 0", "cannot be"),
        ("1 of 10001", "cannot be"),
        ("3 of 10 at 40 %", "between 50 and 99.9 %"),
        ("3 of 10 at 100 %", "between 50 and 99.9 %"),
        ("3 of 10 " + "x" * 2000, "characters"),
    ],
)
def test_what_is_no_count_is_refused_in_a_sentence(text, why):
    result = Walk().count(text)
    assert isinstance(result, Refused)
    assert why in result.message


def test_without_a_text_it_is_asked_for():
    assert isinstance(Walk().count(" "), NeedsReason)


def test_a_closed_case_takes_none():
    walk = at_verdict().go("accept", "1", "0", "close")
    assert isinstance(walk.count("2 of 4"), Refused)
