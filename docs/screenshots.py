"""Make the pictures of the documentation from the program itself: `python docs/screenshots.py`.

One invented case of the shipped blower tree is walked with a clock that stands still, so the same
version of the program always makes the same bytes. Pictures name local fonts only.
"""

import asyncio
import io
import os
import re
import secrets
import sys
import tempfile
from collections.abc import Iterator, Sequence
from contextlib import contextmanager
from datetime import UTC, datetime
from pathlib import Path
from unittest.mock import patch

from textual.widgets import Input

from faulttree.beginning import Beginning
from faulttree.cli.plain import PlainWalk
from faulttree.core.units import UnitSystem
from faulttree.core.walk.asks import Ask, AskKind
from faulttree.core.walk.events import Complaint, Intake
from faulttree.core.walk.respond import Recorded
from faulttree.files import places
from faulttree.files.opening import open_tree
from faulttree.session import Session
from faulttree.ui.app import FaulttreeApp

PICTURES = Path(__file__).parent / "pictures"
TREE = "blower-some-speeds"
INTAKE = Intake(
    words="Only works properly on some days, weak air, worse when it is wet",
    car="Ostrick Lindle 2.0 estate, 1989",
    registration="invented",
    technician="R. Aldane",
    weather="rain, 9 C",
)
TO_FEED = (
    "it shows and stays",
    "12.61",
    "turns, but weak on high as well",
    "none fitted",
    "8.6",
    "12.41",
)
"""Answers that lead to the feed at the motor: outcome, reading, outcome, vehicle data, current,
battery."""
FROM_FEED_ON = ("12.30", "3.55", "0.04", "3.41", "3.36")
COOLING = "ac-poor-cooling"
COOLING_READ = {
    "ambient": "31 C",
    "low-side": "95 kPa",
    "high-side": "1120 kPa",
    "suction-pipe": "13 C",
    "liquid-pipe": "43 C",
    "discharge-pipe": "88 C",
}
"""Step to reading: a system that is short of refrigerant."""
SIZE, BROAD, TALL = (100, 30), (124, 36), (92, 62)
_FONT_FACE = re.compile(r"\s*@font-face \{.*?\}", re.DOTALL)
_MADE_WITH = re.compile(r"\s*<!--.*?-->")
_FONTS = '"DejaVu Sans Mono", Menlo, Consolas, "Liberation Mono", monospace'


def begun(tree: str = TREE, intake: Intake = INTAKE) -> Session:
    """The case, with nothing answered yet."""
    opened = open_tree(tree)
    beginning = Beginning(
        opened.tree, opened.vehicle, intake, UnitSystem.METRIC, circuit=opened.circuit
    )
    now = datetime(2026, 11, 25, 9, 30, tzinfo=UTC)
    session = Session.begin(places.cases_folder(), beginning, lambda: now)
    session.set_complaint(Complaint.PRESENT)
    return session


def walked(answers: Sequence[str]) -> Session:
    """The case with these answers given."""
    session = begun()
    for text in answers:
        outcome = session.answer(text)
        if not isinstance(outcome, Recorded):
            raise SystemExit(f"“{text}” at {session.ask.step_id} is not taken: {outcome}")
    return session


def gauges_read() -> Session:
    """A case of weak cooling, with its gauges and pipes read one after the other."""
    session = begun(COOLING, Intake(words="It blows but never gets really cold"))
    for step_id, text in COOLING_READ.items():
        session.aside(step_id)
        while session.ask.kind in (AskKind.VEHICLE_VALUE, AskKind.VEHICLE_TEXT):
            session.answer("250 m" if session.ask.name == "altitude" else "")
        if not isinstance(session.answer(text), Recorded):
            raise SystemExit(f"“{text}” at {step_id} is not taken")
    return session


async def picture(
    session: Session | None,
    typed: str = "",
    light: bool = False,
    keys: Sequence[str] = (),
    size: tuple[int, int] = SIZE,
) -> str:
    """One screen as SVG: of a walk with something typed or keys pressed, or of the home screen."""
    app = FaulttreeApp(session)
    async with app.run_test(size=size) as pilot:
        if light:
            app.toggle_light()
        await app.workers.wait_for_complete()
        await pilot.pause()
        if typed:
            app.screen.query_one(Input).value = typed
            await pilot.pause(0.2)  # the scale is drawn behind the line
        for key in keys:
            await pilot.press(key)
            await app.workers.wait_for_complete()
            await pilot.pause()
        await pilot.pause()
        return tidied(app.export_screenshot(title="faulttree"))


def tidied(svg: str) -> str:
    """The picture without foreign fonts, and with its spaces kept in every viewer."""
    svg = _MADE_WITH.sub("", _FONT_FACE.sub("", svg))
    svg = svg.replace("<svg ", '<svg xml:space="preserve" ', 1)
    svg = svg.replace("Fira Code, monospace", _FONTS)
    return svg.replace("font-family: arial", "font-family: sans-serif")


def plain_sample() -> str:
    """The first steps in plain mode, with what is typed after each question."""
    out = io.StringIO()
    lines = iter([*TO_FEED, "11.6", "why", "quit"])

    def typed(_ask: Ask, question: str) -> str:
        line = next(lines)
        out.write(f"{question}{line}\n")
        return line

    PlainWalk(begun(), typed, out).run()
    return out.getvalue()


def make(folder: Path) -> None:
    """All pictures, into a folder."""
    folder.mkdir(parents=True, exist_ok=True)
    scenes: dict[str, tuple[tuple[str, ...], str, bool]] = {
        "measure": (TO_FEED, "11,2", False),
        "too-close": ((*TO_FEED, "11.6"), "", False),
        "conclusion": ((*TO_FEED, *FROM_FEED_ON), "", False),
        "measure-light": (TO_FEED, "11,2", True),
    }
    for name, (answers, typed, light) in scenes.items():
        with own_places():
            svg = asyncio.run(picture(walked(answers), typed, light))
        (folder / f"{name}.svg").write_text(svg, "utf-8")
    with own_places():
        svg = asyncio.run(picture(walked(TO_FEED), keys=("x",)))
        (folder / "expected.svg").write_text(svg, "utf-8")
    with own_places():
        session = walked((*TO_FEED, *FROM_FEED_ON[:2]))
        svg = asyncio.run(picture(session, keys=("u",), size=BROAD))
        (folder / "suspects.svg").write_text(svg, "utf-8")
    with own_places():
        svg = asyncio.run(picture(gauges_read(), keys=("h",), size=TALL))
        (folder / "gauges.svg").write_text(svg, "utf-8")
    with own_places():
        walked(TO_FEED)
        (folder / "home.svg").write_text(asyncio.run(picture(None, "weak air")), "utf-8")
    with own_places():
        (folder / "plain.txt").write_text(plain_sample(), "utf-8")


@contextmanager
def own_places() -> Iterator[None]:
    """A folder for cases and settings that is gone afterwards; ids that are always the same."""
    with tempfile.TemporaryDirectory() as folder, patch.object(secrets, "choice", lambda s: s[0]):
        named = {"FAULTTREE_DATA": f"{folder}/data", "FAULTTREE_SETTINGS": f"{folder}/settings"}
        with patch.dict(os.environ, named):
            yield


if __name__ == "__main__":
    make(Path(sys.argv[1]) if len(sys.argv) > 1 else PICTURES)
