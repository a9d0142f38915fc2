"""Questions with options, and the way from a conclusion to a closed case."""

import pytest
from screens import NARROW, TO_FEED, Desk, on_screen, walked
from textual.widgets import OptionList

from faulttree.core.walk.events import Closed, Concluded, CycleRun, Observed, ProofGiven
from faulttree.session import Session

TO_VERDICT = (*TO_FEED, "12.50", "1.20")
TO_CYCLES = (*TO_VERDICT, "1", "1", "1")


def _last_outcome(session: Session) -> str | None:
    event = session.state.events[-1]
    assert isinstance(event, Observed)
    return event.outcome


@pytest.mark.parametrize(
    ("keys", "outcome"), [("2", "stays dark"), ("0", None), (("down", "enter"), "stays dark")]
)
def test_an_outcome_is_chosen_by_its_number_or_by_arrows_and_enter(keys, outcome):
    session = walked("12.60")

    async def work(desk: Desk) -> None:
        assert desk.focus == "options"
        await desk.press(*keys)

    on_screen(work, session)
    assert _last_outcome(session) == outcome


def test_an_outcome_is_chosen_by_a_click_and_a_click_beside_changes_nothing():
    session = walked("12.60")

    async def work(desk: Desk) -> None:
        await desk.pilot.click("#step")
        await desk.pilot.click("#title")
        assert desk.focus == "options"
        await desk.pilot.click("#options", offset=(8, 2))

    on_screen(work, session)
    assert _last_outcome(session) == "glows dim"


def test_enter_after_a_number_answers_no_second_question():
    """Two verdicts ask with options one after the other; an arrow marks one again."""
    session = walked(*TO_VERDICT)

    async def work(desk: Desk) -> None:
        before = len(session.state.events)
        await desk.press("1")
        after = len(session.state.events)
        assert after > before
        await desk.press("enter")
        assert len(session.state.events) == after
        assert "A number key records at once" in desk.text
        await desk.press("down", "enter")
        assert len(session.state.events) > after

    on_screen(work, session)


def test_a_number_that_is_not_offered_does_nothing():
    session = walked("12.60")

    async def work(desk: Desk) -> None:
        await desk.press("7", "x")
        assert "Step 2" in desk.text

    on_screen(work, session)
    assert len(session.state.answers) == 1


def test_a_step_to_do_is_answered_when_it_is_done():
    session = walked(*TO_FEED, "0.2")

    async def work(desk: Desk) -> None:
        assert "Bridge the reversing switch" in desk.words
        assert "! Caution" in desk.text
        await desk.press("1")
        assert "Look at the lamp with the switch bridged" in desk.words

    on_screen(work, session)


def test_a_worked_out_value_stands_on_its_scale_and_is_accepted():
    session = walked(*TO_FEED, "11.6")

    async def work(desk: Desk) -> None:
        await desk.enter("0.5")
        assert "battery-voltage - feed" in desk.words
        assert "1.00 V ±0.10 V" in desk.shown("#scale")
        assert "^" in desk.shown("#scale")
        await desk.press("enter")
        assert "Bridge the reversing switch" in desk.words

    on_screen(work, session)


def test_from_verdict_to_proof_repair_proving_run_and_a_closed_case():
    session = walked(*TO_VERDICT)

    async def work(desk: Desk) -> None:
        assert "Fault: Ground of the reversing lamp" in desk.words
        await desk.press("1")
        assert "How did the proof come out" in desk.words
        await desk.press("1")
        assert "Limits: Returns where the body is wet." in desk.words
        await desk.press("2")
        assert "0 of 3 clean" in desk.words
        await desk.press("1", "2", "1", "1", "1")
        assert "Close the case" in desk.words
        await desk.press("1")
        assert "This case is closed" in desk.words
        assert not desk.app.screen.query_one("#options", OptionList).display
        await desk.press("q")
        assert desk.app.left_normally

    on_screen(work, session)
    kinds = [type(e) for e in session.state.events]
    assert kinds.count(CycleRun) == 5
    assert kinds[-1] is Closed


def test_a_proof_that_was_not_done_wants_a_reason():
    session = walked(*TO_VERDICT, "1")

    async def work(desk: Desk) -> None:
        await desk.press("3")
        assert "Why was the proof not done?" in desk.words
        await desk.press("enter")
        assert desk.screens[-1] == "WalkScreen"
        await desk.press("3")
        await desk.enter("no lead at hand")

    on_screen(work, session)
    proofs = [e for e in session.state.events if isinstance(e, ProofGiven)]
    assert [p.reason for p in proofs] == ["no lead at hand"]


def test_a_verdict_on_readings_that_clear_nothing_is_asked_about_and_no_goes_back():
    session = walked(*TO_VERDICT, complaint=None)

    async def work(desk: Desk) -> None:
        await desk.press("1")
        assert "clear nothing that comes and goes" in desk.words
        await desk.press("enter")
        assert "Accept this conclusion" in desk.words
        await desk.press("1", "y")
        assert "How did the proof come out" in desk.words

    on_screen(work, session)
    assert sum(isinstance(e, Concluded) for e in session.state.events) == 1


def test_a_long_option_goes_on_below_its_words():
    session = walked("12.60")

    async def work(desk: Desk) -> None:
        long = [line for line in desk.shown("#options").splitlines() if line.startswith("     ")]
        assert long

    on_screen(work, session, size=(44, NARROW[1]))


def test_going_on_looking_leads_from_the_proving_run_back_into_the_tree():
    session = walked(*TO_CYCLES)

    async def work(desk: Desk) -> None:
        await desk.press("3")
        assert "Not settled" in desk.words

    on_screen(work, session)
