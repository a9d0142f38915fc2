"""Bytes that are no UTF-8, as a Latin-1 terminal sends for ohm and degree."""

import sys
from pathlib import Path

from program import Program, Start, environment, state_of

BARE_APP = """
from textual.app import App
from textual.widgets import Input
class Bare(App):
    def compose(self):
        yield Input(placeholder="ready")
Bare().run()
"""


STRAY = (b"\xb5", b"\xba", b"\xff", b"\xe2\x82")
"""Micro and ordinal sign of Latin-1, no text at all, half a character."""


def test_the_program_goes_on_and_what_was_recorded_stays(start: Start, at_reading: str):
    program = start("resume", at_reading)
    program.wait_for("Before you begin")
    program.type("\r")
    program.wait_for("type the reading")
    for stray in STRAY:
        program.type(b"12.6" + stray)
        program.wait_for("12.6")
        program.type("\x15")
        program.wait_for("type the reading")
    program.type("12.60\r")
    program.wait_for("Step 2")
    program.type(b"3" + STRAY[0])
    program.wait_for("Step 3")
    program.type("\x11")
    assert program.wait_for_end() == 0
    assert list(state_of(at_reading).answers) == ["battery-rest", "lamp-seen"]


def test_the_tolerance_of_stray_bytes_is_still_needed(tmp_path: Path):
    """When this fails, Textual bears such bytes by itself: take `tolerate_stray_bytes` out."""
    bare = [sys.executable, "-c", BARE_APP]
    with Program(bare, environment(tmp_path), command="/usr/bin/env") as program:
        program.wait_for("ready")
        program.type(b"a\xb5")
        program.settle(0.5)
        program.type("b")
        program.settle(0.5)
        assert "UnicodeDecodeError" in program.raw.decode("utf-8", "replace")
