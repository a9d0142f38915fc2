"""The walk: one step, its bands as a scale, one line to answer in, the path beside it."""

from typing import ClassVar

from textual import events, on
from textual.app import ComposeResult
from textual.binding import BindingType
from textual.containers import Horizontal, Vertical, VerticalScroll
from textual.content import Content
from textual.screen import Screen
from textual.widgets import Footer, Input, OptionList, Static

from faulttree.core.walk.asks import Ask, AskKind
from faulttree.core.walk.events import Answer, Complaint
from faulttree.core.walk.respond import Recorded, Refused
from faulttree.files.shop import shop_instruments
from faulttree.render import answers
from faulttree.render import step as step_text
from faulttree.render.report_markdown import report_markdown
from faulttree.session import Session
from faulttree.ui.commands import WALK_COMMANDS
from faulttree.ui.screens import walk_text
from faulttree.ui.screens.dialogs import ChoiceDialog, PageScreen
from faulttree.ui.settling import Settling
from faulttree.ui.widgets.answer_input import AnswerInput
from faulttree.ui.widgets.option_rows import AnswerOptions
from faulttree.ui.widgets.paragraphs import Paragraphs
from faulttree.ui.words import all_labelled, plain

_WIDE = 110
"""Columns from which the path stands beside the step."""
_TALL = 34
"""Rows from which reasons and band meanings stand below the step without being asked for."""
_ROOMY = 30
"""Rows from which rows are kept free for what is shown while a reading is typed."""
_SIDE_WIDTH = 42
"""Columns of the path, as in app.tcss."""
_SIDE_MARGINS = 4
"""Of these, border, padding and scroll bar."""

_COMPLAINT_KEYS = (
    (Complaint.PRESENT, "p", "present: it shows itself now"),
    (Complaint.ABSENT, "a", "absent: everything works now"),
    (Complaint.PROVOKED, "b", "brought on: you made it show itself"),
    (Complaint.UNKNOWN, "u", "unknown"),
)


