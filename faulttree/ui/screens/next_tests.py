"""A page with the best next tests, to take one of them; it opens before they are known."""

from typing import TYPE_CHECKING, ClassVar

from textual import events
from textual.app import ComposeResult
from textual.binding import Binding, BindingType
from textual.containers import Vertical
from textual.content import Content
from textual.screen import ModalScreen
from textual.widgets import OptionList, Static
from textual.widgets.option_list import Option as Row
from textual.worker import Worker, WorkerState

from faulttree.case_bench.why_not import CannotTellError
from faulttree.session import Session
from faulttree.ui.words import (
    WORKING,
    all_labelled,
    beside,
    hanging,
    joined,
    labelled,
    named,
    plain,
)

if TYPE_CHECKING:
    from faulttree.core.advice.next_test import Proposal
    from faulttree.render.next_tests import Advised

Chosen = tuple[str, float | None]
"""The step taken, and the minutes that it saves against the tree's own [min]."""
_HINT = "A number, or Enter: asks that test now. Escape or q leaves."
_INDENT = 3


class NextTestsScreen(ModalScreen[Chosen | None]):
    """The best next tests of a session, as it stands when the page is opened."""

    BINDINGS: ClassVar[list[BindingType]] = [
        Binding("escape,q,a", "leave", "Leave"),
        Binding("pagedown", "scroll(1)", show=False, priority=True),
        Binding("pageup", "scroll(-1)", show=False, priority=True),
        Binding("ctrl+q", "app.quit", show=False),
    ]
    VERTICAL_BREAKPOINTS = [(0, "-tiny"), (16, "-enough")]

    def __init__(self, session: Session) -> None:
        super().__init__()
        self._session, self._state = session, session.state
        self._advised: Advised | None = None

    def compose(self) -> ComposeResult:
        """How the tree's own step compares, the tests, and what keys do."""
        with Vertical(classes="page"):
            yield Static(plain("Best next tests", "title"))
            yield Static(plain(WORKING, "dim"), id="next-head")
            yield OptionList(id="next-tests", compact=True, markup=False)
            yield Static(plain(_HINT, "dim"))

    def on_mount(self) -> None:
        """Show them at once where they are known, else work them out beside the screen."""
        self.query_one(OptionList).focus()
        known = self._session.circuit.next_tests.known(self._state)
        if known is not None:
            self._show(known)
        else:
            self.run_worker(self._work_out, thread=True, exit_on_error=False)

    def _work_out(self) -> "Advised | str":
        try:
            return self._session.circuit.next_tests.after(self._state)
        except CannotTellError as error:
            return str(error)

    def on_worker_state_changed(self, event: Worker.StateChanged) -> None:
        """Show them, or what went wrong, as soon as it is known."""
        event.stop()
        worker = event.worker
        if event.state is WorkerState.ERROR:
            why = named(worker.error)
            self._head(plain(f"The next test cannot be worked out ({why}).", "warning"))
        elif event.state is WorkerState.SUCCESS and isinstance(worker.result, str):
            self._head(plain(worker.result, "warning"))
        elif event.state is WorkerState.SUCCESS and worker.result is not None:
            self._show(worker.result)

    def _head(self, text: Content) -> None:
        self.query_one("#next-head", Static).update(text)

    def _show(self, advised: "Advised") -> None:
        from faulttree.render.next_tests import head, holds

        self._advised = advised
        rests_on = [holds(self._state)] if advised.best else []
        self._head(all_labelled([head(self._state, advised), *rests_on]))
        self.query_one("#next-head").set_class(bool(advised.best), "-known")
        self.call_after_refresh(self._fit)

    def on_resize(self) -> None:
        """Rows are broken for the width there is."""
        self.call_after_refresh(self._fit)

    def _fit(self) -> None:
        if self._advised is None:
            return
        rows = self.query_one(OptionList)
        marked = rows.highlighted
        width = rows.scrollable_content_region.width
        rows.set_options(
            Row(self._row(number, proposal, width))
            for number, proposal in enumerate(self._advised.best, 1)
        )
        rows.highlighted = marked or 0

    def _row(self, number: int, proposal: "Proposal", width: int) -> Content:
        from faulttree.render.next_tests import about, title

        assert self._advised is not None
        head = plain(f"{number}  {title(self._state, self._advised, proposal)}", "label")
        below = (
            hanging(beside(plain(" " * _INDENT), labelled(line)), width, _INDENT)
            for line in about(self._advised, proposal)
        )
        return joined([hanging(head, width, _INDENT), *below])

    def on_key(self, event: events.Key) -> None:
        """Take a test by its number."""
        if event.character and event.character in "123":
            event.stop()
            self._take(int(event.character) - 1)

    def on_option_list_option_selected(self, event: OptionList.OptionSelected) -> None:
        """Take a test by Enter or the mouse."""
        event.stop()
        self._take(event.option_index)

    def _take(self, index: int) -> None:
        if self._advised is not None and index < len(self._advised.best):
            proposal = self._advised.best[index]
            self.dismiss((proposal.step_id, self._advised.saves(proposal)))

    def action_scroll(self, pages: int) -> None:
        """Move the rows: one may be longer than the screen."""
        rows = self.query_one(OptionList)
        height = max(1, rows.scrollable_content_region.height - 1)
        rows.scroll_relative(y=pages * height, animate=False)

    def action_leave(self) -> None:
        """Back to the step."""
        self.dismiss(None)
