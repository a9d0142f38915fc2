"""Terminals without colours, without Unicode, without drawing, or without a person."""

import re
import subprocess
import sys
from pathlib import Path

import pytest
from program import Start, environment

COLOUR = re.compile(rb"\x1b\[([0-9;:]*)m")
GREY_ONLY = re.compile(r"(?:[34]8;2;(\d+);\1;\1(?:;|$)|[0-9](?:;|$)|2[0-9](?:;|$)|[34]9(?:;|$))*")
NOT_ASCII = re.compile(r"[^\x00-\x7f]")


def _saturated(raw: bytes) -> list[str]:
    """The colour codes that are not greys."""
    codes = {m.group(1).decode() for m in COLOUR.finditer(raw)}
    return [code for code in codes if not GREY_ONLY.fullmatch(code)]


def test_no_color_leaves_greys_and_words(start: Start, case: str):
    program = start("resume", case, NO_COLOR="1")
    program.wait_for("Complaint [c]: PRESENT", "+ charged")
    program.type("3")
    program.wait_for("! glows dim")
    assert _saturated(program.raw) == []
    coloured = start("resume", case)
    coloured.wait_for("Step 3")
    assert _saturated(coloured.raw) != [], "the check itself sees colours"


@pytest.mark.parametrize("env", [{"TERM": "dumb"}, {"TERM": None}])
def test_a_dumb_terminal_is_walked_line_by_line_without_escape_codes(
    start: Start, case: str, env: dict[str, str | None]
):
    program = start("resume", case, **env)
    program.wait_for("What do you find")
    program.type("3\r")
    program.wait_for("Step 3")
    program.type("quit\r")
    assert program.wait_for_end() == 0
    assert b"\x1b" not in program.raw


def test_a_pipe_is_walked_line_by_line_without_escape_codes(tmp_path: Path, case: str):
    done = subprocess.run(
        [sys.executable, "-m", "faulttree", "resume", case],
        input="3\nquit\n",
        capture_output=True,
        env=environment(tmp_path),
        encoding="utf-8",
        check=True,
    )
    assert "Step 3: Feed at the lamp" in done.stdout
    assert "\x1b" not in done.stdout + done.stderr


def test_a_locale_without_unicode_is_walked_in_ascii_line_by_line_and_says_why(
    start: Start, at_reading: str
):
    program = start("resume", at_reading, LC_ALL="C", LANG=None)
    program.wait_for("Reading [V]")
    assert b"needs a UTF-8 locale" in program.raw
    program.type("12.60\r")
    program.wait_for("12.60 V +/-0.08 V: + charged")
    program.type("quit\r")
    assert program.wait_for_end() == 0
    shown = program.raw.decode("utf-8")
    assert NOT_ASCII.findall(shown) == []
    assert "| " in shown
    assert "--+==" in shown
    assert "\x1b" not in shown


def test_home_in_a_locale_without_unicode_names_the_other_ways(start: Start):
    program = start(LC_ALL="C", LANG=None)
    program.wait_for("--plain")
    assert program.wait_for_end() == 2


def test_a_text_console_gets_only_letters_its_font_has(start: Start, at_reading: str):
    program = start("resume", at_reading, TERM="linux", COLORTERM=None)
    program.wait_for("Before you begin")
    program.type("\rd")
    program.wait_for("> Battery first")
    program.type("q12.60")
    program.wait_for("Understood: 12.60 V ±0.08 V: charged")
    shown = program.raw.decode("utf-8")
    for letter in set(NOT_ASCII.findall(shown)):
        letter.encode("cp437")


def test_the_mouse_can_be_left_to_the_terminal(start: Start, case: str):
    program = start("resume", case, FAULTTREE_NO_MOUSE="1")
    program.wait_for("glows dim")
    assert b"\x1b[?1000h" not in program.raw
