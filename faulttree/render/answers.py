"""What an answer was and what it means, in a line or two: for screens, plain mode and reports."""

from faulttree.core.figures import show_measured
from faulttree.core.tree import Conclude, Measure, Observe, WorkOut
from faulttree.core.walk.car_words import text_for
from faulttree.core.walk.events import Observed, ReadingTaken, Skipped
from faulttree.core.walk.path import Visit
from faulttree.core.walk.state import WalkState
from faulttree.render.scale import SIGNS


def reading_text(state: WalkState, visit: Visit) -> str:
    """The reading of a visit as `12.48 V ±0.08 V`, the outcome, or what was done."""
    answer, step = visit.answer, visit.step
    if isinstance(answer, Skipped):
        return f"not done: {answer.reason}"
    if isinstance(step, Measure | WorkOut) and visit.judgement:
        return value_text(state, visit)
    if isinstance(answer, Observed):
        return answer.outcome or "none of these"
    return visit.label


def value_text(state: WalkState, visit: Visit) -> str:
    """The value of a visit with its limit of error."""
    step, judgement = visit.step, visit.judgement
    assert isinstance(step, Measure | WorkOut)
    if judgement is None or judgement.value is None:
        return "not worked out"
    digit = visit.answer.digit if isinstance(visit.answer, ReadingTaken) else 0.0
    value = judgement.value
    return show_measured(value.value, value.radius, step.quantity, state.units, digit or None)


def band_text(visit: Visit) -> str:
    """The band or outcome with its sign: `+ full feed`."""
    sign = SIGNS[visit.speaks] + " " if visit.speaks else ""
    return f"{sign}{visit.label}"


def meaning(state: WalkState, visit: Visit) -> str:
    """What the answer means on this car, or what to do about it; empty where nothing is said."""
    return text_for(state, _meaning_of_choice(visit) or _advice(visit))


def _meaning_of_choice(visit: Visit) -> str:
    step = visit.step
    if isinstance(step, Measure | WorkOut):
        return next((b.means for b in step.bands if b.name == visit.label), "")
    if isinstance(step, Observe):
        return next((o.means for o in step.outcomes if o.name == visit.label), "")
    return ""


def _advice(visit: Visit) -> str:
    """The author's advice for an answer that took an exit, and why a reading was not judged."""
    step = visit.step
    if isinstance(step, Conclude):
        return ""
    if visit.label in ("implausible", "none of these", "went wrong") and step.implausible:
        return step.implausible.advice or ""
    trouble = visit.judgement.trouble if visit.judgement else ""
    parts = [f"Not judged: {trouble}." if trouble else ""]
    if visit.label in ("cannot be done", "cannot be judged"):
        parts.append(step.cannot.advice or "")
    return " ".join(part for part in parts if part)


def title(state: WalkState, step_id: str) -> str:
    """A step's title with this car's names."""
    return text_for(state, state.tree.steps[step_id].title)


def warning(visit: Visit) -> str:
    """The mark of a good reading that clears nothing intermittent; empty otherwise."""
    if not visit.clears_nothing_intermittent:
        return ""
    complaint = getattr(visit.answer, "complaint", None)
    state = "not showing" if complaint is None else f"{complaint}"
    return f"complaint {state}: clears nothing that comes and goes"


def result_word(step: Conclude) -> str:
    """What kind of conclusion this is, in words."""
    return {
        "fault": "Fault",
        "no-fault-found": "No fault found",
        "protective": "Protective device at work",
        "refer": "Refer",
        "unresolved": "Not resolved",
    }[step.result]
