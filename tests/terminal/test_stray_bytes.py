"""Bytes that are no UTF-8, as a Latin-1 terminal sends for ohm and degree."""

import sys
from pathlib import Path

import pytest
from program import Program, Start, environment, state_of

BARE_APP = """
from textual.app import App
from textual.widgets import Input
class Bare(App):
    def compose(self):
        yield Input(placeholder="ready")
Bare().run()
"""


@pytest.mark.parametrize("byte", [b"\xb5", b"\xba", b"\xff", b"\xe2\x82"])
def test_the_program_goes_on_and_what_was_recorded_stays(
    start: Start, at_reading: str, byte: bytes
):
    program = start("resume", at_reading)
    program.wait_for("Before you begin")
    program.type("\r")
    program.wait_for("type the reading")
    program.type(b"12.6" + byte)
    program.wait_for("12.6")
    program.type("\x7f" * 3 + "\x7f12.60\r")
    program.wait_for("Step 2")
    program.type(b"3" + byte)
    program.wait_for("Step 3")
    program.type("\x11")
    assert program.wait_for_end() == 0
    answers = state_of(at_reading).answers
    assert list(answers) == ["battery-rest", "lamp-seen"]


def test_the_tolerance_of_stray_bytes_is_still_needed(tmp_path: Path):
    """When this fails, Textual bears such bytes by itself: take `tolerate_stray_bytes` out."""
    with Program(["-c", BARE_APP], environment(tmp_path), command=f"{sys.executable}") as program:
        program.wait_for("ready")
        program.type(b"a\xb5")
        program.settle(0.5)
        program.type("b")
        program.settle(0.5)
        assert "UnicodeDecodeError" in program.raw.decode("utf-8", "replace")
