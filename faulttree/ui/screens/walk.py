"""The walk: one step, its bands as a scale, one line to answer in, the path beside it."""

from collections.abc import Callable
from typing import ClassVar

from textual import on
from textual.app import ComposeResult
from textual.binding import BindingType
from textual.containers import Horizontal, Vertical, VerticalScroll
from textual.content import Content
from textual.screen import Screen
from textual.widgets import Footer, Input, OptionList, Static

from faulttree.core.tree import Conclude, Measure, Observe, WorkOut
from faulttree.core.walk.asks import Ask, AskKind, text_for
from faulttree.core.walk.events import Answer, Complaint
from faulttree.core.walk.path import Visit
from faulttree.core.walk.respond import Confirm, NeedsReason, Recorded, Refused
from faulttree.files.shop import shop_instruments
from faulttree.render import answers, scale
from faulttree.render import step as step_text
from faulttree.render.line import Line
from faulttree.render.preview import preview_reading
from faulttree.render.report_markdown import report_markdown
from faulttree.session import Outcome, Session
from faulttree.ui.commands import WALK_COMMANDS, help_text
from faulttree.ui.screens.dialogs import ChoiceDialog, ConfirmDialog, PageScreen, TextDialog
from faulttree.ui.widgets.answer_input import AnswerInput
from faulttree.ui.widgets.option_rows import AnswerOptions
from faulttree.ui.words import all_labelled, beside, joined, plain, rows

Act = Callable[[bool, str], Outcome]

