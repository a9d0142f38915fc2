"""Markdown broken into lines: no line too long, and it is still the same document."""

import pytest
from hypothesis import given
from hypothesis import strategies as st
from markdown_it import MarkdownIt

from faulttree.render.markdown_lines import wrapped
from faulttree.render.markdown_text import words

MARKERS = ("", "- ", "   - ", "12. ", "> ")
PIECES = st.sampled_from(
    [
        "a",
        "battery",
        "-",
        "--",
        "---",
        "===",
        "+",
        "1.",
        "27)",
        "#",
        "#x",
        ">",
        "*",
        "_a_",
        "`",
        "|",
    ]
)
TEXTS = st.lists(PIECES, min_size=1, max_size=30).map(" ".join)


def _document(lines):
    """Kinds and text of a document, with every broken line as a space."""
    tokens = MarkdownIt("commonmark").enable("table").parse("\n".join(lines))
    children = [child for token in tokens for child in token.children or ()]
    text = "".join(" " if child.type == "softbreak" else child.content for child in children)
    return [token.type for token in tokens], text


@pytest.mark.parametrize("marker", MARKERS)
@given(text=TEXTS, width=st.integers(12, 40))
def test_a_line_means_the_same_when_it_is_broken(marker, text, width):
    line = marker.lstrip() + words(text)
    parts = wrapped(line, width)
    assert _document(parts) == _document([line])
    assert all(len(part) <= width for part in parts)


def test_text_stays_below_the_text_it_belongs_to():
    assert wrapped("12. one two three", 12) == ["12. one two", "    three"]
    assert wrapped("    - one two three", 14) == ["    - one two", "      three"]
    assert wrapped("> one two three", 10) == ["> one two", "> three"]


def test_a_heading_and_a_long_word_are_left_whole():
    assert wrapped("## one two three", 8) == ["## one two three"]
    assert wrapped("- https://x.example/aaaaaaaa", 10) == ["- https://x.example/aaaaaaaa"]


def test_an_empty_line_stays_one():
    assert wrapped("", 40) == [""]
