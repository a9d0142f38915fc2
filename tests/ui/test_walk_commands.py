"""What one letter does while the line is empty."""

import pytest
from screens import TO_FEED, Desk, on_screen, walked

from faulttree.core.usual_instruments import built_in
from faulttree.core.walk.events import (
    ComplaintChanged,
    InstrumentChosen,
    NoteAdded,
    OtherTestTaken,
    ReadingTaken,
    Skipped,
    TriesCounted,
    WentBack,
)
from faulttree.files import places
from faulttree.session import Session
from faulttree.ui.commands import LETTERS, WALK_COMMANDS, help_text


def test_back_takes_the_last_answer_back_and_at_the_first_step_says_there_is_none():
    session = walked("12.60", complaint=None)

    async def work(desk: Desk) -> None:
        await desk.press("b")
        assert "Step 1" in desk.text
        await desk.press("b")
        assert "nothing to go back on" in desk.words
        assert desk.focus == "answer"

    on_screen(work, session)
    assert isinstance(session.state.events[-1], WentBack)


def test_an_earlier_answer_is_changed_and_the_walk_goes_on_from_there():
    session = walked(*TO_FEED)

    async def work(desk: Desk) -> None:
        await desk.press("e")
        assert "Look at the reversing lamp: glows dim" in desk.words
        await desk.press("down", "enter")
        assert "Changing: Battery voltage at rest" in desk.text
        assert "b leaves the old answer as it is" in desk.words
        await desk.enter("12.80")
        assert "Feed at the lamp" in desk.words

    on_screen(work, session)
    event = session.state.answers["battery-rest"]
    assert isinstance(event, ReadingTaken)
    assert (event.text, event.replaces is not None) == ("12.80", True)


def test_leaving_off_changing_leaves_the_old_answer():
    session = walked(*TO_FEED)

    async def work(desk: Desk) -> None:
        await desk.press("e", "enter")
        assert desk.focus == "options"
        await desk.press("b")
        assert "Step 3" in desk.text

    on_screen(work, session)
    assert len(session.state.answers) == 2


def test_vehicle_data_given_can_be_changed():
    session = walked("12.60", "stays dark", "both light", "W16W")

    async def work(desk: Desk) -> None:
        await desk.press("e")
        assert "Lamp type printed on the lens: W16W" in desk.words
        await desk.press("up", "enter")
        await desk.enter("P21W")
        assert "Compare the type with P21W" in desk.words

    on_screen(work, session)


def test_without_an_answer_there_is_nothing_to_change():
    async def work(desk: Desk) -> None:
        await desk.press("e")
        assert "There is no earlier answer to change." in desk.words

    on_screen(work, walked())


def test_a_skipped_step_wants_a_reason():
    session = walked(*TO_FEED)

    async def work(desk: Desk) -> None:
        await desk.press("s")
        assert "Why can this step not be done?" in desk.words
        await desk.press("enter", "s", "escape")
        assert "Step 3" in desk.text
        await desk.press("s")
        await desk.enter("lamp out of reach")
        assert "Before: not done: lamp out of reach" in desk.words

    on_screen(work, session)
    assert [e.reason for e in session.state.events if isinstance(e, Skipped)] == [
        "lamp out of reach"
    ]


def test_a_note_is_recorded_and_the_question_stands():
    session = walked(*TO_FEED)

    async def work(desk: Desk) -> None:
        await desk.press("n")
        await desk.enter("[b]wire[/b] was warm")
        assert "Step 3" in desk.text
        await desk.press("r", "pagedown", "pagedown")
        assert "faulttree report" in desk.text

    on_screen(work, session)
    assert [e.text for e in session.state.events if isinstance(e, NoteAdded)] == [
        "[b]wire[/b] was warm"
    ]


def test_the_state_of_the_complaint_is_told_by_one_more_key():
    session = walked()

    async def work(desk: Desk) -> None:
        for key, shown in (("p", "PRESENT"), ("a", "ABSENT"), ("u", "UNKNOWN"), ("b", "PROVOKED")):
            await desk.press("c", key)
            if key == "b":
                assert "What brought it on?" in desk.words
                await desk.enter("rocking the gear lever in reverse for a whole minute")
            assert shown in desk.shown("#complaint")
            assert "Step 1: Battery" in desk.text

    on_screen(work, session)
    told = [e for e in session.state.events if isinstance(e, ComplaintChanged)]
    assert [e.complaint for e in told] == ["present", "present", "absent", "unknown", "provoked"]


def test_tries_are_counted_by_one_key_and_it_says_what_they_mean():
    session = walked(*TO_FEED)

    async def work(desk: Desk) -> None:
        await desk.press("t")
        assert "Before the repair it showed in how many tries (3 of 10)?" in desk.words
        await desk.enter("often")
        assert "Type in how many of how many tries it showed" in desk.words
        await desk.fill("2 of 4")
        await desk.press("enter")
        assert "after the repair 12 clean cycles in a row will do" in desk.words
        assert "Step 3" in desk.text
        assert desk.focus == "answer"

    on_screen(work, session)
    (counted,) = [e for e in session.state.events if isinstance(e, TriesCounted)]
    assert (counted.seen, counted.tries, counted.step) == (2, 4, "feed")


