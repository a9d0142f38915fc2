"""Sums in the walk: one key, a part of a name, inputs one after the other, a note."""

import pytest
from screens import SMALL, TINY, TO_FEED, Desk, on_screen, walked

from faulttree.core.units import UnitSystem
from faulttree.core.walk.events import NoteAdded
from faulttree.session import Session


def notes(session: Session) -> list[str]:
    return [e.text for e in session.state.events if isinstance(e, NoteAdded)]


async def _type(desk: Desk, *lines: str) -> None:
    for line in lines:
        await desk.enter(line)


def test_a_sum_from_one_key_to_a_note_in_the_case():
    session = walked(*TO_FEED)

    async def work(desk: Desk) -> None:
        await desk.press("f")
        assert desk.screens[-1] == "SumsScreen"
        assert desk.focus == "sum-line"
        await desk.fill("contact")
        assert "joint drop, current, resistance and heat of a joint" in desk.words
        assert "wire-drop" not in desk.words
        await desk.enter("joi")
        assert "drop [V]: across it, with the current flowing, as 12.6V or 240mV" in desk.words
        assert "Still needed: two of drop, current or resistance" in desk.words
        await _type(desk, "0.30 ±0.01", "12")
        assert "resistance: 25.0 mΩ ±0.9 mΩ heat: 3.60 W ±0.12 W" in desk.words
        assert "Source: Ohm's law" in desk.words
        await desk.press("n")
        assert desk.screens[-1] == "WalkScreen"
        assert desk.focus == "answer"

    on_screen(work, session)
    assert notes(session) == [
        "Worked out (joint): drop 0.30 V ±0.01 V, current 12 A: "
        "resistance 25.0 mΩ ±0.9 mΩ, heat 3.60 W ±0.12 W."
    ]
    assert session.position.step_id == "feed"


def test_the_result_shows_while_the_last_input_is_typed_and_can_be_noted_then():
    session = walked(*TO_FEED)

    async def work(desk: Desk) -> None:
        await desk.press("f")
        await _type(desk, "ohm", "12")
        await desk.fill("2")
        assert "resistance: 6 Ω power: 24 W" in desk.words
        await desk.fill("2x")
        assert "6 Ω" not in desk.words, "what cannot be read has no result"
        await desk.press("ctrl+n")
        assert desk.screens[-1] == "SumsScreen"
        await desk.fill("")
        assert "Still needed: one of current, resistance or power" in desk.words
        await desk.fill("2A")
        assert "Ctrl+N notes it in the case" in desk.words
        await desk.press("ctrl+n")

    on_screen(work, session)
    assert notes(session) == [
        "Worked out (ohm): voltage 12 V, current 2A: resistance 6 Ω, power 24 W."
    ]


def test_letters_are_text_while_an_input_is_typed():
    async def work(desk: Desk) -> None:
        await desk.press("f", "m", "i", "n")
        assert desk.line.value == "min"
        await desk.enter("fuse")
        await _type(desk, "1.3mV", "10A")
        await desk.press("m", "i", "n", "i")
        assert "current: 0.176 A" in desk.words
        await desk.press("enter", "n")

    session = walked(*TO_FEED)
    on_screen(work, session)
    assert notes(session)[0].startswith("Worked out (fuse-current): drop 1.3mV")


def test_what_is_refused_says_why_and_stays_in_the_line():
    async def work(desk: Desk) -> None:
        await desk.press("f")
        await _type(desk, "wire-d", "[red]x[/]")
        assert "“[red]x[/]” is not a reading" in desk.words
        await _type(desk, "5", "2.5")
        assert "2.5 may be square millimetres or a gauge; type 2.5mm2 or 2.5AWG." in desk.words
        assert desk.line.value == "2.5"
        await desk.enter("")
        assert "size is needed; type 2.5mm2 or 14AWG." in desk.words
        await desk.enter("14 awg")
        assert "size 14 AWG (2.08 mm²)" in desk.words
        await _type(desk, "10", "")
        assert "temperature 20 °C" in desk.words
        assert "drop: 0.414 V, up to 0.498 V" in desk.words

    on_screen(work, walked(*TO_FEED))


def test_inputs_that_contradict_each_other_are_told():
    session = walked(*TO_FEED)

    async def work(desk: Desk) -> None:
        await desk.press("f")
        await _type(desk, "pulled", "0.8", "5", "2k")
        assert "The line cannot be above its open voltage" in desk.words
        await desk.press("n")
        assert desk.screens[-1] == "SumsScreen"

    on_screen(work, session)
    assert notes(session) == []


def test_escape_goes_back_input_by_input_then_to_the_list_then_out():
    async def work(desk: Desk) -> None:
        await desk.press("f")
        await _type(desk, "wire-d", "5", "2.5mm2", "10", "")
        assert desk.focus == ""
        for prompt in ("temperature", "current [A]", "size: cross", "length [m]"):
            await desk.press("escape")
            assert prompt in desk.words
            assert desk.focus == "sum-line"
        await desk.press("escape")
        assert "Type part of a name" in desk.words
        await desk.press("escape")
        assert desk.screens[-1] == "WalkScreen"

    on_screen(work, walked(*TO_FEED))


def test_arrows_pick_and_several_amounts_are_asked_until_enter_alone():
    async def work(desk: Desk) -> None:
        await desk.press("f", *["down"] * 7, "enter")
        assert "parallel: resistances side by side" in desk.words
        await _type(desk, "20", "30", "40", "")
        assert "resistance: 9.23 Ω" in desk.words
        assert "n notes it in the case, Enter another sum" in desk.words
        await desk.press("enter")
        assert "Type part of a name" in desk.words

    on_screen(work, walked(*TO_FEED))


def test_words_that_fit_no_sum_pick_none():
    async def work(desk: Desk) -> None:
        await desk.press("f")
        await desk.enter("zeppelin")
        assert "No sum fits these words." in desk.words
        await desk.press("down", "enter")
        assert "Type part of a name" in desk.words

    on_screen(work, walked(*TO_FEED))


def test_bare_numbers_and_results_have_the_units_of_the_case():
    async def work(desk: Desk) -> None:
        await desk.press("f")
        await desk.enter("wire-r")
        assert "length [ft]" in desk.words
        await _type(desk, "16", "14AWG", "140F")
        assert "length 16 ft" in desk.words

    on_screen(work, walked(*TO_FEED, units=UnitSystem.US))


@pytest.mark.parametrize("size", [SMALL, TINY])
def test_all_of_it_can_be_used_and_read_by_keys_on_any_screen(size: tuple[int, int]):
    async def work(desk: Desk) -> None:
        await desk.press("f", *["pagedown"] * 20)
        assert "tries" in desk.words
        assert desk.outside() == []
        await _type(desk, "beta", "25C", "10k", "100C", "947ohm")
        assert "beta: 3496 K" in desk.words
        assert desk.outside() == []
        seen = ""
        for _ in range(6):
            seen += desk.words
            await desk.press("pagedown")
        assert "r2 947ohm" in seen
        assert "Source: definition" in seen
        await desk.press("up", *["pageup"] * 6)
        assert "beta: 3496 K" in desk.words

    on_screen(work, walked(*TO_FEED), size)
