"""The case store: whole on disk before it is seen, found by name, never a crash of the list."""

import errno
import os
from pathlib import Path

import pytest
from builders import answered, lamp_case

from faulttree.files import cases, journal
from faulttree.files.cases import CaseError

FIRST = [{"event": "started", "seq": 1, "at": "2026-11-25T09:30:00+00:00", "tree_id": "lamp"}]


def _create(folder: Path, date: str = "2026-11-25", tree_id: str = "lamp") -> cases.StoredCase:
    return cases.create(folder, tree_id, date, b"tree", b"sheet", FIRST)


def test_a_new_case_is_a_folder_with_its_events_tree_and_sheet(tmp_path):
    stored = _create(tmp_path / "deep" / "cases")
    assert sorted(p.name for p in stored.folder.iterdir()) == [
        "events.jsonl",
        "tree.yaml",
        "vehicle.yaml",
    ]
    assert stored.id.startswith("2026-11-25-lamp-")
    assert (stored.tree, stored.vehicle) == (b"tree", b"sheet")
    assert list(stored.records) == FIRST


def test_a_case_keeps_what_its_tree_says_of_the_circuit(tmp_path):
    more = {cases.CIRCUIT: b"model", cases.BENCH: b"bench"}
    stored = cases.create(tmp_path, "lamp", "2026-11-25", b"tree", None, FIRST, more)
    assert sorted(p.name for p in stored.folder.iterdir()) == [
        "bench.yaml",
        "circuit.yaml",
        "events.jsonl",
        "tree.yaml",
    ]
    assert {name: (stored.folder / name).read_bytes() for name in more} == more
    assert (stored.tree, stored.vehicle) == (b"tree", None)


@pytest.mark.parametrize("name", [cases.CIRCUIT, cases.BENCH])
@pytest.mark.parametrize("content", [None, b"", b"\xff\x00 {", "a folder"])
def test_what_became_of_the_circuit_keeps_nobody_out_of_a_case(tmp_path, name, content):
    stored = _create(tmp_path)
    if content == "a folder":
        (stored.folder / name).mkdir()
    elif content is not None:
        (stored.folder / name).write_bytes(content)
    for read in (cases.open_case, cases.read_case):
        assert read(stored.folder).found == ()
    assert [c.trouble for c in cases.summaries(tmp_path)] == [""]


def test_two_cases_of_one_day_have_different_names(tmp_path):
    assert _create(tmp_path).id != _create(tmp_path).id


@pytest.mark.parametrize("fails_at", range(7))
def test_a_case_that_cannot_be_written_whole_is_not_there_at_all(tmp_path, monkeypatch, fails_at):
    calls, real = [], os.fsync

    def no_space(handle: int) -> None:
        calls.append(handle)
        if len(calls) == fails_at + 1:
            raise OSError(errno.ENOSPC, os.strerror(errno.ENOSPC))
        real(handle)

    monkeypatch.setattr(os, "fsync", no_space)
    more = {cases.CIRCUIT: b"model", cases.BENCH: b"bench"}
    with pytest.raises(CaseError, match="No space left on device"):
        cases.create(tmp_path, "lamp", "2026-11-25", b"tree", b"sheet", FIRST, more)
    listed = [c for c in cases.summaries(tmp_path) if c.trouble]
    assert listed == [], "no half case is listed"
    assert not list(tmp_path.glob(".new-*"))


def test_a_folder_of_cases_that_is_a_file_is_told(tmp_path):
    (tmp_path / "cases").write_text("no folder")
    with pytest.raises(CaseError, match="cannot be begun"):
        _create(tmp_path / "cases")
    assert list(cases.summaries(tmp_path / "cases")) == []


@pytest.mark.parametrize("name", ["whole", "beginning", "end"])
def test_a_case_is_found_by_its_id_its_beginning_or_its_end(tmp_path, name):
    stored = _create(tmp_path)
    _create(tmp_path, date="2026-12-01", tree_id="fan")
    wanted = {"whole": stored.id, "beginning": "2026-11", "end": stored.id[-4:]}[name]
    assert cases.find(tmp_path, wanted) == stored.folder


def test_a_name_that_fits_several_cases_is_told_with_their_ids(tmp_path):
    ids = sorted(_create(tmp_path).id for _ in range(2))
    with pytest.raises(CaseError) as told:
        cases.find(tmp_path, "2026")
    assert all(each in str(told.value) for each in ids)


@pytest.mark.parametrize("name", ["", "zzzz", "../other", "."])
def test_a_name_that_fits_no_case_is_told(tmp_path, name):
    _create(tmp_path)
    with pytest.raises(CaseError, match="No case fits"):
        cases.find(tmp_path, name)


