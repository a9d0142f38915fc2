"""Before a walk: which car, whose, and the complaint in the customer's own words."""

from typing import ClassVar

from textual import on
from textual.app import ComposeResult
from textual.binding import Binding, BindingType
from textual.containers import Horizontal, VerticalScroll
from textual.screen import Screen
from textual.widgets import Footer, Input, Static

from faulttree.ui.words import plain

FIELDS: tuple[tuple[str, str, str], ...] = (
    ("words", "Customer's words", "what, since when, how often, hot or cold, what cures it"),
    ("car", "Car", "make, model, year; empty takes the vehicle sheet's"),
    ("registration", "Registration or VIN", ""),
    ("odometer", "Odometer", ""),
    ("customer", "Customer", ""),
    ("technician", "Technician", ""),
    ("weather", "Weather, temperature", "dry, 24 C"),
)
"""Name of the intake's field, what is asked, an example."""


class BeginScreen(Screen[dict[str, str] | None]):
    """The intake. Everything may be left empty; Enter goes on, at the last line it begins."""

    BINDINGS: ClassVar[list[BindingType]] = [
        Binding("ctrl+b", "begin", "Begin"),
        Binding("down", "app.focus_next", "Next", show=False, priority=True),
        Binding("up", "app.focus_previous", "Before", show=False, priority=True),
        Binding("escape", "leave", "Leave"),
    ]

    def __init__(self, title: str, sheet: str, technician: str = "") -> None:
        super().__init__()
        self._title = title
        self._sheet = sheet
        self._technician = technician

    def compose(self) -> ComposeResult:
        """One line a field."""
        yield Static(plain(f"New case: {self._title}", "title"), classes="list-title")
        with VerticalScroll(id="begin", can_focus=False):
            yield Static(plain(f"Vehicle sheet: {self._sheet}"))
            for name, label, example in FIELDS:
                with Horizontal(classes="field"):
                    yield Static(plain(label, "label"))
                    value = self._technician if name == "technician" else ""
                    yield Input(value, placeholder=example, id=f"field-{name}", compact=True)
            yield Static(
                plain("\nEnter goes on; at the last line it begins. Ctrl+B begins now.", "dim")
            )
        yield Footer(compact=True, show_command_palette=False)

    def on_mount(self) -> None:
        """The customer's words come first."""
        self.query_one("#field-words", Input).focus()

    @on(Input.Submitted)
    def next_field(self, event: Input.Submitted) -> None:
        """Enter goes to the next line; the last one begins."""
        event.stop()
        if event.input.id == f"field-{FIELDS[-1][0]}":
            self.action_begin()
        else:
            self.focus_next()

    def action_begin(self) -> None:
        """Begin with what is filled in."""
        self.dismiss({name: self._value(name) for name, _, _ in FIELDS})

    def action_leave(self) -> None:
        """Back without a case."""
        self.dismiss(None)

    def _value(self, name: str) -> str:
        return self.query_one(f"#field-{name}", Input).value.strip()
