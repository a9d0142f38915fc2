"""Options to choose from, as rows of one list."""

from collections.abc import Sequence

from textual.widgets import OptionList
from textual.widgets.option_list import Option as Row

from faulttree.core.walk.asks import Option
from faulttree.ui.words import beside, plain


class AnswerOptions(OptionList):
    """The answers of a question. A number key picks one at once; so do Enter and the mouse."""

    def __init__(self) -> None:
        super().__init__(id="options", compact=True, markup=False)

    def show(self, options: Sequence[Option]) -> None:
        """Show these options, the first one marked."""
        self.set_options(
            Row(
                beside(
                    plain(f" {option.key} ", "label"),
                    plain(f" {option.label}"),
                    plain(f"  {option.detail}" if option.detail else "", "dim"),
                ),
                id=option.key,
            )
            for option in options
        )
        self.highlighted = 0 if options else None
