"""Drawings in a folder: whole or not at all, and no file of somebody else's is replaced."""

import pytest

from faulttree.files.pictures import PictureExists, write_pictures

DRAWN = {"gauges": "<svg>1</svg>", "cycle": "<svg>2</svg>"}


def test_they_are_named_after_the_case_and_the_folder_is_made(tmp_path):
    folder = tmp_path / "new" / "folder"
    found = write_pictures(folder, "case-k3f9", DRAWN, may_replace=True)
    assert found == {name: folder / f"case-k3f9-{name}.svg" for name in DRAWN}
    assert {p.name: p.read_text("utf-8") for p in folder.iterdir()} == {
        "case-k3f9-gauges.svg": "<svg>1</svg>",
        "case-k3f9-cycle.svg": "<svg>2</svg>",
    }


def test_a_later_state_of_the_same_case_takes_their_place(tmp_path):
    write_pictures(tmp_path, "a", DRAWN, may_replace=True)
    write_pictures(tmp_path, "b", DRAWN, may_replace=True)
    write_pictures(tmp_path, "a", {"gauges": "<svg>3</svg>"}, may_replace=True)
    assert (tmp_path / "a-gauges.svg").read_text("utf-8") == "<svg>3</svg>"
    assert (tmp_path / "b-gauges.svg").read_text("utf-8") == "<svg>1</svg>"
    assert len(list(tmp_path.iterdir())) == 4


def test_what_may_not_be_replaced_is_kept_and_nothing_is_written(tmp_path):
    (tmp_path / "cycle.svg").write_text("mine", "utf-8")
    with pytest.raises(PictureExists, match="is kept as it is: name another folder"):
        write_pictures(tmp_path, "", DRAWN, may_replace=False)
    assert [p.name for p in tmp_path.iterdir()] == ["cycle.svg"]
    assert (tmp_path / "cycle.svg").read_text("utf-8") == "mine"


def test_a_link_is_replaced_and_not_what_it_leads_to(tmp_path):
    (tmp_path / "else").write_text("mine", "utf-8")
    (tmp_path / "a-gauges.svg").symlink_to(tmp_path / "else")
    write_pictures(tmp_path, "a", DRAWN, may_replace=True)
    assert (tmp_path / "else").read_text("utf-8") == "mine"


def test_a_folder_that_is_none_is_an_error_and_leaves_nothing(tmp_path):
    (tmp_path / "file").write_text("mine", "utf-8")
    with pytest.raises(OSError, match="file"):
        write_pictures(tmp_path / "file", "a", DRAWN, may_replace=True)
    (tmp_path / "a-gauges.svg").mkdir()
    with pytest.raises(OSError, match="a-gauges"):
        write_pictures(tmp_path, "a", DRAWN, may_replace=True)
    assert not list(tmp_path.glob(".*"))
