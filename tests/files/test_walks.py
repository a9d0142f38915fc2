"""A stored case read again: from its own copy of the tree, and honest about what changed."""

import shutil

import pytest
from builders import LAMP, answered, lamp_case, lamp_text

from faulttree.beginning import Beginning
from faulttree.core.walk.path import position
from faulttree.files import cases
from faulttree.files.cases import CaseError
from faulttree.files.documents import (
    DocumentError,
    check_bytes,
    load_tree,
    load_vehicle,
    tree_from_bytes,
)
from faulttree.files.walks import walk_of
from faulttree.session import Session


def _read(session):
    return walk_of(cases.read_case(session.folder))


def test_a_case_replays_from_its_own_copy_when_the_tree_has_changed_since(tmp_path):
    trees = tmp_path / "trees"
    shutil.copytree(LAMP, trees)
    beginning = Beginning(load_tree(trees / "tree.yaml"), load_vehicle(trees / "vehicle.yaml"))
    session = answered(Session.begin(tmp_path / "cases", beginning), "12.00")
    assert session.position.path[-1].label == "low"
    changed = (trees / "tree.yaml").read_text("utf-8").replace("below: 11.8 V", "below: 12.1 V")
    (trees / "tree.yaml").write_text(changed, "utf-8")
    walk = _read(session)
    assert walk.found == ()
    assert position(walk.state).path[-1].label == "low"


@pytest.mark.parametrize("name", ["tree.yaml", "vehicle.yaml"])
def test_a_pinned_copy_that_was_changed_is_told(tmp_path, name):
    session = lamp_case(tmp_path)
    with (session.folder / name).open("a") as file:
        file.write("# changed by hand\n")
    assert _read(session).found == (
        f"{name} in the folder of this case is not what it was when the case began; everything "
        "shown follows it as it is today.",
    )
    assert Session.resume(session.folder).found == _read(session).found


def test_a_sheet_taken_away_is_told(tmp_path):
    session = lamp_case(tmp_path)
    (session.folder / "vehicle.yaml").unlink()
    assert "vehicle.yaml" in _read(session).found[0]


def test_a_pinned_tree_that_is_none_any_more_is_told_with_its_place(tmp_path):
    session = lamp_case(tmp_path)
    (session.folder / "tree.yaml").write_text("format: tree/1\n", "utf-8")
    with pytest.raises(DocumentError, match=session.id):
        _read(session)


def test_an_entry_of_a_later_version_is_told(tmp_path):
    session = lamp_case(tmp_path)
    stored = cases.open_case(session.folder)
    stored.journal.append([{"event": "photographed", "seq": 2}])
    with pytest.raises(CaseError, match="version of the program"):
        _read(session)


def test_a_case_without_any_entry_is_told(tmp_path):
    session = lamp_case(tmp_path)
    (session.folder / "events.jsonl").write_bytes(b"")
    with pytest.raises(CaseError, match="Nothing is recorded"):
        _read(session)


def test_a_case_that_lost_its_first_line_can_still_be_read(tmp_path):
    session = answered(lamp_case(tmp_path), "12.60")
    events = session.folder / "events.jsonl"
    events.write_bytes(events.read_bytes().replace(b'"started"', b'"starved"'))
    walk = _read(session)
    assert "Line 1" in walk.found[0]
    assert [v.label for v in position(walk.state).path] == ["charged"]


def test_a_sheet_with_values_of_another_kind_is_refused_before_a_case_begins(tmp_path):
    sheet = tmp_path / "sheet.yaml"
    text = (LAMP / "vehicle.yaml").read_text("utf-8").replace("1.75 A", "21 V")
    sheet.write_text(text, "utf-8")
    beginning = Beginning(load_tree(LAMP / "tree.yaml"), load_vehicle(sheet))
    with pytest.raises(CaseError, match="lamp-power"):
        Session.begin(tmp_path / "cases", beginning)
    assert not (tmp_path / "cases").exists()


def test_a_rule_that_came_later_does_not_shut_out_an_old_case():
    newest_change_missing = lamp_text(
        (
            '  - {version: "1.1.0", date: "2026-11-25", text: The bypass is taken out again.}\n',
            "",
        )
    ).encode()
    assert check_bytes(newest_change_missing, "tree.yaml").has_errors
    assert tree_from_bytes(newest_change_missing, "tree.yaml").document.id == "lamp"


def test_a_pinned_tree_that_cannot_be_walked_is_refused():
    leads_nowhere = lamp_text(("start: battery-rest", "start: nowhere")).encode()
    with pytest.raises(DocumentError):
        tree_from_bytes(leads_nowhere, "tree.yaml")
