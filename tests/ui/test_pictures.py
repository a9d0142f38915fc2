"""What every screen looks like, as text, on a small and on a wide terminal.

After a change that is meant: `pytest tests/ui/test_pictures.py --snapshot-update`, and read the
difference.
"""

import itertools
import secrets

import gauge_tree
import pytest
from lamp_circuit import at_feed
from screens import NARROW, TO_FEED, WIDE, Desk, new_case, on_screen, walked
from suspicions import ranked, suspected, suspicion
from syrupy.assertion import SnapshotAssertion

from faulttree.core.suspects.evidence import reads_of
from faulttree.core.suspects.suspected import Suspected
from faulttree.core.units import UnitSystem
from faulttree.files import places
from faulttree.session import Session

TO_VERDICT = (*TO_FEED, "12.50", "1.20")
WALKS = {
    "measure": (TO_FEED, ()),
    "measure-typed": (TO_FEED, ("=11,6",)),
    "implausible": (TO_FEED, ("=120", "enter")),
    "battery": ((), ("=12.60", "enter", "s", "=no second person", "enter")),
    "too-close": ((*TO_FEED, "12.1"), ()),
    "observe": (("12.60",), ()),
    "vehicle-data": (("12.60", "stays dark", "both light"), ()),
    "work-out": ((*TO_FEED, "11.6", "0.5"), ()),
    "do": ((*TO_FEED, "0.2"), ()),
    "conclusion": (TO_VERDICT, ()),
    "repair": ((*TO_VERDICT, "1", "1"), ()),
    "proving-run": ((*TO_VERDICT, "1", "1", "1", "clean"), ()),
    "proving-run-counted": (
        (*TO_VERDICT, "1", "1", "1", "clean"),
        ("t", "=2 of 4", "enter"),
    ),
    "closed": (("12.60", "lights", "1", "1"), ()),
    "complaint": (TO_FEED, ("c",)),
    "note": (TO_FEED, ("n",)),
    "change": (TO_FEED, ("e",)),
    "details": (TO_FEED, ("d",)),
    "help": (TO_FEED, ("f1",)),
    "sums": (TO_FEED, ("f",)),
    "sum": (TO_FEED, ("f", "=joint", "enter", "=0.30±0.01", "enter", "=12")),
}
"""Answers given before, and what is done then; what begins with = is typed into the line."""


@pytest.fixture(autouse=True)
def _same_ids(monkeypatch: pytest.MonkeyPatch) -> None:
    letters = itertools.cycle("bcdfghjk")
    monkeypatch.setattr(secrets, "choice", lambda _: next(letters))


async def _both(desk: Desk) -> str:
    """The screen on a small terminal, then on a wide one."""
    await desk.still()
    small = desk.text
    await desk.pilot.resize_terminal(*WIDE)
    await desk.still()
    return f"{small}\n{'=' * WIDE[0]}\n{desk.text}"


@pytest.mark.parametrize("name", WALKS)
def test_the_walk(name: str, snapshot: SnapshotAssertion):
    answers, keys = WALKS[name]

    async def work(desk: Desk) -> str:
        for key in keys:
            if key.startswith("="):
                await desk.fill(key[1:])
            else:
                await desk.press(key)
        return await _both(desk)

    assert on_screen(work, walked(*answers), NARROW) == snapshot


def test_expected_readings(snapshot: SnapshotAssertion):
    async def work(desk: Desk) -> str:
        await desk.press("x")
        await desk.until(lambda: "Working it out" not in desk.text)
        return await _both(desk)

    assert on_screen(work, at_feed(places.data_folder()), NARROW) == snapshot


@pytest.mark.parametrize("keys", [("h",), ("h", *["pagedown"] * 3)], ids=["gauges", "cycle"])
def test_gauges(keys: tuple[str, ...], snapshot: SnapshotAssertion):
    session = gauge_tree.case(places.data_folder(), *gauge_tree.READ, units=UnitSystem.BOTH)

    async def work(desk: Desk) -> str:
        await desk.press(*keys)
        return await _both(desk)

    assert on_screen(work, session, NARROW) == snapshot


class _Told:
    """Suspects with shares that are made up, so that no picture changes with a weight."""

    def __init__(self, session: Session) -> None:
        reads = reads_of(session.state)
        shares = (
            ranked("switch.series", 0.62, 0.3, 0.2, "switch on the gearbox", ((2, 8.2),), True),
            ranked("wire.series", 0.3, 0.41, 0.1, "wire to the lamp"),
            ranked("lamp.open", 0.004, 0.1, 0.3, "lamp", ((2, 0.0005),)),
            ranked("eyelet.series", 0.004, 0.1, 0.3, "ground of the lamp and its eyelet"),
        )
        found = suspicion(*shares, none=(0.07, 0.02), reads=reads)
        self._found = suspected(found, (("switch", "wire"), ("lamp",), ("eyelet",)))

    def why_not(self, _state: object) -> str:
        return ""

    def known(self, _state: object) -> Suspected:
        return self._found


SUSPECTS = {
    "list": (("u",), NARROW),
    "why": (("u", "enter"), NARROW),
    "circuit": (("u", "end", "enter"), NARROW),
    "beside": (("u", "escape"), WIDE),
}
"""Keys, and how large the screen is."""


@pytest.mark.parametrize("name", SUSPECTS)
def test_suspects(name: str, snapshot: SnapshotAssertion):
    keys, size = SUSPECTS[name]
    session = walked(*TO_FEED, "11.6")
    session.circuit.suspects = _Told(session)  # type: ignore[assignment]

    async def work(desk: Desk) -> str:
        await desk.press(*keys)
        await desk.still()
        return desk.text

    assert on_screen(work, session, size) == snapshot


def test_before_you_begin(snapshot: SnapshotAssertion):
    assert on_screen(_both, new_case(), NARROW, intro=True) == snapshot


@pytest.mark.usefixtures("library")
def test_home(snapshot: SnapshotAssertion):
    walked("12.60")
    walked("12.60", "lights", "1", "1")
    assert on_screen(_both) == snapshot


@pytest.mark.usefixtures("library")
def test_home_with_words(snapshot: SnapshotAssertion):
    async def work(desk: Desk) -> str:
        await desk.fill("lamp")
        return await _both(desk)

    assert on_screen(work) == snapshot


@pytest.mark.usefixtures("library")
def test_the_form_before_a_walk(snapshot: SnapshotAssertion):
    async def work(desk: Desk) -> str:
        await desk.press("down", "enter")
        return await _both(desk)

    assert on_screen(work) == snapshot
