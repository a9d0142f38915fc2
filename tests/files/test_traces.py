"""Trace files in blocks: whole lines, whatever the size of the blocks, encoding and line ends."""

import hashlib
import os

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from faulttree.core.trace.lines import TraceRefused
from faulttree.files import traces
from faulttree.files.traces import TraceFile, read_marks

TEXT = "t_s;feed µ\n0;13,8\n1;13,7\n"


@pytest.fixture
def write(tmp_path):
    def written(data):
        path = tmp_path / "trace.csv"
        path.write_bytes(data)
        return path

    return written


def _lines(path):
    with TraceFile(path) as file:
        return "".join(block.data.decode("utf-8", "replace") for block in file.blocks())


@pytest.mark.parametrize("encoding", ["utf-8", "utf-8-sig", "utf-16", "utf-16-le", "utf-16-be"])
@pytest.mark.parametrize("end", ["\n", "\r\n", "\r"])
def test_the_text_is_the_same_whatever_its_encoding_and_line_ends(write, encoding, end):
    data = TEXT.replace("\n", end).encode(encoding)
    if encoding in ("utf-16-le", "utf-16-be"):
        data = "\ufeff".encode(encoding) + data
    assert _lines(write(data)) == TEXT


def test_letters_of_one_byte_are_read_as_latin_1(write):
    with TraceFile(write(TEXT.encode("latin-1"))) as file:
        assert file.head() == TEXT


@given(
    lines=st.lists(st.text("ab;1é", max_size=9), min_size=1, max_size=20),
    end=st.sampled_from(["\n", "\r\n", "\r"]),
    encoding=st.sampled_from(["utf-8", "utf-16"]),
    size=st.integers(1, 40),
    is_ended=st.booleans(),
)
@settings(suppress_health_check=[HealthCheck.function_scoped_fixture])
def test_blocks_of_any_size_hold_the_same_whole_lines(write, lines, end, encoding, size, is_ended):
    path = write((end.join(lines) + (end if is_ended else "")).encode(encoding))
    with pytest.MonkeyPatch.context() as patch:
        patch.setattr(traces, "BLOCK_BYTES", size)
        with TraceFile(path) as file:
            for _ in range(2):
                blocks = list(file.blocks())
                assert file.position == file.size or not blocks
    wanted = "\n".join(lines) + "\n" if is_ended or lines[-1] else "\n".join(lines)
    assert b"".join(block.data for block in blocks).decode() == wanted
    assert all(block.data.endswith(b"\n") for block in blocks)
    first = 1
    for block in blocks:
        assert block.line == first
        first += block.data.count(b"\n")


def test_a_last_line_without_an_end_is_said_to_be_cut(write):
    with TraceFile(write(b"a\nb")) as file:
        assert [(b.data, b.is_cut) for b in file.blocks()] == [(b"a\n", False), (b"b\n", True)]


def test_what_is_written_while_it_is_read_does_not_count(write):
    path = write(b"0,1\n1,2\n")
    with TraceFile(path) as file:
        with path.open("ab") as more:
            more.write(b"2,3\n")
        assert b"".join(block.data for block in file.blocks()) == b"0,1\n1,2\n"
        assert file.digest() == hashlib.sha256(b"0,1\n1,2\n").hexdigest()


@pytest.mark.parametrize(
    ("data", "told"),
    [
        (bytes(range(256)), "This is no text"),
        (b"PK\x03\x04\x00\x00", "This is no text"),
        (b"1" * 70, "This line does not end"),
    ],
)
def test_what_is_no_text_is_refused(write, monkeypatch, data, told):
    monkeypatch.setattr(traces, "LONGEST_LINE", 50)
    with TraceFile(write(data)) as file, pytest.raises(TraceRefused, match=told):
        list(file.blocks())


@pytest.mark.skipif(os.name == "nt", reason="pipes with a name are POSIX's")
def test_a_pipe_is_refused_since_it_cannot_be_read_twice(tmp_path):
    pipe = tmp_path / "pipe"
    os.mkfifo(pipe)
    handle = os.open(pipe, os.O_RDWR)
    try:
        with pytest.raises(TraceRefused, match="read twice"):
            TraceFile(pipe)
    finally:
        os.close(handle)


def test_marks_are_text_of_a_size_that_a_person_writes(write, monkeypatch):
    assert read_marks(write("1;ä\r\n".encode("latin-1"))) == "1;ä\n"
    monkeypatch.setattr(traces, "_MOST_MARKS", 2)
    with pytest.raises(TraceRefused, match="too large"):
        read_marks(write(b"1;a\n"))
