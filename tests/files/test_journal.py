"""A journal survives a kill, a full disk, a torn or damaged line and a second writer."""

import errno
import os
import resource
import shutil
import subprocess
import threading
from contextlib import suppress
from pathlib import Path

import pytest

from faulttree.files import journal
from faulttree.files.journal import JournalError, JournalMovedOnError

RECORDS = [{"event": "note", "seq": n, "text": f"Ω line {n}"} for n in range(1, 6)]


@pytest.fixture
def path(tmp_path: Path) -> Path:
    """A journal of five records."""
    file = tmp_path / "events.jsonl"
    file.write_bytes(journal.first_lines(RECORDS))
    return file


def _records(path: Path) -> list[dict[str, object]]:
    return list(journal.read(path).records)


def test_what_was_written_is_read(path):
    contents = journal.read(path)
    assert list(contents.records) == RECORDS
    assert (contents.end, contents.torn, contents.damaged) == (path.stat().st_size, b"", ())


def test_an_empty_journal_can_be_written_to(tmp_path):
    path = tmp_path / "events.jsonl"
    path.write_bytes(b"")
    opened, contents = journal.open_journal(path)
    assert contents.records == ()
    opened.append(RECORDS[:1])
    assert _records(path) == RECORDS[:1]


def test_records_are_appended_one_call_after_the_other(path):
    opened, _ = journal.open_journal(path)
    opened = opened.append([{"seq": 6}]).append([{"seq": 7}, {"seq": 8}])
    assert _records(path)[5:] == [{"seq": 6}, {"seq": 7}, {"seq": 8}]
    assert opened.end == path.stat().st_size


def test_each_line_is_plain_ascii_with_its_checksum(path):
    for line in path.read_bytes().splitlines():
        assert line.isascii()
        int(line[:8], 16)
        assert line[8:9] == b" "


# -------------------------------------------------------------------------------- a torn last line


def _cuts() -> range:
    whole, last = len(journal.first_lines(RECORDS)), len(journal.first_lines(RECORDS[:-1]))
    return range(last, whole)


@pytest.mark.parametrize("cut", _cuts())
def test_a_last_line_cut_off_anywhere_is_set_aside_and_the_rest_counts(path, cut):
    path.write_bytes(path.read_bytes()[:cut])
    torn = path.read_bytes()[_cuts()[0] :]
    opened, contents = journal.open_journal(path)
    assert list(contents.records) == RECORDS[:-1]
    assert contents.torn == torn
    aside = path.with_suffix(".set-aside")
    assert aside.exists() == bool(torn)
    if torn:
        assert aside.read_bytes() == torn + b"\n"
    opened.append([{"seq": 5, "again": True}])
    assert _records(path) == [*RECORDS[:-1], {"seq": 5, "again": True}]


def test_reading_alone_leaves_a_torn_line_where_it_is(path):
    path.write_bytes(path.read_bytes()[:-3])
    before = path.read_bytes()
    assert len(_records(path)) == 4
    assert path.read_bytes() == before


def test_a_last_line_that_is_whole_in_length_but_not_as_written_is_set_aside(path):
    data = bytearray(path.read_bytes())
    data[-4] ^= 1
    path.write_bytes(bytes(data))
    _, contents = journal.open_journal(path)
    assert len(contents.records) == 4
    assert contents.torn.endswith(b"\n")
    assert path.with_suffix(".set-aside").read_bytes() == contents.torn


# ---------------------------------------------------------------------------------- damage inside


@pytest.mark.parametrize("bit", [0x01, 0x80], ids=["another letter", "no letter at all"])
@pytest.mark.parametrize("number", [1, 3])
def test_a_damaged_line_in_the_middle_is_told_and_the_others_count(path, number, bit):
    lines = path.read_bytes().splitlines(keepends=True)
    for column in range(9, len(lines[number - 1]) - 1):
        damaged = bytearray(lines[number - 1])
        damaged[column] ^= bit
        if damaged[column : column + 1] == b"\n":
            continue
        path.write_bytes(b"".join([*lines[: number - 1], bytes(damaged), *lines[number:]]))
        contents = journal.read(path)
        assert contents.damaged == (number,)
        assert list(contents.records) == RECORDS[: number - 1] + RECORDS[number:]


@pytest.mark.parametrize("bit", [0x01, 0x80], ids=["another letter", "no letter at all"])
def test_a_damaged_checksum_is_told_and_the_journal_can_still_be_written_to(path, bit):
    data = bytearray(path.read_bytes())
    second = path.read_bytes().index(b"\n") + 1
    data[second] ^= bit
    path.write_bytes(bytes(data))
    opened, contents = journal.open_journal(path)
    assert contents.damaged == (2, 3), "the line after it cannot be told from one put there"
    assert [r["seq"] for r in contents.records] == [1, 4, 5]
    opened.append([{"seq": 6}])
    assert _records(path)[-1] == {"seq": 6}


def test_a_line_taken_out_is_told(path):
    lines = path.read_bytes().splitlines(keepends=True)
    path.write_bytes(b"".join(lines[:1] + lines[2:]))
    assert journal.read(path).damaged == (2,)


