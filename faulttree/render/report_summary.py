"""The first page of a report: what the customer asks, in the order in which it is asked."""

from collections.abc import Iterator

from faulttree.core.tree import Conclude
from faulttree.core.walk.car_words import still_fitted, text_for
from faulttree.core.walk.events import Skipped
from faulttree.core.walk.path import Position, uncleared
from faulttree.core.walk.proving_run import proving_run
from faulttree.core.walk.run_words import proves
from faulttree.core.walk.state import WalkState
from faulttree.render import answers
from faulttree.render.markdown_text import words
from faulttree.render.report_facts import accepted, asked, named, reading_and_band, times


def in_short(state: WalkState, at: Position) -> Iterator[str]:
    """Complaint, car, finding, what was done, what proves it, its limits, and what comes next."""
    yield "## In short"
    yield ""
    yield from _who(state)
    step = accepted(state, at)
    if step is None:
        yield _row("Found", f"no conclusion yet; it stands at {named(state, at.step_id)}")
    else:
        found = "Fault found" if step.result == "fault" else answers.result_word(step)
        yield _row(found, _finding(state, step))
    yield from _dropped(state, at)
    if step is not None:
        yield from _repair(state, at.step_id, step)
        yield from _proof(state, at.step_id, step)
        yield from _proving_run(state, at.step_id)
    yield from _limits(state, at)
    if step is not None:
        yield from _next(state, step)
    yield ""


def evidence(state: WalkState, at: Position) -> Iterator[str]:
    """The readings a conclusion rests on, and how it was proved."""
    step = accepted(state, at)
    lines = [*_readings_for(state, at, step), *_tests_for(state, at, step)] if step else []
    if lines:
        yield from ("## What the finding rests on", "", *lines, "")


def _readings_for(state: WalkState, at: Position, step: Conclude) -> Iterator[str]:
    for number, visit in enumerate(at.path, 1):
        if visit.step_id in step.evidence and not isinstance(visit.answer, Skipped):
            title = asked(words(answers.title(state, visit.step_id)))
            yield f"- Step {number}, {title} {reading_and_band(state, visit)}"


def _tests_for(state: WalkState, at: Position, step: Conclude) -> Iterator[str]:
    proof = state.proofs.get(at.step_id)
    if step.prove:
        label = "How it was proved" if proof and proof.result == "held" else "How to prove it"
        yield f"- {label}: {words(text_for(state, step.prove.how))}"
    if step.verify:
        yield f"- The proving run: {words(text_for(state, step.verify.how))}"


def _row(label: str, text: str) -> str:
    return f"- **{label}:** {text}"


def _who(state: WalkState) -> Iterator[str]:
    started = state.started
    if started is None:
        return
    intake = state.intake
    yield _row("Complaint", f"“{words(intake.words)}”" if intake.words else "not written down")
    odometer = f"odometer {intake.odometer}" if intake.odometer else ""
    car = (intake.car or started.vehicle_name, intake.registration, odometer)
    if any(car):
        yield _row("Car", ", ".join(words(part) for part in car if part))
    if intake.customer:
        yield _row("Customer", words(intake.customer))


def _finding(state: WalkState, step: Conclude) -> str:
    parts = [f"{text_for(state, step.title)}.", text_for(state, step.finding)]
    if step.part:
        parts.append(f"Part: {text_for(state, step.part)}.")
    return words(" ".join(parts))


def _dropped(state: WalkState, at: Position) -> Iterator[str]:
    """Verdicts that did not stand, with what had been fitted by then."""
    for visit in at.path:
        if not isinstance(visit.step, Conclude):
            continue
        chosen = state.repairs.get(visit.step_id)
        mended = f", though “{words(chosen.repair)}” was done" if chosen and chosen.repair else ""
        yield _row(
            "Suspected before", f"{named(state, visit.step_id)}; the proof did not hold{mended}"
        )


def _repair(state: WalkState, step_id: str, step: Conclude) -> Iterator[str]:
    chosen = state.repairs.get(step_id)
    repair = next((r for r in step.repairs if chosen and r.name == chosen.repair), None)
    if chosen is None and step.repairs:
        yield _row("Done", "no repair yet")
    elif chosen is not None and repair is None:
        yield _row("Done", "no repair made")
    elif chosen is not None and repair is not None:
        note = f" ({words(chosen.note)})" if chosen.note else ""
        yield _row("Done", f"{words(repair.name)}{note}. {words(text_for(state, repair.gives))}")
        yield _row("Limits of the repair", words(text_for(state, repair.limits)))


def _proof(state: WalkState, step_id: str, step: Conclude) -> Iterator[str]:
    if step.prove is None:
        return
    proof = state.proofs.get(step_id)
    if proof is None:
        yield _row("Proof", "not done yet")
    elif proof.result == "held":
        yield _row("Proof", f"held. {words(text_for(state, step.prove.holds))}")
    else:
        yield _row("Proof", f"**not done**: {words(proof.reason)}")


def _proving_run(state: WalkState, step_id: str) -> Iterator[str]:
    run = proving_run(state, step_id)
    if run is None:
        return
    if not run.cycles:
        yield _row("Proving run", "**not done**")
        return
    of = "" if run.is_done else f" of the {run.wanted} wanted"
    line = f"{run.clean} clean cycle{'' if run.clean == 1 else 's'} in a row{of}"
    if run.is_done and run.clean < run.asked_by_tree:
        line += f", the tree asks for {run.asked_by_tree}"
    if run.returns:
        line += f"; before that the complaint came back {times(run.returns)}"
    if run.is_counted_late:
        line += "; the tries before the repair were written down only after it"
    yield _row("Proving run", f"{line}. {proves(run)}")


def _limits(state: WalkState, at: Position) -> Iterator[str]:
    for what in still_fitted(state):
        yield _row("Still fitted on the car", words(what))
    yield from _not_tested(state, at)
    doubtful = [named(state, visit.step_id) for visit in uncleared(at.path)]
    if doubtful:
        listed = ", ".join(doubtful)
        yield _row(
            "Not proved for a fault that comes and goes",
            f"{listed}: good while the complaint did not show itself",
        )


def _not_tested(state: WalkState, at: Position) -> Iterator[str]:
    concluded = state.concluded.get(at.step_id)
    missing = dict.fromkeys(concluded.missing) if concluded else {}
    reasons = {v.step_id: v.answer.reason for v in at.path if isinstance(v.answer, Skipped)}
    for step_id in {**reasons, **missing}:
        reason = f": {words(reasons[step_id])}" if step_id in reasons else ""
        needed = "; the finding rests on it" if step_id in missing else ""
        yield _row("Not tested", f"{named(state, step_id)}{reason}{needed}")


def _next(state: WalkState, step: Conclude) -> Iterator[str]:
    if step.cause:
        cause = words(text_for(state, step.cause))
        yield _row("Look also for the cause behind it", cause)
    if step.next:
        yield _row("Next", words(text_for(state, step.next)))
