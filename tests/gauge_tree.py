"""A small tree that reads all that gauges and pipes show, one after the other."""

from functools import cache
from pathlib import Path

from builders import Clock, Walk

from faulttree.beginning import Beginning
from faulttree.core.tree import Tree
from faulttree.core.units import UnitSystem
from faulttree.core.vehicle import VehicleSheet
from faulttree.files.documents import Loaded, tree_from_bytes, vehicle_from_bytes
from faulttree.session import Session

_HEAD = """
format: tree/1
id: gauges-read
version: "1.0.0"
changes:
  - {version: "1.0.0", date: "2026-11-25", text: First issue.}
title: It cools a little
system: air conditioning
complaint: [It cools a little and no more.]
applies-to: Any car with a thermostatic expansion valve.
instruments: [gauges, thermometer]
confirm: {how: Feel the vent., provoke: [Let it run with the blower on high.]}
needs:
  values:
    altitude: {quantity: length, ask: Altitude of the place}
    humidity: {quantity: ratio, ask: Relative humidity}
  facts:
    refrigerant: {ask: Refrigerant named on the label}
start: ambient
steps:
"""
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
SHEET = """
format: vehicle/1
id: velmora-tarn-1991
version: "1.0.0"
make: Velmora
model: Tarn 1.8 GL
years: "1990-1993"
values: {altitude: 300 m, humidity: 50 %}
facts: {refrigerant: R-134a}
"""


def text(*changes: tuple[str, str]) -> str:
    """The text of the tree with pieces replaced; each must be there once."""
    found = _HEAD + "".join(_steps()) + _END
    for old, new in (AS_LIQUID, *changes):
        assert found.count(old) == 1, f"{old!r} is there {found.count(old)} times"
        found = found.replace(old, new)
    return found


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
