"""How lines of the plain walk are printed: safe, wrapped, labelled."""

import textwrap
from collections.abc import Iterable
from typing import TextIO

from faulttree.render.line import Line
from faulttree.render.plain_text import safe

WIDTH = 78


class PlainPrint:
    """Where the plain walk prints."""

    def __init__(self, out: TextIO) -> None:
        self._out = out

    def lines(self, lines: Iterable[str]) -> None:
        """Print lines as they are."""
        for line in lines:
            self._out.write(safe(line) + "\n")
        self._out.flush()

    def say(self, text: str, indent: str = "") -> None:
        """Print a sentence, wrapped; what does not fit on its first line is indented."""
        for part in safe(text).split("\n"):
            wrapped = textwrap.wrap(part, WIDTH, subsequent_indent=indent, break_on_hyphens=False)
            self.lines(wrapped or [""])

    def labelled(self, lines: Iterable[Line]) -> None:
        """Print labelled lines; cautions and warnings have a sign before them."""
        for line in lines:
            sign = "! " if line.tone in ("caution", "warning") else ""
            label = f"{line.label}: " if line.label else ""
            self.say(f"{sign}{label}{line.text}", "    ")
