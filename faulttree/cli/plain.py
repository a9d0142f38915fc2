"""The walk line by line: for dumb terminals, screen readers, pipes and files of answers.

It does everything the full-screen walk does, with the same session behind it.
"""

import textwrap
from collections.abc import Callable, Sequence
from typing import TextIO

from faulttree.case_bench.why_not import CannotTellError
from faulttree.cli.plain_calc import PlainCalc
from faulttree.cli.plain_next import OFFER, aside_line, next_test_lines, take_next
from faulttree.cli.plain_sources import Source
from faulttree.cli.plain_suspects import suspect_lines
from faulttree.core.instruments import Instrument
from faulttree.core.tree import Conclude, Measure, WorkOut
from faulttree.core.walk.asks import Ask, AskKind
from faulttree.core.walk.events import INTAKE_LABELS, Answer
from faulttree.core.walk.path import Visit, visit_of
from faulttree.core.walk.respond import Confirm, NeedsReason, Recorded, Refused, read_complaint
from faulttree.core.walk.run_words import just_counted
from faulttree.render import answers, scale
from faulttree.render import step as step_text
from faulttree.render.intro import intro_lines
from faulttree.render.line import Line
from faulttree.render.plain_text import safe
from faulttree.render.report_markdown import report_markdown
from faulttree.session import Outcome, Session

WIDTH = 78
HELP = """\
Type the reading and press Enter. Besides readings you can type:
  back                 take back the last answer (it stays in the record)
  change NAME          change an earlier answer or vehicle data; path shows the names
  skip REASON          this step cannot be done
  note TEXT            write a note into the record
  complaint STATE      present, absent, unknown, or provoked by WHAT
  tries 3 of 10        it showed in 3 of 10 tries, before the repair
  battery VOLTS        battery voltage now, post to post
  why                  why this test, and where its bands come from
  bands                what each band means and where it leads
  expected             what this step reads: healthy, and under each fault
  suspects NAME        what is suspect after the readings; with a name or number, why
  next NUMBER          the best next tests; with NUMBER asks one aside from the tree
  return               back to the tree from a test aside
  path                 the steps so far
  calc NAME INPUT      a sum; calc alone lists them; calc note records the last
  instrument ID        use another instrument; without ID lists those that fit
  details NAME TEXT    car, customer and so on; without NAME lists them
  report               the report as it stands
  options              repair options at a conclusion
  again                show this step once more
  quit                 keep the case and leave; faulttree resume goes on
Where words are asked for, put a / before these: /back."""

_ASKED_BEFORE_THE_STEP = (AskKind.VEHICLE_TEXT, AskKind.VEHICLE_VALUE, AskKind.BATTERY)


