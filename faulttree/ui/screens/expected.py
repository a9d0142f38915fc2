"""A page with what a step reads, healthy and under each fault; it opens before that is known."""

from textual.worker import Worker, WorkerState

from faulttree.case_bench.why_not import CannotTellError
from faulttree.render import answers
from faulttree.render.line import Line
from faulttree.session import Session
from faulttree.ui.screens.dialogs import PageScreen
from faulttree.ui.words import WORKING, all_labelled, named, plain


class ExpectedScreen(PageScreen):
    """Expected readings of the step that a session asks for."""

    def __init__(self, session: Session) -> None:
        self._session, self._state, self._step_id = session, session.state, session.ask.step_id
        self._known = session.circuit.expected.known(self._state, self._step_id)
        title = answers.title(self._state, self._step_id)
        text = all_labelled(self._known) if self._known else plain(WORKING, "dim")
        super().__init__(f"Expected readings: {title}", text)

    def on_mount(self) -> None:
        """Work them out beside the screen, which goes on taking keys."""
        if self._known is None:
            self.run_worker(self._work_out, thread=True, exit_on_error=False)

    def _work_out(self) -> tuple[Line, ...]:
        try:
            return self._session.circuit.expected.lines(self._state, self._step_id)
        except CannotTellError as error:
            return (Line("", str(error), "warning"),)

    def on_worker_state_changed(self, event: Worker.StateChanged) -> None:
        """Show them, or what went wrong, as soon as it is known."""
        worker = event.worker
        if event.state is WorkerState.SUCCESS and worker.result is not None:
            self.show(all_labelled(worker.result))
        elif event.state is WorkerState.ERROR:
            why = named(worker.error)
            self.show(plain(f"These readings cannot be worked out ({why}).", "warning"))
