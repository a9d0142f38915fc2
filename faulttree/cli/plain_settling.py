"""How answers of the plain walk are settled: the questions they raise, and what is told then."""

from collections.abc import Callable

from faulttree.cli.plain_next import OFFER
from faulttree.cli.plain_print import PlainPrint
from faulttree.cli.plain_sources import Source
from faulttree.cli.plain_steps import PlainSteps
from faulttree.core.walk.events import Answer
from faulttree.core.walk.path import Visit, visit_of
from faulttree.core.walk.respond import Confirm, NeedsReason, Recorded, Refused
from faulttree.core.walk.run_words import just_counted
from faulttree.session import Outcome, Session


class PlainSettling:
    """Carries answers of a walk through, until they are recorded or not."""

    def __init__(
        self, session: Session, source: Source, printed: PlainPrint, steps: PlainSteps
    ) -> None:
        self._session, self._source = session, source
        self._print, self._steps = printed, steps

    def settle(self, act: Callable[[bool, str], Outcome]) -> None:
        """Carry an answer through the questions it raises, and tell what became of it."""
        ask, confirmed, reason = self._session.ask, False, ""
        while True:
            outcome = act(confirmed, reason)
            if isinstance(outcome, Confirm):
                reply = self._source(ask, f"{outcome.question} (yes/no) ")
                if reply is None or reply.strip().lower() not in ("y", "yes"):
                    self._print.say("Not recorded.")
                    return
                confirmed = True
            elif isinstance(outcome, NeedsReason):
                reply = self._source(ask, f"{outcome.question}: ")
                if reply is None or not reply.strip():
                    self._print.say("Not recorded.")
                    return
                reason = reply.strip()
            elif isinstance(outcome, Refused):
                self._print.say(outcome.message)
                return
            else:
                self._tell(outcome)
                return

    def _tell(self, outcome: Recorded) -> None:
        """Say what an answer was understood as and what it means."""
        for event in outcome.events:
            visit = self._visit_of(event) if isinstance(event, Answer) else None
            if visit is not None:
                self._steps.tell(visit)
        if any(isinstance(event, Answer) and event.aside for event in outcome.events):
            self._print.say(OFFER)
        counted = just_counted(self._session.state, outcome.events)
        if counted and counted not in self._session.ask.notes:
            self._print.say(counted)

    def _visit_of(self, event: Answer) -> Visit | None:
        at = self._session.position
        if event.aside and event.step in self._session.state.answers:
            return visit_of(self._session.state, event.step, event)
        visits = [*at.path, *([at.pending] if at.pending else [])]
        return next((v for v in visits if v.answer.seq == event.seq), None)
