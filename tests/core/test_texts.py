"""Names in curly brackets in the texts of a tree."""

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from faulttree.core.texts import fill, placeholders


def test_names_come_in_order_and_each_once() -> None:
    assert placeholders("From {fuse} to {clutch-feed}, then {fuse}.") == ("fuse", "clutch-feed")


@pytest.mark.parametrize(
    "text", ["", "no names", "{}", "{ fuse }", "{Fuse}", "{2nd}", "{a b}", "{fuse", "fuse}", "{-a}"]
)
def test_what_is_not_a_name_is_left_alone(text: str) -> None:
    assert placeholders(text) == ()
    assert fill(text, {"fuse": "F12", "a": "x", "b": "y"}) == text


def test_known_names_are_filled_in_and_unknown_ones_stay() -> None:
    words = {"fuse": "F12, left box"}
    assert fill("{fuse} and {relay}, {fuse}", words) == "F12, left box and {relay}, F12, left box"


def test_words_filled_in_are_not_filled_in_again() -> None:
    assert fill("{a}", {"a": "{b}", "b": "wrong"}) == "{b}"


def test_words_may_hold_any_sign() -> None:
    assert fill("{a}", {"a": r"\1 \g<0> {} %s"}) == r"\1 \g<0> {} %s"


def test_double_brackets_keep_the_outer_pair() -> None:
    assert fill("{{a}}", {"a": "x"}) == "{x}"


@settings(derandomize=True, max_examples=200, deadline=None)
@given(st.text(alphabet="ab-{} ", max_size=30))
def test_filling_every_name_leaves_none(text: str) -> None:
    assert placeholders(fill(text, dict.fromkeys(placeholders(text), "word"))) in (
        (),
        ("word",),
    )
