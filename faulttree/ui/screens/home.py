"""Home: find a complaint by words, or go on with a case."""

from typing import ClassVar

from textual import on, work
from textual.app import ComposeResult
from textual.binding import Binding, BindingType
from textual.containers import Horizontal, Vertical
from textual.content import Content
from textual.screen import Screen
from textual.widgets import Footer, Input, OptionList, Static
from textual.widgets.option_list import Option

from faulttree.render.plain_text import safe_line
from faulttree.ui.screens.home_data import (
    CaseSummary,
    HomeData,
    TreeEntry,
    load_home,
    nearest_complaint,
)
from faulttree.ui.words import beside, joined, plain

_MOST_ROWS = 200
"""Most trees listed at once: building rows is what would make a key wait."""


class HomeScreen(Screen[None]):
    """The first screen. Its lists are read after it is drawn."""

    HORIZONTAL_BREAKPOINTS = [(0, "-narrow"), (110, "-wide")]
    BINDINGS: ClassVar[list[BindingType]] = [
        Binding("enter", "open", "Begin or go on", priority=False),
        Binding("tab", "other_list", "Trees / cases", priority=True),
        Binding("down", "move(1)", "Down", show=False, priority=True),
        Binding("up", "move(-1)", "Up", show=False, priority=True),
        Binding("pagedown", "move(8)", show=False, priority=True),
        Binding("pageup", "move(-8)", show=False, priority=True),
        Binding("ctrl+l", "app.toggle_light", "Light / dark"),
        Binding("ctrl+t", "change_units", "Units"),
        Binding("f1", "show_help", "Help"),
        Binding("ctrl+q", "app.quit", "Quit"),
    ]

    def __init__(self) -> None:
        super().__init__()
        self._data = HomeData()
        self._in_cases = False

    def compose(self) -> ComposeResult:
        """A line to search with, trees, cases."""
        yield Static(plain("faulttree: what does the customer say?", "title"), classes="list-title")
        yield Input(
            placeholder="type words: cold, fan, click, no crank ...", id="search", compact=True
        )
        with Horizontal(id="home-lists"):
            with Vertical(id="tree-column"):
                yield OptionList(id="trees", compact=True, markup=False)
                yield Static(plain("Cases", "title"), classes="list-title")
                yield OptionList(id="cases", compact=True, markup=False)
            yield Static(id="about")
        yield Static(id="home-message")
        yield Footer(compact=True, show_command_palette=False)

    def on_mount(self) -> None:
        """The keyboard is at the search line; the lists follow."""
        self._say(None)
        for name in ("#trees", "#cases"):
            self.query_one(name, OptionList).can_focus = False
        self.query_one("#search", Input).focus()
        self.call_after_refresh(self.reload)

    def on_screen_resume(self) -> None:
        """Cases may have changed meanwhile."""
        if self._data.loaded:
            self.reload()

    @work(thread=True, exclusive=True)
    def reload(self) -> None:
        """Read trees and cases without making the keys wait."""
        data = load_home()
        self.app.call_from_thread(self._take, data)

    def _take(self, data: HomeData) -> None:
        self._data = data
        self._show_trees()
        self._show_cases()
        said = [plain(t, "warning") for t in data.troubles]
        if data.open_cases:
            cases = "case is" if data.open_cases == 1 else "cases are"
            said.append(plain(f"{data.open_cases} {cases} open: Tab and Enter go on with one."))
        self._say(joined(said) if said else None)

    def _say(self, text: Content | None) -> None:
        message = self.query_one("#home-message", Static)
        message.display = text is not None
        message.update(text or "")

    @on(Input.Changed, "#search")
    def filter(self, event: Input.Changed) -> None:
        """Show what fits the words so far."""
        event.stop()
        self._in_cases = False
        self._show_trees()
        self._show_cases()

    def _show_trees(self) -> None:
        words = self.query_one("#search", Input).value
        found = self._data.find(words)
        trees = self.query_one("#trees", OptionList)
        trees.set_options(Option(_tree_row(e, words), id=e.id) for e in found[:_MOST_ROWS])
        if len(found) > _MOST_ROWS:
            more = f"{len(found) - _MOST_ROWS} more: type more words."
            trees.add_option(Option(plain(more, "dim"), disabled=True))
        trees.highlighted = 0 if found and not self._in_cases else None
        if not found and self._data.loaded:
            trees.add_option(Option(plain("No tree fits these words."), disabled=True))
        self._show_about()

    def _show_cases(self) -> None:
        cases = self.query_one("#cases", OptionList)
        found = self._data.find_cases(self.query_one("#search", Input).value)
        cases.set_options(Option(_case_row(c), id=c.id) for c in found)
        cases.highlighted = 0 if found and self._in_cases else None
        if not found and self._data.loaded:
            none = "No case fits these words." if self._data.cases else "No case yet."
            cases.add_option(Option(plain(none, "dim"), disabled=True))

    def _show_about(self) -> None:
        entry = self._data.trees.get(self._chosen("#trees") or "")
        about = self.query_one("#about", Static)
        about.update(_about(entry) if entry else plain(""))

    def _chosen(self, list_id: str) -> str | None:
        options = self.query_one(list_id, OptionList)
        if options.highlighted is None or not options.option_count:
            return None
        return options.get_option_at_index(options.highlighted).id

    def action_move(self, lines: int) -> None:
        """Move the mark in the list that has it."""
        options = self.query_one("#cases" if self._in_cases else "#trees", OptionList)
        if options.option_count:
            at = options.highlighted or 0
            options.highlighted = max(0, min(options.option_count - 1, at + lines))
        self._show_about()

    def action_other_list(self) -> None:
        """Trees or cases."""
        self._in_cases = not self._in_cases and bool(self._data.cases)
        self._show_trees()
        self._show_cases()

    @on(Input.Submitted, "#search")
    def open_chosen(self, event: Input.Submitted) -> None:
        """Begin with the tree, or go on with the case, that is marked."""
        event.stop()
        self.action_open()

    def action_open(self) -> None:
        """Begin or go on."""
        name = self._chosen("#cases" if self._in_cases else "#trees")
        if name is not None:
            self._open(name, self._in_cases)

    @on(OptionList.OptionSelected)
    def picked(self, event: OptionList.OptionSelected) -> None:
        """Picked with the mouse."""
        event.stop()
        if event.option_id is not None:
            self._open(event.option_id, event.option_list.id == "cases")

    def _open(self, name: str, is_case: bool) -> None:
        if is_case:
            self.app.open_case(name)  # type: ignore[attr-defined]
        else:
            words = self.query_one("#search", Input).value.strip()
            self.app.begin_tree(name, words)  # type: ignore[attr-defined]

    def action_change_units(self) -> None:
        """The next of US, metric, both; it holds for cases begun from now on."""
        units = self.app.next_units()  # type: ignore[attr-defined]
        self._say(plain(f"New cases are walked in {_UNITS[units]}."))

    def action_show_help(self) -> None:
        """How the home screen works."""
        from faulttree.ui.screens.dialogs import PageScreen

        self.app.push_screen(PageScreen("Home", plain(_HELP)))


