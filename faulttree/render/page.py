"""Lines of text of one width: wrapped, hanging, in columns."""

import textwrap
from collections.abc import Iterable, Iterator

WIDTH = 80
"""Columns of a usual terminal."""


def wrapped(text: str, first: str = "", rest: str | None = None) -> list[str]:
    """A text in lines of `WIDTH` columns; a word that is longer is cut.

    Args:
        text: what is to be shown, on one line.
        first: what the first line begins with.
        rest: what the others begin with; spaces as wide as `first` if not said.
    """
    return textwrap.wrap(
        text,
        WIDTH,
        initial_indent=first,
        subsequent_indent=" " * len(first) if rest is None else rest,
        break_on_hyphens=False,
    ) or [first.rstrip()]


def cut(text: str, width: int) -> str:
    """The text, its end left out where it is too long."""
    return text if len(text) <= width else text[: max(0, width - 2)] + ".."


def column(texts: Iterable[str], most: int) -> int:
    """The width of a column that holds the texts, `most` at most."""
    return min(most, max(map(len, texts), default=0))


def section(head: str, lines: Iterable[str]) -> Iterator[str]:
    """A head with lines below it, and an empty line above; nothing where there are none."""
    below = list(lines)
    if below:
        yield ""
        yield from wrapped(head)
        yield from below


def count(number: int, word: str) -> str:
    """How many there are of something: `1 car`, `2 cars`."""
    return f"{number} {word}{'' if number == 1 else 's'}"
