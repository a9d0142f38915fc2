"""Opening a tree with the sheet of the car: named, alone beside it, or said to be none."""

import shutil
from pathlib import Path

import pytest
from builders import LAMP
from lamp_circuit import lamp_folder

from faulttree.files import cases
from faulttree.files.opening import NO_SHEET, SeveralSheetsError, open_tree


@pytest.fixture
def folder(tmp_path: Path) -> Path:
    return Path(shutil.copytree(LAMP, tmp_path / "lamp"))


def _second_sheet(folder: Path) -> Path:
    text = (folder / "vehicle.yaml").read_text("utf-8")
    other = folder / "other-car.yaml"
    other.write_text(text.replace("model: ", "model: Second "), "utf-8")
    return other


def test_the_only_sheet_beside_a_tree_is_taken(folder):
    opened = open_tree(str(folder / "tree.yaml"))
    assert opened.vehicle.data == (folder / "vehicle.yaml").read_bytes()


def test_a_car_without_a_sheet_is_walked_without_one(folder):
    assert open_tree(str(folder / "tree.yaml"), NO_SHEET).vehicle is None
    (folder / "vehicle.yaml").unlink()
    assert open_tree(str(folder / "tree.yaml")).vehicle is None


def test_several_sheets_are_named_and_none_is_guessed(folder):
    other = _second_sheet(folder)
    with pytest.raises(SeveralSheetsError) as error:
        open_tree(str(folder / "tree.yaml"))
    assert set(error.value.sheets) == {other, folder / "vehicle.yaml"}
    assert "--vehicle" in str(error.value)


def test_a_sheet_that_is_named_is_the_one_taken(folder):
    other = _second_sheet(folder)
    opened = open_tree(str(folder / "tree.yaml"), str(other))
    assert opened.vehicle.document.model.startswith("Second")


def test_circuit_and_bench_sheet_of_a_tree_are_handed_on_unread(tmp_path):
    tree = lamp_folder(tmp_path)
    wanted = {name: (tmp_path / name).read_bytes() for name in (cases.CIRCUIT, cases.BENCH)}
    assert open_tree(str(tree)).circuit == wanted
    (tmp_path / cases.CIRCUIT).rename(tmp_path / "model.yml")
    (tmp_path / cases.BENCH).rename(tmp_path / "sheet.yaml")
    assert open_tree(str(tree)).circuit == wanted, "whatever the files are called"


def test_a_tree_that_names_no_circuit_has_none(tmp_path):
    tree = lamp_folder(tmp_path)
    tree.write_bytes((LAMP / "tree.yaml").read_bytes())
    assert open_tree(str(tree)).circuit == {}


def test_only_those_of_this_tree_are_taken(tmp_path):
    tree = lamp_folder(tmp_path)
    for name, head in ((cases.CIRCUIT, "id: reversing-lamp"), (cases.BENCH, "tree: lamp")):
        text = (tmp_path / name).read_text("utf-8")
        (tmp_path / f"another-{name}").write_text(
            text.replace(f"\n{head}\n", "\nid: horn\n"), "utf-8"
        )
    found = open_tree(str(tree)).circuit
    assert found == {name: (tmp_path / name).read_bytes() for name in (cases.CIRCUIT, cases.BENCH)}


@pytest.mark.parametrize("damage", ["", "\n\tx: [", "\nelements: {}\n"])
def test_one_with_mistakes_is_handed_on_as_it_is_and_one_without_a_head_is_left_out(
    tmp_path, damage
):
    tree = lamp_folder(tmp_path)
    for name in (cases.CIRCUIT, cases.BENCH):
        text = (tmp_path / name).read_text("utf-8")
        (tmp_path / name).write_text(text + damage if damage else "", "utf-8")
    assert set(open_tree(str(tree)).circuit) == ({cases.CIRCUIT, cases.BENCH} if damage else set())
