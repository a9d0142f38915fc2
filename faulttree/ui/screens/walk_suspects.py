"""Suspects in the walk: beside the step where the screen is wide, as a page over it elsewhere."""

from textual import events
from textual.containers import Vertical
from textual.widgets import OptionList

from faulttree.ui.commands import LETTERS
from faulttree.ui.screens.suspects import SuspectsScreen, page_of
from faulttree.ui.screens.walk_commands import WalkCommands
from faulttree.ui.widgets.suspects_view import SuspectsView

BROAD = 120
"""Columns from which suspects stand beside the step."""

_HINT = "Enter: why; Escape: back; u closes"


class WalkSuspects(WalkCommands):
    """What the key for suspects does; it makes the list when it is first asked for."""

    _is_open = False
    """Whether the list stands beside the step where there is room for it."""

    def focus_question(self) -> None:
        """Have the keys go to the question again."""
        raise NotImplementedError

    @property
    def _beside(self) -> SuspectsView | None:
        """The list beside the step, if it is open and there is room for it."""
        found = self.query("#suspects").results(SuspectsView)
        return next((view for view in found if view.display), None)

    async def action_show_suspects(self) -> None:
        """Open the list, have the keys go to it, or close it."""
        why_not = self._session.circuit.why_no_suspects(self._session.state)
        if why_not:
            self.say(why_not, "warning")
        elif self.app.size.width < BROAD:
            self.app.push_screen(SuspectsScreen(self._session))
        elif (view := self._beside) is not None and view.has_keyboard:
            self._is_open = view.display = False
            self.focus_question()
        else:
            await self._open()

    async def _open(self) -> None:
        if not self.query("#suspects"):
            view = SuspectsView(self._session, _HINT, "suspects")
            await self.query_one("#side", Vertical).mount(view)
        self._is_open = True
        self.follow_suspects()
        self.query_one("#suspects", SuspectsView).take_keyboard()
        path = self.query_one("#path", OptionList)
        path.call_after_refresh(path.scroll_end, animate=False)  # it has less room now

    def follow_suspects(self) -> None:
        """Bring the list beside the step to the state of the walk, and to the room there is."""
        for view in self.query("#suspects").results(SuspectsView):
            view.display = self._is_open and self.app.size.width >= BROAD
            if view.display:
                view.look()

    def on_suspects_view_asked(self, event: SuspectsView.Asked) -> None:
        """Tell more about a row."""
        self.app.push_screen(page_of(self._session.state, event.suspected, event.name))

    def key_escape(self) -> None:
        """From the list back to the question; the list stays."""
        if (view := self._beside) is not None and view.has_keyboard:
            self.focus_question()

    def leaves_suspects(self, event: events.Key) -> bool:
        """Whether a key was typed in the list that is meant for the question; the keys go there."""
        view = self._beside
        is_meant = event.is_printable and event.character not in LETTERS
        if view is None or not view.has_keyboard or not is_meant:
            return False
        self.focus_question()
        return True
