"""Suspects on the screen: a list that follows the readings, and never makes the walk wait."""

import threading

import pytest
from builders import answered
from lamp_circuit import at_feed, begun
from screens import NARROW, SMALL, TINY, TO_FEED, Desk, on_screen, walked

from faulttree.case_bench.suspects import CaseSuspects
from faulttree.case_bench.why_not import CannotTellError
from faulttree.core.suspects.suspected import Suspected
from faulttree.core.walk.state import WalkState
from faulttree.files import cases, places
from faulttree.session import Session

BROAD = (120, 36)


def _case() -> Session:
    return at_feed(places.cases_folder().parent)


async def _known(desk: Desk) -> None:
    await desk.until(lambda: "after" in desk.text and "Working it out" not in desk.text)


class _Slow:
    """Has the working-out wait until it is told to go on."""

    def __init__(self, monkeypatch: pytest.MonkeyPatch) -> None:
        self.go = threading.Event()
        self.asked: list[int] = []
        real = CaseSuspects.after

        def slow(suspects: CaseSuspects, state: WalkState) -> Suspected:
            self.asked.append(len(state.answers))
            self.go.wait(10)
            return real(suspects, state)

        monkeypatch.setattr(CaseSuspects, "after", slow)


@pytest.mark.parametrize("size", [NARROW, (119, 36)])
def test_a_key_opens_the_list_as_a_page_and_escape_closes_it(size: tuple[int, int]):
    session = answered(_case(), "11.6")

    async def work(desk: Desk) -> None:
        assert "u Suspects" in desk.lines[-1]
        await desk.press("u")
        await _known(desk)
        assert "Suspects after 3 readings" in desk.words
        assert "Last: Feed at the lamp, lamp in place, 11.6 V" in desk.words
        assert "reversing switch" in desk.words
        assert "none of these" in desk.words
        assert "cleared: 6 of 7 faults" in desk.words
        assert "along the circuit: 3 proved good, 0 in question, 1 likely" in desk.words
        assert "Odds of this model, not certainties." in desk.words
        await desk.press("escape")
        assert desk.screens[-1] == "WalkScreen"
        assert desk.focus == ("options" if session.ask.options else "answer")

    on_screen(work, session, size)


def test_on_a_broad_screen_it_stands_beside_the_step_and_follows_the_readings():
    session = _case()

    async def work(desk: Desk) -> None:
        await desk.press("u")
        await _known(desk)
        assert desk.screens == ["WalkScreen"]
        assert "Suspects after 2 readings" in desk.shown("#suspects")
        await desk.press("escape")
        assert desk.focus == "answer"
        await desk.enter("11.6")
        await desk.until(lambda: "after 3 readings" in desk.shown("#suspects"))
        await _known(desk)
        first = desk.shown("#suspects").split("reversing switch")[0]
        assert "up: " in first, "what the last reading changed is told in words"
        await desk.press("b")
        await desk.until(lambda: "after 2 readings" in desk.shown("#suspects"))

    on_screen(work, session, BROAD)


def test_the_walk_does_not_wait_and_what_is_of_an_older_state_is_never_shown(monkeypatch):
    session = _case()
    session.circuit.suspects.after(session.state)
    slow = _Slow(monkeypatch)

    def words(desk: Desk) -> str:
        return " ".join(desk.shown("#suspects").split())

    async def work(desk: Desk) -> None:
        await desk.press("u", "escape")
        assert "after 2 readings" in words(desk), "known already: nothing is worked out"
        await desk.enter("12.50")
        assert "after 2 readings Last: Look at the reversing lamp" in words(desk)
        assert "Working it out…" in words(desk)
        assert "Step 4: Ground of the lamp" in desk.lines[0], "the next step is there at once"
        await desk.enter("1.20")
        assert "Step 5" in desk.lines[0]
        assert len(slow.asked) == 1, "one thread at a time"
        slow.go.set()
        seen: list[str] = []

        def is_last() -> bool:
            seen.append(words(desk))
            return "Working it out" not in seen[-1]

        await desk.until(is_last)
        assert "after 4 readings Last: Ground of the lamp, 1.20 V" in seen[-1]
        assert len(slow.asked) == 2
        assert not any("after 3 readings" in text for text in seen)

    on_screen(work, session, BROAD)


