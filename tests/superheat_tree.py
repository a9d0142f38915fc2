"""A small tree that is judged by refrigerant: gauges by the air outside, then superheat."""

from functools import cache
from pathlib import Path

from ac_pieces import SHEET, head, replaced
from builders import Clock

from faulttree.beginning import Beginning
from faulttree.core.tree import Tree
from faulttree.core.units import UnitSystem
from faulttree.core.vehicle import VehicleSheet
from faulttree.files.documents import Loaded, tree_from_bytes, vehicle_from_bytes
from faulttree.session import Session

TEXT = (
    head("superheat", "Evaporator starved or flooded")
    + """\
  facts:
    refrigerant: {ask: Refrigerant named on the label}
start: ambient
steps:
  ambient:
    kind: measure
    title: Air at the condenser
    quantity: temperature
    with: thermometer
    at: in front of the condenser
    set-up: {engine: stopped, complaint: any}
    why: All that follows goes by it.
    minutes: 1
    source: common practice
    plausible: {from: -20 C, below: 60 C}
    bands:
      - {name: cold, is: unclear, below: 5 C, means: Too cold to test., go: refer}
      - {name: warm, is: good, means: The test can be done., go: low-side}
    cannot: {go: refer}
    implausible: {go: again}
  low-side:
    kind: measure
    title: Low side, blower on high
    quantity: gauge-pressure
    with: gauges
    at: low side port
    set-up: {key: run, engine: fast-idle, load: A/C on, complaint: any}
    why: It says how cold the evaporator is.
    minutes: 5
    source: common practice
    plausible: {from: -90 kPa, below: 1000 kPa}
    bands:
      - {name: low, is: unclear, below: least-low-side(ambient), means: Less than usual.,
         go: suction-pipe}
      - {name: usual, is: unclear, below: most-low-side(ambient), means: As usual.,
         go: suction-pipe}
      - {name: high, is: unclear, means: More than usual., go: suction-pipe}
    cannot: {go: suction-pipe}
    implausible: {go: again}
  suction-pipe:
    kind: measure
    title: Pipe behind the evaporator
    quantity: temperature
    with: thermometer
    at: pipe at the evaporator outlet
    set-up: {key: run, engine: fast-idle, load: A/C on, complaint: any}
    why: Warmer than it boils is superheat.
    minutes: 3
    source: common practice
    plausible: {from: -20 C, below: 60 C}
    bands:
      - {name: colder than it boils, is: unclear, below: saturation(low-side) - 3 K,
         means: Press the probe on., go: superheat}
      - {name: fair, is: good, means: Go on., go: superheat}
    cannot: {go: refer}
    implausible: {go: again}
  superheat:
    kind: work-out
    title: Superheat behind the evaporator
    quantity: temperature-difference
    value: suction-pipe - saturation(low-side)
    why: It says whether the evaporator is starved.
    source: common practice
    plausible: {from: -15 K, below: 60 K}
    bands:
      - {name: flooded, is: fault, below: 0 K, means: Too much comes through., go: refer}
      - {name: usual, is: good, below: 15 K, means: The valve meters as it should., go: well}
      - {name: starved, is: fault, means: Too little comes through., go: refer}
    cannot: {go: refer}
    implausible: {go: refer}
  well:
    kind: conclude
    title: Metering in order
    result: no-fault-found
    finding: The evaporator gets what it needs.
    next: Look at the air side.
  refer:
    kind: conclude
    title: For certified refrigerant work
    result: refer
    finding: What the evaporator gets is not right.
    next: Refer to a certified person.
"""
)


def text(*changes: tuple[str, str]) -> str:
    """The text of the tree with pieces replaced; each must be there once."""
    return replaced(TEXT, *changes)


@cache
def _loaded() -> Loaded[Tree]:
    return tree_from_bytes(TEXT.encode(), "superheat")


def _sheet(more: str) -> Loaded[VehicleSheet]:
    return vehicle_from_bytes((SHEET + more).encode(), "vehicle")


def tree() -> Tree:
    """The tree."""
    return _loaded().document


def sheet(more: str = "") -> VehicleSheet:
    """A vehicle sheet that says nothing of refrigerant and altitude, or `more`."""
    return _sheet(more).document


def case(folder: Path, more: str = "", units: UnitSystem = UnitSystem.METRIC) -> Session:
    """A new case of the tree."""
    return Session.begin(folder, Beginning(_loaded(), _sheet(more), units=units), Clock())
