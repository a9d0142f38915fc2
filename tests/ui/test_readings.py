"""A reading on its way from the line into the record."""

from screens import TO_FEED, Desk, on_screen, walked


def test_a_decimal_comma_is_understood_while_it_is_typed():
    session = walked(*TO_FEED)

    async def work(desk: Desk) -> None:
        await desk.press(*"11,6")
        assert "Understood: 11.6 V ±0.2 V: weak feed" in desk.words
        assert "^" in desk.shown("#scale")
        assert desk.line.value == "11,6"

    on_screen(work, session)
