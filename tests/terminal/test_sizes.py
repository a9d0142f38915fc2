"""Small windows, changing windows, and more text than anyone types."""

import time

import pytest
from program import Start, state_of


@pytest.mark.parametrize("size", [(40, 12), (20, 6)])
def test_no_size_stops_the_walk(start: Start, case: str, size: tuple[int, int]):
    program = start("resume", case, size=size)
    program.wait_for("Step 2")
    program.type("3")
    program.wait_for("Step 3")
    program.type("\x11")
    assert program.wait_for_end() == 0
    assert "lamp-seen" in state_of(case).answers


def test_the_window_is_resized_while_walking(start: Start, case: str):
    program = start("resume", case)
    program.wait_for("glows dim")
    for columns, rows in ((130, 36), (40, 12), (100, 30)):
        program.resize(columns, rows)
        program.settle(0.2)
    program.wait_for("Step 2: Look at the reversing lamp", "glows dim")
    program.type("3")
    program.wait_for("Step 3: Feed at the lamp")


def test_a_long_paste_is_taken_as_text_and_refused_with_its_length(start: Start, case: str):
    program = start("resume", case)
    program.wait_for("glows dim")
    program.type("n")
    program.wait_for("Enter records it")
    program.type("\x1b[200~" + "1" * 200_000 + "\x1b[201~")
    time.sleep(0.2)
    program.type("\r")
    program.wait_for("That is 200000 characters")
    program.type("\x11")
    assert program.wait_for_end() == 0


def test_what_is_typed_before_the_first_frame_is_not_lost(start: Start, at_reading: str):
    program = start("resume", at_reading)
    program.type(" 12.60")
    program.wait_for("Step 1", "12.60\n")


def test_keys_that_come_in_one_piece_act_in_their_order(start: Start, at_reading: str):
    program = start("resume", at_reading)
    program.wait_for("Before you begin")
    program.type("\r12.7\x7f60\r" + "3" + "nwarm wire\r" + "cp" + "vx\x7f12.41\r" + "11")
    program.wait_for("Step 3: Feed at the lamp", "11\n")
    texts = [getattr(e, "text", getattr(e, "outcome", "")) for e in state_of(at_reading).events]
    assert [t for t in texts if t] == ["12.60", "glows dim", "warm wire", "12.41"]