def test_a_case_is_summed_up_from_its_journal(tmp_path):
    session = answered(
        lamp_case(tmp_path, intake={"words": "It stays dark.", "car": "Finch"}), "12.60"
    )
    (summary,) = cases.summaries(tmp_path)
    assert (summary.id, summary.tree_id, summary.words) == (session.id, "lamp", "It stays dark.")
    assert (summary.car, summary.events, summary.closed) == ("Finch", 2, False)
    assert (summary.begun, summary.trouble) == ("2026-11-25T09:30:00+00:00", "")


def test_a_closed_case_stays_closed_in_the_list_when_notes_are_added(tmp_path):
    session = answered(lamp_case(tmp_path), "12.60", "lights", "1", "close")
    for number in range(4):
        session.add_note(f"note {number}")
    assert [c.closed for c in cases.summaries(tmp_path)] == [True]


def test_the_newest_case_stands_first(tmp_path):
    for date in ("2026-01-02", "2026-03-04", "2026-02-03"):
        _create(tmp_path, date=date)
    assert [c.id[:10] for c in cases.summaries(tmp_path)] == [
        "2026-03-04",
        "2026-02-03",
        "2026-01-02",
    ]


def test_damaged_and_empty_folders_are_told_and_do_not_stop_the_list(tmp_path):
    good = _create(tmp_path)
    (tmp_path / "2026-01-01-empty-aaaa").mkdir()
    (tmp_path / "2026-01-02-blank-aaaa").mkdir()
    (tmp_path / "2026-01-02-blank-aaaa" / "events.jsonl").write_bytes(b"")
    (tmp_path / "2026-01-03-junk-aaaa").mkdir()
    (tmp_path / "2026-01-03-junk-aaaa" / "events.jsonl").write_bytes(b"\xff\x00junk\n" * 3)
    (tmp_path / "2026-01-04-folder-aaaa" / "events.jsonl").mkdir(parents=True)
    (tmp_path / "a file").write_text("x")
    (tmp_path / ".new-0123").mkdir()
    troubles = {c.id: c.trouble for c in cases.summaries(tmp_path)}
    assert troubles.pop(good.id) == ""
    assert len(troubles) == 4
    assert all(troubles.values())


def test_opening_a_case_sets_a_torn_line_aside_and_tells_it(tmp_path):
    stored = _create(tmp_path)
    stored.journal.append([{"event": "note", "seq": 2}])
    events = stored.folder / "events.jsonl"
    events.write_bytes(events.read_bytes()[:-5])
    assert "cut off" in cases.read_case(stored.folder).found[0]
    opened = cases.open_case(stored.folder)
    assert "never confirmed" in opened.found[0]
    assert "1 events before it count" in opened.found[0]
    assert cases.open_case(stored.folder).found == (), "told once"


def test_a_last_line_that_was_whole_once_is_not_said_to_be_unconfirmed(tmp_path):
    stored = _create(tmp_path)
    stored.journal.append([{"event": "note", "seq": 2}])
    events = stored.folder / "events.jsonl"
    events.write_bytes(events.read_bytes().replace(b'"note"', b'"nose"'))
    (found,) = cases.open_case(stored.folder).found
    assert "not as it was written" in found
    assert "never confirmed" not in found


def test_a_damaged_line_is_told_by_its_number(tmp_path):
    stored = _create(tmp_path)
    stored.journal.append([{"event": "note", "seq": 2}, {"event": "note", "seq": 3}])
    events = stored.folder / "events.jsonl"
    events.write_bytes(events.read_bytes().replace(b'"seq":2', b'"seq":9'))
    opened = cases.open_case(stored.folder)
    assert opened.found[0].startswith(f"Line 2 of {stored.id}/events.jsonl")
    assert [r["seq"] for r in opened.records] == [1, 3]


@pytest.mark.parametrize("missing", ["events.jsonl", "tree.yaml"])
def test_a_case_without_one_of_its_files_is_told(tmp_path, missing):
    stored = _create(tmp_path)
    (stored.folder / missing).unlink()
    for read in (cases.open_case, cases.read_case):
        with pytest.raises(CaseError, match=missing if read is cases.open_case else "No such file"):
            read(stored.folder)


def test_reading_a_case_changes_nothing_in_it(tmp_path):
    stored = _create(tmp_path)
    events = stored.folder / "events.jsonl"
    events.write_bytes(journal.first_lines(FIRST) + b"torn")
    before = sorted((p.name, p.read_bytes()) for p in stored.folder.iterdir())
    assert cases.read_case(stored.folder).found
    assert sorted((p.name, p.read_bytes()) for p in stored.folder.iterdir()) == before
