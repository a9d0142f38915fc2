"""Finding a tree by what a customer says."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from faulttree.core.search import search, searchable

ENTRIES = [
    searchable("cooling", ["Air never gets cold", "The A/C button does nothing"], ["clutch relay"]),
    searchable("starting", ["Engine does not crank on some days"], ["starting"]),
    searchable("lamp", ["Reversing lamp stays dark", "Café light is out"], ["lighting", "cold"]),
]


@pytest.mark.parametrize(
    ("words", "found"),
    [
        ("crank", ["starting"]),
        ("CRANKS", ["starting"]),
        ("it does not crank", ["starting", "cooling"]),
        ("reversing light", ["lamp"]),
        ("cafe", ["lamp"]),
        ("relay", ["cooling"]),
        ("zeppelin", []),
        ("rank", []),
    ],
)
def test_words_find_the_trees_that_have_them(words, found):
    assert search(ENTRIES, words) == found


def test_without_words_all_are_found_in_their_order():
    assert search(ENTRIES, "") == search(ENTRIES, " ?! ") == ["cooling", "starting", "lamp"]


def test_a_word_of_the_complaint_counts_more_than_one_elsewhere():
    assert search(ENTRIES, "cold") == ["cooling", "lamp"]


def test_a_tree_with_all_the_words_comes_before_one_with_some():
    assert search(ENTRIES, "lamp cold dark")[0] == "lamp"


@given(st.text(max_size=40))
def test_any_words_are_looked_for_without_trouble(words):
    assert set(search(ENTRIES, words)) <= {"cooling", "starting", "lamp"}
