"""The walk line by line: for dumb terminals, screen readers, pipes and files of answers.

It does everything the full-screen walk does, with the same session behind it.
"""

from collections.abc import Sequence
from typing import TextIO

from faulttree.cli.plain_commands import COMMANDS, PlainCommands
from faulttree.cli.plain_print import WIDTH, PlainPrint
from faulttree.cli.plain_settling import PlainSettling
from faulttree.cli.plain_sources import Source
from faulttree.cli.plain_steps import PlainSteps
from faulttree.core.instruments import Instrument
from faulttree.core.walk.asks import Ask, AskKind
from faulttree.render.intro import intro_lines
from faulttree.render.plain_text import safe
from faulttree.session import Session


class PlainWalk:
    """One walk as lines of text.

    Attributes:
        commands: what each word does that can be typed besides answers.
    """

    def __init__(
        self, session: Session, source: Source, out: TextIO, shop: Sequence[Instrument] = ()
    ) -> None:
        """`shop` are the instruments that can be changed to."""
        self._session, self._source = session, source
        self._print = PlainPrint(out)
        self._steps = PlainSteps(session, self._print)
        self._settling = PlainSettling(session, source, self._print, self._steps)
        self.commands = PlainCommands(session, shop, self._print, self._steps, self._settling)

    def run(self) -> None:
        """Walk until the case is closed, the lines end, or the person leaves."""
        for found in self._session.found:
            self._print.say(found)
        if not self._session.state.answers:
            self._print.lines(["", self._session.state.tree.title])
            self._print.labelled(intro_lines(self._session.state))
        while True:
            ask = self._session.ask
            if ask.kind is AskKind.NOTHING:
                self._print.say(f"Case {self._session.id} is closed.")
                return
            self._steps.show(ask)
            typed = self._source(ask, self._question(ask))
            if typed is None or not self._take(ask, typed):
                self._print.say(f"Kept as {self._session.id}; faulttree resume {self._session.id}")
                return

    def _take(self, ask: Ask, line: str) -> bool:
        """Handle one line; False means leave."""
        text = line.strip()
        word, _, rest = text.removeprefix("/").partition(" ")
        is_command = text.startswith("/") or ask.kind is not AskKind.VEHICLE_TEXT
        if is_command and word.lower() in ("quit", "q"):
            return False
        command = COMMANDS.get(word.lower()) if is_command else None
        if command is not None:
            command(self.commands, rest.strip())
        else:
            self._answer(text)
        return True

    def _answer(self, text: str) -> None:
        self._settling.settle(
            lambda sure, why: self._session.answer(text, confirmed=sure, reason=why)
        )

    def _question(self, ask: Ask) -> str:
        for note in ask.notes:
            self._print.say(note)
        for option in ask.options:
            detail = f": {option.detail}" if option.detail else ""
            self._print.say(f"  {option.key}  {option.label}{detail}", "     ")
        complaint = self._session.state.complaint.complaint
        changing = "changing; " if self._session.is_changing else ""
        hint = f" ({ask.hint})" if ask.hint else ""
        stands, asked = f"{changing}complaint {complaint} |", safe(ask.prompt)
        question = f"{stands} {asked}{safe(hint)}: "
        if len(question) <= WIDTH:
            return question
        self._print.say(ask.prompt)
        return f"{stands}{safe(hint)}: "
