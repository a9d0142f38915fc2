"""What is answered at a conclusion: verdict, proof, repair, proving run, end."""

from faulttree.core.tree import Conclude
from faulttree.core.walk.asks import Ask, Option
from faulttree.core.walk.car_words import still_fitted, text_for
from faulttree.core.walk.events import Closed, Concluded, CycleRun, ProofGiven, RepairChosen
from faulttree.core.walk.path import missing_evidence, position, uncleared
from faulttree.core.walk.results import Confirm, NeedsReason, Recorded, Result, Typed, by_option
from faulttree.core.walk.state import WalkState


@by_option
def verdict(state: WalkState, ask: Ask, typed: Typed, option: Option) -> Result:
    """A conclusion is accepted; a fault that was not earned asks first."""
    at = position(state)
    flagged, missing = uncleared(at.path), missing_evidence(state, at)
    step = state.tree.steps[at.step_id]
    assert isinstance(step, Conclude)
    if (flagged or missing) and step.result == "fault" and not typed.confirmed:
        return Confirm(_unearned_question(state, [v.step_id for v in flagged], missing))
    event = Concluded(
        step=at.step_id, uncleared=tuple(v.answer.seq for v in flagged), missing=missing
    )
    return Recorded((event,))


def _unearned_question(state: WalkState, flagged: list[str], missing: tuple[str, ...]) -> str:
    titles = {s: text_for(state, state.tree.steps[s].title) for s in (*flagged, *missing)}
    parts = []
    if flagged:
        listed = "; ".join(titles[s] for s in flagged)
        parts.append(
            f"Taken while the complaint did not show, so they clear nothing that comes and goes: "
            f"{listed}."
        )
    if missing:
        parts.append(f"Not measured on this path: {'; '.join(titles[s] for s in missing)}.")
    return " ".join(parts) + " Accept the conclusion all the same? The record will say so."


@by_option
def proof(state: WalkState, ask: Ask, typed: Typed, option: Option) -> Result:
    """How the proof of a verdict came out."""
    if option.key == "3" and not typed.reason.strip():
        return NeedsReason("Why was the proof not done?")
    result = {"1": "held", "2": "failed", "3": "not-done"}[option.key]
    reason = typed.reason.strip()
    event = ProofGiven.model_validate(
        {"event": "proof-result", "step": ask.step_id, "result": result, "reason": reason}
    )
    return Recorded((event,))


@by_option
def repair(state: WalkState, ask: Ask, typed: Typed, option: Option) -> Result:
    """The repair that was made, or that none was."""
    repair = None if option.key == "0" else option.label
    note = typed.reason.strip()
    return Recorded((RepairChosen(step=ask.step_id, repair=repair, note=note),))


@by_option
def cycle(state: WalkState, ask: Ask, typed: Typed, option: Option) -> Result:
    """One cycle of the proving run, or its end."""
    if option.key == "3":
        reason = "the complaint came back during the proving run"
        return Recorded((ProofGiven(step=ask.step_id, result="failed", reason=reason),))
    if option.key == "4":
        note = "closed before the proving run was complete"
        return _left_fitted(state, typed) or Recorded((Closed(note=note),))
    return Recorded(
        (CycleRun(step=ask.step_id, clean=option.key == "1", note=typed.reason.strip()),)
    )


@by_option
def close(state: WalkState, ask: Ask, typed: Typed, option: Option) -> Result:
    """The case is finished, or the proving run goes on."""
    if option.key in ("2", "3"):
        return Recorded((CycleRun(step=ask.step_id, clean=option.key == "3"),))
    return _left_fitted(state, typed) or Recorded((Closed(note=typed.reason.strip()),))


def _left_fitted(state: WalkState, typed: Typed) -> Confirm | None:
    """Asks once whether a case is closed with something of the walk still on the car."""
    if typed.confirmed or not state.fitted:
        return None
    listed = "; ".join(still_fitted(state))
    return Confirm(f"Still fitted on this car: {listed}. Close the case with it in place?")
