"""Small windows: a text to give, a yes or no, a choice, a page to read."""

from collections.abc import Sequence
from typing import ClassVar, TypeVar

from textual import events
from textual.app import ComposeResult
from textual.binding import Binding, BindingType
from textual.containers import Vertical, VerticalScroll
from textual.content import Content
from textual.screen import ModalScreen
from textual.widgets import Input, OptionList, Static
from textual.widgets.option_list import Option

from faulttree.ui.widgets.paragraphs import Paragraphs
from faulttree.ui.words import beside, plain

_Result = TypeVar("_Result")


class _Dialog(ModalScreen[_Result]):
    """What all of them have: the program can be left from a dialog too."""

    BINDINGS: ClassVar[list[BindingType]] = [Binding("ctrl+q", "app.quit", show=False)]


class TextDialog(_Dialog[str | None]):
    """Asks for a line of text; None when left."""

    BINDINGS: ClassVar[list[BindingType]] = [Binding("escape", "leave", "Leave")]

    def __init__(self, question: str, value: str = "", trouble: str = "") -> None:
        """`value` stands in the line already; `trouble` says why it was not taken."""
        super().__init__()
        self._question = question
        self._value = value
        self._trouble = trouble

    def compose(self) -> ComposeResult:
        """Question above, line below."""
        with Vertical(classes="dialog"):
            yield Static(plain(self._question, "label"))
            if self._trouble:
                yield Static(plain(self._trouble, "warning"))
            yield Input(self._value, compact=True, id="dialog-line")
            yield Static(plain("Enter records it, Escape leaves", "dim"))

    def on_input_submitted(self, event: Input.Submitted) -> None:
        """Hand over what was typed."""
        event.stop()
        self.dismiss(event.value.strip() or None)

    def action_leave(self) -> None:
        """Leave without an answer."""
        self.dismiss(None)


class ConfirmDialog(_Dialog[bool]):
    """Asks once, yes or no; Escape is no."""

    BINDINGS: ClassVar[list[BindingType]] = [
        Binding("y", "answer(True)", "Yes"),
        Binding("n,escape", "answer(False)", "No"),
    ]

    def __init__(self, question: str) -> None:
        super().__init__()
        self._question = question

    def compose(self) -> ComposeResult:
        """The question and the two keys."""
        with Vertical(classes="dialog"):
            with VerticalScroll(classes="dialog-text"):
                yield Static(plain(self._question))
            yield OptionList(
                Option(plain("n  No"), id="no"),
                Option(plain("y  Yes"), id="yes"),
                compact=True,
                markup=False,
            )

    def on_mount(self) -> None:
        """No is the usual answer: Enter alone never records."""
        self.query_one(OptionList).focus()

    def on_option_list_option_selected(self, event: OptionList.OptionSelected) -> None:
        """Picked with Enter or the mouse."""
        event.stop()
        self.dismiss(event.option_id == "yes")

    def action_answer(self, yes: bool) -> None:
        """Answered with a letter."""
        self.dismiss(yes)


class ChoiceDialog(_Dialog[str | None]):
    """A choice by one key, by arrow keys and Enter, or by mouse; None when left."""

    BINDINGS: ClassVar[list[BindingType]] = [Binding("escape", "leave", "Leave")]

    def __init__(self, question: str, options: Sequence[tuple[str, str, str]]) -> None:
        """`options` are (id, key, label); a key may be empty."""
        super().__init__()
        self._question = question
        self._choices = options

    def compose(self) -> ComposeResult:
        """Question and choices."""
        with Vertical(classes="dialog"):
            yield Static(plain(self._question, "label"))
            yield OptionList(
                *(Option(self._label(key, label), id=name) for name, key, label in self._choices),
                compact=True,
                markup=False,
            )
            yield Static(plain("Escape leaves", "dim"))

    def on_mount(self) -> None:
        """The keyboard is at the choices."""
        self.query_one(OptionList).focus()

    def on_key(self, event: events.Key) -> None:
        """Pick by the key in front of a choice."""
        for name, key, _ in self._choices:
            if key and event.character == key:
                event.stop()  # the screen below must not take it for a command
                self.dismiss(name)
                return

    def on_option_list_option_selected(self, event: OptionList.OptionSelected) -> None:
        """Picked with Enter or the mouse."""
        event.stop()
        self.dismiss(event.option_id)

    def action_leave(self) -> None:
        """Leave without a choice."""
        self.dismiss(None)

    @staticmethod
    def _label(key: str, label: str) -> Content:
        return beside(plain(f"{key}  ", "label"), plain(label)) if key else plain(label)


class PageScreen(_Dialog[None]):
    """A page to read; any of Escape, Enter, q leaves."""

    BINDINGS: ClassVar[list[BindingType]] = [
        Binding("escape,enter,q,space", "leave", "Leave"),
        Binding("down,j", "scroll(1)", show=False),
        Binding("up,k", "scroll(-1)", show=False),
        Binding("pagedown", "scroll(10)", show=False),
        Binding("pageup", "scroll(-10)", show=False),
    ]

    def __init__(self, title: str, text: Content) -> None:
        super().__init__()
        self._title = title
        self._text = text

    def compose(self) -> ComposeResult:
        """Title and scrolling text."""
        with Vertical(classes="page"):
            yield Static(plain(self._title, "title"))
            with VerticalScroll(can_focus=False):
                yield Paragraphs(self._text)
            yield Static(plain("Escape, Enter or q leaves; arrows scroll", "dim"))

    def show(self, text: Content) -> None:
        """Another text in its place."""
        self.query_one(Paragraphs).update(text)

    def action_scroll(self, lines: int) -> None:
        """Move the page."""
        self.query_one(VerticalScroll).scroll_relative(y=lines, animate=False)

    def action_leave(self) -> None:
        """Back to the screen below."""
        self.dismiss(None)
