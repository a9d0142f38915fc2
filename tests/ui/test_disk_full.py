"""A full disk: it is said, what was typed stays, and the walk goes on once there is room."""

from collections.abc import Callable

import pytest
from builders import Clock
from screens import TO_FEED, Desk, on_screen, walked

from faulttree.files import journal

Fill = Callable[[bool], None]


@pytest.fixture
def fill_disk(monkeypatch: pytest.MonkeyPatch) -> Fill:
    """Make the disk full, or free again."""
    written = journal._write_all
    is_full = False

    def write(file: object, data: bytes) -> None:
        if is_full:
            raise OSError(28, "No space left on device")
        written(file, data)  # type: ignore[arg-type]

    def fill(full: bool) -> None:
        nonlocal is_full
        is_full = full

    monkeypatch.setattr(journal, "_write_all", write)
    return fill


def test_a_reading_stays_in_the_line_until_it_is_on_disk(fill_disk: Fill):
    session = walked(*TO_FEED)

    async def work(desk: Desk) -> None:
        fill_disk(True)
        await desk.enter("11.6")
        assert "Not recorded: No space left on device" in desk.words
        assert desk.line.value == "11.6"
        assert "Step 3" in desk.text
        fill_disk(False)
        await desk.press("enter")
        assert "Step 4" in desk.text or "Largest voltage drop" in desk.words
        assert "Not recorded" not in desk.text

    on_screen(work, session)
    assert "feed" in type(session).resume(session.folder).state.answers


def test_an_outcome_can_be_chosen_again(fill_disk: Fill):
    session = walked("12.60")

    async def work(desk: Desk) -> None:
        fill_disk(True)
        await desk.press("3")
        assert "Not recorded" in desk.words
        assert desk.focus == "options"
        fill_disk(False)
        await desk.press("3")
        assert "Step 3" in desk.text

    on_screen(work, session)


def test_a_note_stands_in_its_dialog_again(fill_disk: Fill):
    session = walked(*TO_FEED)

    async def work(desk: Desk) -> None:
        fill_disk(True)
        await desk.press("n")
        await desk.enter("a note that took long to type")
        assert "Not recorded" in desk.words
        assert desk.line.value == "a note that took long to type"
        fill_disk(False)
        await desk.press("enter")
        assert desk.screens[-1] == "WalkScreen"

    on_screen(work, session)
    assert session.state.events[-1].event == "note"


def test_another_window_on_the_same_case_is_taken_in_and_the_note_is_not_lost():
    session = walked(*TO_FEED)
    other = type(session).resume(session.folder, Clock())

    async def work(desk: Desk) -> None:
        await desk.fill("11.6")
        other.answer("0.2")
        await desk.press("enter")
        assert "Another window works on this case and recorded 1 more" in desk.words
        assert "Bridge the reversing switch" in desk.words
        assert desk.line.value == ""
        other.go_back()
        await desk.press("n")
        await desk.enter("seen from here")
        assert desk.line.value == "seen from here"
        await desk.press("enter")
        assert desk.screens[-1] == "WalkScreen"

    on_screen(work, session)
    assert [e.event for e in session.state.events[-3:]] == ["reading", "gone-back", "note"]
