"""The path a walk has taken, and where it stands: both follow from the answers in force."""

from dataclasses import dataclass
from enum import StrEnum

from faulttree.core.tree import (
    AGAIN,
    Conclude,
    Do,
    Measure,
    Observe,
    Speaks,
    Step,
    WorkOut,
)
from faulttree.core.walk.events import (
    ActionDone,
    Answer,
    Concluded,
    Observed,
    OtherTestTaken,
    ReadingTaken,
    Skipped,
    WorkedOut,
)
from faulttree.core.walk.judge import Judgement, judge, references_of
from faulttree.core.walk.proving_run import proving_run
from faulttree.core.walk.state import WalkState


class Stage(StrEnum):
    """What a walk is waiting for at the step where it stands."""

    ANSWER = "answer"
    TOO_CLOSE = "too close to call"
    VERDICT = "verdict"
    PROOF = "proof"
    REPAIR = "repair"
    PROVING_RUN = "proving run"
    CLOSE = "close"
    CLOSED = "closed"


@dataclass(frozen=True, slots=True)
class Visit:
    """One step of the path, its answer, and what the answer means.

    Attributes:
        step_id, step: where.
        answer: the event in force.
        label: the band, the outcome or the exit taken.
        speaks: what the answer speaks for; None for actions and exits.
        judgement: for readings and worked-out values.
        target: the next step; None when the answer does not lead on yet.
        saw_complaint: the reading was taken while the complaint showed itself, or does not need
            it; for a worked-out value: all the readings in it were.
    """

    step_id: str
    step: Step
    answer: Answer | Concluded
    label: str
    speaks: Speaks | None
    judgement: Judgement | None
    target: str | None
    saw_complaint: bool = True

    @property
    def clears_nothing_intermittent(self) -> bool:
        """True for a good reading taken while the complaint did not show itself.

        It may rule out a permanent fault. It rules out none that comes and goes.
        """
        return self.speaks is Speaks.GOOD and not self.saw_complaint


@dataclass(frozen=True, slots=True)
class Position:
    """Where a walk stands.

    Attributes:
        step_id: the step.
        stage: what it is waiting for there.
        path: the steps that led there, first one first.
        pending: an answer recorded at this step that does not lead on yet.
    """

    step_id: str
    stage: Stage
    path: tuple[Visit, ...]
    pending: Visit | None = None


def position(state: WalkState) -> Position:
    """Follow the answers from the start of the tree to the step that waits for one."""
    step_id = state.tree.start
    path: list[Visit] = []
    passed: set[str] = set()
    while True:
        passed.add(step_id)
        step = state.tree.steps[step_id]
        if isinstance(step, Conclude):
            proof = state.proofs.get(step_id)
            if proof is None or proof.result != "failed" or step.prove is None:
                return Position(step_id, _stage_of_conclusion(state, step_id), tuple(path))
            path.append(_failed_proof(state, step_id, step))
            step_id = step.prove.fails.go
            continue
        answer = state.answers.get(step_id)
        if answer is None:
            return Position(step_id, Stage.ANSWER, tuple(path))
        visit = visit_of(state, step_id, answer)
        if visit.target is None or visit.target in passed:
            return Position(step_id, _waiting(visit), tuple(path), visit)
        path.append(visit)
        step_id = visit.target


def visit_of(state: WalkState, step_id: str, answer: Answer) -> Visit:
    """What an answer to a step means and where it leads."""
    step = state.tree.steps[step_id]
    assert not isinstance(step, Conclude)
    if isinstance(answer, Skipped):
        return Visit(step_id, step, answer, "cannot be done", None, None, step.cannot.go)
    if isinstance(step, Measure | WorkOut):
        assert isinstance(answer, ReadingTaken | WorkedOut)
        return _visit_banded(state, step_id, step, answer)
    if isinstance(step, Observe):
        assert isinstance(answer, Observed)
        return _visit_observed(state, step_id, step, answer)
    assert isinstance(answer, ActionDone)
    return _visit_done(step_id, step, answer)


