"""However the program ends, the terminal is whole and what was recorded is kept."""

import signal
import sys
import time
from pathlib import Path

import pytest
from program import PATIENCE_S, Program, Start, environment, state_of

LEFT_ALTERNATE_SCREEN = b"\x1b[?1049l"
MOUSE_OFF = b"\x1b[?1000l"
CURSOR_SHOWN = b"\x1b[?25h"


def _restored(program: Program) -> bool:
    return all(code in program.raw for code in (LEFT_ALTERNATE_SCREEN, MOUSE_OFF, CURSOR_SHOWN))


@pytest.mark.parametrize(
    ("number", "code"), [(signal.SIGTERM, 143), (signal.SIGHUP, 129)], ids=["term", "hup"]
)
def test_a_signal_ends_it_with_the_terminal_restored(
    start: Start, case: str, number: signal.Signals, code: int
):
    program = start("resume", case)
    program.wait_for("glows dim")
    program.type("3")
    program.wait_for("Feed at the lamp")
    program.type("n")
    program.wait_for("Enter records it")
    program.signal(number)
    assert program.wait_for_end() == code
    assert _restored(program)
    assert "lamp-seen" in state_of(case).answers


def test_control_q_restores_and_control_c_does_not_leave(start: Start, case: str):
    program = start("resume", case)
    program.wait_for("glows dim")
    program.type("\x03\x03")
    program.settle()
    assert program.is_running
    program.type("\x11")
    assert program.wait_for_end() == 0
    assert _restored(program)


def test_a_closed_window_ends_the_process_and_the_case_is_whole(start: Start, case: str):
    program = start("resume", case)
    program.wait_for("glows dim")
    program.type("3")
    program.wait_for("Feed at the lamp")
    program.close_window()
    end = time.monotonic() + PATIENCE_S
    while program.is_running:
        assert time.monotonic() < end, "it goes on without a terminal"
        time.sleep(0.05)
    assert "lamp-seen" in state_of(case).answers


def test_a_closed_window_ends_the_process_even_where_no_signal_reaches_it(
    tmp_path: Path, case: str
):
    shell = f"trap '' HUP; {sys.executable} -m faulttree resume {case}; echo $? >{tmp_path}/code"
    with Program(["-c", shell], environment(tmp_path), command="/bin/sh") as program:
        program.wait_for("glows dim")
        program.type("n" + "drawn into a window that is gone " * 4)
        program.close_window()
        end = time.monotonic() + PATIENCE_S
        while not (tmp_path / "code").exists():
            assert time.monotonic() < end, "it goes on without a terminal"
            time.sleep(0.05)
    assert (tmp_path / "code").read_text() == "129\n"


def test_killed_in_the_middle_it_goes_on_after_the_last_answer_confirmed(start: Start, case: str):
    program = start("resume", case)
    program.wait_for("glows dim")
    program.type("3")
    program.wait_for("Feed at the lamp")
    program.type("12.5")
    program.wait_for("12.5\n")
    program.signal(signal.SIGKILL)
    assert program.wait_for_end() == -signal.SIGKILL
    again = start("resume", case)
    again.wait_for("Step 3: Feed at the lamp", "Before: ! glows dim")
    assert "12.5" not in again.text.splitlines()[-2]
