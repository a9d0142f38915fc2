"""Keys always go where they are expected, and everything that takes keys is on the screen."""

import pytest
from screens import NARROW, SMALL, TINY, TO_FEED, WIDE, Desk, on_screen, walked
from textual.widget import Widget

from faulttree.core.walk.asks import AskKind

UNASKED = {AskKind.VEHICLE_TEXT, AskKind.BATTERY, AskKind.CLOSE, AskKind.NOTHING}
KEYS = ("3", "=12.1", "1", "enter", "=0.2", "1", "1", "1", "1", "1", "1", "1", "1")
"""Through every kind of question after the first; what begins with = is typed into the line."""


def test_after_every_step_the_focus_is_in_the_line_or_the_options():
    session = walked("12.60")
    asked = []

    async def work(desk: Desk) -> None:
        for key in KEYS:
            asked.append(session.ask.kind)
            assert desk.focus == ("options" if session.ask.options else "answer"), session.ask
            if key.startswith("="):
                await desk.enter(key[1:])
            else:
                await desk.press(key)
        await desk.press("b")
        assert desk.focus == "options"

    on_screen(work, session)
    assert set(AskKind) - set(asked) == UNASKED


def test_a_dialog_key_pressed_twice_at_once_opens_one_dialog():
    async def work(desk: Desk) -> None:
        for key in ("e", "s", "n", "c", "v", "i", "w", "d", "p", "r", "question_mark"):
            await desk.press(key, key)
            assert desk.screens.count("WalkScreen") == 1
            assert len(desk.screens) <= 3, key
            await desk.press("escape")
            assert desk.screens[-1] == "WalkScreen", key
            assert desk.focus == "answer", key

    on_screen(work, walked(*TO_FEED))


def test_everything_that_takes_keys_is_on_the_screen():
    async def work(desk: Desk) -> None:
        for size in (WIDE, NARROW, SMALL, TINY):
            await desk.pilot.resize_terminal(*size)
            await desk.fill("120")
            for opens in ("enter", "ctrl+n", "ctrl+t", "f1"):
                await desk.press(opens)
                assert desk.outside() == [], (size, opens)
                await desk.press("escape")
            assert desk.outside() == [], size
        await desk.enter("12.1")
        assert desk.outside() == []

    on_screen(work, walked(*TO_FEED))


@pytest.mark.parametrize("size", [NARROW, SMALL, TINY])
@pytest.mark.usefixtures("library")
def test_home_and_form_fit_the_screen(size: tuple[int, int]):
    async def work(desk: Desk) -> None:
        assert desk.outside() == []
        await desk.press("down", "enter")
        for _ in range(6):
            await desk.until(lambda: _is_inside(desk, desk.app.focused))
            await desk.press("down")

    on_screen(work, size=size)


def _is_inside(desk: Desk, widget: Widget | None) -> bool:
    return widget is not None and desk.app.screen.region.contains_region(widget.region)


def test_the_tab_key_does_not_lead_away_from_the_line():
    async def work(desk: Desk) -> None:
        await desk.press("tab", "tab", "shift+tab")
        assert desk.focus == "answer"

    on_screen(work, walked(*TO_FEED))


def test_a_long_step_is_moved_with_the_page_keys_while_the_line_keeps_the_focus():
    async def work(desk: Desk) -> None:
        before = desk.shown("#step")
        await desk.press("pagedown")
        assert desk.shown("#step") != before
        assert desk.focus == "answer"
        await desk.press("pageup")
        assert desk.shown("#step") == before

    on_screen(work, walked(*TO_FEED), size=(60, 14))


def test_a_resized_screen_draws_the_scale_anew_and_keeps_what_is_typed():
    async def work(desk: Desk) -> None:
        await desk.fill("12.3")
        await desk.pilot.resize_terminal(*WIDE)
        await desk.pilot.pause()
        assert len(desk.shown("#scale").splitlines()[1]) == 130 - 42 - 1
        await desk.pilot.resize_terminal(*SMALL)
        await desk.pilot.pause()
        assert len(desk.shown("#scale").splitlines()[1]) == 59
        assert desk.line.value == "12.3"
        assert "^" in desk.shown("#scale")

    on_screen(work, walked(*TO_FEED))


def test_the_step_is_told_in_full_where_there_is_room():
    async def work(desk: Desk) -> None:
        assert "Why: It splits the circuit" in desk.words
        assert "1. Battery voltage at rest" in desk.shown("#side")

    on_screen(work, walked(*TO_FEED), size=WIDE)