def _visit_banded(
    state: WalkState, step_id: str, step: Measure | WorkOut, answer: ReadingTaken | WorkedOut
) -> Visit:
    judgement = judge(state, step, answer)
    if judgement.implausible:
        target = _unless_again(step.implausible.go)
        return Visit(step_id, step, answer, "implausible", None, judgement, target)
    if judgement.value is None or judgement.placement is None:
        return Visit(step_id, step, answer, "cannot be judged", None, judgement, step.cannot.go)
    took_other_test = isinstance(state.decisions.get(answer.seq), OtherTestTaken)
    if took_other_test and step.other_test and judgement.is_too_close(step):
        return Visit(step_id, step, answer, "other test", None, judgement, step.other_test)
    band = judgement.band(step)
    if band is None:
        return Visit(step_id, step, answer, "too close to call", None, judgement, None)
    saw = saw_complaint(state, answer)
    return Visit(step_id, step, answer, band.name, band.is_, judgement, band.go, saw)


def _visit_observed(state: WalkState, step_id: str, step: Observe, answer: Observed) -> Visit:
    outcome = next((o for o in step.outcomes if o.name == answer.outcome), None)
    if outcome is None:
        target = _unless_again(step.implausible.go)
        return Visit(step_id, step, answer, "none of these", None, None, target)
    saw = saw_complaint(state, answer)
    return Visit(step_id, step, answer, outcome.name, outcome.is_, None, outcome.go, saw)


def _visit_done(step_id: str, step: Do, answer: ActionDone) -> Visit:
    if answer.went_wrong and step.implausible:
        target = _unless_again(step.implausible.go)
        return Visit(step_id, step, answer, "went wrong", None, None, target)
    return Visit(step_id, step, answer, "done", None, None, step.go)


def _failed_proof(state: WalkState, step_id: str, step: Conclude) -> Visit:
    assert step.prove is not None
    concluded = state.concluded[step_id]
    return Visit(step_id, step, concluded, "proof failed", None, None, step.prove.fails.go)


def _unless_again(target: str) -> str | None:
    return None if target == AGAIN else target


def _waiting(visit: Visit) -> Stage:
    return Stage.TOO_CLOSE if visit.label == "too close to call" else Stage.ANSWER


def _stage_of_conclusion(state: WalkState, step_id: str) -> Stage:
    step = state.tree.steps[step_id]
    assert isinstance(step, Conclude)
    if state.closed is not None:
        return Stage.CLOSED
    if step_id not in state.concluded:
        return Stage.VERDICT
    if step.prove and step_id not in state.proofs:
        return Stage.PROOF
    if step.repairs and step_id not in state.repairs:
        return Stage.REPAIR
    run = proving_run(state, step_id)
    return Stage.CLOSE if run is None or run.is_done else Stage.PROVING_RUN


def uncleared(path: tuple[Visit, ...]) -> tuple[Visit, ...]:
    """Good readings on the path that rule out nothing intermittent."""
    return tuple(visit for visit in path if visit.clears_nothing_intermittent)


def missing_evidence(state: WalkState, at: Position) -> tuple[str, ...]:
    """Readings that a verdict rests on and that this walk could not take.

    Evidence may lie on some of the paths only: what this path does not pass is not missing, as
    long as anything of it was measured.
    """
    step = state.tree.steps[at.step_id]
    if not isinstance(step, Conclude):
        return ()
    taken = {v.step_id for v in at.path if not isinstance(v.answer, Skipped)}
    skipped = {v.step_id for v in at.path if isinstance(v.answer, Skipped)}
    if taken.isdisjoint(step.evidence):
        return step.evidence
    return tuple(name for name in step.evidence if name in skipped)


def saw_complaint(state: WalkState, answer: ReadingTaken | Observed | WorkedOut) -> bool:
    """True when an answer was got while the complaint showed itself, or does not need it to."""
    step = state.tree.steps.get(answer.step)
    if isinstance(answer, WorkedOut):
        assert isinstance(step, WorkOut)
        seqs = (state.in_force(r.seq) for r in references_of(state, step, answer))
        inputs = (state.readings[seq][0] for seq in seqs if seq in state.readings)
        return all(saw_complaint(state, each) for each in inputs)
    if not isinstance(step, Measure | Observe) or step.set_up.complaint != "present":
        return True
    return answer.complaint.shows
