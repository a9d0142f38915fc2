"""Words of people and trees put into Markdown as words: nothing in them is markup."""

import re

from faulttree.render.plain_text import safe

_SPECIAL = re.compile(r"[\\`*_{}\[\]<>#|~$&]")
_ENTITIES = {"<": "&lt;", "&": "&amp;"}
_LINE_START = re.compile(r"^([-+=](?=[-+=\s]|$)|\d+[.)](?=\s|$))")


def words(text: str) -> str:
    """The text on one line, with everything that Markdown or HTML would act on escaped."""
    line = " ".join(safe(text).split())
    escaped = _SPECIAL.sub(lambda match: _ENTITIES.get(match[0], f"\\{match[0]}"), line)
    return at_line_start(escaped)


def at_line_start(escaped: str) -> str:
    """Escaped text that comes to stand at the beginning of a line, where more is markup."""
    return _LINE_START.sub(_escaped_start, escaped)


def _escaped_start(match: re.Match[str]) -> str:
    start = match[1]
    return f"{start[:-1]}\\{start[-1]}"
