"""Words on the screen. Whatever comes from a tree or a person goes through here: it is shown as
text, never read as markup, and cannot command the terminal."""

from collections.abc import Iterable, Sequence

from textual.content import Content

from faulttree.render.line import Line
from faulttree.render.plain_text import safe
from faulttree.render.scale import Row

TONES = {
    "good": "$text-success",
    "unclear": "$text-warning",
    "fault": "$text-error",
    "mark": "bold",
    "caution": "bold $text-warning",
    "warning": "bold $text-warning",
    "label": "bold",
    "title": "bold $text-primary",
    "plain": "",
    "dim": "auto 75%",
}
"""Tone to style; every tone also has words or a sign of its own."""


WORKING = "Working it out…"
"""Stands where something is worked out beside the screen."""


def named(error: BaseException | None) -> str:
    """An error of a kind that is not foreseen, by its name and what it says."""
    return f"{type(error).__name__}: {error}"


def plain(text: str, tone: str = "plain") -> Content:
    """Text in one tone."""
    style = TONES.get(tone, "")
    return Content.styled(safe(text), style) if style else Content(safe(text))


def joined(parts: Iterable[Content]) -> Content:
    """Contents one below the other."""
    return Content("\n").join(list(parts))


def beside(*parts: Content) -> Content:
    """Contents one after the other."""
    return Content("").join(list(parts))


def hanging(text: Content, width: int, indent: int) -> Content:
    """One line broken to a width [columns]; what follows the first part is indented."""
    parts = text.wrap(max(10, width - indent)) if text.cell_length > width else [text]
    return Content("\n" + " " * indent).join(parts)


def labelled(line: Line) -> Content:
    """A label in bold and its text; a caution is marked by a sign as well."""
    sign = "! " if line.tone in ("caution", "warning") else ""
    if not line.label:
        return plain(line.text, line.tone)
    tone = line.tone if line.tone != "plain" else "label"
    body = line.tone if line.tone in ("caution", "warning") else "plain"
    return beside(plain(f"{sign}{line.label}: ", tone), plain(line.text, body))


def all_labelled(lines: Sequence[Line]) -> Content:
    """Labelled lines one below the other."""
    return joined(labelled(line) for line in lines)


def rows(drawn: Sequence[Row]) -> Content:
    """A drawn scale with its tones."""
    return joined(beside(*(plain(s.text, s.tone) for s in row)) for row in drawn)