def test_tries_counted_late_change_the_proving_run_at_once():
    async def work(desk: Desk) -> None:
        assert "0 of 3 clean" in desk.words
        await desk.press("t")
        await desk.enter("2 of 4")
        assert "0 of 12 clean" in desk.words
        assert desk.words.count("It showed in 2 of 4 tries") == 1

    on_screen(work, walked(*TO_FEED, "12.50", "1.20", "1", "1", "1"))


def test_where_t_is_an_answer_it_stays_one():
    session = walked(*TO_FEED, "12.1")

    async def work(desk: Desk) -> None:
        assert "take the other test" in desk.words
        await desk.press("t")
        assert "Load lamp in place of the reversing lamp" in desk.words

    on_screen(work, session)
    assert isinstance(session.state.events[-1], OtherTestTaken)


def test_pages_open_by_one_key_and_close_again():
    pages = {
        "w": "It splits the circuit into its two halves.",
        "d": "weak feed: Something on the way takes voltage. → Voltage lost on the way",
        "p": "2. Look at the reversing lamp ! glows dim",
        "r": "# Reversing lamp stays dark",
        "question_mark": "b or ctrl+b take back the last answer",
    }

    async def work(desk: Desk) -> None:
        for key, words in pages.items():
            await desk.press(key)
            assert words in desk.words
            await desk.press("pagedown", "q")
            assert desk.screens[-1] == "WalkScreen"
            assert desk.focus == "answer"

    on_screen(work, walked(*TO_FEED))


@pytest.mark.parametrize(
    ("answers", "words"),
    [
        (("12.60",), "glows dim: Current flows, but too little of it."),
        ((*TO_FEED, "0.2"), "Fused lead from"),
        ((*TO_FEED, "12.50", "1.20"), "Limits: Returns where the body is wet."),
    ],
)
def test_details_tell_outcomes_actions_and_repairs(answers: tuple[str, ...], words: str):
    async def work(desk: Desk) -> None:
        await desk.press("d")
        assert words in desk.words

    on_screen(work, walked(*answers), size=(100, 50))


def test_the_battery_voltage_is_recorded_at_any_step_and_a_slip_is_asked_about():
    session = walked(*TO_FEED)

    async def work(desk: Desk) -> None:
        await desk.press("v")
        await desk.enter("twelve")
        assert desk.screens[-1] == "TextDialog"
        assert desk.line.value == "twelve", "what was typed stands there to be mended"
        await desk.enter("126")
        assert "126 V is outside" in desk.words
        await desk.press("enter", "v")
        await desk.enter("12.41")
        assert "battery voltage: 12.41 V, just now" in desk.words

    on_screen(work, session)


def test_another_instrument_is_chosen_from_those_that_fit():
    session = walked(*TO_FEED)

    async def work(desk: Desk) -> None:
        await desk.press("i", "down", "enter")
        assert "Step 3" in desk.text

    on_screen(work, session)
    event = session.state.events[-1]
    assert isinstance(event, InstrumentChosen)
    assert event.instrument in [i for i in built_in() if i.class_ == "meter"]


def test_details_of_car_and_owner_are_told_anew_and_the_question_stands():
    session = walked(*TO_FEED)

    async def work(desk: Desk) -> None:
        await desk.press("g")
        assert "Brindale Finch" in desk.words
        await desk.press("down")
        await desk.fill("Brindale Finch, 1989")
        await desk.press("ctrl+b")
        assert "Step 3: Feed at the lamp" in desk.words
        assert desk.focus == "answer"

    on_screen(work, session)
    assert session.state.intake.car == "Brindale Finch, 1989"


def test_a_step_without_an_instrument_says_so():
    async def work(desk: Desk) -> None:
        await desk.press("i")
        assert "uses no instrument that could be changed" in desk.words

    on_screen(work, walked("12.60"))


def test_quitting_keeps_the_case():
    session = walked(*TO_FEED)

    async def work(desk: Desk) -> None:
        await desk.press("q")
        assert desk.app.left_normally

    on_screen(work, session)
    assert Session.resume(places.cases_folder() / session.id).position.step_id == "feed"


def test_light_and_dark_are_changed_by_one_key():
    async def work(desk: Desk) -> None:
        await desk.press("l")
        assert desk.app.theme == "workshop-light"

    on_screen(work, walked())


def test_control_c_does_not_leave():
    async def work(desk: Desk) -> None:
        await desk.press("ctrl+c", "ctrl+c")
        assert not desk.app.left_normally
        assert desk.screens[-1] == "WalkScreen"

    on_screen(work, walked())


def test_every_key_is_given_once_and_every_command_is_in_the_help():
    keys = [k for c in WALK_COMMANDS for k in (c.key, c.control) if k]
    assert len(keys) == len(set(keys))
    for command in WALK_COMMANDS:
        assert command.help in help_text()


def test_no_reading_begins_with_the_letter_of_a_command():
    beginnings = {text[0].lower() for text in ("OL", "over", "open", "-0.02", "<0.1", "12", ".5")}
    assert not beginnings & LETTERS


def test_ctrl_c_ends_nothing_and_says_what_does():
    session = walked("12.60", complaint=None)

    async def work(desk: Desk) -> None:
        await desk.press("ctrl+c")
        (said,) = desk.app._notifications
        assert said.message == "Ctrl+Q leaves; all that was recorded is kept."
        assert "Step 2" in desk.text

    on_screen(work, session)
