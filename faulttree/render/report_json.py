"""A case as data: path, conclusion and the whole record, for scripts."""

import math
from typing import Any

from faulttree.core.tree import Conclude
from faulttree.core.walk.aside import taken_aside
from faulttree.core.walk.car_words import place_for, text_for
from faulttree.core.walk.events import event_to_json
from faulttree.core.walk.path import Position, Visit, position
from faulttree.core.walk.proving_run import clean_cycles, proving_run
from faulttree.core.walk.record import record
from faulttree.core.walk.run_words import proves
from faulttree.core.walk.state import WalkState
from faulttree.render import answers
from faulttree.render.report_gauges import gauges_to_report


def report_json(
    state: WalkState, case_id: str, suspects: dict[str, Any] | None = None
) -> dict[str, Any]:
    """The case as plain data; values are SI, `OL` stands for an open circuit.

    Args:
        state: the walk as it stands.
        case_id: how the case is called.
        suspects: what the readings say, where the tree has a circuit model.
    """
    at = position(state)
    said = {} if suspects is None else {"suspects": suspects}
    return {
        "case": case_id,
        "tree": state.tree.id,
        "version": state.tree.version,
        "stands-at": at.step_id,
        "stage": at.stage.value,
        "path": [_visit(state, visit) for visit in at.path],
        "aside": [_visit(state, visit) for visit in taken_aside(state)],
        "conclusion": _conclusion(state, at),
        **said,
        **_gauges(state),
        "still-fitted": {name: place_for(state, what) for name, what in state.fitted.items()},
        "record": [
            {**event_to_json(line.event), "standing": line.standing.value} for line in record(state)
        ],
    }


def _gauges(state: WalkState) -> dict[str, Any]:
    """What was read on gauges, where something was."""
    on = gauges_to_report(state)
    if on is None:
        return {}
    from faulttree.render.on_gauges_json import on_gauges_json  # it brings in the cycle

    return {"gauges": on_gauges_json(on)}


def _visit(state: WalkState, visit: Visit) -> dict[str, Any]:
    value = visit.judgement.value if visit.judgement else None
    data: dict[str, Any] = {
        "step": visit.step_id,
        "answer": answers.reading_text(state, visit),
        "taken": visit.label,
        "speaks-for": visit.speaks.value if visit.speaks else None,
        "clears-nothing-intermittent": visit.clears_nothing_intermittent,
    }
    if value is not None:
        data["value"] = "OL" if math.isinf(value.value) else value.value
        data["limit-of-error"] = value.radius
    return data


def _conclusion(state: WalkState, at: Position) -> dict[str, Any] | None:
    step = state.tree.steps[at.step_id]
    if not isinstance(step, Conclude):
        return None
    proof, repair = state.proofs.get(at.step_id), state.repairs.get(at.step_id)
    return {
        "step": at.step_id,
        "result": step.result,
        "title": text_for(state, step.title),
        "part": text_for(state, step.part) or None,
        "accepted": at.step_id in state.concluded,
        "proof": proof.result if proof else None,
        "repair": repair.repair if repair else None,
        "clean-cycles": clean_cycles(state, at.step_id),
        "proving-run": _proving_run(state, at.step_id),
    }


def _proving_run(state: WalkState, step_id: str) -> dict[str, Any] | None:
    """The proving run in numbers and in words; chances and confidence from 0 to 1."""
    run = proving_run(state, step_id)
    if run is None:
        return None
    before = {"seen": run.before.seen, "tries": run.before.tries} if run.before else None
    return {
        "cycles": run.cycles,
        "clean-in-a-row": run.clean,
        "wanted": run.wanted,
        "came-back": run.returns,
        "before": before,
        "confidence": run.confidence,
        "chance-if-unchanged": run.luck,
        "largest-rate": run.largest_rate(),
        "proves": proves(run),
    }
