"""Gauges and cycle over the step: one key, the whole width, the same in both units."""

import gauge_tree
import pytest
from screens import NARROW, SMALL, TINY, WIDE, Desk, on_screen, walked

from faulttree.core.units import UnitSystem
from faulttree.files import places
from faulttree.session import Session


def read(*answers: str, units: UnitSystem = UnitSystem.METRIC) -> Session:
    return gauge_tree.case(places.cases_folder(), *answers, units=units)


def test_a_tree_without_gauges_says_so_and_opens_nothing():
    async def work(desk: Desk) -> None:
        await desk.press("h")
        assert desk.screens[-1] == "WalkScreen"
        assert "measures neither the low side nor the high side" in desk.words

    on_screen(work, walked("12.60"))


def test_one_key_opens_what_is_expected_and_read_and_escape_leaves():
    async def work(desk: Desk) -> None:
        await desk.press("h")
        await desk.until(lambda: "193 kPa" in desk.text)
        assert desk.screens[-1] == "GaugesScreen"
        assert "Identify the refrigerant before connecting" in desk.words
        assert "inside the expected" in desk.words
        await desk.press("end", "pagedown", "pagedown", "pagedown")
        await desk.until(lambda: "suction pipe, liquid pipe" in desk.words)
        await desk.press("escape")
        assert desk.screens[-1] == "WalkScreen"
        assert desk.focus == "answer"

    on_screen(work, read("30 C", "193 kPa"))


def test_the_next_reading_is_in_it_when_it_opens_again():
    session = read("30 C", "193 kPa")

    async def work(desk: Desk) -> None:
        await desk.press("h")
        await desk.until(lambda: "193 kPa" in desk.text)
        await desk.press("q")
        await desk.enter("2100 kPa")
        await desk.press("h")
        await desk.until(lambda: "2100 kPa" in desk.text)
        assert "High side: 2100 kPa ±69 kPa, above the expected" in desk.words

    on_screen(work, session)


@pytest.mark.parametrize("size", [NARROW, SMALL, TINY, WIDE])
@pytest.mark.parametrize("units", UnitSystem)
def test_no_line_of_the_pictures_is_broken(size, units: UnitSystem):
    async def work(desk: Desk) -> None:
        await desk.press("h")
        seen: list[str] = []
        await desk.still()
        for _ in range(12):
            seen += [strip.text for strip in desk.front]
            await desk.press("pagedown")
        bars = [line for line in seen if "──│" in line or "═│" in line]
        assert bars or size == TINY
        assert all(line.rstrip(" |▁▂▃▄▅▆▇").endswith(("│", "─")) for line in bars)
        assert not any(line.strip(" |▁▂▃▄▅▆▇") in ("│", "──│") for line in seen)

    on_screen(work, read(*gauge_tree.READ[:4], units=units), size)


def test_the_pictures_follow_the_size_of_the_screen():
    async def work(desk: Desk) -> None:
        await desk.press("h")
        await desk.still()
        before = max(len(line.rstrip()) for line in desk.lines)
        await desk.pilot.resize_terminal(*WIDE)
        await desk.still()
        assert max(line.count("─") for line in desk.lines) > before / 2

    on_screen(work, read("30 C", "193 kPa"), NARROW)


def test_at_a_list_of_outcomes_the_key_works_too():
    async def work(desk: Desk) -> None:
        await desk.press("h")
        await desk.until(lambda: desk.screens[-1] == "GaugesScreen")

    on_screen(work, read(*gauge_tree.READ))
