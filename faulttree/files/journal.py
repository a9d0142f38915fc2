"""An append-only file of records that survives a kill, a full disk, a torn line and two writers.

One record is one line: a checksum, a space, the record as JSON. The checksum covers the line and
the checksum before it, so that a line changed, lost or moved later is found. A line counts once
its line end is on disk: `append` returns after the system has said so, and not before.
"""

import json
import os
import zlib
from collections.abc import Iterator, Sequence
from contextlib import contextmanager
from dataclasses import dataclass
from io import IOBase, RawIOBase
from pathlib import Path
from typing import Any

Record = dict[str, Any]

_CHECKSUM_LENGTH = 8


class JournalError(Exception):
    """A record could not be written. What was written before is safe; the message says why."""


class JournalMovedOnError(JournalError):
    """Somebody else wrote to the journal since it was read: read it again before writing."""


@dataclass(frozen=True, slots=True)
class Contents:
    """What a journal holds.

    Attributes:
        records: the whole records, in order.
        end: length of the whole records [bytes].
        checksum: checksum of the last whole record, to chain the next one to.
        torn: bytes after the last whole record: a line that was being written when all stopped.
        damaged: numbers (from 1) of lines in the middle that are not as they were written; the
            lines after them are whole again.
    """

    records: tuple[Record, ...]
    end: int
    checksum: str
    torn: bytes
    damaged: tuple[int, ...]


@dataclass(frozen=True, slots=True)
class Journal:
    """A journal as last read or written; writing gives a new one."""

    path: Path
    end: int
    checksum: str

    def append(self, records: Sequence[Record]) -> "Journal":
        """Write records and wait until they are on disk.

        Raises:
            JournalMovedOnError: another window wrote in between; nothing was written.
            JournalError: the disk is full or the file cannot be written; nothing is left of it.
        """
        checksum, lines = self.checksum, b""
        for record in records:
            line, checksum = encode(record, checksum)
            lines += line
        try:
            with self.path.open("r+b", buffering=0) as file, _locked(file):
                size = os.fstat(file.fileno()).st_size
                if size != self.end:
                    raise JournalMovedOnError("another window has written to this case")
                _write_or_undo(file, lines, self.end)
        except OSError as error:
            raise JournalError(_why(error)) from error
        return Journal(self.path, self.end + len(lines), checksum)


def encode(record: Record, previous: str) -> tuple[bytes, str]:
    """One line and its checksum.

    Args:
        record: what to write; JSON values only.
        previous: checksum of the line before, empty for the first.
    """
    body = json.dumps(record, ensure_ascii=True, separators=(",", ":"), allow_nan=False)
    checksum = _checksum(body.encode("ascii"), previous)
    return f"{checksum} {body}\n".encode("ascii"), checksum


def first_lines(records: Sequence[Record]) -> bytes:
    """The bytes of a new journal that holds these records."""
    checksum, lines = "", b""
    for record in records:
        line, checksum = encode(record, checksum)
        lines += line
    return lines


def read(path: Path) -> Contents:
    """Everything in a journal; nothing is changed.

    Raises:
        OSError: the file cannot be read.
    """
    data = path.read_bytes()
    lines = list(_whole_lines(data))
    records: list[Record] = []
    damaged: list[int] = []
    checksum, end = "", 0
    for number, (start, line) in enumerate(lines, 1):
        decoded = decode(line, checksum)
        if decoded is None and number == len(lines):
            break  # the last line: it was being written when all stopped
        if decoded is None:
            damaged.append(number)
        else:
            records.append(decoded)
        checksum = line[:_CHECKSUM_LENGTH].decode("latin-1")
        end = start + len(line) + 1
    return Contents(tuple(records), end, checksum, data[end:], tuple(damaged))


def decode(line: bytes, previous: str) -> Record | None:
    """The record of a line without its line end, or None when the line is not as written."""
    head, separator, body = line.partition(b" ")
    if not separator or head != _checksum(body, previous).encode("ascii"):
        return None
    try:
        record = json.loads(body)
    except ValueError:
        return None
    return record if isinstance(record, dict) else None


def open_journal(path: Path) -> tuple[Journal, Contents]:
    """A journal ready to be written to; a torn last line is set aside in a file beside it.

    Raises:
        OSError: it cannot be read or mended.
    """
    with path.open("r+b") as file, _locked(file):
        contents = read(path)
        if contents.torn:
            _set_aside(path, contents.torn)
            file.truncate(contents.end)
            os.fsync(file.fileno())
    return Journal(path, contents.end, contents.checksum), contents


def _set_aside(path: Path, torn: bytes) -> None:
    with path.with_suffix(".set-aside").open("ab") as aside:
        aside.write(torn + (b"" if torn.endswith(b"\n") else b"\n"))
        aside.flush()
        os.fsync(aside.fileno())


def _whole_lines(data: bytes) -> Iterator[tuple[int, bytes]]:
    start = 0
    while (stop := data.find(b"\n", start)) >= 0:
        yield start, data[start:stop]
        start = stop + 1


def _checksum(body: bytes, previous: str) -> str:
    return f"{zlib.crc32(body, zlib.crc32(previous.encode('latin-1'))):08x}"


def _write_or_undo(file: RawIOBase, lines: bytes, end: int) -> None:
    """Write at the end, or leave the file as it was.

    The file has no buffer: what a full disk refused must not be written when it is closed.
    """
    try:
        file.seek(end)
        _write_all(file, lines)
        os.fsync(file.fileno())
    except OSError:
        _undo(file, end)
        raise


def _write_all(file: RawIOBase, data: bytes) -> None:
    rest = memoryview(data)
    while rest:
        rest = rest[file.write(rest) or 0 :]


def _undo(file: RawIOBase, end: int) -> None:
    os.ftruncate(file.fileno(), end)
    os.fsync(file.fileno())


def _why(error: OSError) -> str:
    reason = error.strerror or str(error)
    return f"Not recorded: {reason}. Free some space or mend it, then press Enter again."


@contextmanager
def _locked(file: IOBase) -> Iterator[None]:
    """Hold the file for one writer; the system lets go of it if the program dies."""
    try:
        import fcntl
    except ImportError:  # Windows
        with _locked_on_windows(file):
            yield
        return
    fcntl.flock(file.fileno(), fcntl.LOCK_EX)
    try:
        yield
    finally:
        fcntl.flock(file.fileno(), fcntl.LOCK_UN)


@contextmanager
def _locked_on_windows(file: IOBase) -> Iterator[None]:
    import msvcrt
    from typing import cast

    windows = cast("Any", msvcrt)
    file.seek(2**31 - 2)
    windows.locking(file.fileno(), windows.LK_LOCK, 1)
    try:
        yield
    finally:
        file.seek(2**31 - 2)
        windows.locking(file.fileno(), windows.LK_UNLCK, 1)
