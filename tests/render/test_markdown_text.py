"""Words in Markdown: shown as they are."""

import pytest
from hypothesis import given
from hypothesis import strategies as st
from markdown_it import MarkdownIt

from faulttree.render.markdown_text import words
from faulttree.render.plain_text import safe


def _shown(markdown):
    (token,) = (t for t in MarkdownIt("commonmark").parse(f"- {markdown}") if t.type == "inline")
    assert {child.type for child in token.children} <= {"text", "text_special"}
    return "".join(child.content for child in token.children)


@pytest.mark.parametrize(
    "text", ["-", "+ a", "---", "- - -", "===", "1.", "12) b", "-5 V", "+a", "* * *"]
)
def test_a_line_that_begins_like_a_list_or_a_rule_is_a_line(text):
    assert _shown(words(text)) == text


def test_ordinary_words_stay_as_they_are():
    assert words("12.6 V ±0.08 V, relay K4 (30), 4.7 kΩ") == "12.6 V ±0.08 V, relay K4 (30), 4.7 kΩ"


@given(st.text(min_size=1, max_size=60))
def test_any_text_is_shown_as_the_text_it_is(text):
    plain = " ".join(safe(text).split())
    if plain:
        assert _shown(words(text)) == plain
