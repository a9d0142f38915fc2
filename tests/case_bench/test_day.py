"""The day of a walk: what was measured of it sets the car on the bench."""

from pathlib import Path

import numpy as np
import pytest
from builders import Clock, answered

from faulttree.beginning import Beginning
from faulttree.core.bench.looks import Looks, Supplied
from faulttree.core.bench.setting import Setting
from faulttree.core.bench.suspects import rows_of, suspects_of
from faulttree.core.circuit.circuit import Circuit
from faulttree.core.circuit.netlist import Supply
from faulttree.core.walk.events import Complaint
from faulttree.files.benches import open_bench
from faulttree.files.opening import open_tree
from faulttree.session import Session

TREE = Path(__file__).parents[2] / "trees" / "heater-no-heat"
FROST_K = 261.15
NORMAL = Supplied(Supply(12.65, 0.01), Supply(13.8, 0.02))


@pytest.fixture
def session(tmp_path: Path) -> Session:
    """A case of the shipped tree at the step that asks for the air outside."""
    opened = open_tree(str(TREE / "tree.yaml"))
    beginning = Beginning(opened.tree, opened.vehicle, circuit=opened.circuit)
    begun = Session.begin(tmp_path / "cases", beginning, Clock())
    begun.set_complaint(Complaint.PRESENT)
    return answered(begun, "at the mark", "none", "strong air")


def _lines(session: Session) -> list[str]:
    lines = session.circuit.expected.lines(session.state, session.ask.step_id)
    return [f"{line.label}: {line.text}" for line in lines]


def _shown(fault: str, *names: str) -> list[float]:
    """What a car with a fault shows in the frost [SI]."""
    found = open_bench(TREE / "tree.yaml")
    model = found.circuit.document
    suspects = [s for s in suspects_of(model, found.sheet.document) if s.id == fault]
    frosty = NORMAL._replace(day={"ambient": FROST_K})
    rows = rows_of(suspects, ("normal",))
    look = Looks(Circuit.from_document(model), {"normal": frosty}, rows).at(
        Setting(is_running=True)
    )
    return [float(look.measured(name, np.array([2]))[0]) - 273.15 for name in names]


def test_expected_readings_are_those_of_the_day(session: Session) -> None:
    answered(session, "8 C", "88 C")
    mild = _lines(session)
    session.go_back()
    session.go_back()
    answered(session, "-12 C", "88 C")
    frosty = _lines(session)
    assert any(line.startswith("Day: air outside -12 °C,") for line in frosty)
    assert any(line.startswith("Day: air outside 8 °C,") for line in mild)
    assert [x for x in frosty if "Day" not in x] != [x for x in mild if "Day" not in x]


def test_in_the_frost_the_fault_is_found_by_the_readings_of_the_frost(session: Session) -> None:
    vent, back = _shown("loop.heater-starved", "vent", "heater-out")
    answered(session, "-12 C", "88 C", f"{vent:.1f} C", f"{back:.1f} C")
    suspected = session.circuit.suspects.after(session.state)
    best = max(suspected.suspicion.ranked, key=lambda each: each.share)
    assert best.suspect.id == "loop.heater-starved"
    assert best.share > 0.3
