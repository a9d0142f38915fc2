"""The form before a walk: everything may be left empty."""

from pathlib import Path

import pytest
from screens import Desk, on_screen

from faulttree.core.walk.events import Intake
from faulttree.files import places, settings
from faulttree.session import Session

pytestmark = pytest.mark.usefixtures("library")


def _begun() -> Session:
    (folder,) = places.cases_folder().iterdir()
    return Session.resume(folder)


def test_enter_goes_from_line_to_line_and_begins_at_the_last():
    typed = ("lamp dark when wet", "Brindale Finch", "", "61 000", "", "R. Aldane", "rain")

    async def work(desk: Desk) -> None:
        await desk.press("down", "enter")
        for text in typed:
            await desk.enter(text)
        assert "Before you begin" in desk.words

    on_screen(work)
    assert _begun().state.started.intake == Intake(
        words="lamp dark when wet",
        car="Brindale Finch",
        odometer="61 000",
        technician="R. Aldane",
        weather="rain",
    )


def test_everything_may_stay_empty_and_one_key_begins():
    async def work(desk: Desk) -> None:
        await desk.press("down", "enter", "ctrl+b", "escape")
        assert "Step 1: Battery voltage at rest" in desk.words
        assert desk.focus == "answer"

    on_screen(work)
    assert _begun().state.started.intake == Intake()


def test_the_words_that_found_the_tree_stand_in_the_form():
    async def work(desk: Desk) -> None:
        await desk.enter("white light out")
        await desk.press("ctrl+b")

    on_screen(work)
    assert _begun().state.started.intake.words == "white light out"


def test_arrows_move_between_the_lines():
    async def work(desk: Desk) -> None:
        await desk.press("enter", "down")
        assert desk.focus == "field-car"
        await desk.press("up")
        assert desk.focus == "field-words"

    on_screen(work)


def test_escape_leaves_without_a_case():
    async def work(desk: Desk) -> None:
        await desk.press("enter", "escape")
        assert desk.screens[-1] == "HomeScreen"

    on_screen(work)
    assert not places.cases_folder().exists()


def test_the_technician_is_remembered(tmp_path: Path):
    async def work(desk: Desk) -> None:
        await desk.press("enter")
        desk.app.screen.query_one("#field-technician").focus()
        await desk.pilot.pause()
        await desk.enter("R. Aldane")
        await desk.press("ctrl+b", "escape", "q", "enter")
        await desk.pilot.pause()
        assert "R. Aldane" in desk.words

    on_screen(work)
    assert settings.load(tmp_path / "settings").technician == "R. Aldane"


def test_the_sheet_beside_the_tree_is_named_and_its_absence_is_said():
    async def work(desk: Desk) -> None:
        await desk.press("enter")
        assert "Vehicle sheet: none" in desk.words
        await desk.press("escape", "down", "enter")
        assert "Vehicle sheet: Brindale Finch 1.3" in desk.words

    on_screen(work)


def test_of_several_sheets_one_is_chosen(library: Path):
    (library / "lamp" / "other.yaml").write_bytes(
        (library / "lamp" / "vehicle.yaml").read_bytes().replace(b"Finch 1.3", b"Wren 1.6")
    )

    async def work(desk: Desk) -> None:
        await desk.press("down", "enter")
        assert "Which car is it" in desk.words
        await desk.press("enter")
        await desk.pilot.pause()
        assert "Vehicle sheet: Brindale Wren 1.6" in desk.words

    on_screen(work)


def test_a_full_disk_is_told_and_no_case_is_begun(monkeypatch: pytest.MonkeyPatch):
    def full(*_: object) -> None:
        raise OSError(28, "No space left on device")

    monkeypatch.setattr("faulttree.files.cases._write", full)

    async def work(desk: Desk) -> None:
        await desk.press("enter", "ctrl+b")
        assert "The case cannot be begun" in desk.words
        assert "No space left on device" in desk.words

    on_screen(work)
    assert list(places.cases_folder().iterdir()) == []