def test_the_program_can_be_left_while_it_is_worked_out(monkeypatch):
    slow = _Slow(monkeypatch)

    async def work(desk: Desk) -> None:
        await desk.press("u", "ctrl+q")
        threading.Timer(0.2, slow.go.set).start()
        assert desk.app.left_normally

    on_screen(work, _case())


def test_the_page_can_be_left_before_anything_is_known(monkeypatch):
    slow = _Slow(monkeypatch)

    async def work(desk: Desk) -> None:
        await desk.press("u")
        assert "Working it out…" in desk.words
        await desk.press("escape")
        slow.go.set()
        await desk.enter("11.6")
        assert "Before: 11.6 V" in desk.words

    on_screen(work, _case())


@pytest.mark.parametrize("size", [NARROW, BROAD])
def test_enter_tells_which_readings_speak_for_and_against(size: tuple[int, int]):
    async def work(desk: Desk) -> None:
        await desk.press("u")
        await _known(desk)
        await desk.press("enter")
        assert "Suspect: reversing switch" in desk.words
        assert "Speaks for it: Feed at the lamp, lamp in place, 11.6 V: " in desk.words
        assert "times as likely with this fault" in desk.words
        await desk.press("escape", "end", "enter")
        assert "Along the circuit" in desk.words
        assert "o output terminal of the reversing switch" in desk.words
        await desk.press("q", "up", "enter")
        assert "6 of 7 faults, to less than a tenth" in desk.words
        await desk.press("q", "up", "enter")
        assert "first look for a reading that was mistyped" in desk.words

    on_screen(work, answered(_case(), "11.6"), size)


def test_what_was_taken_while_the_complaint_was_away_clears_nothing_that_comes_and_goes():
    session = answered(begun(places.cases_folder().parent), "12.60")
    session.set_complaint("absent")
    answered(session, "glows dim", "12.5")

    async def work(desk: Desk) -> None:
        await desk.press("u")
        await _known(desk)
        await desk.press("down", "enter")
        assert "Suspect: reversing switch" in desk.words
        told = desk.words.partition("Clears nothing that comes and goes: ")[2]
        assert told.startswith("Look at the reversing lamp, glows dim; Feed at the lamp")
        assert "(the complaint was away)" in told

    on_screen(work, session)


@pytest.mark.parametrize("size", [NARROW, SMALL, TINY])
def test_everything_can_be_reached_by_keys_on_any_screen(size: tuple[int, int]):
    async def work(desk: Desk) -> None:
        await desk.press("u")
        await _known(desk)
        seen = desk.words
        for _ in range(8):
            await desk.press("down")
            seen += desk.words
        assert desk.outside() == []
        for words in ("reversing", "ground of the lamp", "none of these", "cleared:", "along the"):
            assert words in seen
        await desk.press("u")
        assert desk.screens[-1] == "WalkScreen"

    on_screen(work, answered(_case(), "11.6"), size)


def test_beside_the_step_the_keys_go_to_the_list_and_back():
    session = _case()

    async def work(desk: Desk) -> None:
        await desk.press("u")
        await _known(desk)
        assert desk.focus == "OptionList"
        await desk.press("1")
        assert (desk.focus, desk.line.value) == ("answer", "1"), "a digit is meant for the line"
        await desk.press("1", ".", "6", "enter")
        assert session.state.answers["feed"]
        await desk.press("u", "n")
        assert desk.screens[-1] == "TextDialog", "a letter is a command there as well"
        await desk.press("escape")
        assert desk.focus == "OptionList"
        await desk.press("u")
        assert not desk.app.screen.query_one("#suspects").display
        assert desk.focus == "answer"

    on_screen(work, session, BROAD)


