"""The report as it stands, as a page; what the readings say is put in as soon as it is known."""

from textual.content import Content
from textual.worker import Worker, WorkerState

from faulttree.render.report_markdown import report_markdown
from faulttree.session import Session
from faulttree.ui.screens.dialogs import PageScreen
from faulttree.ui.words import WORKING, plain

_WIDTH = 64
"""Longest line [characters]: fits the page on 80 columns."""
_WORKING = ("## What the readings say", "", WORKING, "")


class ReportScreen(PageScreen):
    """The report of a session."""

    def __init__(self, session: Session) -> None:
        self._session = session
        tells = session.circuit.suspects.tells(session.state)
        self._waits = session.circuit.shows_suspects and tells
        text = self._report(_WORKING if self._waits else ())
        super().__init__(f"faulttree report {session.id}", text)

    def on_mount(self) -> None:
        """Work out the rest beside the screen, which goes on taking keys."""
        if self._waits:
            self.run_worker(self._what_readings_say, thread=True, exit_on_error=False)

    def on_worker_state_changed(self, event: Worker.StateChanged) -> None:
        """Show the whole of it."""
        worker = event.worker
        if event.state is WorkerState.SUCCESS and worker.result is not None:
            self.show(self._report(worker.result))
        elif event.state is WorkerState.ERROR:
            self.show(self._report(()))

    def _what_readings_say(self) -> tuple[str, ...]:
        return self._session.circuit.report_lines(self._session.state)

    def _report(self, say: tuple[str, ...]) -> Content:
        state, name = self._session.state, self._session.id
        return plain(report_markdown(state, name, width=_WIDTH, readings_say=say))
