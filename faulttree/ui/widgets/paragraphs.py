"""Text in which every line that is broken goes on a little further in."""

from textual.content import Content
from textual.geometry import Size
from textual.widget import Widget

from faulttree.ui.words import hanging, joined

_HANG = 2
"""Columns by which a broken line goes on further in."""


class Paragraphs(Widget):
    """Lines of text, broken to the width there is, so that labels stand out at the left."""

    DEFAULT_CSS = "Paragraphs { height: auto; }"

    def __init__(self, text: Content | None = None, widget_id: str | None = None) -> None:
        super().__init__(id=widget_id)
        self._lines = text.split("\n") if text else []

    def update(self, text: Content) -> None:
        """Show another text."""
        self._lines = text.split("\n")
        self.refresh(layout=True)

    def get_content_height(self, container: Size, viewport: Size, width: int) -> int:
        """Rows at a width."""
        return self._broken(width).plain.count("\n") + 1

    def render(self) -> Content:
        """The text for the width there is."""
        return self._broken(self.content_size.width)

    def _broken(self, width: int) -> Content:
        return joined(hanging(line, width, _indent(line.plain) + _HANG) for line in self._lines)


def _indent(line: str) -> int:
    return len(line) - len(line.lstrip())
