"""The full-screen program: it opens screens, and it ends without losing anything."""

import signal
from asyncio import get_running_loop
from functools import partial
from typing import TYPE_CHECKING, ClassVar

from textual import events
from textual.app import App
from textual.binding import Binding, BindingType
from textual.theme import Theme

from faulttree import start
from faulttree.core.units import UnitSystem
from faulttree.files import places, settings
from faulttree.ui import terminal
from faulttree.ui.key_order import KeyOrder
from faulttree.ui.screens.dialogs import ChoiceDialog, PageScreen
from faulttree.ui.words import all_labelled, plain

if TYPE_CHECKING:
    from collections.abc import Sequence
    from pathlib import Path

    from textual.filter import LineFilter
    from textual.screen import Screen

    from faulttree.session import Session

LEFT_ABRUPTLY = 70
"""Exit code when the screen ended without being told to; what was recorded is kept."""

_DARK = Theme(
    name="workshop-dark",
    primary="#7fb2d9",
    secondary="#9aa7b1",
    success="#8cc98c",
    warning="#e3b341",
    error="#f08a7d",
    background="#14181c",
    surface="#1d232a",
    panel="#29323b",
    foreground="#e8ecef",
    dark=True,
)
_LIGHT = Theme(
    name="workshop-light",
    primary="#1f5f8b",
    secondary="#56636e",
    success="#22692f",
    warning="#7a5200",
    error="#a3231a",
    background="#fafafa",
    surface="#ffffff",
    panel="#e1e6ea",
    foreground="#15191d",
    dark=False,
)


