"""Opening a tree with the sheet of the car: named, alone beside it, or said to be none."""

import shutil
from pathlib import Path

import pytest
from builders import LAMP

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