_UNITS = {
    "us": "US units (psi, °F, oz)",
    "metric": "metric units (kPa, °C, g)",
    "both": "both units; a bare number is taken in the US one",
}
_HELP = """\
Type what the customer says; the list shows the trees that fit, best first.
Arrow keys move, Enter begins a case with the marked tree.
Tab changes between trees and cases; Enter goes on with the marked case.
Ctrl+T changes the units of new cases, Ctrl+L light or dark, Ctrl+Q leaves.
 Nothing recorded is ever lost by leaving."""


def _tree_row(entry: TreeEntry, words: str) -> Content:
    return beside(
        plain(entry.title or entry.id, "label"),
        plain(f"  {entry.system}\n", "dim"),
        plain(f"   “{nearest_complaint(entry, words)}”", "dim"),
    )


def _case_row(case: CaseSummary) -> Content:
    state = "closed" if case.closed else "open"
    words = f"“{safe_line(case.words)}”" if case.words else "no words of the customer"
    below = plain(case.trouble, "warning") if case.trouble else plain(words, "dim")
    return beside(
        plain(f"{state:8}", "dim" if case.closed else "label"),
        plain(f"{safe_line(case.car)}  " if case.car else ""),
        plain(f"{case.id}\n   ", "dim" if case.car else "plain"),
        below,
    )


def _about(entry: TreeEntry) -> Content:
    return joined(
        [
            plain(entry.title, "title"),
            plain(f"{entry.system}, version {entry.version}", "dim"),
            plain(""),
            *(plain(f"“{c}”") for c in entry.complaint),
        ]
    )
