"""The best next tests on the screen: a page that never makes the walk wait, and a test aside."""

import threading

import pytest
from builders import answered
from lamp_circuit import at_feed, begun
from screens import NARROW, SMALL, TINY, TO_FEED, WIDE, Desk, on_screen, walked

from faulttree.case_bench.next_tests import CaseNextTests
from faulttree.case_bench.why_not import CannotTellError
from faulttree.files import cases, places
from faulttree.render.next_tests import next_lines
from faulttree.session import Session

WAITS = "Aside from the tree, which waits at “Feed at the lamp, lamp in place”."


def _case() -> Session:
    return at_feed(places.cases_folder().parent)


async def _known(desk: Desk) -> None:
    await desk.until(lambda: "Working it out" not in desk.text)
    await desk.still()


async def _all(desk: Desk) -> str:
    """Everything on the page, seen by moving through it."""
    seen = desk.words
    for _ in range(24 if desk.app.size.height < 20 else 4):
        await desk.press("pagedown")
        seen += " " + desk.words
    return seen


def _told(session: Session) -> list[str]:
    """What is to be told, in pieces that stand on one line even of a small screen."""
    lines = next_lines(session.state, session.circuit.next_tests.after(session.state))
    words = " ".join(line.text for line in lines).split()
    return [word for word in words if len(word) < 20]


@pytest.mark.parametrize("size", [NARROW, WIDE])
def test_the_page_tells_minutes_outcomes_and_how_the_trees_own_step_compares(size):
    session = _case()

    async def work(desk: Desk) -> None:
        await desk.press("a")
        await _known(desk)
        seen = await _all(desk)
        assert "The tree's own next step: “Feed at the lamp, lamp in place”: it takes about" in seen
        assert "1 Ground of the lamp 2 minutes, then about 1 minute more on average" in seen
        assert "lossy: leaves only ground of the lamp" in seen
        assert "the tree's own next step takes about" in seen
        assert "Feed at the lamp, lamp in place (the tree's own next step)" in seen
        await desk.press("escape")
        assert desk.screens == ["WalkScreen"]
        assert desk.focus == "answer"

    on_screen(work, session, size)


@pytest.mark.parametrize("keys", [("1",), ("enter",), ("down", "up", "enter")])
def test_a_test_is_taken_answered_and_the_walk_goes_on_at_the_tree(keys):
    session = _case()

    async def work(desk: Desk) -> None:
        await desk.press("a")
        await _known(desk)
        await desk.press(*keys)
        assert "Aside: Ground of the lamp" in desk.lines[0]
        assert WAITS in desk.words
        assert "cavity 2 of H7" in desk.words
        assert session.state.answers.keys() == {"battery-rest", "lamp-seen"}
        await desk.enter("0.05")
        assert "Step 3: Feed at the lamp, lamp in place" in desk.lines[0]
        assert "Aside, Ground of the lamp: 0.05 V ±0.005 V: + sound." in desk.words
        assert "a tells the best test now" in desk.words
        await desk.press("a")
        await _known(desk)
        assert "Ground of the lamp" not in await _all(desk)

    on_screen(work, session)
    assert session.state.answers["ground-drop"].aside.saves_min > 1


def test_escape_and_back_return_to_the_tree_and_nothing_is_recorded():
    session = _case()
    before = session.state.events

    async def work(desk: Desk) -> None:
        for key in ("escape", "b"):
            await desk.press("a")
            await _known(desk)
            await desk.press("1")
            assert "Aside:" in desk.lines[0]
            await desk.press("1", "escape" if key == "escape" else "backspace", key)
            assert "Step 3: Feed" in desk.lines[0]
            assert desk.line.value == ""
            assert WAITS not in desk.words

    on_screen(work, session)
    assert session.state.events == before


