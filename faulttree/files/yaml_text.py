"""From the bytes of a file to text that is safe to read and to show.

What is refused here is refused before any YAML is read: too large, not UTF-8, or holding
characters that cannot be seen. Lines and columns count as an editor counts them.
"""

import re
from itertools import islice

from faulttree.core.problem import Problem
from faulttree.files.yaml_errors import YamlError

MAX_BYTES = 2_000_000
"""The largest file that is read [bytes]: several times the largest tree a person can keep up."""

MAX_REPORTED = 100
"""Reading stops after this many problems; nobody mends more at a time."""

_BYTE_ORDER_MARK = b"\xef\xbb\xbf"

_HIDDEN = re.compile(
    r"[\x00-\x08\x0b-\x1f\x7f-\x9f"  # control characters other than tab and newline
    r"\u2028\u2029"  # line ends that an editor does not count as lines
    r"\u202a-\u202e\u2066-\u2069"  # bidirectional overrides and isolates
    r"\ud800-\udfff\ufeff\ufffe\uffff]"  # halves of pairs, a stray mark, no characters at all
)

_LONG_TAG = re.compile(r"!(?<![^\s,\[\]{}]!)\S{1000}")
"""The Python reader needs time growing with the square of a tag's length."""


def decode(data: bytes) -> str:
    """The text of a file, without its byte order mark and with `\\n` as the only line end.

    Raises:
        YamlError: the file is too large, or is not UTF-8.
    """
    if len(data) > MAX_BYTES:
        raise YamlError((_too_large(len(data)),))
    data = data.removeprefix(_BYTE_ORDER_MARK)
    try:
        text = data.decode("utf-8")
    except UnicodeDecodeError as error:
        raise YamlError((_not_utf8(data, error.start),)) from None
    return text.replace("\r\n", "\n")


def _too_large(size: int) -> Problem:
    return Problem(
        "file-size",
        "error",
        f"the file has {size:,} bytes; {MAX_BYTES:,} are the most",
        0,
        0,
        "split the document into several",
    )


def _not_utf8(data: bytes, offset: int) -> Problem:
    line = data.count(b"\n", 0, offset) + 1
    start = data.rfind(b"\n", 0, offset) + 1
    column = len(data[start:offset].decode("utf-8")) + 1
    message = f"the byte {data[offset]:02X} (hexadecimal) is not UTF-8 text"
    if data[:2] in (b"\xff\xfe", b"\xfe\xff"):
        message = "the file is saved as UTF-16, not as UTF-8"
    help_text = "save the file again with the encoding UTF-8"
    return Problem("file-encoding", "error", message, line, column, help_text)


def hidden_in(value: str) -> str | None:
    """The first character of a value that must not be shown or written, or None."""
    found = _HIDDEN.search(value)
    return found.group() if found else None


def hidden_problem(character: str, line: int, column: int) -> Problem:
    """A hidden character as a problem, named by its number."""
    message = f"the hidden character U+{ord(character):04X} stands in this text"
    help_text = "remove it; only tabs, line ends and characters that can be seen are used"
    if character == "\r":
        message = "a carriage return (U+000D) stands here without a line feed"
        help_text = "save the file with the line ends of Unix (LF) or Windows (CR LF)"
    return Problem("hidden-character", "error", message, line, column, help_text)


def hidden_problems(text: str) -> tuple[Problem, ...]:
    """Every hidden character of a text, comments included, up to `MAX_REPORTED`.

    Carriage returns are reported once: a file that has one has one on every line.
    """
    offsets = [found.start() for found in islice(_HIDDEN.finditer(text), MAX_REPORTED)]
    return_at = text.find("\r")
    return tuple(
        hidden_problem(text[offset], *place_of(text, offset))
        for offset in offsets
        if text[offset] != "\r" or offset == return_at
    )


def long_tag_problems(text: str) -> tuple[Problem, ...]:
    """A tag of a thousand characters or more, refused before the reader sees it."""
    found = _LONG_TAG.search(text)
    if found is None:
        return ()
    line, column = place_of(text, found.start())
    message = "a tag (!name) is not used in these files, least of all one this long"
    return (Problem("yaml-tag", "error", message, line, column, "remove it"),)


def without_directives(text: str) -> tuple[str, tuple[Problem, ...]]:
    """The text with its `%` lines turned into comments, and a problem for each of them.

    A `%` line before the document can change the meaning of `on`, `off` and `012` further down.
    Turning it into a comment lets the rest be read with every line and column in its place.
    """
    if "%" not in text:
        return text, ()
    lines = text.split("\n")
    problems: list[Problem] = []
    for number, line in enumerate(lines, start=1):
        if line.startswith("%"):
            problems.append(_directive(line, number))
            lines[number - 1] = "#" + line[1:]
        elif line.strip() and not line.lstrip().startswith("#"):
            break
    return "\n".join(lines), tuple(problems[:MAX_REPORTED])


def _directive(line: str, number: int) -> Problem:
    return Problem(
        "yaml-directive",
        "error",
        "a line that starts with `%` changes how the whole file is read",
        number,
        1,
        "remove the line; these files are always read as YAML 1.2",
        length=max(1, len(line.rstrip())),
    )


def place_of(text: str, offset: int) -> tuple[int, int]:
    """Line and column, both counted from 1, of the character at an offset."""
    return text.count("\n", 0, offset) + 1, offset - text.rfind("\n", 0, offset)
