"""The day of a walk: what was measured of it sets the car on the bench."""

import shutil
from pathlib import Path

import numpy as np
import pytest
from builders import Clock, answered

from faulttree.beginning import Beginning
from faulttree.case_bench.why_not import CannotTellError
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


def _lines_of_a_car(folder: Path, old: str, new: str) -> list[str]:
    """What the walk expects at the end of a step of the air conditioning, of a changed car."""
    tree = folder / "warm"
    shutil.copytree(TREE.parent / "ac-warm-at-idle", tree)
    sheet = tree / "vehicle.yaml"
    text = sheet.read_text("utf-8")
    assert text.count(old) == 1
    sheet.write_text(text.replace(old, new), "utf-8")
    opened = open_tree(str(tree / "tree.yaml"))
    beginning = Beginning(opened.tree, opened.vehicle, circuit=opened.circuit)
    session = Session.begin(folder / "cases", beginning, Clock())
    lines = session.circuit.expected.lines(session.state, "high-idle")
    return [f"{line.label}: {line.text}" for line in lines]


def test_the_refrigerant_of_the_car_is_the_one_its_pressures_are_expected_of(
    tmp_path: Path,
) -> None:
    own, other = (
        _lines_of_a_car(tmp_path / name, "refrigerant: R-134a", f"refrigerant: {name}")
        for name in ("R134a", "R-12")
    )
    assert not any("filled with" in line for line in own)
    assert any(line.startswith("Day: filled with R-12") for line in other)
    assert [x for x in own if "Day" not in x] != [x for x in other if "Day" not in x]


def test_the_altitude_of_the_place_counts(tmp_path: Path) -> None:
    own, high = (
        _lines_of_a_car(tmp_path / name, "values:\n", f"values:\n  altitude: {name}\n")
        for name in ("0m", "2000m")
    )
    assert any(line.startswith("Day: altitude 2000 m") for line in high)
    assert [x for x in own if "Day" not in x] != [x for x in high if "Day" not in x]


def test_a_day_that_no_car_sees_is_told_as_such_and_stops_no_walk(session: Session) -> None:
    session.answer("120 C", confirmed=True)
    with pytest.raises(CannotTellError, match="Correct that reading"):
        _lines(session)
