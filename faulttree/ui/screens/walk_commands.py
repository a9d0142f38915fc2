"""What one key does in the walk, besides answering: dialogs and pages over the step."""

from typing import ClassVar

from textual.binding import BindingType
from textual.screen import Screen

from faulttree.core.walk.asks import Ask
from faulttree.core.walk.events import Complaint
from faulttree.core.walk.on_gauges import on_gauges
from faulttree.core.walk.respond import TRIES_QUESTION, Recorded, Refused
from faulttree.files.shop import shop_instruments
from faulttree.render import answers
from faulttree.render import step as step_text
from faulttree.render.line import Line
from faulttree.session import Session
from faulttree.ui.commands import WALK_COMMANDS
from faulttree.ui.screens import walk_text
from faulttree.ui.screens.dialogs import ChoiceDialog, PageScreen
from faulttree.ui.screens.expected import ExpectedScreen
from faulttree.ui.screens.report import ReportScreen
from faulttree.ui.settling import Settling
from faulttree.ui.words import all_labelled

_COMPLAINT_KEYS = (
    (Complaint.PRESENT, "p", "present: it shows itself now"),
    (Complaint.ABSENT, "a", "absent: everything works now"),
    (Complaint.PROVOKED, "b", "brought on: you made it show itself"),
    (Complaint.UNKNOWN, "u", "unknown"),
)


class WalkCommands(Screen[None]):
    """The commands of a walk; the screen that shows it has the rest."""

    BINDINGS: ClassVar[list[BindingType]] = [b for c in WALK_COMMANDS for b in c.bindings]

    def __init__(self, session: Session) -> None:
        super().__init__()
        self._session = session
        self._settling = Settling(self.app, self.recorded, self.refused)
        self._ask: Ask = session.ask
        self._said = "\n".join(session.found)
        self._said_tone = "warning"

    def show_walk(self) -> None:
        """Bring every part of the screen to the session's state."""
        raise NotImplementedError

    def say(self, text: str, tone: str = "plain") -> None:
        """Show a message above the question."""
        raise NotImplementedError

    def recorded(self, outcome: Recorded) -> None:
        """Something is on disk."""
        raise NotImplementedError

    def refused(self, message: str) -> None:
        """Something was not taken; the message says why."""
        raise NotImplementedError

    def action_go_back(self) -> None:
        """Withdraw the last answer."""
        self._settling.settle(lambda confirmed, _reason: self._session.go_back(confirmed=confirmed))

    def action_change_answer(self) -> None:
        """Pick an earlier answer, or vehicle data given, and answer again."""
        state, path = self._session.state, self._session.position.path
        choices = walk_text.changeable(state, path)
        if not choices:
            self.say("There is no earlier answer to change.", "warning")
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
            self.say(outcome.message, "warning")
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

    def action_count_tries(self) -> None:
        """Record how often the complaint showed before the repair."""
        self._settling.ask_for_words(
            TRIES_QUESTION, lambda _c, text: self._session.count_tries(text)
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
            self.say("This step uses no instrument that could be changed.", "warning")
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
        if not self._session.circuit.why_no_next_tests(self._session.state):
            lines.append(Line("Another test", "a tells the best next tests from here"))
        self.app.push_screen(PageScreen(answers.title(state, step_id), all_labelled(lines)))

    def action_show_details(self) -> None:
        """What each band means, or what each repair gives."""
        state, step_id = self._session.state, self._ask.step_id
        text = walk_text.details(state, step_id, self._session.now)
        self.app.push_screen(PageScreen(answers.title(state, step_id), text))

    def action_show_expected(self) -> None:
        """What the step reads, healthy and under each fault."""
        why_not = self._session.circuit.why_nothing_expected(self._session.state, self._ask.step_id)
        if why_not:
            self.say(why_not, "warning")
        else:
            self.app.push_screen(ExpectedScreen(self._session))

    def action_show_gauges(self) -> None:
        """Gauges and cycle, with what is expected today."""
        from faulttree.ui.screens.gauges import NO_GAUGES, GaugesScreen

        if on_gauges(self._session.state) is None:
            self.say(NO_GAUGES, "warning")
        else:
            self.app.push_screen(GaugesScreen(self._session))

    def action_do_sum(self) -> None:
        """Do a sum; its result may become a note."""
        from faulttree.ui.screens.sums import SumsScreen

        self.app.push_screen(
            SumsScreen(self._session.state.units),
            lambda note: (
                self._settling.settle(lambda _c, _r: self._session.add_note(note)) if note else None
            ),
        )

    def action_show_path(self) -> None:
        """The steps so far, as a page."""
        page = walk_text.path_page(self._session.state, self._session.position.path)
        self.app.push_screen(PageScreen("Path", page))

    def action_show_report(self) -> None:
        """The report as it stands."""
        self.app.push_screen(ReportScreen(self._session))

    def action_show_help(self) -> None:
        """The keys."""
        self.app.push_screen(PageScreen("Keys", walk_text.help_page()))

    def action_leave(self) -> None:
        """Leave; the case is kept."""
        self.app.leave_walk()  # type: ignore[attr-defined]

    def action_toggle_light(self) -> None:
        """Light or dark."""
        self.app.toggle_light()  # type: ignore[attr-defined]
