"""What a step would read as data: docs/proving.md describes the keys. Values are SI."""

from collections.abc import Iterable, Iterator, Sequence
from typing import Any

from faulttree.core.circuit.attached import Flag
from faulttree.core.proof.expected import Expected
from faulttree.core.tree import Band, Measure, Observe, Outcome, Tree, WorkOut
from faulttree.render.proof_json import SI_UNITS, number, span_json

FORMAT = "expected/1"
_FLAGS = {
    Flag.FLOATING: "floating",
    Flag.UNSTABLE: "unstable",
    Flag.FUSE_BLOWN: "fuse-blown",
    Flag.METER_FUSE: "meter-fuse-blown",
}


def expected_json(tree: Tree, step_id: str, cars: Iterable[Expected]) -> dict[str, Any]:
    """What a step shows on every car of the bench as plain data."""
    step = tree.steps[step_id]
    assert isinstance(step, Measure | WorkOut | Observe)
    choices: Sequence[Band | Outcome]
    choices = step.outcomes if isinstance(step, Observe) else step.bands
    unit = None if isinstance(step, Observe) else SI_UNITS[step.quantity]
    return {
        "format": FORMAT,
        "tree": tree.id,
        "version": tree.version,
        "step": step_id,
        "kind": step.kind,
        "unit": unit,
        "places": [{"name": c.name, "is": c.is_.value, "leads-to": c.go} for c in choices],
        "cars": [_car(step, choices, car) for car in cars],
    }


def _car(
    step: Measure | WorkOut | Observe, choices: Sequence[Band | Outcome], car: Expected
) -> dict[str, Any]:
    suspect, judged = car.row.suspect, car.judged
    data: dict[str, Any] = {
        "fault": suspect.id if suspect else "healthy",
        "severity": car.row.form.words or None,
        "supply": car.row.supply,
        "may-be": [choices[i].name for i in car.places],
    }
    if isinstance(step, Observe):
        return data
    return data | {
        "reading": span_json(car.span, step.quantity) if car.span else None,
        "edges": [number(edge) for edge in judged.edges] if judged else [],
        "said": list(_said(car.flags)),
        "trouble": judged.trouble or None if judged else None,
    }


def _said(flags: int) -> Iterator[str]:
    return (words for flag, words in _FLAGS.items() if flags & flag)
