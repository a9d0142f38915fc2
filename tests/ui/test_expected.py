"""Expected readings on the screen: a page that opens at once and is filled when they are known."""

import threading

import pytest
from builders import answered
from lamp_circuit import at_feed, begun, lamp_folder, texts
from screens import NARROW, SMALL, TINY, TO_FEED, WIDE, Desk, on_screen, walked

from faulttree.case_bench.readings import ExpectedReadings
from faulttree.case_bench.why_not import CannotTellError
from faulttree.files import cases, places
from faulttree.session import Session
from faulttree.ui.screens.expected import ExpectedScreen


def _case(**beginning: object) -> Session:
    return at_feed(places.cases_folder().parent, **beginning)


async def _worked_out(desk: Desk) -> None:
    await desk.until(lambda: "Working it out" not in desk.text)


def test_a_key_shows_what_the_step_would_read_and_escape_closes_it():
    session = _case()

    async def work(desk: Desk) -> None:
        assert "x Expect" in desk.lines[-1]
        await desk.press("x")
        assert "Expected readings: Feed at the lamp, lamp in place" in desk.words
        await _worked_out(desk)
        assert "Battery: 12.6 V with the engine stopped, as last measured" in desk.words
        assert "Healthy: 12.54 V ±0.08 V: + full feed" in desk.words
        assert "! weak feed: from 1 V below 12.08 V 10.89 V (1 Ω), 6.379 V (5 Ω): rev" in desk.words
        await desk.press("escape")
        assert desk.screens[-1] == "WalkScreen"
        assert desk.focus == "answer"
        await desk.enter("12.50")

    on_screen(work, session)
    assert session.position.step_id == "ground-drop"


@pytest.mark.parametrize("size", [NARROW, SMALL, TINY, WIDE])
def test_all_of_it_can_be_read_by_keys_on_any_screen(size: tuple[int, int]):
    session = _case()
    wanted = texts(session)

    async def work(desk: Desk) -> None:
        await desk.press("x")
        await _worked_out(desk)
        seen = desk.words
        for _ in range(40):
            await desk.press("down")
            seen += desk.words
        assert desk.outside() == []
        for line in wanted:
            assert line.split()[0] in seen, line
        assert wanted[-1].split()[-1] in seen

    on_screen(work, session, size)


def test_the_page_opens_before_the_readings_are_known_and_can_be_left_then(monkeypatch):
    go, done = threading.Event(), threading.Event()
    real = ExpectedReadings.lines

    def slow(*arguments: object) -> object:
        go.wait(10)
        try:
            return real(*arguments)  # type: ignore[arg-type]
        finally:
            done.set()

    monkeypatch.setattr(ExpectedReadings, "lines", slow)
    session = _case()

    async def work(desk: Desk) -> None:
        await desk.press("x")
        assert "Working it out…" in desk.words
        await desk.press("escape")
        assert desk.screens[-1] == "WalkScreen"
        go.set()
        await desk.until(done.is_set)
        await desk.press("x")
        assert "Healthy: 12.54 V" in desk.words, "what was worked out meanwhile is there at once"
        await desk.press("q")
        await desk.enter("11.6")

    on_screen(work, session)
    assert session.state.answers["feed"]


def test_the_program_can_be_left_while_they_are_worked_out(monkeypatch):
    go = threading.Event()

    def slow(*_: object) -> None:
        go.wait(10)
        raise CannotTellError("too late")

    monkeypatch.setattr(ExpectedReadings, "lines", slow)

    async def work(desk: Desk) -> None:
        await desk.press("x", "ctrl+q")
        threading.Timer(0.2, go.set).start()
        assert desk.app.left_normally

    on_screen(work, _case())


