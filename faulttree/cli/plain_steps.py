"""What the plain walk shows of its steps, and of the answers to them."""

from faulttree.cli.plain_next import aside_line
from faulttree.cli.plain_print import WIDTH, PlainPrint
from faulttree.core.tree import Conclude, Measure, WorkOut
from faulttree.core.walk.asks import Ask, AskKind
from faulttree.core.walk.path import Visit
from faulttree.render import answers, scale
from faulttree.render import step as step_text
from faulttree.session import Session

_ASKED_BEFORE_THE_STEP = (AskKind.VEHICLE_TEXT, AskKind.VEHICLE_VALUE, AskKind.BATTERY)


class PlainSteps:
    """Shows each step of a walk once, until it is to be shown again."""

    def __init__(self, session: Session, printed: PlainPrint) -> None:
        self._session, self._print = session, printed
        self._shown: tuple[str, int, AskKind | None] | None = None

    def show_again(self) -> None:
        """Show the step once more when it is come to next."""
        self._shown = None

    def show(self, ask: Ask) -> None:
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
        self._print.lines(["", f"{where}: {title}  [{ask.step_id}]"])
        if self._session.is_aside:
            self._print.say(aside_line(self._session))

    def _show_step(self, ask: Ask) -> None:
        session = self._session
        state, step = session.state, session.state.tree.steps[ask.step_id]
        if isinstance(step, Conclude):
            self._print.lines([f"{answers.result_word(step)}."])
        self._print.labelled(step_text.step_lines(state, ask.step_id, session.now))
        if isinstance(step, WorkOut):
            self._show_worked_out(ask.step_id, step)
        elif isinstance(step, Measure):
            edges = step_text.current_edges(state, step)
            drawn = step_text.drawn_bands(state, step, edges)
            self._print.lines(scale.as_text(scale.draw(drawn, WIDTH)))

    def _show_worked_out(self, step_id: str, step: WorkOut) -> None:
        state = self._session.state
        judgement, _ = step_text.preview(state, step_id, step)
        drawn = step_text.drawn_bands(state, step, judgement.edges)
        mark = step_text.mark_of(state, step, judgement)
        self._print.lines(scale.as_text(scale.draw(drawn, WIDTH, mark)))
        if judgement.trouble:
            self._print.say(f"It cannot be worked out: {judgement.trouble}.")

    def tell(self, visit: Visit) -> None:
        """Tell what an answer was understood as and what it means."""
        state, step = self._session.state, visit.step
        if isinstance(step, Measure | WorkOut) and visit.judgement:
            mark = step_text.mark_of(
                state, step, visit.judgement, getattr(visit.answer, "digit", 0.0)
            )
            drawn = step_text.drawn_bands(state, step, visit.judgement.edges)
            self._print.lines(scale.as_text(scale.draw(drawn, WIDTH, mark)))
        text = f"{answers.reading_text(state, visit)}: {answers.band_text(visit)}."
        self._print.say(f"{text} {answers.meaning(state, visit)}")
        if answers.warning(visit):
            self._print.say(f"Note: {answers.warning(visit)}.")
