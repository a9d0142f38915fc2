"""Markdown broken into lines that fit a terminal, a letter or a mail, and still mean the same."""

import re
import textwrap
from collections.abc import Iterable, Iterator

from faulttree.render.markdown_text import at_line_start

_MARKER = re.compile(r" *(?:- |\d+\. |> )?")
FENCE = "```"
"""Before and after lines that stay as they are."""
_ESCAPE = "\\"
"""What a broken line may have to begin with, so that it means no markup."""


def all_wrapped(lines: Iterable[str], width: int) -> Iterator[str]:
    """Lines of Markdown as more of them, but for those between fences."""
    is_fenced = False
    for line in lines:
        is_fence = line == FENCE
        is_fenced ^= is_fence
        yield from [line] if is_fence or is_fenced else wrapped(line, width)


def wrapped(line: str, width: int) -> list[str]:
    """One line of Markdown as several.

    What follows a list marker stays below the text it belongs to. A heading stays on one line, and
    so does a word longer than the width.

    Args:
        line: the line; words of people in it are escaped.
        width: longest line wanted [characters].
    """
    found = _MARKER.match(line)
    marker = found[0] if found else ""
    text = line[len(marker) :]
    if not text or line.startswith("#"):
        return [line]
    room = max(1, width - len(marker) - len(_ESCAPE))
    first, *others = textwrap.wrap(text, room, break_long_words=False, break_on_hyphens=False)
    below = marker if ">" in marker else " " * len(marker)
    return [marker + first, *(below + at_line_start(other) for other in others)]