class FaulttreeApp(App[int]):
    """Home, walk and what lies between."""

    CSS_PATH = "app.tcss"
    ENABLE_COMMAND_PALETTE = False
    TITLE = "faulttree"
    BINDINGS: ClassVar[list[BindingType]] = [Binding("ctrl+q", "quit", "Quit", show=False)]

    def __init__(self, session: "Session | None" = None) -> None:
        super().__init__()
        self._first = session
        self._settings = settings.load(places.settings_folder())
        self.left_normally = False
        self._keys = KeyOrder(self, super().on_event)
        self.register_theme(_DARK)
        self.register_theme(_LIGHT)
        self.set_reactive(App.theme, _DARK.name if self._settings.dark else _LIGHT.name)
        self.stylesheet.set_variables(self.get_css_variables())

    def get_default_screen(self) -> "Screen[None]":
        """The home screen, or the walk that was asked for."""
        if self._first is not None:
            return _walk_screen(self._first)
        from faulttree.ui.screens.home import HomeScreen

        return HomeScreen()

    async def on_event(self, event: events.Event) -> None:
        """Keys act in the order in which they were typed; all else goes its usual way."""
        if isinstance(event, events.Key | events.Paste) and not event.is_forwarded:
            await self._keys.take(event)
        else:
            await super().on_event(event)

    def get_line_filters(self) -> "Sequence[LineFilter]":
        """What every line goes through when it is drawn."""
        filters = super().get_line_filters()
        return [*filters, terminal.ConsoleLetters()] if terminal.is_text_console() else filters

    def action_help_quit(self) -> None:
        """Ctrl-C by habit: it ends nothing here, and says what does."""
        self.notify("Ctrl+Q leaves; all that was recorded is kept.", markup=False)

    def on_mount(self) -> None:
        """Signals; a walk begins with what to know before."""
        self._listen_for_signals()
        if self._first is not None:
            self._introduce(self._first)
        self.call_after_refresh(start.is_over)

    def begin_tree(self, name: str, words: str = "", vehicle: str | None = None) -> None:
        """Ask for the car, then begin a case with a tree.

        Args:
            name: id of the tree.
            words: what the customer said, as far as it was typed to find the tree.
            vehicle: file of the vehicle sheet; None for the only one beside the tree.
        """
        from faulttree.files.opening import SeveralSheetsError
        from faulttree.ui.beginning import open_for_beginning
        from faulttree.ui.screens.begin import BeginScreen

        try:
            opened, trouble = open_for_beginning(name, vehicle)
        except SeveralSheetsError as several:
            self._choose_sheet(name, words, several.sheets)
            return
        if opened is None:
            self.push_screen(PageScreen("This tree cannot be used", plain(trouble)))
            return
        sheet = opened.vehicle.document.name if opened.vehicle else "none: asked at each step"
        self.push_screen(
            BeginScreen(
                f"New case: {opened.tree.document.title}",
                sheet,
                {"words": words, "technician": self._settings.technician},
            ),
            lambda intake: self._begin(opened, intake),
        )

    def _choose_sheet(self, tree: str, words: str, sheets: "Sequence[Path]") -> None:
        from faulttree.files.opening import NO_SHEET

        choices = [(str(sheet), "", sheet.name) for sheet in sheets]
        choices.append((NO_SHEET, "", "none of these: what is needed is asked at its step"))
        self.push_screen(
            ChoiceDialog("Which car is it", choices),
            lambda chosen: self.begin_tree(tree, words, chosen) if chosen else None,
        )

    def _begin(self, opened: object, intake: dict[str, str] | None) -> None:
        from faulttree.files.opening import Opened
        from faulttree.ui.beginning import begin_case

        if intake is None:
            return
        assert isinstance(opened, Opened)
        session, trouble = begin_case(opened, intake, self._settings.units)
        if session is None:
            self.push_screen(PageScreen("The case cannot be begun", plain(trouble)))
            return
        if intake["technician"] != self._settings.technician:
            self._keep_settings(technician=intake["technician"])
        self._walk(session)

    def open_case(self, case_id: str) -> None:
        """Go on with a case."""
        from faulttree.ui.beginning import resume_case

        session, trouble = resume_case(case_id)
        if session is None:
            self.push_screen(PageScreen("This case cannot be opened", plain(trouble)))
            return
        self._walk(session)

    def _walk(self, session: "Session") -> None:
        self.push_screen(_walk_screen(session))
        self._introduce(session)

    def _introduce(self, session: "Session") -> None:
        from faulttree.render.intro import intro_lines

        if not session.state.answers and not session.state.given:
            lines = intro_lines(session.state)
            self.push_screen(PageScreen("Before you begin", all_labelled(lines)))

    def leave_walk(self) -> None:
        """Home again, or out when the walk was all that was asked for."""
        if self._first is not None:
            self.leave()
        else:
            self.pop_screen()

    async def action_quit(self) -> None:
        """Leave the program."""
        self.leave()

    def leave(self, code: int = 0) -> None:
        """End as told: the terminal is restored."""
        self.left_normally = True
        self.exit(code, return_code=code)

    def next_units(self) -> str:
        """Change the units of new cases, remembered; the new choice comes back."""
        order = list(UnitSystem)
        now = order[(order.index(self._settings.units) + 1) % len(order)]
        self._keep_settings(units=now)
        return now.value

    def toggle_light(self) -> None:
        """Light or dark, remembered."""
        self._keep_settings(dark=not self._settings.dark)
        self.theme = _DARK.name if self._settings.dark else _LIGHT.name

    action_toggle_light = toggle_light

    def _keep_settings(self, **changes: object) -> None:
        from contextlib import suppress
        from dataclasses import replace

        self._settings = replace(self._settings, **changes)  # type: ignore[arg-type]
        with suppress(OSError):
            settings.save(places.settings_folder(), self._settings)

    def _listen_for_signals(self) -> None:
        """Hang-up and termination end the program in order, with the terminal restored."""
        loop = get_running_loop()
        if not self.is_headless:
            hung_up = partial(loop.call_soon_threadsafe, self.leave, terminal.HUNG_UP)
            terminal.watch_for_hang_up(hung_up)
        for name in ("SIGTERM", "SIGHUP"):
            number = getattr(signal, name, None)
            if number is not None:
                try:
                    loop.add_signal_handler(number, self.leave, 128 + int(number))
                except (NotImplementedError, RuntimeError):
                    return


def _walk_screen(session: "Session") -> "Screen[None]":
    from faulttree.ui.screens.walk import WalkScreen

    return WalkScreen(session)


def run_home() -> int:
    """The home screen until the person leaves."""
    return _run(FaulttreeApp())


def run_walk(session: "Session") -> int:
    """One walk until the person leaves."""
    return _run(FaulttreeApp(session))


def _run(app: FaulttreeApp) -> int:
    terminal.tolerate_stray_bytes()
    with terminal.lasting_output():
        app.run(mouse=terminal.mouse_wanted())
    if not app.left_normally:
        return LEFT_ABRUPTLY
    return app.return_code or 0
