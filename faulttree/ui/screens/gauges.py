"""Gauges and cycle of a walk, drawn as wide as the screen lets them be."""

from textual.containers import VerticalScroll
from textual.content import Content

from faulttree.core.walk.on_gauges import on_gauges
from faulttree.render.gauges_here import NO_GAUGES
from faulttree.render.on_gauges import on_gauges_rows
from faulttree.render.ph_chart import HEIGHT
from faulttree.session import Session
from faulttree.ui.screens.dialogs import PageScreen
from faulttree.ui.widgets.paragraphs import Paragraphs
from faulttree.ui.words import plain, rows

__all__ = ["NO_GAUGES", "GaugesScreen"]
_LEAST_HEIGHT = 12
_TITLE_ROW = 1


class GaugesScreen(PageScreen):
    """Both gauges, then the cycle; they follow the session and the size of the screen."""

    def __init__(self, session: Session) -> None:
        self._session = session
        super().__init__("High side and low side", Content())

    def on_mount(self) -> None:
        """Draw as soon as it is known how much room there is."""
        self.call_after_refresh(self._draw)

    def on_resize(self) -> None:
        """Draw for the room there is."""
        self.call_after_refresh(self._draw)

    def on_screen_resume(self) -> None:
        """Draw what is read by now."""
        self.call_after_refresh(self._draw)

    def _draw(self) -> None:
        state = self._session.state
        on = on_gauges(state)
        if on is None:
            self.show(plain(NO_GAUGES))
            return
        width = self.query_one(Paragraphs).content_size.width
        room = self.query_one(VerticalScroll).size.height - _TITLE_ROW
        height = max(_LEAST_HEIGHT, min(HEIGHT, room))
        self.show(rows(on_gauges_rows(on, state.units, width, height=height)))
