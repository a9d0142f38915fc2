"""What is suspect, as a list that follows a session; it is worked out beside the screen."""

from functools import partial
from typing import TYPE_CHECKING

from textual.app import ComposeResult
from textual.containers import Vertical
from textual.content import Content
from textual.message import Message
from textual.widgets import OptionList, Static
from textual.widgets.option_list import Option as Row
from textual.worker import Worker, WorkerState

from faulttree.case_bench.why_not import CannotTellError
from faulttree.session import Session
from faulttree.ui.words import WORKING, all_labelled, beside, hanging, joined, named, plain

if TYPE_CHECKING:
    from faulttree.core.suspects.suspected import Suspected
    from faulttree.core.walk.state import WalkState
    from faulttree.render.suspects_here import Entry

_ONE_LINE = 66
"""Columns from which numbers and words of a row stand on one line."""
_NUMBERS = 36
"""Columns of the numbers, where words stand beside them."""
_INDENT = 2
"""Columns by which words below their numbers are further in."""


class SuspectsView(Vertical):
    """The suspects of a session. The walk never waits for it.

    One thread at a time works. What it finds is looked up for the state of the walk as it is by
    then, so that nothing of an older state is ever shown as new.
    """

    class Asked(Message):
        """More is wanted about a row."""

        def __init__(self, suspected: "Suspected", name: str) -> None:
            super().__init__()
            self.suspected, self.name = suspected, name

    def __init__(self, session: Session, hint: str, widget_id: str | None = None) -> None:
        """`hint` says what keys do."""
        super().__init__(id=widget_id, classes="suspects")
        self._session, self._hint = session, hint
        self._worker: Worker[str] | None = None
        self._suspected: Suspected | None = None
        self._entries: list[Entry] = []

    def compose(self) -> ComposeResult:
        """Head, rows, and what keys do."""
        yield Static(classes="suspects-head")
        yield OptionList(compact=True, markup=False)
        yield Static(plain(self._hint, "dim"), classes="suspects-hint")

    def on_mount(self) -> None:
        """The keyboard comes here only when it is asked to."""
        self.rows.can_focus = False

    @property
    def rows(self) -> OptionList:
        """The list."""
        return self.query_one(OptionList)

    @property
    def has_keyboard(self) -> bool:
        """Whether keys go to the list."""
        return self.screen.focused is self.rows

    def take_keyboard(self) -> None:
        """Have the keys go to the list."""
        self.rows.can_focus = True
        self.screen.set_focus(self.rows)
        if self.rows.highlighted is None:
            self.rows.action_first()

    def leave_keyboard(self) -> None:
        """Have no key come to the list any more."""
        self.rows.can_focus = False
        self.rows.highlighted = None

    def on_descendant_blur(self) -> None:
        """Something else has the keyboard now."""
        if self.app.screen is self.screen:
            self.leave_keyboard()

    def look(self) -> None:
        """Show what is suspect now: at once where it is known, else as soon as it is."""
        why_not = self._session.circuit.why_no_suspects(self._session.state)
        known = self._session.circuit.suspects.known(self._session.state)
        if why_not:
            self._fail(why_not)
        elif known is not None:
            self._show(known)
        else:
            self._head(WORKING)
            if self._worker is None:
                work = partial(self._work_out, self._session.state)
                self._worker = self.run_worker(work, thread=True, exit_on_error=False)

    def _work_out(self, state: "WalkState") -> str:
        """Why it cannot be worked out; nothing where it now is known."""
        try:
            self._session.circuit.suspects.after(state)
        except CannotTellError as error:
            return str(error)
        return ""

    def on_worker_state_changed(self, event: Worker.StateChanged) -> None:
        """Show what is known by now, or what went wrong."""
        event.stop()
        worker = event.worker
        if worker is not self._worker or not worker.is_finished:
            return
        self._worker = None
        if event.state is WorkerState.ERROR:
            self._fail(f"Suspects cannot be worked out ({named(worker.error)}).")
        elif event.state is WorkerState.SUCCESS and worker.result:
            self._fail(worker.result)
        elif event.state is WorkerState.SUCCESS:
            self.look()

    def _fail(self, why: str) -> None:
        self._suspected, self._entries = None, []
        self.rows.clear_options()
        self._put(plain(why, "warning"), is_cut=False)

    def _show(self, suspected: "Suspected") -> None:
        from faulttree.render.suspects_here import entries

        self._suspected, self._entries = suspected, entries(suspected)
        self._head()
        self.fit()

    def _head(self, working: str = "") -> None:
        """How many readings it rests on, and which was the last."""
        title = plain("Suspects", "title")
        lines = [title]
        if self._suspected is not None:
            from faulttree.render import suspects_here

            suspicion = self._suspected.suspicion
            lines = [beside(title, plain(f" {suspects_here.after(suspicion)}", "dim"))]
            last = list(suspects_here.last_reading(self._session.state, suspicion))
            lines += [all_labelled(last)] if last else []
        if working:
            lines.append(plain(working, "warning"))
        self._put(joined(lines), is_cut=True)

    def _put(self, text: Content, is_cut: bool) -> None:
        """Text into the head; `is_cut` leaves off what does not fit into its lines."""
        head = self.query_one(".suspects-head", Static)
        head.set_class(is_cut, "-cut")
        head.update(text)

    def on_resize(self) -> None:
        """Rows are broken for the width there is."""
        self.fit()

    def fit(self) -> None:
        """Break the rows anew; the mark stays."""
        marked = self.rows.highlighted
        width = self.rows.scrollable_content_region.width
        options = [Row(_row(each, width)) for each in self._entries]
        self.rows.set_options(options)
        if marked is not None:
            self.rows.highlighted = min(marked, len(options) - 1)
        elif self.has_keyboard:
            self.rows.action_first()

    def on_option_list_option_selected(self, event: OptionList.OptionSelected) -> None:
        """Enter or the mouse asks for more."""
        event.stop()
        if self._suspected is not None:
            name = self._entries[event.option_index].name
            self.post_message(self.Asked(self._suspected, name))


def _row(entry: "Entry", width: int) -> Content:
    """Numbers and words, beside or below each other."""
    text = entry.numbers(width)
    if not text:
        return hanging(plain(entry.words), width, _INDENT)
    numbers = plain(text, "dim")
    if width < _ONE_LINE:
        words = plain(entry.words).wrap(max(10, width - _INDENT))
        return joined([numbers, *(beside(plain(" " * _INDENT), part) for part in words)])
    first, *more = plain(entry.words).wrap(width - _NUMBERS)
    fill = " " * (_NUMBERS - len(text))
    below = (beside(plain(" " * _NUMBERS), part) for part in more)
    return joined([beside(numbers, plain(fill), first), *below])
