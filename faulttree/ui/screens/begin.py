"""Before a walk: which car, whose, and the complaint in the customer's own words."""

from collections.abc import Mapping
from typing import ClassVar

from textual import on
from textual.app import ComposeResult
from textual.binding import Binding, BindingType
from textual.containers import Horizontal, VerticalScroll
from textual.screen import Screen
from textual.widgets import Footer, Input, Static

from faulttree.core.walk.events import INTAKE_LABELS
from faulttree.ui.words import plain

_EXAMPLES = {
    "words": "what, since when, how often, hot or cold, what cures it",
    "car": "make, model, year; empty takes the vehicle sheet's",
    "weather": "dry, 24 C",
}
_LAST = tuple(INTAKE_LABELS)[-1]


class BeginScreen(Screen[dict[str, str] | None]):
    """The intake. Everything may be left empty; Enter goes on, at the last line it begins."""

    BINDINGS: ClassVar[list[BindingType]] = [
        Binding("ctrl+b", "begin", "Done"),
        Binding("down", "app.focus_next", "Next", show=False, priority=True),
        Binding("up", "app.focus_previous", "Before", show=False, priority=True),
        Binding("escape", "leave", "Leave"),
    ]

    def __init__(self, title: str, sheet: str, known: Mapping[str, str]) -> None:
        """`known` fills fields in by name."""
        super().__init__()
        self._title = title
        self._sheet = sheet
        self._known = known

    def compose(self) -> ComposeResult:
        """One line a field."""
        yield Static(plain(self._title, "title"), classes="list-title")
        with VerticalScroll(id="begin", can_focus=False):
            yield Static(plain(f"Vehicle sheet: {self._sheet}"))
            for name, label in INTAKE_LABELS.items():
                with Horizontal(classes="field"):
                    yield Static(plain(label, "label"))
                    value = self._known.get(name, "")
                    yield Input(
                        value, placeholder=_EXAMPLES.get(name, ""), id=f"field-{name}", compact=True
                    )
            yield Static(
                plain("\nEnter goes on; at the last line, or with Ctrl+B, you are done.", "dim")
            )
        yield Footer(compact=True, show_command_palette=False)

    def on_mount(self) -> None:
        """The customer's words come first."""
        self.query_one("#field-words", Input).focus()

    @on(Input.Submitted)
    def next_field(self, event: Input.Submitted) -> None:
        """Enter goes to the next line; the last one begins."""
        event.stop()
        if event.input.id == f"field-{_LAST}":
            self.action_begin()
        else:
            self.focus_next()

    def action_begin(self) -> None:
        """Begin with what is filled in."""
        self.dismiss({name: self._value(name) for name in INTAKE_LABELS})

    def action_leave(self) -> None:
        """Back without a case."""
        self.dismiss(None)

    def _value(self, name: str) -> str:
        return self.query_one(f"#field-{name}", Input).value.strip()
