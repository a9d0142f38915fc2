"""Text from files and people never commands a terminal."""

import pytest

from faulttree.render.plain_text import safe, safe_line


@pytest.mark.parametrize(
    "hostile",
    ["\x1b[31mred", "\x07bell", "\x9b2J", "a\rb", "a\x00b", "\u202egnp", "\ud800", "\x7f"],
)
def test_what_commands_a_terminal_becomes_a_question_mark(hostile):
    shown = safe(hostile)
    assert "?" in shown
    assert shown.isprintable() or "\n" in shown


def test_ordinary_text_stays_as_it_is():
    text = "12.6 V ±0.08 V, 4.7 kΩ, 20 °C – “full feed”\n\tsecond line"
    assert safe(text) == text


def test_a_line_is_one_line():
    assert safe_line(" a\n b\t c ") == "a b c"
