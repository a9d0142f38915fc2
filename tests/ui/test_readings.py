"""A reading on its way from the line into the record."""

from screens import TO_FEED, Desk, new_case, on_screen, walked

from faulttree.core.walk.events import Complaint, ReadingTaken


def test_a_decimal_comma_is_understood_while_it_is_typed_and_recorded_on_enter():
    session = walked(*TO_FEED)

    async def work(desk: Desk) -> None:
        await desk.press(*"11,6")
        assert "Understood: 11.6 V ±0.1 V: weak feed" in desk.words
        assert "^" in desk.shown("#scale")
        assert len(session.state.answers) == 2, "nothing is recorded before Enter"
        await desk.press("enter")
        assert "Before: 11.6 V ±0.1 V: ! weak feed." in desk.words
        assert desk.line.value == ""

    on_screen(work, session)
    event = session.state.answers["feed"]
    assert isinstance(event, ReadingTaken)
    assert (event.text, event.value) == ("11,6", 11.6)


def test_what_is_no_reading_is_refused_and_stays_in_the_line():
    session = walked(*TO_FEED)

    async def work(desk: Desk) -> None:
        await desk.enter("eleven")
        assert desk.line.value == "eleven"
        assert "eleven" in desk.shown("#message")
        assert desk.focus == "answer"
        await desk.fill("")
        assert desk.shown("#message").strip() == ""
        assert "^" not in desk.shown("#scale")

    on_screen(work, session)
    assert "feed" not in session.state.answers


def test_an_implausible_reading_asks_once_and_enter_alone_does_not_record_it():
    session = walked(*TO_FEED)

    async def work(desk: Desk) -> None:
        await desk.fill("120")
        for keys in (["enter"], ["escape"], ["n"], ["down", "up", "enter"]):
            await desk.press("enter")
            assert "120 V is outside what this point can show" in desk.words
            await desk.press(*keys)
            assert desk.screens[-1] == "WalkScreen"
            assert desk.line.value == "120", "it can be mended"
            assert desk.focus == "answer"

    on_screen(work, session)
    assert "feed" not in session.state.answers


def test_an_implausible_reading_is_recorded_when_confirmed():
    session = walked(*TO_FEED)

    async def work(desk: Desk) -> None:
        for keys in (["y"], ["down", "enter"]):
            await desk.enter("120")
            await desk.press(*keys)
            assert desk.line.value == ""

    on_screen(work, session)
    events = [e for e in session.state.events if isinstance(e, ReadingTaken) and e.text == "120"]
    assert [e.kept_though_implausible for e in events] == [True, True]


def test_a_reading_too_close_to_call_offers_what_can_be_done():
    session = walked(*TO_FEED)

    async def work(desk: Desk) -> None:
        await desk.enter("12.1")
        offered = desk.shown("#options")
        for words in ("m  measure again", "t  take the other test", "1  take it as: weak feed"):
            assert words in offered
        assert "Too close to call" in desk.shown("#prompt")
        assert "^" in desk.shown("#scale")
        assert desk.focus == "options"
        await desk.press("m")
        assert desk.focus == "answer"
        await desk.enter("12.1")
        await desk.press("t")
        assert "Load lamp in place" in desk.words

    on_screen(work, session)


def test_a_decision_over_a_reading_too_close_to_call_is_recorded():
    session = walked(*TO_FEED, "12.1")

    async def work(desk: Desk) -> None:
        await desk.press("1")
        assert "Enter records this decision" in desk.text
        await desk.press("enter")
        assert "Voltage lost on the way" in desk.words

    on_screen(work, session)
    assert session.state.events[-1].event == "band-decided"


def test_a_reading_typed_where_one_is_too_close_to_call_is_no_decision():
    session = walked(*TO_FEED, "12.1")

    async def work(desk: Desk) -> None:
        await desk.press("1", "2", "full_stop", "6")
        assert desk.line.value == "12.6"
        await desk.press("enter")

    on_screen(work, session)
    assert not any(event.event == "band-decided" for event in session.state.events)
    assert [e.text for e in session.state.events if isinstance(e, ReadingTaken)][-1] == "12.6"


def test_an_open_circuit_is_a_reading():
    session = walked("12.60", "stays dark", "both light")

    async def work(desk: Desk) -> None:
        assert "Where" in desk.words or "printed on the lens" in desk.words
        await desk.enter("W16W")
        await desk.fill("OL")
        assert "Understood: OL (open circuit): open" in desk.words
        assert "^" in desk.shown("#scale")
        await desk.press("enter")
        assert "Fault: The lamp itself" in desk.words

    on_screen(work, session)


def test_words_are_typed_without_their_letters_being_taken_for_commands():
    session = walked("12.60", "stays dark", "both light")

    async def work(desk: Desk) -> None:
        await desk.press(*"bq?")
        assert desk.line.value == "bq?"
        assert desk.screens[-1] == "WalkScreen"
        await desk.press("ctrl+n")
        assert desk.screens[-1] == "TextDialog"

    on_screen(work, session)


def test_letters_after_a_digit_belong_to_the_reading():
    session = walked("12.60", "stays dark", "both light", "W16W")

    async def work(desk: Desk) -> None:
        await desk.press(*"4k7")
        assert desk.line.value == "4k7"
        assert "4.7 kΩ" in desk.words

    on_screen(work, session)


def test_a_reading_half_typed_survives_a_note_and_another_complaint_state():
    session = walked(*TO_FEED)

    async def work(desk: Desk) -> None:
        await desk.press(*"12.3", "ctrl+n")
        await desk.enter("wire was warm")
        assert desk.line.value == "12.3"
        await desk.press("ctrl+t", "a")
        assert desk.line.value == "12.3"
        assert desk.focus == "answer"
        assert "ABSENT" in desk.shown("#complaint")
        await desk.press("5", "enter")

    on_screen(work, session)
    event = session.state.answers["feed"]
    assert isinstance(event, ReadingTaken)
    assert (event.text, event.complaint) == ("12.35", Complaint.ABSENT)


def test_the_note_of_a_case_whose_last_line_was_torn_is_shown_on_opening():
    session = new_case()
    with (session.folder / "events.jsonl").open("ab") as file:
        file.write(b"0badc0de {half")
    again = type(session).resume(session.folder)

    async def work(desk: Desk) -> None:
        assert "cut off while it was being written" in desk.words

    on_screen(work, again)