_WIDE = 110
"""Columns from which the path stands beside the step."""
_TALL = 34
"""Rows from which reasons and band meanings stand below the step without being asked for."""
_SIDE_WIDTH = 42
"""Columns of the path, as in app.tcss."""

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
    BINDINGS: ClassVar[list[BindingType]] = [c.binding for c in WALK_COMMANDS]

    def __init__(self, session: Session) -> None:
        super().__init__()
        self._session = session
        self._ask: Ask = session.ask
        self._said = "\n".join(session.found)
        self._said_tone = "warning"
        self._last: Visit | None = None

    def compose(self) -> ComposeResult:
        """Title and complaint state; step and path; scale, message and answer line; keys."""
        with Horizontal(id="head"):
            yield Static(id="title")
            yield Static(id="complaint")
        with Horizontal(id="middle"):
            with Vertical(id="work"):
                yield Static(id="last")
                with VerticalScroll(id="step", can_focus=False):
                    yield Static(id="step-text")
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
        self._ask = session.ask
        state, at, ask = session.state, session.position, self._ask
        step = state.tree.steps[ask.step_id]
        number = len(at.path) + 1
        changing = "Changing: " if session.is_changing else f"Step {number}: "
        title = answers.title(state, ask.step_id)
        if isinstance(step, Conclude):
            title = f"{answers.result_word(step)}: {title}"
        self.query_one("#title", Static).update(plain(changing + title, "title"))
        self._show_complaint()
        self._show_last()
        self.query_one("#step-text", Static).update(self._step_content(step))
        self.query_one("#step", VerticalScroll).scroll_home(animate=False)
        self._show_scale()
        self._show_message()
        self._show_question(ask)
        self._show_path()

    def _step_content(self, step: object) -> Content:
        state, ask, now = self._session.state, self._ask, self._session.now
        if ask.kind is AskKind.REPAIR and isinstance(step, Conclude):
            return all_labelled(step_text.repair_lines(state, step))
        lines = step_text.step_lines(state, ask.step_id, now)
        if self.app.size.height >= _TALL and not isinstance(step, Conclude):
            lines = [*lines, Line("", ""), *step_text.why_lines(state, ask.step_id)]
            if isinstance(step, Measure | WorkOut):
                lines.extend([Line("", ""), *step_text.band_lines(state, step)])
        return all_labelled(lines)

    def _show_complaint(self) -> None:
        complaint = self._session.state.complaint
        how = f" by {complaint.how}" if complaint.how else ""
        tone = "warning" if not complaint.complaint.shows else "good"
        text = f"Complaint [c]: {complaint.complaint.value.upper()}{how}"
        self.query_one("#complaint", Static).update(plain(text[:60], tone))

    def _show_last(self) -> None:
        last = self.query_one("#last", Static)
        visit = self._last
        last.display = visit is not None
        if visit is None:
            return
        state = self._session.state
        tone = visit.speaks.value if visit.speaks else "plain"
        parts = [
            plain("Before: ", "dim"),
            plain(f"{answers.reading_text(state, visit)}: "),
            plain(f"{answers.band_text(visit)}. ", tone),
            plain(answers.meaning(state, visit), "dim"),
        ]
        if answers.warning(visit):
            parts.append(plain(f" ({answers.warning(visit)})", "warning"))
        last.update(beside(*parts))

    def _show_scale(self, typed: str = "") -> None:
        widget = self.query_one("#scale", Static)
        state, ask = self._session.state, self._ask
        step = state.tree.steps[ask.step_id]
        wanted = (AskKind.READING, AskKind.WORKED_OUT, AskKind.TOO_CLOSE)
        if not isinstance(step, Measure | WorkOut) or ask.kind not in wanted:
            widget.display = False
            return
        mark, edges, said = None, step_text.current_edges(state, step), ""
        pending = self._session.position.pending
        if isinstance(step, WorkOut) and ask.kind is AskKind.WORKED_OUT:
            judgement, _ = step_text.preview(state, ask.step_id, step)
            mark = step_text.mark_of(state, step, judgement)
            said = f"Cannot be worked out: {judgement.trouble}" if judgement.trouble else ""
        elif isinstance(step, Measure) and typed:
            seen = preview_reading(state, step, typed)
            said = seen.text and f"Understood: {seen.text}"
            if seen.judgement:
                mark = step_text.mark_of(state, step, seen.judgement, seen.digit)
        elif pending and pending.judgement and ask.kind is AskKind.TOO_CLOSE:
            edges = pending.judgement.edges or edges
            mark = step_text.mark_of(
                state, step, pending.judgement, getattr(pending.answer, "digit", 0.0)
            )
        drawn = step_text.drawn_bands(state, step, edges)
        width = max(20, self._work_width() - 2)
        widget.display = True
        picture = rows(scale.draw(drawn, width, mark))
        if mark is None:
            picture = joined([picture, plain(""), plain("")])
        widget.update(picture)
        if said:
            self._say(said, "plain")
        elif isinstance(step, Measure) and ask.kind is AskKind.READING and not typed:
            self._show_message()

    def _work_width(self) -> int:
        """Columns of the step's part of the screen, also before it is laid out."""
        side = _SIDE_WIDTH if self.app.size.width >= _WIDE else 0
        return self.app.size.width - side

    def _show_message(self) -> None:
        self.query_one("#message", Static).update(plain(self._said, self._said_tone))

    def _say(self, text: str, tone: str) -> None:
        self.query_one("#message", Static).update(plain(text, tone))

    def _show_question(self, ask: Ask) -> None:
        line = self.query_one("#answer", AnswerInput)
        options = self.query_one("#options", AnswerOptions)
        notes = [plain(note, "dim") for note in ask.notes if note]
        hint = plain(f"  ({ask.hint})" if ask.hint else "", "dim")
        prompt = beside(plain(ask.prompt, "label"), hint)
        self.query_one("#prompt", Static).update(joined([*notes, prompt]))
        chooses = bool(ask.options)
        options.display, line.display = chooses, not chooses
        options.show(ask.options)
        line.takes_words = ask.kind is AskKind.VEHICLE_TEXT
        line.placeholder = "" if line.takes_words else "type the reading, then Enter"
        line.disabled = ask.kind is AskKind.NOTHING
        line.value = ""
        if ask.kind is not AskKind.NOTHING:
            (options if chooses else line).focus()
        self.refresh_bindings()

    def _show_path(self) -> None:
        path = self.query_one("#path", OptionList)
        state = self._session.state
        path.set_options(
            beside(
                plain(f"{n}. {answers.title(state, v.step_id)}\n", "dim"),
                plain(f"   {answers.reading_text(state, v)}: "),
                plain(answers.band_text(v), v.speaks.value if v.speaks else "plain"),
                plain(" (clears nothing that comes and goes)", "warning")
                if v.clears_nothing_intermittent
                else plain(""),
            )
            for n, v in enumerate(self._session.position.path, 1)
        )
        path.highlighted = None
        path.scroll_end(animate=False)

    # What is answered

    @on(Input.Changed, "#answer")
    def preview(self, event: Input.Changed) -> None:
        """Show what is understood while it is typed."""
        event.stop()
        if self._ask.kind is AskKind.READING:
            self._show_scale(event.value)

    @on(Input.Submitted, "#answer")
    def take_line(self, event: Input.Submitted) -> None:
        """Answer with what was typed."""
        event.stop()
        text = event.value
        self._settle(
            lambda confirmed, reason: self._session.answer(text, confirmed=confirmed, reason=reason)
        )

    @on(OptionList.OptionSelected, "#options")
    def take_option(self, event: OptionList.OptionSelected) -> None:
        """Answer with an option picked by Enter or mouse."""
        event.stop()
        if event.option_id is not None:
            self._take_key(event.option_id)

    def on_key(self, event: object) -> None:
        """Answer with the key of an option."""
        character = getattr(event, "character", None)
        keys = {option.key for option in self._ask.options}
        if character in keys and self.query_one("#options", AnswerOptions).has_focus:
            event.stop()  # type: ignore[attr-defined]
            self._take_key(character)

    def _take_key(self, key: str) -> None:
        self._settle(
            lambda confirmed, reason: self._session.answer(key, confirmed=confirmed, reason=reason)
        )

    def _settle(self, act: Act, confirmed: bool = False, reason: str = "") -> None:
        """Carry an answer through the questions it raises."""
        outcome = act(confirmed, reason)
        if isinstance(outcome, Confirm):
            self.app.push_screen(
                ConfirmDialog(outcome.question),
                lambda yes: self._settle(act, True, reason) if yes else None,
            )
        elif isinstance(outcome, NeedsReason):
            self.app.push_screen(
                TextDialog(outcome.question),
                lambda text: self._settle(act, confirmed, text) if text else None,
            )
        elif isinstance(outcome, Refused):
            self._refused(outcome.message)
        else:
            self._recorded(outcome)

    def _refused(self, message: str) -> None:
        """Say why; what was typed stays in the line."""
        if self._session.ask == self._ask:
            self._say(message, "warning")
        else:
            self._said, self._said_tone = message, "warning"
            self.show_walk()

    def _recorded(self, outcome: Recorded) -> None:
        self._said, self._said_tone = "", "plain"
        answered = [e for e in outcome.events if isinstance(e, Answer)]
        if answered:
            self._last = self._visit_of(answered[-1])
        elif outcome.events:
            self._last = None
        self.show_walk()

    def _visit_of(self, event: Answer) -> Visit | None:
        at = self._session.position
        visits = [*at.path, *([at.pending] if at.pending else [])]
        return next((v for v in visits if v.answer.seq == event.seq), None)

    # Commands

    def action_go_back(self) -> None:
        """Withdraw the last answer."""
        outcome = self._session.go_back()
        if isinstance(outcome, Refused):
            self._say(outcome.message, "warning")
            return
        self._said, self._last = "", None
        self.show_walk()

    def action_change_answer(self) -> None:
        """Pick an earlier step and answer it again."""
        state = self._session.state
        visits = [v for v in self._session.position.path if isinstance(v.answer, Answer)]
        if not visits:
            self._say("There is no earlier answer to change.", "warning")
            return
        choices = [
            (v.step_id, "", f"{answers.title(state, v.step_id)}: {answers.reading_text(state, v)}")
            for v in reversed(visits)
        ]
        self.app.push_screen(ChoiceDialog("Which answer is to be changed", choices), self._change)

    def _change(self, step_id: str | None) -> None:
        if step_id is None:
            return
        outcome = self._session.begin_change(step_id)
        if isinstance(outcome, Refused):
            self._say(outcome.message, "warning")
            return
        self._last = None
        self.show_walk()
        self._say("Answer this step again; b leaves the old answer as it is.", "plain")

    def action_skip_step(self) -> None:
        """The step cannot be done."""
        self._settle(lambda _confirmed, reason: self._session.skip(reason))

    def action_add_note(self) -> None:
        """Write a note."""
        self._settle(lambda _confirmed, reason: self._session.add_note(reason))

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
            self._settle(lambda _c, reason: self._session.set_complaint(Complaint(name), reason))

    def action_measure_battery(self) -> None:
        """Record the battery voltage."""

        def measured(text: str | None) -> None:
            if text:
                self._settle(
                    lambda confirmed, _r: self._session.measure_battery(text, confirmed=confirmed)
                )

        self.app.push_screen(TextDialog("Battery voltage now, post to post [V]"), measured)

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
                self._settle(lambda _c, _r: self._session.choose_instrument(by_id[name]))
                if name
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
        step = state.tree.steps[step_id]
        if isinstance(step, Measure | WorkOut):
            text = all_labelled(step_text.band_lines(state, step))
        elif isinstance(step, Observe):
            text = joined(
                beside(plain(f"{o.name}: ", "label"), plain(text_for(state, o.means)))
                for o in step.outcomes
            )
        elif isinstance(step, Conclude):
            lines = [*step_text.conclusion_lines(state, step), *step_text.repair_lines(state, step)]
            text = all_labelled(lines)
        else:
            text = all_labelled(step_text.step_lines(state, step_id, self._session.now))
        self.app.push_screen(PageScreen(answers.title(state, step_id), text))

    def action_show_path(self) -> None:
        """The steps so far, as a page."""
        state = self._session.state
        parts = [
            beside(
                plain(f"{n}. {answers.title(state, v.step_id)}\n   ", "label"),
                plain(f"{answers.reading_text(state, v)}: "),
                plain(answers.band_text(v), v.speaks.value if v.speaks else "plain"),
                plain(f" {answers.warning(v)}", "warning"),
            )
            for n, v in enumerate(self._session.position.path, 1)
        ]
        self.app.push_screen(PageScreen("Path", joined(parts) if parts else plain("No step yet.")))

    def action_show_report(self) -> None:
        """The report as it stands."""
        text = report_markdown(self._session.state, self._session.id)
        self.app.push_screen(PageScreen(f"faulttree report {self._session.id}", plain(text)))

    def action_show_help(self) -> None:
        """The keys."""
        text = (
            "Type a reading and press Enter: 12.58, 11,6 V, 240mV, 4.7k, OL, 38 psi, 41F.\n"
            "While the line is empty, one letter does the rest:\n\n"
            f"{help_text()}\n\n"
            "Signs: + good, ? unclear, ! fault. Page Up and Page Down move the step's text.\n"
            "To mark text with the mouse, hold Shift."
        )
        self.app.push_screen(PageScreen("Keys", plain(text)))

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
        step = self._session.state.tree.steps[self._ask.step_id]
        self.query_one("#step-text", Static).update(self._step_content(step))
        self._show_scale(self.query_one("#answer", AnswerInput).value)