class PlainWalk:
    """One walk as lines of text."""

    def __init__(
        self, session: Session, source: Source, out: TextIO, shop: Sequence[Instrument] = ()
    ) -> None:
        """`shop` are the instruments that can be changed to."""
        self._session = session
        self._shop = shop
        self._source = source
        self._out = out
        self._shown: tuple[str, int, AskKind | None] | None = None
        self._calc = PlainCalc(session.state.units)

    def run(self) -> None:
        """Walk until the case is closed, the lines end, or the person leaves."""
        for found in self._session.found:
            self._say(found)
        if not self._session.state.answers:
            self._lines(["", self._session.state.tree.title])
            for line in intro_lines(self._session.state):
                self._labelled(line)
        while True:
            ask = self._session.ask
            if ask.kind is AskKind.NOTHING:
                self._say(f"Case {self._session.id} is closed.")
                return
            self._show_step_once(ask)
            typed = self._source(ask, self._question(ask))
            if typed is None or not self._take(ask, typed):
                self._say(f"Kept as {self._session.id}; faulttree resume {self._session.id}")
                return

    def _take(self, ask: Ask, line: str) -> bool:
        """Handle one line; False means leave."""
        text = line.strip()
        word, _, rest = text.removeprefix("/").partition(" ")
        is_command = text.startswith("/") or ask.kind is not AskKind.VEHICLE_TEXT
        if is_command and word.lower() in ("quit", "q"):
            return False
        command = _COMMANDS.get(word.lower()) if is_command else None
        if command is not None:
            command(self, rest.strip())
        else:
            self._answer(ask, text)
        return True

    def _answer(self, ask: Ask, text: str) -> None:
        self._settle(
            ask,
            lambda confirmed, reason: self._session.answer(
                text, confirmed=confirmed, reason=reason
            ),
        )

    def _settle(self, ask: Ask, act: Callable[[bool, str], Outcome]) -> None:
        """Carry an answer through the questions it raises, and tell what became of it."""
        confirmed, reason = False, ""
        while True:
            outcome = act(confirmed, reason)
            if isinstance(outcome, Confirm):
                reply = self._source(ask, f"{outcome.question} (yes/no) ")
                if reply is None or reply.strip().lower() not in ("y", "yes"):
                    self._say("Not recorded.")
                    return
                confirmed = True
            elif isinstance(outcome, NeedsReason):
                reply = self._source(ask, f"{outcome.question}: ")
                if reply is None or not reply.strip():
                    self._say("Not recorded.")
                    return
                reason = reply.strip()
            elif isinstance(outcome, Refused):
                self._say(outcome.message)
                return
            else:
                self._tell(outcome)
                return

    def _tell(self, outcome: Recorded) -> None:
        """Say what an answer was understood as and what it means."""
        for event in outcome.events:
            visit = self._visit_of(event) if isinstance(event, Answer) else None
            if visit is not None:
                self._say_visit(visit)
        if any(isinstance(event, Answer) and event.aside for event in outcome.events):
            self._say(OFFER)
        counted = just_counted(self._session.state, outcome.events)
        if counted and counted not in self._session.ask.notes:
            self._say(counted)

    def _visit_of(self, event: Answer) -> Visit | None:
        at = self._session.position
        if event.aside and event.step in self._session.state.answers:
            return visit_of(self._session.state, event.step, event)
        visits = [*at.path, *([at.pending] if at.pending else [])]
        return next((v for v in visits if v.answer.seq == event.seq), None)

    def _say_visit(self, visit: Visit) -> None:
        state, step = self._session.state, visit.step
        if isinstance(step, Measure | WorkOut) and visit.judgement:
            mark = step_text.mark_of(
                state, step, visit.judgement, getattr(visit.answer, "digit", 0.0)
            )
            drawn = step_text.drawn_bands(state, step, visit.judgement.edges)
            self._lines(scale.as_text(scale.draw(drawn, WIDTH, mark)))
        text = f"{answers.reading_text(state, visit)}: {answers.band_text(visit)}."
        self._say(f"{text} {answers.meaning(state, visit)}")
        if answers.warning(visit):
            self._say(f"Note: {answers.warning(visit)}.")

    def _show_step_once(self, ask: Ask) -> None:
        """Show a step when it is come to, and again when what it lacked has been told.

        While vehicle data is asked for, its head is enough: the rest would name no places yet.
        """
        lacks = ask.kind if ask.kind in _ASKED_BEFORE_THE_STEP else None
        key = ask.step_id, len(self._session.position.path), lacks
        if self._shown == key:
            return
        self._shown = key
        self._show_head(ask)
        if lacks in (None, AskKind.BATTERY):
            self._show_step(ask)

    def _show_head(self, ask: Ask) -> None:
        number = len(self._session.position.path) + 1
        title = answers.title(self._session.state, ask.step_id)
        where = "Aside" if self._session.is_aside else f"Step {number}"
        self._lines(["", f"{where}: {title}  [{ask.step_id}]"])
        if self._session.is_aside:
            self._say(aside_line(self._session))

    def _show_step(self, ask: Ask) -> None:
        session = self._session
        state, step = session.state, session.state.tree.steps[ask.step_id]
        if isinstance(step, Conclude):
            self._lines([f"{answers.result_word(step)}."])
        for line in step_text.step_lines(state, ask.step_id, session.now):
            self._labelled(line)
        if isinstance(step, WorkOut):
            self._show_worked_out(ask.step_id, step)
        elif isinstance(step, Measure):
            edges = step_text.current_edges(state, step)
            drawn = step_text.drawn_bands(state, step, edges)
            self._lines(scale.as_text(scale.draw(drawn, WIDTH)))

    def _show_worked_out(self, step_id: str, step: WorkOut) -> None:
        state = self._session.state
        judgement, _ = step_text.preview(state, step_id, step)
        drawn = step_text.drawn_bands(state, step, judgement.edges)
        mark = step_text.mark_of(state, step, judgement)
        self._lines(scale.as_text(scale.draw(drawn, WIDTH, mark)))
        if judgement.trouble:
            self._say(f"It cannot be worked out: {judgement.trouble}.")

    def _question(self, ask: Ask) -> str:
        for note in ask.notes:
            self._say(note)
        for option in ask.options:
            detail = f": {option.detail}" if option.detail else ""
            self._wrapped(f"  {option.key}  {option.label}{detail}", "     ")
        complaint = self._session.state.complaint.complaint
        changing = "changing; " if self._session.is_changing else ""
        hint = f" ({ask.hint})" if ask.hint else ""
        return f"{changing}complaint {complaint} | {safe(ask.prompt)}{safe(hint)}: "

    def back(self, _rest: str) -> None:
        """Withdraw the last answer."""
        self._shown = None
        self._settle(
            self._session.ask, lambda confirmed, _r: self._session.go_back(confirmed=confirmed)
        )

    def change(self, rest: str) -> None:
        """Change the answer to an earlier step."""
        outcome = self._session.begin_change(rest)
        self._shown = None
        if isinstance(outcome, Refused):
            self._say(outcome.message)
            self.path("")

    def skip(self, rest: str) -> None:
        """The step cannot be done."""
        self._settle(self._session.ask, lambda _c, reason: self._session.skip(rest or reason))

    def note(self, rest: str) -> None:
        """Write a note."""
        self._settle(self._session.ask, lambda _c, reason: self._session.add_note(rest or reason))

    def complaint(self, rest: str) -> None:
        """Record the state of the complaint."""
        read = read_complaint(rest)
        if isinstance(read, Refused):
            self._say(read.message)
            return
        complaint, how = read
        self._settle(
            self._session.ask,
            lambda _c, reason: self._session.set_complaint(complaint, how or reason),
        )
        self._shown = None

    def tries(self, rest: str) -> None:
        """Record how often the complaint showed before the repair."""
        self._settle(
            self._session.ask, lambda _c, reason: self._session.count_tries(rest or reason)
        )

    def battery(self, rest: str) -> None:
        """Record the battery voltage."""
        self._settle(
            self._session.ask,
            lambda confirmed, _r: self._session.measure_battery(rest, confirmed=confirmed),
        )

    def why(self, _rest: str) -> None:
        """Why this test."""
        for line in step_text.why_lines(self._session.state, self._session.ask.step_id):
            self._labelled(line)

    def bands(self, _rest: str) -> None:
        """What each band means."""
        step = self._session.state.tree.steps[self._session.ask.step_id]
        if isinstance(step, Measure | WorkOut):
            for line in step_text.band_lines(self._session.state, step):
                self._labelled(line)
        else:
            self._say("This step has no bands.")

    def expected(self, _rest: str) -> None:
        """What the step reads, healthy and under each fault."""
        session = self._session
        why_not = session.why_nothing_expected()
        try:
            if not why_not:
                for line in session.expected.lines(session.state, session.ask.step_id):
                    self._labelled(line)
        except CannotTellError as error:
            why_not = str(error)
        if why_not:
            self._say(why_not)

    def calc(self, rest: str) -> None:
        """Do a sum, or note the last one."""
        if rest.lower() == "note" and self._calc.note:
            self.note(self._calc.note)
        else:
            self._lines(self._calc.told(rest).splitlines())

    def suspects(self, rest: str) -> None:
        """What is suspect after the readings, or why one of them is."""
        for line in suspect_lines(self._session, rest):
            self._labelled(line)

    def next_test(self, rest: str) -> None:
        """The best next tests, or ask one of them aside from the tree."""
        if not rest:
            for line in next_test_lines(self._session):
                self._labelled(line)
        elif why_not := take_next(self._session, rest):
            self._say(why_not)
        else:
            self._shown = None

    def return_to_tree(self, _rest: str) -> None:
        """Leave a test aside unanswered."""
        if self._session.is_aside:
            self._session.return_to_tree()
            self._shown = None
        else:
            self._say("This is the tree's own step.")

    def options(self, _rest: str) -> None:
        """The repair options."""
        step = self._session.state.tree.steps[self._session.ask.step_id]
        if isinstance(step, Conclude) and step.repairs:
            for line in step_text.repair_lines(self._session.state, step):
                self._labelled(line)
        else:
            self._say("There are no repair options here.")

    def instrument(self, rest: str) -> None:
        """Use another instrument of the class this step asks for."""
        step = self._session.state.tree.steps[self._session.ask.step_id]
        fitting = {i.id: i for i in self._shop if i.class_ == getattr(step, "with_", None)}
        if rest in fitting:
            self._settle(
                self._session.ask,
                lambda _c, _r: self._session.choose_instrument(fitting[rest]),
            )
            self._shown = None
        elif fitting:
            listed = "; ".join(f"{i.id} ({i.name})" for i in fitting.values())
            self._say(f"Type instrument and one of: {listed}")
        else:
            self._say("This step uses no instrument that could be changed.")

    def report(self, _rest: str) -> None:
        """The report as it stands."""
        say = self._session.what_readings_say()
        text = report_markdown(self._session.state, self._session.id, readings_say=say)
        self._lines(text.splitlines())

    def details(self, rest: str) -> None:
        """What is known of the car and its owner; with a name and a text, change it."""
        name, _, text = rest.partition(" ")
        if name:
            self._settle(
                self._session.ask,
                lambda _c, _r: self._session.change_details({name.lower(): text.strip()}),
            )
        for name, label in INTAKE_LABELS.items():
            self._say(f"{name}: {getattr(self._session.state.intake, name)} ({label})")

    def path(self, _rest: str) -> None:
        """The steps so far."""
        for number, visit in enumerate(self._session.position.path, 1):
            reading = answers.reading_text(self._session.state, visit)
            self._say(f"{number}. {visit.step_id}: {reading}: {answers.band_text(visit)}")
        for name, told in self._session.state.given.items():
            self._say(f"   {name}: {told.text or 'not known'} (vehicle data)")

    def again(self, _rest: str) -> None:
        """Show the step once more."""
        self._shown = None

    def help(self, _rest: str) -> None:
        """What can be typed."""
        self._lines(HELP.splitlines())

    def _labelled(self, line: Line) -> None:
        sign = "! " if line.tone in ("caution", "warning") else ""
        label = f"{line.label}: " if line.label else ""
        self._wrapped(f"{sign}{label}{line.text}", "    ")

    def _say(self, text: str) -> None:
        self._wrapped(text, "")

    def _wrapped(self, text: str, indent: str) -> None:
        for part in safe(text).split("\n"):
            wrapped = textwrap.wrap(part, WIDTH, subsequent_indent=indent, break_on_hyphens=False)
            self._lines(wrapped or [""])

    def _lines(self, lines: Sequence[str]) -> None:
        for line in lines:
            self._out.write(safe(line) + "\n")
        self._out.flush()


_COMMANDS: dict[str, Callable[[PlainWalk, str], None]] = {
    "back": PlainWalk.back,
    "change": PlainWalk.change,
    "skip": PlainWalk.skip,
    "note": PlainWalk.note,
    "complaint": PlainWalk.complaint,
    "tries": PlainWalk.tries,
    "battery": PlainWalk.battery,
    "why": PlainWalk.why,
    "bands": PlainWalk.bands,
    "expected": PlainWalk.expected,
    "suspects": PlainWalk.suspects,
    "next": PlainWalk.next_test,
    "return": PlainWalk.return_to_tree,
    "options": PlainWalk.options,
    "calc": PlainWalk.calc,
    "path": PlainWalk.path,
    "details": PlainWalk.details,
    "instrument": PlainWalk.instrument,
    "report": PlainWalk.report,
    "again": PlainWalk.again,
    "help": PlainWalk.help,
    "?": PlainWalk.help,
}
