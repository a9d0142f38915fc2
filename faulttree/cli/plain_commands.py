"""The words that can be typed in the plain walk besides answers, and what each of them does."""

from collections.abc import Callable, Sequence

from faulttree.case_bench.why_not import CannotTellError
from faulttree.cli.output import has_all_letters
from faulttree.cli.plain_calc import PlainCalc
from faulttree.cli.plain_next import next_test_lines, take_next
from faulttree.cli.plain_print import WIDTH, PlainPrint
from faulttree.cli.plain_settling import PlainSettling
from faulttree.cli.plain_steps import PlainSteps
from faulttree.cli.plain_suspects import suspect_lines
from faulttree.core.instruments import Instrument
from faulttree.core.tree import Conclude, Measure, WorkOut
from faulttree.core.walk.events import INTAKE_LABELS
from faulttree.core.walk.on_gauges import on_gauges
from faulttree.core.walk.respond import Refused, read_complaint
from faulttree.render import answers
from faulttree.render import step as step_text
from faulttree.render.report_markdown import report_markdown
from faulttree.session import Session

HELP = """\
Type the reading and press Enter. Besides readings you can type:
  back                 take back the last answer (it stays in the record)
  change NAME          change an earlier answer or data; path shows the names
  skip REASON          this step cannot be done
  note TEXT            write a note into the record
  complaint STATE      present, absent, unknown, or provoked by WHAT
  tries 3 of 10        it showed in 3 of 10 tries, before the repair
  battery VOLTS        battery voltage now, post to post
  why                  why this test, and where its bands come from
  bands                what each band means and where it leads
  expected             what this step reads: healthy, and under each fault
  suspects NAME        what is suspect; with a name or number, why
  gauges               low and high side: expected, read, and the cycle
  next NUMBER          the best next tests; with NUMBER asks one aside
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


class PlainCommands:
    """What each word does in a walk; what stands behind the word is handed over as text."""

    def __init__(
        self,
        session: Session,
        shop: Sequence[Instrument],
        printed: PlainPrint,
        steps: PlainSteps,
        settling: PlainSettling,
    ) -> None:
        """`shop` are the instruments that can be changed to."""
        self._session, self._shop = session, shop
        self._print, self._steps, self._settle = printed, steps, settling.settle
        self._calc = PlainCalc(session.state.units)

    def back(self, _rest: str) -> None:
        """Withdraw the last answer."""
        self._steps.show_again()
        self._settle(lambda confirmed, _r: self._session.go_back(confirmed=confirmed))

    def change(self, rest: str) -> None:
        """Change the answer to an earlier step."""
        outcome = self._session.begin_change(rest)
        self._steps.show_again()
        if isinstance(outcome, Refused):
            self._print.say(outcome.message)
            self.path("")

    def skip(self, rest: str) -> None:
        """The step cannot be done."""
        self._settle(lambda _c, reason: self._session.skip(rest or reason))

    def note(self, rest: str) -> None:
        """Write a note."""
        self._settle(lambda _c, reason: self._session.add_note(rest or reason))

    def complaint(self, rest: str) -> None:
        """Record the state of the complaint."""
        read = read_complaint(rest)
        if isinstance(read, Refused):
            self._print.say(read.message)
            return
        complaint, how = read
        self._settle(lambda _c, reason: self._session.set_complaint(complaint, how or reason))
        self._steps.show_again()

    def tries(self, rest: str) -> None:
        """Record how often the complaint showed before the repair."""
        self._settle(lambda _c, reason: self._session.count_tries(rest or reason))

    def battery(self, rest: str) -> None:
        """Record the battery voltage."""
        self._settle(lambda confirmed, _r: self._session.measure_battery(rest, confirmed=confirmed))

    def why(self, _rest: str) -> None:
        """Why this test."""
        self._print.labelled(step_text.why_lines(self._session.state, self._session.ask.step_id))

    def bands(self, _rest: str) -> None:
        """What each band means."""
        step = self._session.state.tree.steps[self._session.ask.step_id]
        if isinstance(step, Measure | WorkOut):
            self._print.labelled(step_text.band_lines(self._session.state, step))
        else:
            self._print.say("This step has no bands.")

    def expected(self, _rest: str) -> None:
        """What the step reads, healthy and under each fault."""
        state, step_id = self._session.state, self._session.ask.step_id
        circuit = self._session.circuit
        why_not = circuit.why_nothing_expected(state, step_id)
        try:
            if not why_not:
                self._print.labelled(circuit.expected.lines(state, step_id))
        except CannotTellError as error:
            why_not = str(error)
        if why_not:
            self._print.say(why_not)

    def calc(self, rest: str) -> None:
        """Do a sum, or note the last one."""
        if rest.lower() == "note" and self._calc.note:
            self.note(self._calc.note)
        else:
            self._print.lines(self._calc.told(rest).splitlines())

    def suspects(self, rest: str) -> None:
        """What is suspect after the readings, or why one of them is."""
        self._print.labelled(suspect_lines(self._session, rest))

    def gauges(self, _rest: str) -> None:
        """Gauges and cycle, with what is expected today."""
        from faulttree.render.gauges_here import NO_GAUGES
        from faulttree.render.on_gauges import on_gauges_text

        on = on_gauges(self._session.state)
        if on is None:
            self._print.say(NO_GAUGES)
            return
        units, only_ascii = self._session.state.units, not has_all_letters()
        self._print.lines(on_gauges_text(on, units, WIDTH, only_ascii).splitlines())

    def next_test(self, rest: str) -> None:
        """The best next tests, or ask one of them aside from the tree."""
        if not rest:
            self._print.labelled(next_test_lines(self._session))
        elif why_not := take_next(self._session, rest):
            self._print.say(why_not)
        else:
            self._steps.show_again()

    def return_to_tree(self, _rest: str) -> None:
        """Leave a test aside unanswered."""
        if self._session.is_aside:
            self._session.return_to_tree()
            self._steps.show_again()
        else:
            self._print.say("This is the tree's own step.")

    def options(self, _rest: str) -> None:
        """The repair options."""
        step = self._session.state.tree.steps[self._session.ask.step_id]
        if isinstance(step, Conclude) and step.repairs:
            self._print.labelled(step_text.repair_lines(self._session.state, step))
        else:
            self._print.say("There are no repair options here.")

    def instrument(self, rest: str) -> None:
        """Use another instrument of the class this step asks for."""
        step = self._session.state.tree.steps[self._session.ask.step_id]
        fitting = {i.id: i for i in self._shop if i.class_ == getattr(step, "with_", None)}
        if rest in fitting:
            self._settle(lambda _c, _r: self._session.choose_instrument(fitting[rest]))
            self._steps.show_again()
        elif fitting:
            listed = "; ".join(f"{i.id} ({i.name})" for i in fitting.values())
            self._print.say(f"Type instrument and one of: {listed}")
        else:
            self._print.say("This step uses no instrument that could be changed.")

    def report(self, _rest: str) -> None:
        """The report as it stands."""
        say = self._session.circuit.report_lines(self._session.state)
        text = report_markdown(self._session.state, self._session.id, readings_say=say)
        self._print.lines(text.splitlines())

    def details(self, rest: str) -> None:
        """What is known of the car and its owner; with a name and a text, change it."""
        name, _, text = rest.partition(" ")
        if name:
            self._settle(lambda _c, _r: self._session.change_details({name.lower(): text.strip()}))
        for name, label in INTAKE_LABELS.items():
            self._print.say(f"{name}: {getattr(self._session.state.intake, name)} ({label})")

    def path(self, _rest: str) -> None:
        """The steps so far."""
        for number, visit in enumerate(self._session.position.path, 1):
            reading = answers.reading_text(self._session.state, visit)
            self._print.say(f"{number}. {visit.step_id}: {reading}: {answers.band_text(visit)}")
        for name, told in self._session.state.given.items():
            self._print.say(f"   {name}: {told.text or 'not known'} (vehicle data)")

    def again(self, _rest: str) -> None:
        """Show the step once more."""
        self._steps.show_again()

    def help(self, _rest: str) -> None:
        """What can be typed."""
        self._print.lines(HELP.splitlines())


COMMANDS: dict[str, Callable[[PlainCommands, str], None]] = {
    "back": PlainCommands.back,
    "change": PlainCommands.change,
    "skip": PlainCommands.skip,
    "note": PlainCommands.note,
    "complaint": PlainCommands.complaint,
    "tries": PlainCommands.tries,
    "battery": PlainCommands.battery,
    "why": PlainCommands.why,
    "bands": PlainCommands.bands,
    "expected": PlainCommands.expected,
    "suspects": PlainCommands.suspects,
    "gauges": PlainCommands.gauges,
    "next": PlainCommands.next_test,
    "return": PlainCommands.return_to_tree,
    "options": PlainCommands.options,
    "calc": PlainCommands.calc,
    "path": PlainCommands.path,
    "details": PlainCommands.details,
    "instrument": PlainCommands.instrument,
    "report": PlainCommands.report,
    "again": PlainCommands.again,
    "help": PlainCommands.help,
    "?": PlainCommands.help,
}
