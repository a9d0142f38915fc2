"""What every shipped tree and vehicle sheet must be, whatever it is about."""

import re
from itertools import pairwise
from pathlib import Path

import pytest

from faulttree.cli.main import main
from faulttree.core.cautions import CAUTIONS
from faulttree.core.instruments import InstrumentClass
from faulttree.core.tree import Conclude, Measure, Observe, Tree
from faulttree.files.documents import load_tree, load_vehicle

SHIPPED = Path(__file__).parents[2] / "trees"
FOLDERS = sorted(path for path in SHIPPED.iterdir() if path.is_dir())
TREES = [load_tree(folder / "tree.yaml").document for folder in FOLDERS]
SHEETS = [load_vehicle(folder / "vehicle.yaml").document for folder in FOLDERS]

MAKES = {"Velmora", "Ostrick", "Brannock"}
"""The invented makes."""
TESTS_IN_A_TREE = range(15, 41)
"""Fewer cannot split a circuit down to a part; nobody walks more. Common practice, no source."""
LOADS = (InstrumentClass.TEST_LIGHT, InstrumentClass.LOAD_LAMP, InstrumentClass.LOW_IMPEDANCE_METER)
"""Instruments that load a control unit's line more than it may bear. Common practice, no source."""
UNIT_LINES: dict[str, set[str]] = {
    "ac-airflow-fades": set(),
    "ac-clutch-cycles-fast": set(),
    "ac-clutch-drops-out-hot": set(),
    "ac-clutch-request": {
        *("line-bay", "low-far", "high-near", "high-far", "fin-near", "fin-far"),
        *("panel-near", "panel-far", "blower-near", "blower-far"),
        *("unit-request", "unit-command", "relay-command", "coolant-line", "throttle-line"),
    },
    "ac-poor-cooling": set(),
    "ac-warm-at-idle": set(),
    "blower-some-speeds": set(),
    "heater-no-heat": set(),
    "no-crank-intermittent": set(),
    "temperature-stays-the-same": {
        *("head-reference", "head-feedback", "head-sensor-ground", "head-drive-plus"),
        *("head-drive-minus", "door-reference", "door-feedback", "door-feedback-wire"),
        *("door-sensor-ground", "door-motor-a", "door-motor-b"),
    },
}
"""The points of each tree that lie on a line a control unit watches or drives."""

each_tree = pytest.mark.parametrize("tree", TREES, ids=lambda tree: tree.id)


def _probing(tree: Tree) -> list[tuple[str, Measure | Observe]]:
    return [(n, s) for n, s in tree.steps.items() if isinstance(s, Measure | Observe)]


def _fault_verdicts(tree: Tree) -> dict[str, Conclude]:
    steps = tree.steps.items()
    return {n: s for n, s in steps if isinstance(s, Conclude) and s.result == "fault"}


@pytest.mark.parametrize("folder", FOLDERS, ids=lambda folder: folder.name)
def test_the_strict_check_finds_nothing(folder: Path, capsys: pytest.CaptureFixture[str]) -> None:
    assert main(["check", "--strict", str(folder)]) == 0, capsys.readouterr().out


def test_a_tree_is_called_like_its_folder() -> None:
    assert [tree.id for tree in TREES] == [folder.name for folder in FOLDERS]


@each_tree
def test_a_tree_has_enough_tests_and_not_too_many(tree: Tree) -> None:
    tests = [name for name, step in tree.steps.items() if not isinstance(step, Conclude)]
    assert len(tests) in TESTS_IN_A_TREE


@each_tree
def test_every_fault_has_a_repair_for_a_part_no_longer_made(tree: Tree) -> None:
    without = [
        name
        for name, step in _fault_verdicts(tree).items()
        if all(repair.part_made == "yes" for repair in step.repairs)
    ]
    assert without == []


@each_tree
def test_no_line_of_a_control_unit_is_loaded_with_a_lamp(tree: Tree) -> None:
    lines = UNIT_LINES[tree.id]
    assert lines <= set(tree.needs.points)
    for name, step in _probing(tree):
        touched = " ".join(filter(None, (step.red_lead, step.black_lead, step.at)))
        if lines & set(re.findall(r"\{([a-z-]+)\}", touched)):
            assert step.with_ not in LOADS, name


@each_tree
def test_every_caution_is_known(tree: Tree) -> None:
    named = {*tree.cautions, *(c for step in tree.steps.values() for c in step.cautions)}
    assert named <= {*CAUTIONS, *tree.more_cautions}
    assert set(tree.more_cautions) <= named


@each_tree
def test_the_newest_change_is_the_version_and_older_ones_follow(tree: Tree) -> None:
    assert tree.changes[0].version == tree.version
    for newer, older in pairwise(tree.changes):
        assert newer.date >= older.date
        assert _numbers(newer.version) > _numbers(older.version)


def _numbers(version: str) -> tuple[int, ...]:
    return tuple(int(part) for part in version.split("."))


def test_no_car_of_the_sheets_was_ever_built() -> None:
    assert {sheet.make for sheet in SHEETS} == MAKES
    assert all(sheet.id.startswith(sheet.make.lower()) for sheet in SHEETS)
