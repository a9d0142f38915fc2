"""Screens under test: open the program on a case, press keys, read what is shown.

Two private names of Textual are used, and only here: the text of a screen comes from its
`_compositor`, and waiting for the program to be idle is cut short in `_wait`.
"""

import asyncio
from collections.abc import Awaitable, Callable
from dataclasses import dataclass
from typing import Any, TypeVar

from builders import LAMP, Clock
from textual import _wait
from textual.pilot import Pilot
from textual.strip import Strip
from textual.widget import Widget
from textual.widgets import Input, OptionList

from faulttree.beginning import Beginning
from faulttree.core.units import UnitSystem
from faulttree.core.walk.events import Complaint, Intake
from faulttree.core.walk.respond import Recorded
from faulttree.files import places
from faulttree.files.documents import load_tree, load_vehicle, tree_from_bytes
from faulttree.session import Session
from faulttree.ui.app import FaulttreeApp

T = TypeVar("T")
_wait.SLEEP_GRANULARITY, _wait.SLEEP_IDLE = 0.006, 0.001

NARROW, SMALL, TINY, WIDE = (80, 24), (60, 20), (40, 12), (130, 36)
"""Columns and rows."""

_NO_BORDERS = str.maketrans("|│", "  ")

TO_FEED = ("12.60", "glows dim")
"""Answers that lead to the feed of the lamp."""


def new_case(
    tree: str | None = None, units: UnitSystem = UnitSystem.METRIC, sheet: bool = True
) -> Session:
    """A case of the example tree, or of a text of a tree, begun at a clock that stands still."""
    loaded = load_tree(LAMP / "tree.yaml") if tree is None else tree_from_bytes(tree.encode(), "t")
    vehicle = load_vehicle(LAMP / "vehicle.yaml") if sheet else None
    intake = Intake(words="reversing lamp dark", car="Brindale Finch")
    return Session.begin(places.cases_folder(), Beginning(loaded, vehicle, intake, units), Clock())


def walked(*texts: str, complaint: Complaint | None = Complaint.PRESENT, **begin: Any) -> Session:
    """A case with these answers given; the complaint is present unless told otherwise."""
    session = new_case(**begin)
    if complaint is not None:
        session.set_complaint(complaint)
    for text in texts:
        outcome = session.answer(text)
        assert isinstance(outcome, Recorded), (text, session.ask, outcome)
    return session


@dataclass(frozen=True, slots=True)
class Desk:
    """The open program and the hands on it."""

    app: FaulttreeApp
    pilot: Pilot[int | None]

    @property
    def lines(self) -> list[str]:
        """What the screen shows, row by row."""
        return [strip.text.rstrip() for strip in self.strips]

    @property
    def text(self) -> str:
        """What the screen shows."""
        return "\n".join(self.lines)

    @property
    def words(self) -> str:
        """What is in front, on one line: it does not matter where lines are broken."""
        text = "\n".join(strip.text for strip in self.front)
        return " ".join(text.translate(_NO_BORDERS).split())

    @property
    def front(self) -> list[Strip]:
        """The rows of the dialog or page that is open, or else of the whole screen."""
        for box in self.app.screen.query(".dialog, .page"):
            area = box.region
            return [r.crop(area.x, area.right) for r in self.strips[area.y : area.bottom]]
        return self.strips

    @property
    def strips(self) -> list[Strip]:
        """The rows with their styles."""
        return self.app.screen._compositor.render_strips()

    @property
    def line(self) -> Input:
        """The line that is typed into."""
        return self.app.screen.query_one(Input)

    @property
    def focus(self) -> str:
        """Name of the widget that gets the keys."""
        focused = self.app.focused
        return (focused.id or type(focused).__name__) if focused else ""

    @property
    def screens(self) -> list[str]:
        """The screens on top of each other, the first below."""
        return [type(screen).__name__ for screen in self.app.screen_stack]

    def shown(self, selector: str) -> str:
        """The text of one widget's part of the screen."""
        region = self.app.screen.query_one(selector).region
        rows = self.strips[region.y : region.bottom]
        return "\n".join(r.crop(region.x, region.right).text.rstrip() for r in rows)

    def outside(self) -> list[Widget]:
        """Widgets that can be used but are not wholly on the screen."""
        screen = self.app.screen
        inside = screen.region
        return [
            w
            for w in screen.query("*")
            if w.can_focus
            and w.display
            and not w.disabled
            and all(a.display for a in w.ancestors if isinstance(a, Widget))
            and not (w.region.area and inside.contains_region(w.region))
        ]

    async def press(self, *keys: str) -> None:
        """Press keys one after the other."""
        await self.pilot.press(*keys)
        await self.pilot.pause()

    async def fill(self, text: str) -> None:
        """Put a text into the line that has the focus, as if it had been typed."""
        line = self.app.focused
        assert isinstance(line, Input), line
        line.value = text
        line.cursor_position = len(text)
        await self.pilot.pause()

    async def enter(self, text: str) -> None:
        """Put a text into the line and press Enter."""
        await self.fill(text)
        await self.press("enter")

    async def until(self, claim: Callable[[], bool]) -> None:
        """Wait until something holds that takes its time, such as scrolling; fail after 5 s."""
        for _ in range(100):
            if claim():
                return
            await self.pilot.pause(0.05)
        raise AssertionError(self.text)

    async def still(self) -> None:
        """Wait until the screen has not changed for a while."""
        before, count = "", 0
        while count < 4:
            await self.pilot.pause(0.03)
            count = count + 1 if self.text == before else 0
            before = self.text

    async def loaded(self) -> None:
        """Wait until the home screen has read its lists, if it is open."""
        await self.pilot.pause()
        if self.screens[-1] == "HomeScreen":
            cases = self.app.screen.query_one("#cases", OptionList)
            await self.until(lambda: cases.option_count > 0)
        await self.app.workers.wait_for_complete()
        await self.pilot.pause()


def on_screen(
    work: Callable[[Desk], Awaitable[T]],
    session: Session | None = None,
    size: tuple[int, int] = NARROW,
    intro: bool = False,
) -> T:
    """Open the program on a case, or at home, and do some work with it.

    Args:
        work: what is done.
        session: the case; None opens the home screen.
        size: columns and rows.
        intro: leave the page that comes before a first step open.
    """

    first = _first_screen(session)

    async def run() -> T:
        app = FaulttreeApp(session)
        async with app.run_test(size=size) as pilot:
            desk = Desk(app, pilot)
            while desk.screens[-1] != first:
                await pilot.pause(0.01)
            await desk.loaded()
            if first == "PageScreen" and not intro:
                await desk.press("escape")
            return await work(desk)

    return asyncio.run(run())


def _first_screen(session: Session | None) -> str:
    """What opens: home, the page before a first step, or the step itself."""
    if session is None:
        return "HomeScreen"
    begun = session.state.answers or session.state.given
    return "WalkScreen" if begun else "PageScreen"
