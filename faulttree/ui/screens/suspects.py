"""Suspects as a page over the step, and the pages behind their rows."""

from typing import TYPE_CHECKING, ClassVar

from textual.app import ComposeResult
from textual.binding import Binding, BindingType
from textual.containers import Vertical
from textual.screen import ModalScreen

from faulttree.session import Session
from faulttree.ui.screens.dialogs import PageScreen
from faulttree.ui.widgets.suspects_view import SuspectsView
from faulttree.ui.words import all_labelled

if TYPE_CHECKING:
    from faulttree.core.suspects.suspected import Suspected
    from faulttree.core.walk.state import WalkState

_HINT = "Enter: why; Escape or q leaves. Odds of this model, not certainties."


class SuspectsScreen(ModalScreen[None]):
    """The list, where the screen has no room for it beside the step."""

    BINDINGS: ClassVar[list[BindingType]] = [
        Binding("escape,q,u", "leave", "Leave"),
        Binding("ctrl+q", "app.quit", show=False),
    ]

    def __init__(self, session: Session) -> None:
        super().__init__()
        self._session = session

    def compose(self) -> ComposeResult:
        """The list."""
        with Vertical(classes="page"):
            yield SuspectsView(self._session, _HINT)

    def on_mount(self) -> None:
        """Show what is known, and have the keys move in the list."""
        view = self.query_one(SuspectsView)
        view.look()
        view.take_keyboard()

    def on_suspects_view_asked(self, event: SuspectsView.Asked) -> None:
        """Tell more about a row."""
        self.app.push_screen(page_of(self._session.state, event.suspected, event.name))

    def action_leave(self) -> None:
        """Back to the step."""
        self.dismiss(None)


def page_of(state: "WalkState", suspected: "Suspected", name: str) -> PageScreen:
    """All there is to say about a row of the list.

    Args:
        state: the walk.
        suspected: what the list was made of.
        name: what the row is asked for by.
    """
    from faulttree.render.suspects_more import more

    title, lines = more(state, suspected, name)
    return PageScreen(title, all_labelled(lines))
