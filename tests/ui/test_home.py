"""The home screen: from a customer's words to a tree, or back to a case."""

import json
from pathlib import Path

import pytest
from builders import lamp_text
from screens import Desk, new_case, on_screen, walked
from textual.widgets import OptionList

from faulttree.files import places, settings
from faulttree.files.library import TreeEntry
from faulttree.ui.screens.home_data import HomeData

pytestmark = pytest.mark.usefixtures("library")


def _ids(desk: Desk, selector: str) -> list[str | None]:
    return [option.id for option in desk.app.screen.query_one(selector, OptionList).options]


def test_the_customers_words_leave_the_trees_that_fit():
    async def work(desk: Desk) -> None:
        assert _ids(desk, "#trees") == ["horn", "lamp"]
        await desk.fill("white light out")
        assert _ids(desk, "#trees") == ["lamp"]
        assert "“The white light at the back is out on some days.”" in desk.words
        assert desk.focus == "search"

    on_screen(work)


def test_words_that_fit_nothing_say_so_and_enter_does_nothing():
    async def work(desk: Desk) -> None:
        await desk.enter("gearbox oil")
        assert "No tree fits these words." in desk.words
        assert desk.screens[-1] == "HomeScreen"

    on_screen(work)


def test_arrows_and_enter_choose_a_tree():
    async def work(desk: Desk) -> None:
        await desk.press("down", "enter")
        assert "New case: Reversing lamp stays dark" in desk.words
        await desk.press("escape", "up", "enter")
        assert "New case: Horn stays silent" in desk.words

    on_screen(work)


def test_a_click_chooses_a_tree():
    async def work(desk: Desk) -> None:
        await desk.pilot.click("#trees", offset=(5, 2))
        await desk.pilot.pause()
        assert "New case: Reversing lamp stays dark" in desk.words

    on_screen(work)


def test_a_wide_screen_tells_about_the_marked_tree():
    async def work(desk: Desk) -> None:
        assert "The horn is silent in the cold." in desk.shown("#about")
        await desk.press("down")
        assert "The reversing lamp does not light." in desk.shown("#about")

    on_screen(work, size=(130, 36))


def test_cases_are_listed_open_ones_first_and_opened_with_tab_and_enter():
    done = walked("12.60", "lights", "1", "1", complaint=None)
    session = walked("12.60")

    async def work(desk: Desk) -> None:
        assert _ids(desk, "#cases") == [session.id, done.id]
        assert "closed" in desk.shown("#cases")
        await desk.press("tab", "enter")
        assert "Step 2: Look at the reversing lamp" in desk.words

    on_screen(work)


def test_a_click_opens_a_case_and_leaving_it_comes_home_with_the_list_renewed():
    session = new_case()

    async def work(desk: Desk) -> None:
        await desk.pilot.click("#cases", offset=(5, 1))
        await desk.press("escape")
        await desk.enter("12.60")
        await desk.press("q")
        await desk.loaded()
        assert desk.screens[-1] == "HomeScreen"
        assert desk.focus == "search"
        assert session.id in desk.words

    on_screen(work)


def test_the_words_search_cases_as_well():
    session = new_case()

    async def work(desk: Desk) -> None:
        await desk.fill("brindale dark")
        assert _ids(desk, "#cases") == [session.id]
        await desk.fill("no such case")
        assert "No case fits these words." in desk.words

    on_screen(work)


def test_the_units_key_is_remembered_and_holds_for_new_cases(tmp_path: Path):
    async def work(desk: Desk) -> None:
        await desk.press("ctrl+t")
        assert "New cases are walked in US units" in desk.words
        await desk.press("enter", "ctrl+b")

    on_screen(work)
    assert settings.load(tmp_path / "settings").units == "us"
    (case,) = places.cases_folder().iterdir()
    first = (case / "events.jsonl").read_text().splitlines()[0]
    assert json.loads(first.partition(" ")[2])["units"] == "us"


def test_an_empty_library_says_so(library: Path):
    for tree in library.iterdir():
        (tree / "tree.yaml").unlink()

    async def work(desk: Desk) -> None:
        assert "No tree" in desk.words
        assert "No case yet." in desk.words
        await desk.press("down", "enter", "tab", "enter")
        assert desk.screens[-1] == "HomeScreen"

    on_screen(work)


def test_a_tree_whose_head_is_broken_is_told_with_its_line(library: Path):
    (library / "horn" / "tree.yaml").write_text("format: tree/1\nid: [horn\n", "utf-8")

    async def work(desk: Desk) -> None:
        assert _ids(desk, "#trees") == ["lamp"]
        assert "line 3" in desk.words or "line 2" in desk.words

    on_screen(work, size=(130, 36))


def test_a_tree_with_mistakes_is_not_begun_and_the_mistake_is_told(library: Path):
    broken = lamp_text(("go: battery-flat, ", "go: nowhere, "))
    (library / "lamp" / "tree.yaml").write_text(broken, "utf-8")

    async def work(desk: Desk) -> None:
        await desk.press("down", "enter")
        assert "This tree cannot be used" in desk.words
        assert "nowhere" in desk.words
        await desk.press("enter")
        assert desk.screens[-1] == "HomeScreen"

    on_screen(work)


def test_a_case_that_cannot_be_opened_is_told(library: Path):
    session = new_case()
    (session.folder / "tree.yaml").unlink()

    async def work(desk: Desk) -> None:
        await desk.press("tab", "enter")
        assert "This case cannot be opened" in desk.words

    on_screen(work)


def test_help_tells_the_keys_of_the_home_screen():
    async def work(desk: Desk) -> None:
        await desk.press("f1")
        assert "Tab changes between trees and cases" in desk.words

    on_screen(work)


def test_control_q_leaves_with_code_0():
    async def work(desk: Desk) -> None:
        await desk.press("ctrl+q")
        assert desk.app.left_normally
        assert desk.app.return_code == 0

    on_screen(work)


def test_a_long_list_is_cut_and_says_how_many_more_there_are():
    entries = {f"t{n}": TreeEntry(Path("x"), f"t{n}", title=f"Tree {n}") for n in range(230)}
    data = HomeData(trees=entries, searchable=[e.words for e in entries.values()], loaded=True)

    async def work(desk: Desk) -> None:
        desk.app.screen._take(data)
        listed = desk.app.screen.query_one("#trees", OptionList)
        assert str(listed.options[-1].prompt) == "30 more: type more words."

    on_screen(work)
