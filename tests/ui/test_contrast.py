"""Text can be read in dark and light colours and without colours; no state is told by colour alone.

Source: W3C, Web Content Accessibility Guidelines 2.2, success criterion 1.4.3 (contrast of at least
4.5 to 1) and its definitions of relative luminance and contrast ratio.
"""

from collections.abc import Iterator

import gauge_tree
import pytest
from builders import answered
from lamp_circuit import at_feed
from rich.color import ColorTriplet
from rich.style import Style
from screens import NARROW, TO_FEED, WIDE, Desk, on_screen, walked

from faulttree.files import places, settings

LEAST = 4.5
WALKS = {
    "too close": ((*TO_FEED, "12.1"), ()),
    "typed": (TO_FEED, ("1", "1")),
    "refused": (TO_FEED, ("x", "enter")),
    "warned": ((*TO_FEED, "12.50"), ("ctrl+t", "a")),
    "options": (("12.60",), ("down",)),
    "dialog": (TO_FEED, ("e",)),
    "asked once": (TO_FEED, ("1", "2", "0", "enter")),
    "page": (TO_FEED, ("f1",)),
}


def _luminance(colour: ColorTriplet) -> float:
    parts = [c / 255 for c in colour]
    r, g, b = (p / 12.92 if p <= 0.04045 else ((p + 0.055) / 1.055) ** 2.4 for p in parts)
    return 0.2126 * r + 0.7152 * g + 0.0722 * b


def _contrast(style: Style) -> float:
    assert style.color is not None
    assert style.bgcolor is not None
    text, ground = (_luminance(c.get_truecolor()) for c in (style.color, style.bgcolor))
    return (max(text, ground) + 0.05) / (min(text, ground) + 0.05)


def _words(desk: Desk) -> Iterator[tuple[str, Style]]:
    for strip in desk.front:
        for text, style, _ in strip:
            if text.strip(" ▁▂▃▄▅▆▇█▔│▊▎"):
                assert style is not None
                yield text, style


def _choose(dark: bool) -> None:
    settings.save(places.settings_folder(), settings.Settings(dark=dark))


async def _check(desk: Desk) -> None:
    for text, style in _words(desk):
        assert _contrast(style) >= LEAST, (text, str(style), _contrast(style))


def test_the_contrast_of_black_on_white_is_21_to_1():
    assert _contrast(Style.parse("#000000 on #ffffff")) == pytest.approx(21)
    assert _contrast(Style.parse("#777777 on #ffffff")) == pytest.approx(4.48, abs=0.005)


@pytest.mark.parametrize("colours", ["dark", "light", "none"])
def test_every_text_of_the_walk_can_be_read(colours: str, monkeypatch: pytest.MonkeyPatch):
    _choose(colours != "light")
    if colours == "none":
        monkeypatch.setenv("NO_COLOR", "1")

    for answers, keys in WALKS.values():

        async def work(desk: Desk, keys: tuple[str, ...] = keys) -> None:
            await desk.press(*keys)
            await _check(desk)

        on_screen(work, walked(*answers), size=WIDE)


@pytest.mark.parametrize("colours", ["dark", "light", "none"])
@pytest.mark.parametrize("size", [NARROW, WIDE])
def test_every_suspect_can_be_read(
    colours: str, size: tuple[int, int], monkeypatch: pytest.MonkeyPatch
):
    _choose(colours != "light")
    if colours == "none":
        monkeypatch.setenv("NO_COLOR", "1")

    async def work(desk: Desk) -> None:
        await desk.press("u")
        await desk.until(lambda: "after" in desk.text and "Working it out" not in desk.text)
        await _check(desk)
        await desk.press("end", "enter")
        await _check(desk)

    on_screen(work, answered(at_feed(places.data_folder()), "11.6"), size=size)


@pytest.mark.parametrize("colours", ["dark", "light", "none"])
def test_the_gauges_can_be_read(colours: str, monkeypatch: pytest.MonkeyPatch):
    _choose(colours != "light")
    if colours == "none":
        monkeypatch.setenv("NO_COLOR", "1")

    async def work(desk: Desk) -> None:
        await desk.press("h")
        await desk.until(lambda: "Low side:" in desk.text)
        await _check(desk)
        await desk.press("pagedown", "pagedown", "pagedown")
        await desk.still()
        await _check(desk)

    on_screen(work, gauge_tree.case(places.data_folder(), *gauge_tree.READ), size=WIDE)


@pytest.mark.parametrize("colours", ["dark", "light", "none"])
@pytest.mark.usefixtures("library")
def test_every_text_of_home_and_form_can_be_read(colours: str, monkeypatch: pytest.MonkeyPatch):
    _choose(colours != "light")
    if colours == "none":
        monkeypatch.setenv("NO_COLOR", "1")
    walked("12.60")
    walked("12.60", "lights", "1", "1")

    async def work(desk: Desk) -> None:
        await _check(desk)
        await desk.press("tab")
        await _check(desk)
        await desk.press("tab", "enter")
        await _check(desk)

    on_screen(work, size=WIDE)


def test_light_and_dark_are_told_apart_by_the_ground():
    async def work(desk: Desk) -> None:
        (dark,) = {s.bgcolor for t, s in _words(desk) if t.startswith("Reading")}
        await desk.press("l")
        (light,) = {s.bgcolor for t, s in _words(desk) if t.startswith("Reading")}
        assert dark is not None
        assert light is not None
        assert _luminance(dark.get_truecolor()) < 0.05
        assert _luminance(light.get_truecolor()) > 0.9

    on_screen(work, walked(*TO_FEED))


def test_without_colours_everything_is_grey_and_the_marked_row_stands_out(
    monkeypatch: pytest.MonkeyPatch,
):
    monkeypatch.setenv("NO_COLOR", "1")

    async def work(desk: Desk) -> None:
        for _, style in _words(desk):
            for colour in (style.color, style.bgcolor):
                assert colour is not None
                assert len(set(colour.get_truecolor())) == 1, str(style)
        rows = [(t, s) for t, s in _words(desk) if "measure again" in t or "take it as: weak" in t]
        (_, marked), (_, other) = rows
        edge = Style(color=marked.bgcolor, bgcolor=other.bgcolor)
        assert _contrast(edge) >= 3, "1.4.11: what marks a state has 3 to 1 at least"

    on_screen(work, walked(*TO_FEED, "12.1"))


def test_every_band_and_answer_carries_its_sign():
    async def work(desk: Desk) -> None:
        scale = desk.shown("#scale")
        for name in ("! no feed", "! weak feed", "+ full feed"):
            assert name in scale
        assert "! glows dim" in desk.shown("#last")

    on_screen(work, walked(*TO_FEED))
