"""Text from trees and people is text: never markup, never a command to the terminal."""

import string

from hypothesis import given
from hypothesis import strategies as st

from faulttree.render.line import Line
from faulttree.render.plain_text import safe
from faulttree.ui.words import TONES, all_labelled, hanging, labelled, plain

MARKUP = st.text(alphabet="[]/@=\\ .:()'\"" + string.ascii_lowercase, max_size=60)


@given(MARKUP, st.sampled_from(sorted(TONES)))
def test_brackets_stay_as_they_are_in_every_tone(text: str, tone: str):
    assert plain(text, tone).plain == text


@given(st.text(max_size=60))
def test_no_text_commands_the_terminal(text: str):
    shown = plain(text).plain
    assert shown == safe(text)
    assert not any((ord(c) < 32 and c not in "\n\t") or 0x7F <= ord(c) < 0xA0 for c in shown)


def test_an_action_written_into_a_text_is_no_action():
    content = plain("[@click=app.quit]lamp[/]", "fault")
    assert all(not getattr(span.style, "meta", None) for span in content.spans)


def test_a_caution_carries_a_sign_as_well_as_a_tone():
    assert labelled(Line("Caution", "hot", "caution")).plain == "! Caution: hot"
    assert all_labelled([Line("", "a"), Line("B", "c")]).plain == "a\nB: c"


@given(st.text(alphabet="abc ", max_size=200), st.integers(20, 80))
def test_a_broken_line_fits_its_width_and_goes_on_further_in(text: str, width: int):
    lines = hanging(plain(text), width, 4).plain.split("\n")
    assert all(len(line) <= width for line in lines)
    assert all(line.startswith("    ") for line in lines[1:])
    assert "".join(lines).replace(" ", "") == text.replace(" ", "")
