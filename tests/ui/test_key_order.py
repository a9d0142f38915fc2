"""Keys that come faster than the screen follows act one after the other."""

from screens import TO_FEED, Desk, new_case, on_screen, walked
from textual import events

from faulttree.core.walk.events import NoteAdded, ReadingTaken
from faulttree.ui import key_order


def _send(desk: Desk, keys: str) -> None:
    """Hand keys over all at once, as a slow line does."""
    names = {"\r": "enter", "\x7f": "backspace"}
    for letter in keys:
        desk.app.post_message(events.Key(names.get(letter, letter), letter))


def test_what_is_typed_after_enter_does_not_get_into_the_reading_before():
    session = new_case()

    async def work(desk: Desk) -> None:
        _send(desk, "12.7\x7f60\r311.6")
        await desk.until(lambda: desk.focus == "answer" and desk.line.value == "11.6")

    on_screen(work, session)
    reading = session.state.answers["battery-rest"]
    assert isinstance(reading, ReadingTaken)
    assert reading.text == "12.60"


def test_what_is_typed_after_a_dialog_key_gets_into_the_dialog():
    session = walked(*TO_FEED)

    async def work(desk: Desk) -> None:
        _send(desk, "nwarm wire\r")
        await desk.until(lambda: isinstance(session.state.events[-1], NoteAdded))

    on_screen(work, session)
    note = session.state.events[-1]
    assert isinstance(note, NoteAdded)
    assert note.text == "warm wire"


def test_pasted_text_keeps_its_place_between_keys():
    async def work(desk: Desk) -> None:
        _send(desk, "1")
        desk.app.post_message(events.Paste("2.6"))
        _send(desk, "0\x7f1")
        await desk.until(lambda: desk.line.value == "12.61")

    on_screen(work, walked(*TO_FEED))


def test_a_key_whose_way_breaks_off_holds_the_next_one_only_for_a_while(monkeypatch):
    async def lost(*_: object) -> None:
        """A way that ends in a queue that was closed."""

    monkeypatch.setattr(key_order.KeyOrder, "_pass", lost)
    monkeypatch.setattr(key_order, "_PATIENCE_S", 0.05)

    async def work(desk: Desk) -> None:
        _send(desk, "12.6")
        await desk.until(lambda: desk.line.value == "12.6")

    on_screen(work, walked(*TO_FEED))
