"""Options to choose from, as rows of one list."""

from collections.abc import Sequence

from textual.content import Content
from textual.widgets import OptionList
from textual.widgets.option_list import Option as Row

from faulttree.core.walk.asks import Option
from faulttree.ui.words import beside, hanging, plain

_MARGINS = 3
"""Columns beside the rows: padding on both sides and the scroll bar."""
_INDENT = 4
"""Columns in front of the words, for the key."""


class AnswerOptions(OptionList):
    """The answers of a question. A number key picks one at once; so do Enter and the mouse."""

    def __init__(self) -> None:
        super().__init__(id="options", compact=True, markup=False)
        self._shown: tuple[Option, ...] = ()

    def show(self, options: Sequence[Option], is_marked: bool = True) -> None:
        """Show these options, the first one marked or none, so that Enter picks nothing yet."""
        self._shown = tuple(options)
        self._fill()
        self.highlighted = 0 if options and is_marked else None

    def fit(self) -> None:
        """Break the rows anew for the width there is."""
        marked = self.highlighted
        self._fill()
        self.highlighted = marked

    def _fill(self) -> None:
        width = self.app.size.width - _MARGINS
        self.set_options(Row(_row(option, width), id=option.key) for option in self._shown)


def _row(option: Option, width: int) -> Content:
    """Key and words; what does not fit into one line goes on below the words."""
    key = plain(f" {option.key}  ", "label")
    detail = plain(f"  {option.detail}" if option.detail else "", "dim")
    return hanging(beside(key, plain(option.label), detail), width, _INDENT)
