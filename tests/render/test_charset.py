"""Letters that a terminal lacks are replaced by what can be read."""

import pytest

from faulttree.render import scale
from faulttree.render.charset import IN_ASCII, for_console, in_ascii, substitute
from faulttree.render.scale import DrawnBand, Mark


def _in(encoding: str, text: str) -> str:
    try:
        text.encode(encoding)
    except UnicodeEncodeError as error:
        shown, end = substitute(error)
        return text[: error.start] + shown + _in(encoding, text[end:])
    return text


@pytest.mark.parametrize("text", ["plain", "".join(IN_ASCII), "±0.5 Ω → é ▇"])
def test_text_put_in_ascii_is_what_an_ascii_terminal_is_sent(text):
    assert in_ascii(text) == _in("ascii", text)


def test_units_and_signs_are_spelt_in_ascii():
    assert _in("ascii", "4.7 kΩ ±0.1 → 20 µA") == "4.7 kohm +/-0.1 -> 20 uA"
    assert _in("ascii", "“open” …") == '"open" ...'
    assert _in("ascii", "日 é") == "? ?"


def test_what_an_encoding_has_stays():
    assert _in("latin-1", "±5 µA at 20 °C, 3 Ω") == "±5 µA at 20 °C, 3 ohm"


def test_every_substitute_is_ascii():
    assert all(text.isascii() for text in IN_ASCII.values())


def test_an_error_in_reading_is_not_taken_for_one_in_writing():
    error = UnicodeDecodeError("utf-8", b"\xb5", 0, 1, "invalid start byte")
    with pytest.raises(UnicodeDecodeError):
        substitute(error)


def test_a_scale_keeps_its_columns_in_ascii_and_on_a_console():
    bands = [DrawnBand("low", "fault"), DrawnBand("high", "good", "1 V")]
    rows = scale.as_text(scale.draw(bands, 60, Mark(1, 0.5, (1, 0.4), (1, 0.6), "2 V")))
    assert [len(_in("ascii", row)) for row in rows] == [len(row) for row in rows]
    assert [for_console(row) for row in rows] == rows


def test_a_console_gets_what_code_page_437_has():
    text = "“weak” → 3 Ω ±1 … │ ─ ═ ┴ 20 °C µA"
    shown = for_console(text)
    assert shown == '"weak" > 3 Ω ±1 ~ │ ─ ═ ┴ 20 °C µA'
    assert len(shown) == len(text)
