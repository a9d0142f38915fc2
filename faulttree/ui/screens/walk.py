"""The walk: one step, its bands as a scale, one line to answer in, the path beside it."""

from textual import events, on
from textual.app import ComposeResult
from textual.containers import Horizontal, Vertical, VerticalScroll
from textual.content import Content
from textual.widgets import Footer, Input, OptionList, Static

from faulttree.core.walk.asks import AskKind
from faulttree.core.walk.events import Answer
from faulttree.core.walk.respond import Recorded
from faulttree.ui.screens import walk_text
from faulttree.ui.screens.walk_next import WalkNext
from faulttree.ui.widgets.answer_input import AnswerInput
from faulttree.ui.widgets.option_rows import AnswerOptions
from faulttree.ui.widgets.paragraphs import Paragraphs
from faulttree.ui.words import plain

_WIDE = 110
"""Columns from which the path stands beside the step."""
_TALL = 34
"""Rows from which reasons and band meanings stand below the step without being asked for."""
_ROOMY = 30
"""Rows from which rows are kept free for what is shown while a reading is typed."""
_AT_ONCE = "A number key records at once. Pick with a number, or with the arrow keys and Enter."
_OR_MEASURE = "Enter records this decision; a whole reading typed here is taken as a new one."
_OF_A_READING, _MEASURE_AGAIN = frozenset("0123456789.,+-"), "m"
_SIDE_WIDTH = 42
"""Columns of the path, as in app.tcss."""
_SIDE_MARGINS = 4
"""Of these, border, padding and scroll bar."""


class WalkScreen(WalkNext):
    """Follows a session: shows its question and hands it the answer."""

    HORIZONTAL_BREAKPOINTS = [(0, "-narrow"), (_WIDE, "-wide")]
    VERTICAL_BREAKPOINTS = [(0, "-low"), (30, "-tall")]
    _was_number = False
    _typed = ""

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
        self._ask, self._typed = session.ask, ""
        ask = self._ask
        state, path = session.state, session.position.path
        last = path[-1] if path and not session.is_changing else None
        self._put("#title", walk_text.title(state, ask, session.is_changing, session.is_aside))
        self._put("#complaint", walk_text.complaint(state, ask))
        before = walk_text.before(state, last) if last else None
        self._put("#last", walk_text.aside(state) if session.is_aside else before)
        self._show_step()
        self.query_one("#step", VerticalScroll).scroll_home(animate=False)
        self._show_scale()
        self._show_question()
        side = self.query_one("#path", OptionList)
        side.set_options(walk_text.path_rows(state, path, _SIDE_WIDTH - _SIDE_MARGINS))
        side.highlighted = None
        side.scroll_end(animate=False)
        self.follow_suspects()

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
            self.say(said)
        elif not typed:
            self.say(self._said, self._said_tone)

    @property
    def _is_roomy(self) -> bool:
        """True where rows are left free so that nothing moves while a reading is typed."""
        return self.app.size.height >= _ROOMY

    def say(self, text: str, tone: str = "plain") -> None:
        """Show a message above the question."""
        keeps_row = self._is_roomy and self._ask.kind is AskKind.READING
        self._put("#message", plain(text, tone) if text or keeps_row else None)

    def _show_question(self) -> None:
        ask = self._ask
        line = self.query_one("#answer", AnswerInput)
        options = self.query_one("#options", AnswerOptions)
        self._put("#prompt", walk_text.prompt(self._session.state, ask))
        chooses, is_over = bool(ask.options), ask.kind is AskKind.NOTHING
        options.display, line.display = chooses, not chooses and not is_over
        options.show(ask.options, is_marked=not self._was_number)
        self._was_number = False
        line.takes_words = ask.kind is AskKind.VEHICLE_TEXT
        line.placeholder = "" if line.takes_words else "type the reading, then Enter"
        self.focus_question()
        self.refresh_bindings()

    def focus_question(self) -> None:
        """Have the keys go to what is to be answered."""
        options, line = self.query_one("#options"), self.query_one("#answer")
        if options.display or line.display:
            (options if options.display else line).focus()

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
        """Answer with the key of an option; what is typed in the list beside goes to the line."""
        is_beside = self.leaves_suspects(event)
        options = self.query_one("#options", AnswerOptions)
        line = self.query_one("#answer", AnswerInput)
        is_option = event.character in {option.key for option in self._ask.options}
        if self._ask.kind is AskKind.TOO_CLOSE and event.character in _OF_A_READING:
            event.stop()
            self._type_anew(str(event.character))
        elif event.character and is_option and (is_beside or options.has_focus):
            event.stop()
            # Who ends a number with Enter, out of habit, shall not answer the next question by it.
            self._was_number = True
            self._take_key(event.character)
        elif event.key == "enter" and options.has_focus and options.highlighted is None:
            self.say(_AT_ONCE)
        elif event.character and is_beside and line.display:
            event.stop()
            line.insert_text_at_cursor(event.character)

    def _type_anew(self, character: str) -> None:
        """Mark an option by its number and leave it to Enter, for the digit may begin a reading
        typed anew; the next one shows that it does."""
        options = self.query_one("#options", AnswerOptions)
        self._typed += character
        keys = {option.key for option in self._ask.options}
        if self._typed in keys:
            options.highlighted = options.get_option_index(self._typed)
            options.focus()
            self.say(_OR_MEASURE)
        elif _MEASURE_AGAIN in keys:
            typed = self._typed
            self._take_key(_MEASURE_AGAIN)
            line = self.query_one("#answer", AnswerInput)
            line.value, line.cursor_position = typed, len(typed)

    def _take_key(self, key: str) -> None:
        self._settling.settle(
            lambda confirmed, reason: self._session.answer(key, confirmed=confirmed, reason=reason)
        )

    def refused(self, message: str) -> None:
        """Say why; what was typed stays in the line while the question stands."""
        if self._session.ask == self._ask:
            self.say(message, "warning")
        else:
            self._said, self._said_tone = message, "warning"
            self.show_walk()

    def recorded(self, outcome: Recorded) -> None:
        """Show where the walk stands now."""
        session = self._session
        self._said = walk_text.told(session.state, session.ask, outcome.events)
        self._said_tone = "plain"
        if any(isinstance(event, Answer) for event in outcome.events):
            self.query_one("#answer", AnswerInput).value = ""
        self.show_walk()

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
        self.follow_suspects()