def test_a_second_look_is_there_at_once_and_another_battery_is_worked_out_anew():
    session = _case()
    texts(session)

    async def work(desk: Desk) -> None:
        await desk.press("x")
        assert "Healthy: 12.54 V" in desk.words
        await desk.press("escape", "v")
        await desk.enter("11.90")
        await desk.press("x")
        await _worked_out(desk)
        assert "Healthy: 11.84 V" in desk.words

    on_screen(work, session)


def test_a_tree_without_a_circuit_says_so_on_one_line():
    async def work(desk: Desk) -> None:
        await desk.press("x")
        assert desk.screens[-1] == "WalkScreen"
        (line,) = [line for line in desk.lines if "no circuit model" in line]
        assert (
            line.strip() == "This tree has no circuit model that readings could be worked out from."
        )

    on_screen(work, walked(*TO_FEED))


def test_a_case_that_was_begun_without_the_model_says_so():
    session = _case()
    (session.folder / cases.CIRCUIT).unlink()

    async def work(desk: Desk) -> None:
        await desk.press("x")
        assert desk.screens[-1] == "WalkScreen"
        assert "This case has no circuit.yaml in its folder" in desk.words

    on_screen(work, session)


def test_where_nothing_is_read_the_key_says_so():
    async def work(desk: Desk) -> None:
        await desk.press("x")
        assert "Nothing is read at this step." in desk.words

    on_screen(work, answered(_case(), "0.2"))


@pytest.mark.parametrize(
    ("error", "words"),
    [
        (CannotTellError("The bench sheet is torn."), "The bench sheet is torn."),
        (RuntimeError("lost"), "These readings cannot be worked out (RuntimeError: lost)."),
    ],
)
def test_what_goes_wrong_is_a_sentence_and_the_walk_goes_on(monkeypatch, error, words):
    def fails(*_: object) -> None:
        raise error

    monkeypatch.setattr(ExpectedReadings, "lines", fails)

    async def work(desk: Desk) -> None:
        await desk.press("x")
        await desk.until(lambda: words in desk.words)
        await desk.press("escape")
        await desk.enter("11.6")
        assert "11.6 V" in desk.words

    on_screen(work, _case())


def test_a_case_where_they_are_not_shown_says_so():
    session = _case()
    session.circuit.shows_expected = False

    async def work(desk: Desk) -> None:
        await desk.press("x")
        assert "Expected readings are not shown in this case." in desk.words

    on_screen(work, session)


def test_hostile_words_of_a_circuit_come_out_as_words():
    session = _case()
    model = session.folder / cases.CIRCUIT
    words = '"[red]switch[/red] [@click=app.quit]x[/] of the lamp"'
    model.write_text(model.read_text("utf-8").replace("words: reversing switch", f"words: {words}"))

    async def work(desk: Desk) -> None:
        await desk.press("x")
        await _worked_out(desk)
        assert "[red]switch[/red] [@click=app.quit]x[/] of the lamp: contact main" in desk.words

    on_screen(work, session)


def test_readings_are_kept_apart_by_step():
    session = begun(places.cases_folder().parent)

    async def work(desk: Desk) -> None:
        await desk.press("x")
        await _worked_out(desk)
        assert "Battery: weak 12.5 V, normal 12.65 V" in desk.words
        await desk.press("escape")
        await desk.enter("12.60")
        await desk.press("x")
        await _worked_out(desk)
        assert "Healthy: + lights" in desk.words
        assert isinstance(desk.app.screen, ExpectedScreen)

    on_screen(work, session)


def test_a_case_begun_from_the_home_screen_keeps_the_circuit(library):
    lamp_folder(library / "lamp")

    async def work(desk: Desk) -> None:
        await desk.press("down", "enter", "ctrl+b", "escape", "x")
        await _worked_out(desk)
        assert "Healthy: weak 12.50 V" in desk.words

    on_screen(work)
    (case,) = places.cases_folder().iterdir()
    for name in (cases.CIRCUIT, cases.BENCH):
        assert (case / name).read_bytes() == (library / "lamp" / name).read_bytes()
