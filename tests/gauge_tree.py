"""A small tree that reads all that gauges and pipes show, one after the other."""

from functools import cache
from pathlib import Path

from ac_pieces import SHEET as BARE_SHEET
from ac_pieces import head, replaced
from builders import Clock, Walk

from faulttree.beginning import Beginning
from faulttree.core.tree import Tree
from faulttree.core.units import UnitSystem
from faulttree.core.vehicle import VehicleSheet
from faulttree.files.documents import Loaded, tree_from_bytes, vehicle_from_bytes
from faulttree.session import Session

_HEAD = (
    head("gauges-read", "It cools a little")
    + """\
    humidity: {quantity: ratio, ask: Relative humidity}
  facts:
    refrigerant: {ask: Refrigerant named on the label}
start: ambient
steps:
"""
)
_STEP = """
  STEP:
    kind: measure
    title: Read TITLE
    quantity: QUANTITY
    with: CLASS
    at: where it is
    set-up: {key: run, engine: ENGINE, load: A/C on, complaint: any}
    why: It is wanted.
    minutes: 1
    source: common practice
    plausible: {from: FROM, below: BELOW}
    bands:
      - {name: low, is: unclear, below: EDGE, means: Low., go: NEXT}
      - {name: high, is: unclear, means: High., go: NEXT}
    cannot: {go: NEXT}
    implausible: {go: NEXT}
"""
_END = """
  end:
    kind: conclude
    title: All is read
    result: refer
    finding: All of it was read.
    next: Look at it together.
"""
_THERMOMETER = "temperature", "thermometer", "-30 C", "150 C", "20 C"
_GAUGES = "gauge-pressure", "gauges", "-101 kPa", "4000 kPa", "500 kPa"
_STEPS = {
    "ambient": ("stopped", _THERMOMETER),
    "low-side": ("fast-idle", _GAUGES),
    "high-side": ("fast-idle", _GAUGES),
    "suction-pipe": ("fast-idle", _THERMOMETER),
    "pipe-behind-condenser": ("fast-idle", _THERMOMETER),
    "discharge-pipe": ("fast-idle", _THERMOMETER),
}
AS_LIQUID = ("title: Read pipe-behind-condenser", "title: Read the pipe\n    as: liquid-pipe")
"""The change by which a step of another name reads the liquid pipe."""
READ = ("30 C", "193 kPa", "1448 kPa", "12 C", "45 C", "80 C")
"""Readings that are taken in this order."""
SHEET = (
    BARE_SHEET
    + """\
values: {altitude: 300 m, humidity: 50 %}
facts: {refrigerant: R-134a}
"""
)


def text(*changes: tuple[str, str]) -> str:
    """The text of the tree with pieces replaced; each must be there once."""
    return replaced(_HEAD + "".join(_steps()) + _END, AS_LIQUID, *changes)


def _steps() -> list[str]:
    names = [*_STEPS, "end"]
    found = []
    for number, (name, (engine, of)) in enumerate(_STEPS.items(), 1):
        words = ("QUANTITY", "CLASS", "FROM", "BELOW", "EDGE")
        step = _STEP.replace("STEP", name).replace("TITLE", name).replace("ENGINE", engine)
        for word, value in zip(words, of, strict=True):
            step = step.replace(word, value)
        found.append(step.replace("NEXT", names[number]))
    return found


@cache
def _loaded(written: str) -> Loaded[Tree]:
    return tree_from_bytes(written.encode(), "gauges-read")


@cache
def _sheet(written: str) -> Loaded[VehicleSheet]:
    return vehicle_from_bytes(written.encode(), "vehicle")


def walk(
    *changes: tuple[str, str], sheet: str = SHEET, units: UnitSystem = UnitSystem.METRIC
) -> Walk:
    """A walk in memory, with pieces of the tree replaced."""
    return Walk(_loaded(text(*changes)).document, _sheet(sheet).document, units=units)


def case(
    folder: Path, *answers: str, sheet: str = SHEET, units: UnitSystem = UnitSystem.METRIC
) -> Session:
    """A case with these answers given."""
    beginning = Beginning(_loaded(text()), _sheet(sheet), units=units)
    session = Session.begin(folder, beginning, Clock())
    for answer in answers:
        session.answer(answer)
    return session
