"""Trace files opened: whole lines in blocks, whatever their encoding and line ends.

A file is never held as a whole. It is read no further than it reached when it was opened, so that a
logger that still writes to it changes nothing between two passes.
"""

import codecs
import hashlib
import os
from collections.abc import Iterator
from dataclasses import dataclass
from io import BufferedReader
from pathlib import Path
from types import TracebackType
from typing import Self

from faulttree.core.trace.lines import Block, TraceRefused, text_of

BLOCK_BYTES = 1 << 19
"""How much is read at a time [bytes]."""
HEAD_BYTES = 1 << 17
"""How much is looked at to find out how a file is laid out [bytes]."""
LONGEST_LINE = 1 << 20
"""A file with a longer line is no trace [bytes]."""
_MOST_MARKS = 1 << 24
_UTF8 = b"\xef\xbb\xbf"
_UTF16 = {b"\xff\xfe": "utf-16-le", b"\xfe\xff": "utf-16-be"}


@dataclass(frozen=True, slots=True)
class _Encoding:
    """What stands before the text [bytes], and what it is decoded with; None as it is."""

    mark: int
    codec: str | None


class TraceFile:
    """An open trace file.

    Attributes:
        size: how much of it is read [bytes].
        position: how far reading has come [bytes].
    """

    def __init__(self, path: Path) -> None:
        """Open a file.

        Raises:
            OSError: it cannot be opened.
            TraceRefused: it cannot be read twice.
        """
        self._file: BufferedReader = path.open("rb")
        if not self._file.seekable():
            self._file.close()
            raise TraceRefused("This is no file; save the trace, for it is read twice.")
        self.size = os.fstat(self._file.fileno()).st_size
        self.position = 0
        self._encoding = _encoding(self._file.read(4))

    def __enter__(self) -> Self:
        return self

    def __exit__(
        self,
        kind: type[BaseException] | None,
        error: BaseException | None,
        traceback: TracebackType | None,
    ) -> None:
        self._file.close()

    def head(self) -> str:
        """The first lines, whole.

        Raises:
            TraceRefused: it is no text.
        """
        block = next(self._blocks(HEAD_BYTES), None)
        return "" if block is None else text_of(block.data)

    def blocks(self) -> Iterator[Block]:
        """All lines from the beginning.

        Raises:
            TraceRefused: it is no text, or a line is endless.
        """
        return self._blocks(BLOCK_BYTES)

    def digest(self) -> str:
        """SHA-256 of what is read."""
        found = hashlib.sha256()
        for piece in self._pieces(0, BLOCK_BYTES):
            found.update(piece)
        return found.hexdigest()

    def _blocks(self, size: int) -> Iterator[Block]:
        """Blocks of whole lines; the last line gets an end where it has none."""
        line, rest = 1, b""
        for piece in self._texts(size):
            if b"\0" in piece:
                raise TraceRefused("This is no text; export the trace as CSV.", line)
            text = rest + piece
            end = text.rfind(b"\n") + 1
            if end:
                yield Block(text[:end], line)
                line += text.count(b"\n", 0, end)
            rest = text[end:]
            if len(rest) > LONGEST_LINE:
                raise TraceRefused("This line does not end; expected a CSV file.", line)
        if rest:
            yield Block(rest + b"\n", line, is_cut=True)

    def _texts(self, size: int) -> Iterator[bytes]:
        """The text in pieces, with line feeds for ends of lines.

        A carriage return at the end of a piece waits: a line feed may follow it.
        """
        decoder = _decoder(self._encoding)
        waiting = b""
        for piece in self._pieces(self._encoding.mark, size):
            text = waiting + (decoder.decode(piece).encode("utf-8") if decoder else piece)
            waiting = b"\r" if text.endswith(b"\r") else b""
            if b"\r" in text:
                text = text.removesuffix(b"\r").replace(b"\r\n", b"\n").replace(b"\r", b"\n")
            yield text
        yield b"\n" if waiting else b""

    def _pieces(self, begin: int, size: int) -> Iterator[bytes]:
        self._file.seek(begin)
        self.position = begin
        while self.position < self.size:
            piece = self._file.read(min(size, self.size - self.position))
            if not piece:
                return
            self.position += len(piece)
            yield piece


def read_marks(path: Path) -> str:
    """The text of a file of marks.

    Raises:
        OSError: it cannot be read.
        TraceRefused: it is no text, or far too large.
    """
    with TraceFile(path) as file:
        if file.size > _MOST_MARKS:
            raise TraceRefused("This is too large for a file of marks.", source=str(path))
        return "".join(text_of(block.data) for block in file.blocks())


def _encoding(begin: bytes) -> _Encoding:
    if begin.startswith(_UTF8):
        return _Encoding(len(_UTF8), None)
    codec = _UTF16.get(begin[:2])
    return _Encoding(2, codec) if codec and begin[2:] != b"\0\0" else _Encoding(0, None)


def _decoder(encoding: _Encoding) -> codecs.IncrementalDecoder | None:
    """Letters that cannot be decoded are replaced; they cannot be part of a number."""
    if encoding.codec is None:
        return None
    return codecs.getincrementaldecoder(encoding.codec)("replace")
