"""The baseline of every screen: about the least form that Textual can show, and nothing behind it.

Run as a script; it imports nothing of the program.
"""

from textual.app import App, ComposeResult
from textual.containers import Horizontal
from textual.widgets import Footer, Header, Input, Static


class BareForm(App[None]):
    """A header, two panes, a line to type in, a footer."""

    ENABLE_COMMAND_PALETTE = False
    TITLE = "bare form"
    CSS = "Horizontal { height: 1fr; } Static { width: 1fr; height: 1fr; }"
    BINDINGS = [("ctrl+q", "quit", "Quit")]

    def compose(self) -> ComposeResult:
        """The form."""
        yield Header()
        with Horizontal():
            yield Static("left pane")
            yield Static("right pane")
        yield Input(placeholder="type here")
        yield Footer()


if __name__ == "__main__":
    BareForm().run()
