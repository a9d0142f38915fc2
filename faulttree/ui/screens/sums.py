"""Sums in the walk: pick one by a part of its name, type its inputs, see the result at once."""

from typing import ClassVar

from textual import events, on
from textual.app import ComposeResult
from textual.binding import Binding, BindingType
from textual.containers import Vertical, VerticalScroll
from textual.content import Content
from textual.screen import ModalScreen
from textual.widgets import Input, OptionList, Static
from textual.widgets.option_list import Option

from faulttree.core.calc.answered import Answered
from faulttree.core.calc.asking import Asking
from faulttree.core.calc.registry import SUMS, fitting
from faulttree.core.calc.sums import Sum, SumRefused
from faulttree.core.reading import ReadingRefused
from faulttree.core.units import UnitSystem
from faulttree.render.calc import basis_lines, found_lines, given_lines, note_text
from faulttree.render.line import Line
from faulttree.ui.widgets.paragraphs import Paragraphs
from faulttree.ui.words import all_labelled, beside, plain

_PICKING = "Enter picks, Escape leaves"
_TYPING = "Enter goes on, Escape goes back"
_NOTE = "; Ctrl+N notes it in the case"
_DONE = "n notes it in the case, Enter another sum, Escape back"


class SumsScreen(ModalScreen[str | None]):
    """Does sums; what it hands back is a note for the case, or nothing."""

    BINDINGS: ClassVar[list[BindingType]] = [
        Binding("escape", "go_back", "Back"),
        Binding("ctrl+n", "add_note", "Note", priority=True),
        Binding("down", "move(1)", show=False, priority=True),
        Binding("up", "move(-1)", show=False, priority=True),
        Binding("pagedown", "page(1)", show=False, priority=True),
        Binding("pageup", "page(-1)", show=False, priority=True),
        Binding("ctrl+q", "app.quit", show=False),
    ]

    def __init__(self, system: UnitSystem) -> None:
        """`system` is what bare numbers are taken in and results shown in."""
        super().__init__()
        self._system = system
        self._asking: Asking | None = None
        self._done: Answered | None = None

    def compose(self) -> ComposeResult:
        """Title, what to type, the line; below it the sums, or inputs and result; the keys."""
        with Vertical(classes="page"):
            yield Static(id="sum-title")
            yield Static(id="sum-prompt")
            yield Input(compact=True, id="sum-line", select_on_focus=False)
            yield Static(id="sum-trouble")
            yield OptionList(id="sums", compact=True, markup=False)
            with VerticalScroll(id="sum-result", can_focus=False):
                yield Paragraphs(widget_id="sum-text")
            yield Static(id="sum-keys")

    def on_mount(self) -> None:
        """All sums stand there until something is typed."""
        self.query_one("#sums", OptionList).can_focus = False
        self._show()

    # What is shown

    def _show(self) -> None:
        """Bring every part to where things stand; the line is empty then."""
        picking = self._asking is None
        line = self.query_one("#sum-line", Input)
        line.value = ""
        line.display = picking or self._is_asked
        self._trouble("")
        self.query_one("#sums", OptionList).display = picking
        self.query_one("#sum-result", VerticalScroll).display = not picking
        if self._asking is None:
            self._put("#sum-title", plain("Sums", "title"))
            self._put("#sum-prompt", plain("Type part of a name, or what it is about", "label"))
            self._list("")
        else:
            the_sum = self._asking.sum
            self._put("#sum-title", plain(f"{the_sum.name}: {the_sum.title}", "title"))
            asked = self._asking.asked
            prompt = self._asking.prompt(asked) if asked else "That is all it needs."
            self._put("#sum-prompt", plain(prompt, "label"))
            self._work_out(self._asking)
        self.set_focus(line if line.display else None)

    @property
    def _is_asked(self) -> bool:
        return self._asking is not None and self._asking.asked is not None

    def _put(self, selector: str, text: Content) -> None:
        self.query_one(selector, Static).update(text)

    def _trouble(self, text: str) -> None:
        trouble = self.query_one("#sum-trouble", Static)
        trouble.display = bool(text)
        trouble.update(plain(text, "warning"))

    def _list(self, words: str) -> None:
        sums = self.query_one("#sums", OptionList)
        found = fitting(words)
        sums.set_options(Option(_row(each), id=each.name) for each in found)
        sums.highlighted = 0 if found else None
        if not found:
            sums.add_option(Option(plain("No sum fits these words."), disabled=True))
        self._keys(_PICKING)

    def _work_out(self, asking: Asking) -> None:
        """Show inputs and result as far as they are known."""
        self._done = None
        try:
            if asking.is_complete:
                self._done = asking.answered()
            lines = _lines(asking, self._done, self._system)
        except (SumRefused, ReadingRefused) as error:
            lines = [Line("", str(error), "warning")]
        self._text(lines)
        typing = _TYPING + (_NOTE if self._done else "")
        self._keys(typing if self._is_asked else _DONE)

    def _text(self, lines: list[Line]) -> None:
        self.query_one("#sum-text", Paragraphs).update(all_labelled(lines))

    def _keys(self, text: str) -> None:
        self._put("#sum-keys", plain(text, "dim"))

    # What is typed

    @on(Input.Changed, "#sum-line")
    def follow(self, event: Input.Changed) -> None:
        """Fewer sums, or the result with what stands in the line."""
        event.stop()
        self._trouble("")
        if self._asking is None:
            self._list(event.value)
        elif self._is_asked and event.value.strip():
            self._preview(self._asking, event.value)
        elif self._is_asked:
            self._work_out(self._asking)

    def _preview(self, asking: Asking, typed: str) -> None:
        """Half a number is no mistake yet, but there is no result until it can be read."""
        try:
            self._work_out(asking.take(typed))
        except ReadingRefused:
            self._done = None
            self._text(_lines(asking, None, self._system))
            self._keys(_TYPING)

    @on(Input.Submitted, "#sum-line")
    def take_line(self, event: Input.Submitted) -> None:
        """Pick the marked sum, or go on to the next input."""
        event.stop()
        if self._asking is None:
            self._pick()
            return
        try:
            self._asking = self._asking.take(event.value)
        except ReadingRefused as error:
            self._trouble(str(error))
            return
        self._show()

    def _pick(self) -> None:
        sums = self.query_one("#sums", OptionList)
        if sums.highlighted is None:
            return
        name = sums.get_option_at_index(sums.highlighted).id
        if name is not None:
            self._asking = Asking(SUMS[name], self._system)
            self._show()

    @on(OptionList.OptionSelected, "#sums")
    def pick_by_mouse(self, event: OptionList.OptionSelected) -> None:
        """Picked with the mouse."""
        event.stop()
        self._pick()

    def on_key(self, event: events.Key) -> None:
        """At the end letters act: nothing is typed any more."""
        if self._asking is None or self._is_asked:
            return
        if event.key == "enter":
            event.stop()
            self._asking = None
            self._show()
        elif event.key == "n":
            event.stop()
            self.action_add_note()

    def action_move(self, rows: int) -> None:
        """Move the mark in the list, or the text."""
        sums = self.query_one("#sums", OptionList)
        if self._asking is not None:
            result = self.query_one("#sum-result", VerticalScroll)
            result.scroll_relative(y=rows, animate=False)
        elif sums.highlighted is not None:
            last = sums.option_count - 1
            sums.highlighted = max(0, min(last, sums.highlighted + rows))

    def action_page(self, pages: int) -> None:
        """The same by as much as can be seen at once."""
        shown = "#sums" if self._asking is None else "#sum-result"
        self.action_move(pages * max(1, self.query_one(shown).size.height))

    def action_go_back(self) -> None:
        """To the input before, to the list, or out."""
        if self._asking is None:
            self.dismiss(None)
            return
        self._asking = self._asking.back() if self._asking.passed else None
        self._show()

    def action_add_note(self) -> None:
        """Hand the result over as a note."""
        if self._done is not None:
            self.dismiss(note_text(self._done, self._system))


def _lines(asking: Asking, done: Answered | None, system: UnitSystem) -> list[Line]:
    """The result first, so that it stands still while inputs are added below it."""
    if done is None:
        lacking = asking.sum.lacking(asking.given)
        needed = [Line("Still needed", lacking)] if lacking else []
        given = given_lines(asking.sum, asking.given, system)
        return [*needed, *given, *basis_lines(asking.sum)]
    given = given_lines(done.sum, done.given, system)
    return [*found_lines(done, system), *given, *basis_lines(done.sum, done.remarks)]


def _row(the_sum: Sum) -> Content:
    return beside(plain(f"{the_sum.name:20}", "label"), plain(the_sum.title))