class WalkScreen(Screen[None]):
    """Follows a session: shows its question and hands it the answer."""

    HORIZONTAL_BREAKPOINTS = [(0, "-narrow"), (_WIDE, "-wide")]
    VERTICAL_BREAKPOINTS = [(0, "-low"), (30, "-tall")]
    BINDINGS: ClassVar[list[BindingType]] = [b for c in WALK_COMMANDS for b in c.bindings]

    def __init__(self, session: Session) -> None:
        super().__init__()
        self._session = session
        self._settling = Settling(self.app, self._recorded, self._refused)
        self._ask: Ask = session.ask
        self._said = "\n".join(session.found)
        self._said_tone = "warning"

    def compose(self) -> ComposeResult:
        """Title and complaint state; step and path; scale, message and answer line; keys."""
        with Horizontal(id="head"):
            yield Static(id="title")
            yield Static(id="complaint")
        with Horizontal(id="middle"):
            with Vertical(id="work"):
                yield Static(id="last")
                with VerticalScroll(id="step", can_focus=False):
                    yield Paragraphs(widget_id="step-text")
                yield Static(id="scale")
            with Vertical(id="side"):
                yield Static(plain("Path", "title"))
                yield OptionList(id="path", compact=True, markup=False)
        yield Static(id="message")
        yield Static(id="prompt")
        yield AnswerInput(id="answer", compact=True, select_on_focus=False)
        yield AnswerOptions()
        yield Footer(compact=True, show_command_palette=False)

    def on_mount(self) -> None:
        """Show where the walk stands."""
        self.query_one("#path", OptionList).can_focus = False
        self.show_walk()

    # What is shown

    def show_walk(self) -> None:
        """Bring every part of the screen to the session's state."""
        session = self._session
        if session.ask != self._ask:
            self.query_one("#answer", AnswerInput).value = ""
        self._ask = ask = session.ask
        state, path = session.state, session.position.path
        last = path[-1] if path and not session.is_changing else None
        self._put("#title", walk_text.title(state, ask, session.is_changing))
        self._put("#complaint", walk_text.complaint(state))
        self._put("#last", walk_text.before(state, last) if last else None)
        self._show_step()
        self.query_one("#step", VerticalScroll).scroll_home(animate=False)
        self._show_scale()
        self._show_question()
        side = self.query_one("#path", OptionList)
        side.set_options(walk_text.path_rows(state, path, _SIDE_WIDTH - _SIDE_MARGINS))
        side.highlighted = None
        side.scroll_end(animate=False)

    def _put(self, selector: str, text: Content | None) -> None:
        """Text into a part of the screen; without text the part takes no row."""
        part = self.query_one(selector, Static)
        part.display = text is not None
        part.update(text or "")

    def _show_step(self) -> None:
        state, in_full = self._session.state, self.app.size.height >= _TALL
        text = walk_text.instructions(state, self._ask, self._session.now, in_full)
        self.query_one("#step-text", Paragraphs).update(text)

    def _show_scale(self, typed: str = "") -> None:
        side = _SIDE_WIDTH if self.app.size.width >= _WIDE else 0
        width = max(20, self.app.size.width - side - 2)
        drawn = walk_text.bands(self._session.state, self._ask, typed, width, self._is_roomy)
        picture, said = drawn or (None, "")
        self._put("#scale", picture)
        if said:
            self._say(said)
        elif not typed:
            self._say(self._said, self._said_tone)

    @property
    def _is_roomy(self) -> bool:
        """True where rows are left free so that nothing moves while a reading is typed."""
        return self.app.size.height >= _ROOMY

    def _say(self, text: str, tone: str = "plain") -> None:
        keeps_row = self._is_roomy and self._ask.kind is AskKind.READING
        self._put("#message", plain(text, tone) if text or keeps_row else None)

    def _show_question(self) -> None:
        ask = self._ask
        line = self.query_one("#answer", AnswerInput)
        options = self.query_one("#options", AnswerOptions)
        self._put("#prompt", walk_text.prompt(ask))
        chooses, is_over = bool(ask.options), ask.kind is AskKind.NOTHING
        options.display, line.display = chooses, not chooses and not is_over
        options.show(ask.options)
        line.takes_words = ask.kind is AskKind.VEHICLE_TEXT
        line.placeholder = "" if line.takes_words else "type the reading, then Enter"
        if not is_over:
            (options if chooses else line).focus()
        self.refresh_bindings()

    # What is answered

    @on(Input.Changed, "#answer")
    def preview(self, event: Input.Changed) -> None:
        """Show what is understood while it is typed."""
        event.stop()
        if self._ask.kind is AskKind.READING:
            # The key is drawn first and the scale behind it: typing never waits for the picture.
            self.call_after_refresh(self._show_typed)

    def _show_typed(self) -> None:
        self._show_scale(self.query_one("#answer", AnswerInput).value)

    @on(Input.Submitted, "#answer")
    def take_line(self, event: Input.Submitted) -> None:
        """Answer with what was typed."""
        event.stop()
        text = event.value
        self._settling.settle(
            lambda confirmed, reason: self._session.answer(text, confirmed=confirmed, reason=reason)
        )

    @on(OptionList.OptionSelected, "#options")
    def take_option(self, event: OptionList.OptionSelected) -> None:
        """Answer with an option picked by Enter or mouse."""
        event.stop()
        if event.option_id is not None:
            self._take_key(event.option_id)

    def on_key(self, event: events.Key) -> None:
        """Answer with the key of an option."""
        keys = {option.key for option in self._ask.options}
        if event.character in keys and self.query_one("#options", AnswerOptions).has_focus:
            event.stop()
            self._take_key(event.character)

    def _take_key(self, key: str) -> None:
        self._settling.settle(
            lambda confirmed, reason: self._session.answer(key, confirmed=confirmed, reason=reason)
        )

    def _refused(self, message: str) -> None:
        """Say why; what was typed stays in the line while the question stands."""
        if self._session.ask == self._ask:
            self._say(message, "warning")
        else:
            self._said, self._said_tone = message, "warning"
            self.show_walk()

    def _recorded(self, outcome: Recorded) -> None:
        self._said, self._said_tone = "", "plain"
        if any(isinstance(event, Answer) for event in outcome.events):
            self.query_one("#answer", AnswerInput).value = ""
        self.show_walk()

    # Commands

    def action_go_back(self) -> None:
        """Withdraw the last answer."""
        self._settling.settle(lambda confirmed, _reason: self._session.go_back(confirmed=confirmed))

    def action_change_answer(self) -> None:
        """Pick an earlier answer, or vehicle data given, and answer again."""
        state, path = self._session.state, self._session.position.path
        choices = walk_text.changeable(state, path)
        if not choices:
            self._say("There is no earlier answer to change.", "warning")
            return
        self.app.push_screen(
            ChoiceDialog("Which answer is to be changed", [(n, "", text) for n, text in choices]),
            self._change,
        )

    def _change(self, name: str | None) -> None:
        if name is None:
            return
        outcome = self._session.begin_change(name)
        if isinstance(outcome, Refused):
            self._say(outcome.message, "warning")
            return
        self._said = "Answer this again; b leaves the old answer as it is."
        self._said_tone = "plain"
        self.show_walk()

    def action_skip_step(self) -> None:
        """The step cannot be done."""
        self._settling.settle(lambda _confirmed, reason: self._session.skip(reason))

    def action_add_note(self) -> None:
        """Write a note."""
        self._settling.settle(lambda _confirmed, reason: self._session.add_note(reason))

    def action_set_complaint(self) -> None:
        """Say whether the complaint shows itself."""
        self.app.push_screen(
            ChoiceDialog(
                "The complaint is now", [(c.value, key, text) for c, key, text in _COMPLAINT_KEYS]
            ),
            self._set_complaint,
        )

    def _set_complaint(self, name: str | None) -> None:
        if name is not None:
            self._settling.settle(
                lambda _c, reason: self._session.set_complaint(Complaint(name), reason)
            )

    def action_measure_battery(self) -> None:
        """Record the battery voltage."""
        self._settling.ask_for_words(
            "Battery voltage now, post to post [V]",
            lambda confirmed, text: self._session.measure_battery(text, confirmed=confirmed),
        )

    def action_choose_instrument(self) -> None:
        """Use another instrument of the class this step asks for."""
        step = self._session.state.tree.steps[self._ask.step_id]
        wanted = getattr(step, "with_", None)
        fitting = [i for i in shop_instruments() if i.class_ == wanted]
        if not fitting:
            self._say("This step uses no instrument that could be changed.", "warning")
            return
        by_id = {i.id: i for i in fitting}
        self.app.push_screen(
            ChoiceDialog("Instrument from here on", [(i.id, "", i.name) for i in fitting]),
            lambda name: (
                self._settling.settle(lambda _c, _r: self._session.choose_instrument(by_id[name]))
                if name
                else None
            ),
        )

    def action_change_details(self) -> None:
        """Tell anew what is known of the car and its owner."""
        from faulttree.ui.screens.begin import BeginScreen

        state = self._session.state
        sheet = state.sheet.name if state.sheet else "none"
        known = state.intake.model_dump()
        self.app.push_screen(
            BeginScreen("Details of car and owner", sheet, known),
            lambda told: (
                self._settling.settle(lambda _c, _r: self._session.change_details(told))
                if told
                else None
            ),
        )

    def action_show_why(self) -> None:
        """Why this test."""
        state, step_id = self._session.state, self._ask.step_id
        lines = step_text.why_lines(state, step_id)
        self.app.push_screen(PageScreen(answers.title(state, step_id), all_labelled(lines)))

    def action_show_details(self) -> None:
        """What each band means, or what each repair gives."""
        state, step_id = self._session.state, self._ask.step_id
        text = walk_text.details(state, step_id, self._session.now)
        self.app.push_screen(PageScreen(answers.title(state, step_id), text))

    def action_show_path(self) -> None:
        """The steps so far, as a page."""
        page = walk_text.path_page(self._session.state, self._session.position.path)
        self.app.push_screen(PageScreen("Path", page))

    def action_show_report(self) -> None:
        """The report as it stands."""
        text = report_markdown(self._session.state, self._session.id, width=64)
        self.app.push_screen(PageScreen(f"faulttree report {self._session.id}", plain(text)))

    def action_show_help(self) -> None:
        """The keys."""
        self.app.push_screen(PageScreen("Keys", walk_text.help_page()))

    def action_leave(self) -> None:
        """Leave; the case is kept."""
        self.app.leave_walk()  # type: ignore[attr-defined]

    def action_toggle_light(self) -> None:
        """Light or dark."""
        self.app.toggle_light()  # type: ignore[attr-defined]

    def key_pagedown(self) -> None:
        """Move the step's text."""
        self.query_one("#step", VerticalScroll).scroll_page_down(animate=False)

    def key_pageup(self) -> None:
        """Move the step's text back."""
        self.query_one("#step", VerticalScroll).scroll_page_up(animate=False)

    def on_resize(self) -> None:
        """The scale is drawn for the width there is."""
        self.call_after_refresh(self._fit)

    def _fit(self) -> None:
        self._show_step()
        self._show_typed()
        self.query_one("#options", AnswerOptions).fit()