def test_skip_note_and_change_work_aside():
    session = _case()

    async def work(desk: Desk) -> None:
        await desk.press("a")
        await _known(desk)
        await desk.press("1", "n")
        await desk.enter("rusty")
        assert "Aside:" in desk.lines[0]
        await desk.press("s")
        await desk.enter("no room")
        assert "Step 3" in desk.lines[0]
        assert "Aside, Ground of the lamp: not done: no room" in desk.words
        await desk.press("e")
        assert "Ground of the lamp: not done: no room (aside)" in desk.words

    on_screen(work, session)
    assert session.state.answers["ground-drop"].reason == "no room"


def test_cautions_of_a_test_aside_stand_before_it():
    session = answered(begun(places.cases_folder().parent), "12.60")
    session.aside("feed")

    async def work(desk: Desk) -> None:
        assert "which waits at “Look at the reversing lamp”" in desk.words
        assert "! Caution: Probe with a thin pin along the seal" in desk.words
        assert desk.words.index("Caution:") < desk.words.index("Red lead:")

    on_screen(work, session)


def test_the_walk_does_not_wait_and_can_be_left_while_it_is_worked_out(monkeypatch):
    go = threading.Event()
    real = CaseNextTests.after

    def slow(tests, state):
        go.wait(10)
        return real(tests, state)

    monkeypatch.setattr(CaseNextTests, "after", slow)

    async def work(desk: Desk) -> None:
        await desk.press("a")
        assert "Working it out" in desk.words
        await desk.press("1", "enter")
        assert desk.screens[-1] == "NextTestsScreen", "there is nothing to take yet"
        await desk.press("escape")
        go.set()
        await desk.enter("11.6")
        assert "Before: 11.6 V" in desk.words

    on_screen(work, _case())


@pytest.mark.parametrize("size", [NARROW, SMALL, TINY])
def test_everything_can_be_reached_by_keys_on_any_screen(size):
    session = _case()
    best = session.circuit.next_tests.after(session.state).best
    own = [proposal.step_id for proposal in best].index("feed") + 1

    async def work(desk: Desk) -> None:
        await desk.press("a")
        await _known(desk)
        assert desk.outside() == []
        seen = set((await _all(desk)).split())
        told = _told(session) if size != TINY else ["1", "lossy:", "sound:", "2", "3", "average"]
        assert set(told) - seen == set()
        await desk.press(str(own))
        assert "Step 3" in desk.lines[0], "the tree's own step is not aside"
        await desk.press("a")
        await desk.still()
        await desk.press("1")
        assert "Aside" in desk.lines[0]

    on_screen(work, session, size)


@pytest.mark.parametrize(
    ("error", "words"),
    [
        (CannotTellError("The bench sheet is torn."), "The bench sheet is torn."),
        (RuntimeError("lost"), "The next test cannot be worked out (RuntimeError: lost)."),
    ],
)
def test_what_goes_wrong_is_a_sentence(monkeypatch, error, words):
    def fails(*_: object) -> None:
        raise error

    monkeypatch.setattr(CaseNextTests, "after", fails)

    async def work(desk: Desk) -> None:
        await desk.press("a")
        await desk.until(lambda: words in desk.words)
        await desk.press("escape")
        await desk.enter("11.6")
        assert "11.6 V" in desk.words

    on_screen(work, _case())


def test_without_a_circuit_or_where_it_is_not_shown_it_says_so_on_one_line():
    hidden = _case()
    hidden.circuit.shows_next_tests = False
    without = begun(places.cases_folder().parent / "other")
    (without.folder / cases.BENCH).unlink()
    answered(without, "12.60")
    told = {
        "This tree has no circuit model that the next test could be": walked(*TO_FEED),
        "Next tests are not shown in this case.": hidden,
        "so the next test cannot be worked out": without,
    }
    for words, session in told.items():

        async def work(desk: Desk, words: str = words) -> None:
            await desk.press("a")
            assert desk.screens[-1] == "WalkScreen"
            assert words in desk.words

        on_screen(work, session)


def test_the_page_on_why_names_the_key():
    async def work(desk: Desk) -> None:
        await desk.press("w")
        assert "Another test: a tells the best next tests from here" in desk.words

    on_screen(work, _case())
