"""Killed at any instant, a walk has every entry that was told as recorded, once, and replays.

The child is forked from this process, so that a kill costs no start of Python, and walks as fast
as it can. After each call that said "recorded" it sends the entry's number through a pipe. The
parent kills it after a random time and compares.
"""

import os
import random
import signal
import struct
import tempfile
import time
from collections.abc import Iterator
from pathlib import Path

import pytest
from builders import lamp_case

from faulttree.core.walk.respond import Recorded
from faulttree.files import cases
from faulttree.session import Session

KILLS = 200
LONGEST_S = 0.03
"""Longest life of a child [s]."""
KILLS_PER_CASE = 10

pytestmark = pytest.mark.skipif(not hasattr(os, "fork"), reason="needs fork and kill -9")


@pytest.fixture
def quick_disk() -> Iterator[Path]:
    """A folder in memory where there is one: waiting for a disk leaves little time for walking."""
    memory = Path("/dev/shm")
    with tempfile.TemporaryDirectory(dir=memory if memory.is_dir() else None) as folder:
        yield Path(folder)


def test_two_hundred_kills_lose_and_double_nothing(quick_disk):
    chance = random.Random(20261125)
    acknowledged = 0
    for number in range(KILLS):
        if number % KILLS_PER_CASE == 0:
            folder = lamp_case(quick_disk / str(number)).folder
        before = _seqs(folder)
        told = _walk_until_killed(folder, chance.uniform(0, LONGEST_S))
        session = Session.resume(folder)
        after = _seqs(folder)
        assert after == list(range(1, len(after) + 1)), "without a gap, none doubled"
        assert set(told) <= set(after), "what was told as recorded is there"
        assert len(after) <= len(before) + len(told) + 1, "at most one was on its way"
        assert session.state.events[-1].seq == after[-1]
        assert session.position.step_id in session.state.tree.steps
        acknowledged += len(told)
    assert acknowledged > KILLS, "the children did walk"


def _seqs(folder: Path) -> list[int]:
    return [record["seq"] for record in cases.open_case(folder).records]


def _walk_until_killed(folder: Path, seconds: float) -> list[int]:
    """The numbers that the child told as recorded before it was killed."""
    read_end, write_end = os.pipe()
    child = os.fork()
    if child == 0:
        os.close(read_end)
        _walk_for_ever(folder, write_end)
    os.close(write_end)
    try:
        os.read(read_end, 4)  # the child is at work
        time.sleep(seconds)
    finally:
        os.kill(child, signal.SIGKILL)
        os.waitpid(child, 0)
    with os.fdopen(read_end, "rb") as pipe:
        data = pipe.read()
    return [each for (each,) in struct.iter_unpack("<i", data[: len(data) // 4 * 4])]


def _walk_for_ever(folder: Path, write_end: int) -> None:
    """Never returns: it is killed, or leaves without the parent's clean-up."""
    try:
        session = Session.resume(folder)
        os.write(write_end, struct.pack("<i", 0))
        for outcome in _answers(session):
            if isinstance(outcome, Recorded):
                for event in outcome.events:
                    os.write(write_end, struct.pack("<i", event.seq))
    finally:
        os._exit(1)


def _answers(session: Session) -> Iterator[object]:
    while True:
        for text in ("12.60", "glows dim", "12.07", "m", "12.50", "1.20"):
            yield session.answer(text)
        yield session.add_note("Ω" * 500)
        while isinstance(outcome := session.go_back(confirmed=True), Recorded):
            yield outcome
