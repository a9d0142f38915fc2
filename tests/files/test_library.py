"""The trees at hand: found by id, file or folder, own ones before the shipped ones."""

import shutil

import pytest
from builders import LAMP, lamp_text

from faulttree.core.search import search
from faulttree.files.library import NoSuchTreeError, find_tree, list_trees, sheets_beside


@pytest.fixture
def shelf(tmp_path):
    """A folder with the example tree in a folder of its own."""
    shutil.copytree(LAMP, tmp_path / "shelf" / "lamp")
    return tmp_path / "shelf"


def test_a_tree_is_listed_by_its_head_alone(shelf):
    (entry,) = list_trees([shelf])
    assert (entry.id, entry.version, entry.system) == ("lamp", "1.1.0", "lighting")
    assert entry.title == "Reversing lamp stays dark"
    assert entry.trouble == ""


def test_what_stands_below_the_head_does_not_matter_to_the_list(shelf):
    (shelf / "lamp" / "tree.yaml").write_text(
        lamp_text(("kind: work-out\n    title: V", "kind: [\n"))
    )
    assert list_trees([shelf])[0].trouble == ""


def test_a_tree_with_a_broken_head_is_listed_with_its_trouble(shelf):
    (shelf / "lamp" / "tree.yaml").write_text("format: tree/1\nid: lamp\nid: lamp\n")
    (entry,) = list_trees([shelf])
    assert entry.trouble.startswith("line 3:")


def test_other_files_are_passed_over(shelf):
    (shelf / "note.txt").write_text("format: tree/1\n")
    (shelf / "list.yaml").write_text("- a\n")
    assert len(list_trees([shelf])) == 1


def test_a_tree_of_ones_own_hides_a_shipped_one_of_the_same_id(shelf, tmp_path):
    own = tmp_path / "own"
    shutil.copytree(LAMP, own)
    (own / "tree.yaml").write_text(lamp_text(("title: Reversing lamp stays dark", "title: Mine")))
    assert [e.title for e in list_trees([own, shelf])] == ["Mine"]
    assert find_tree("lamp", [own, shelf]) == own / "tree.yaml"


def test_folders_that_are_not_there_hold_nothing(tmp_path):
    assert list_trees([tmp_path / "none"]) == []


@pytest.mark.parametrize("name", ["id", "file", "folder"])
def test_a_tree_is_found_by_id_file_or_folder(shelf, name):
    path = shelf / "lamp" / "tree.yaml"
    wanted = {"id": "lamp", "file": str(path), "folder": str(path.parent)}[name]
    assert find_tree(wanted, [shelf]) == path


def test_a_name_of_nothing_is_told(shelf):
    with pytest.raises(NoSuchTreeError, match="Did you mean lamp"):
        find_tree("lanp", [shelf])


def test_a_folder_with_several_trees_is_told(shelf):
    shutil.copytree(LAMP, shelf / "again")
    with pytest.raises(NoSuchTreeError, match="holds 2 trees"):
        find_tree(str(shelf))


def test_the_sheets_beside_a_tree_are_those_in_its_own_folder(shelf):
    tree = shelf / "lamp" / "tree.yaml"
    assert sheets_beside(tree) == [shelf / "lamp" / "vehicle.yaml"]
    shutil.copytree(LAMP, shelf / "lamp" / "deeper")
    assert sheets_beside(tree) == [shelf / "lamp" / "vehicle.yaml"]


def test_a_customers_words_find_the_tree(shelf):
    words = [entry.words for entry in list_trees([shelf])]
    assert search(words, "white light out some days") == ["lamp"]
    assert search(words, "compressor") == []


def test_the_shipped_trees_are_found_in_a_checkout():
    assert {e.trouble for e in list_trees()} == {""}
    assert list_trees() != []