def test_beside_the_step_a_number_picks_an_option():
    session = begun(places.cases_folder().parent)
    answered(session, "12.60")

    async def work(desk: Desk) -> None:
        await desk.press("u")
        await _known(desk)
        await desk.press("3")
        assert session.position.step_id == "feed"
        assert desk.focus == "answer"

    on_screen(work, session, BROAD)


def test_the_tab_key_leads_to_no_list_that_was_not_asked_for():
    async def work(desk: Desk) -> None:
        await desk.press("u")
        await _known(desk)
        await desk.press("escape", "tab")
        assert desk.focus == "answer"

    on_screen(work, _case(), BROAD)


def test_it_goes_with_the_room_and_comes_back():
    async def work(desk: Desk) -> None:
        await desk.press("u")
        await _known(desk)
        await desk.press("escape")
        await desk.pilot.resize_terminal(*NARROW)
        await desk.still()
        assert "Suspects after" not in desk.text
        await desk.enter("11.6")
        await desk.pilot.resize_terminal(*BROAD)
        await desk.until(lambda: "after 3 readings" in desk.text)

    on_screen(work, _case(), BROAD)


@pytest.mark.parametrize("size", [NARROW, BROAD])
@pytest.mark.parametrize(
    ("error", "words"),
    [
        (CannotTellError("The bench sheet is torn."), "The bench sheet is torn."),
        (RuntimeError("lost"), "Suspects cannot be worked out (RuntimeError: lost)."),
    ],
)
def test_what_goes_wrong_is_a_sentence_and_the_walk_goes_on(monkeypatch, error, words, size):
    def fails(*_: object) -> None:
        raise error

    monkeypatch.setattr(CaseSuspects, "after", fails)

    async def work(desk: Desk) -> None:
        await desk.press("u")
        await desk.until(lambda: words in " ".join(desk.shown(".suspects").split()))
        await desk.press("escape")
        await desk.enter("11.6")
        assert "11.6 V" in desk.words

    on_screen(work, _case(), size)


def test_a_tree_without_a_circuit_says_so_on_one_line():
    async def work(desk: Desk) -> None:
        await desk.press("u")
        assert desk.screens[-1] == "WalkScreen"
        (line,) = [line for line in desk.lines if "no circuit model" in line]
        assert (
            line.strip() == "This tree has no circuit model that suspects could be worked out from."
        )

    on_screen(work, walked(*TO_FEED))


def test_a_case_where_they_are_not_shown_says_so():
    session = _case()
    session.circuit.shows_suspects = False

    async def work(desk: Desk) -> None:
        await desk.press("u")
        assert "Suspects are not shown in this case." in desk.words
        await desk.press("r")
        await desk.still()
        assert "What the readings say" not in desk.words

    on_screen(work, session)


def test_hostile_words_of_a_circuit_come_out_as_words():
    session = _case()
    model = session.folder / cases.CIRCUIT
    words = '"[red]switch[/red] [@click=app.quit]x[/]"'
    model.write_text(model.read_text("utf-8").replace("words: reversing switch", f"words: {words}"))

    async def work(desk: Desk) -> None:
        await desk.press("u")
        await _known(desk)
        assert "[red]switch[/red] [@click=app.quit]x[/]" in desk.words
        await desk.press("down", "enter")
        assert "Suspect: [red]switch[/red] [@click=app.quit]x[/]" in desk.words

    on_screen(work, session)


def test_the_report_is_there_at_once_and_what_the_readings_say_as_soon_as_it_is_known(monkeypatch):
    slow = _Slow(monkeypatch)

    async def work(desk: Desk) -> None:
        await desk.press("r")
        assert "# Reversing lamp stays dark" in desk.words
        seen = await _read(desk)
        assert "## What the readings say Working it out…" in seen
        slow.go.set()
        await desk.until(lambda: "Working it out" not in desk.words)
        assert "Worked out from the circuit model after 3 readings." in await _read(desk)

    async def _read(desk: Desk) -> str:
        """The page around the section."""
        for _ in range(3):
            if "What the readings say" in desk.words:
                break
            await desk.press("pagedown")
            await desk.still()
        return desk.words

    on_screen(work, answered(_case(), "11.6"))