def test_two_lines_changed_round_are_told(path):
    lines = path.read_bytes().splitlines(keepends=True)
    path.write_bytes(b"".join([lines[0], lines[2], lines[1], *lines[3:]]))
    assert journal.read(path).damaged


def test_a_line_put_in_is_told(path):
    lines = path.read_bytes().splitlines(keepends=True)
    path.write_bytes(b"".join([*lines[:2], b'00000000 {"seq":9}\n', *lines[2:]]))
    assert 3 in journal.read(path).damaged


@pytest.mark.parametrize(
    "junk", [b"\n", b"\n\n\n", b"\x00" * 20, b"junk", b"12345678 {}\n", b"\xff\n"]
)
def test_a_file_of_something_else_holds_no_record_and_does_not_stop_the_program(tmp_path, junk):
    path = tmp_path / "events.jsonl"
    path.write_bytes(junk)
    assert journal.read(path).records == ()


# -------------------------------------------------------------------------------------- two writers


def test_a_second_writer_is_told_that_the_journal_moved_on_and_writes_nothing(path):
    first, _ = journal.open_journal(path)
    second, _ = journal.open_journal(path)
    first.append([{"seq": 6, "by": "first"}])
    before = path.read_bytes()
    with pytest.raises(JournalMovedOnError):
        second.append([{"seq": 6, "by": "second"}])
    assert path.read_bytes() == before


def test_many_writers_at_once_lose_and_double_nothing(path):
    written: list[str] = []

    def write(name: str) -> None:
        opened, _ = journal.open_journal(path)
        for n in range(15):
            record = {"by": name, "n": n}
            while True:
                try:
                    opened = opened.append([record])
                except JournalMovedOnError:
                    opened, _ = journal.open_journal(path)
                else:
                    break
            written.append(f"{name}{n}")

    threads = [threading.Thread(target=write, args=(name,)) for name in "abc"]
    for thread in threads:
        thread.start()
    for thread in threads:
        thread.join()
    found = [f"{r['by']}{r['n']}" for r in _records(path)[5:]]
    assert sorted(found) == sorted(written)
    assert len(found) == 45


# ---------------------------------------------------------------------------------------- full disk


def test_a_disk_that_refuses_to_keep_the_line_leaves_the_file_as_it_was(path, monkeypatch):
    opened, _ = journal.open_journal(path)
    before = path.read_bytes()
    calls = []

    def no_space(handle: int) -> None:
        calls.append(handle)
        if len(calls) == 1:
            raise OSError(errno.ENOSPC, os.strerror(errno.ENOSPC))

    monkeypatch.setattr(os, "fsync", no_space)
    with pytest.raises(JournalError, match="No space left on device"):
        opened.append([{"seq": 6}])
    assert path.read_bytes() == before
    assert _records(opened.append([{"seq": 6}]).path)[-1] == {"seq": 6}


@pytest.mark.parametrize("room", [0, 1, 20, 60])
def test_a_file_that_cannot_grow_far_enough_stays_as_it_was(path, room):
    opened, _ = journal.open_journal(path)
    before = path.read_bytes()
    soft, hard = resource.getrlimit(resource.RLIMIT_FSIZE)
    resource.setrlimit(resource.RLIMIT_FSIZE, (len(before) + room, hard))
    try:
        with pytest.raises(JournalError, match="Not recorded"):
            opened.append([{"seq": 6, "text": "x" * 100}])
    finally:
        resource.setrlimit(resource.RLIMIT_FSIZE, (soft, hard))
    assert path.read_bytes() == before


@pytest.fixture
def small_disk(tmp_path: Path):
    """A file system of 64 KB; skipped where this machine does not let us mount one."""
    mount = shutil.which("mount")
    place = tmp_path / "small"
    place.mkdir()
    command = [str(mount), "-t", "tmpfs", "-o", "size=64k", "tmpfs", str(place)]
    if mount is None or subprocess.run(command, capture_output=True, check=False).returncode:
        pytest.skip("cannot mount a small file system here")
    yield place
    subprocess.run(["umount", str(place)], check=True)


def test_a_full_disk_leaves_the_file_as_it_was_and_room_is_enough_to_go_on(small_disk):
    path = small_disk / "events.jsonl"
    path.write_bytes(journal.first_lines(RECORDS))
    filler = small_disk / "filler"
    opened, _ = journal.open_journal(path)
    with filler.open("wb") as file, suppress(OSError):
        while True:
            os.write(file.fileno(), b"x" * 1000)
    before = path.read_bytes()
    with pytest.raises(JournalError, match="Free some space"):
        opened.append([{"seq": 6, "text": "x" * 9000}])
    assert path.read_bytes() == before
    filler.unlink()
    opened.append([{"seq": 6}])
    assert _records(path)[-1] == {"seq": 6}


def test_a_case_whose_folder_is_gone_is_told(path):
    opened, _ = journal.open_journal(path)
    path.unlink()
    with pytest.raises(JournalError, match="No such file"):
        opened.append([{"seq": 6}])
