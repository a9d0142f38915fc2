"""Proofs as data: docs/proving.md describes the keys. Values are SI; `OL` is an open circuit."""

import math
from collections.abc import Iterable, Sequence
from typing import Any

from faulttree.core.bench.suspects import Row, chosen, parts_of
from faulttree.core.proof.judged import Span
from faulttree.core.proof.measures import Measures
from faulttree.core.proof.walks import Closest, Mode, Passed
from faulttree.core.tree import Measure, WorkOut
from faulttree.core.uncertain import Uncertain
from faulttree.core.units import Quantity
from faulttree.render.proof_advice import corrected
from faulttree.render.proof_edges import names_beside
from faulttree.render.proof_ends import FaultEnds, Reached
from faulttree.render.proof_paths import Path, paths_of, suspects_named
from faulttree.render.proof_result import Result
from faulttree.render.proof_words import own_instruments

FORMAT = "proof/1"
SI_UNITS = {
    Quantity.VOLTAGE: "V",
    Quantity.CURRENT: "A",
    Quantity.RESISTANCE: "ohm",
    Quantity.GAUGE_PRESSURE: "Pa",
    Quantity.ABSOLUTE_PRESSURE: "Pa",
    Quantity.PRESSURE_DIFFERENCE: "Pa",
    Quantity.TEMPERATURE: "K",
    Quantity.TEMPERATURE_DIFFERENCE: "K",
    Quantity.MASS: "kg",
    Quantity.LENGTH: "m",
    Quantity.AREA: "m2",
    Quantity.VOLUME: "m3",
    Quantity.ROTATIONAL_SPEED: "1/s",
    Quantity.POWER: "W",
    Quantity.TIME: "s",
    Quantity.RATIO: "1",
    Quantity.COUNT: "1",
}
"""The SI unit of each quantity."""


def proofs_json(results: Iterable[Result], show: str | None = None) -> dict[str, Any]:
    """Proofs as plain data.

    Args:
        results: the proofs.
        show: a name of faults whose walks are told as well.
    """
    return {"format": FORMAT, "trees": [_tree(result, show) for result in results]}


def _tree(result: Result, show: str | None) -> dict[str, Any]:
    proof, tree = result.proof, result.proof.tree
    data: dict[str, Any] = {
        "tree": tree.id,
        "version": tree.version,
        "proved": result.is_proved,
        "why-not": list(result.why_not),
        "isolation-wanted": result.wanted,
        "own-instruments": [instrument.id for instrument in own_instruments(result.words)],
        "measures": measures_json(result.measures),
        "conclusions": [
            {
                "conclusion": each.where,
                "worth": each.worth.value,
                "share": each.share,
                "faults": list(each.faults),
            }
            for each in result.landings
        ],
        "healthy": _fault(result, result.ends[0]),
        "faults": [_fault(result, each) for each in result.ends[1:]],
        "groups": _groups(result),
        "verdicts-without-group": {c: list(proof.named[c].parts) for c in proof.ungrouped},
        "corrected-by-proof": {c: list(faults) for c, faults in corrected(proof).items()},
        "idle-tests": list(proof.idle),
        "steps-not-reached": list(proof.unreached),
        "edges": [_edge(result, closest) for closest in proof.closest],
    }
    if show:
        suspects = suspects_named(proof, show)
        paths = (path for suspect in suspects for path in paths_of(proof, suspect))
        data["walks"] = [_path(result, path) for path in paths]
    return data


def measures_json(m: Measures) -> dict[str, Any]:
    """The figures of a proof; shares from 0 to 1."""
    return {
        "faults": m.faults,
        "cars": m.cars,
        "cars-without-complaint": m.quiet,
        "fault-detection": m.detected,
        "fault-isolation": m.isolated,
        "isolated-to": [{"parts": parts, "share": share} for parts, share in m.isolated_to],
        "faults-isolated": m.isolated_faults,
        "ambiguity-group-size": m.group_size,
        "wrong-conclusions": m.wrong,
        "false-alarms": {"cars": m.false_alarms[0], "of": m.false_alarms[1]},
        "not-detected": m.undetected,
        "not-isolated": m.unresolved,
        "isolated-coming-back": m.returning,
        "minutes": {"mean": m.mean_minutes, "worst": m.worst_minutes},
    }


def _fault(result: Result, ends: FaultEnds) -> dict[str, Any]:
    suspect, rows = ends.suspect, result.proof.bench.rows
    data: dict[str, Any] = {"fault": ends.id}
    if suspect is not None:
        comes = suspect.comes
        data |= {
            "part": suspect.part,
            "words": suspect.words,
            "weight": suspect.weight,
            "comes": {"trigger": comes.trigger, "chance": comes.chance} if comes else None,
        }
    return data | {
        "cars": [_car(rows[i]) for i in ends.rows],
        "cars-without-complaint": [_car(rows[i]) for i in ends.quiet],
        "minutes": {"mean": ends.mean_minutes, "worst": ends.worst_minutes} if ends.rows else None,
        "ends": [_reached(rows, each) for each in ends.reached],
    }


def _reached(rows: Sequence[Row], reached: Reached) -> dict[str, Any]:
    return {
        "conclusion": reached.conclusion or None,
        "trouble": reached.trouble or None,
        "worth": reached.worth.value,
        "parts": reached.parts,
        "cars": [_car(rows[i]) for i in reached.rows],
        "cars-without-complaint": [_car(rows[i]) for i in reached.quiet],
        "coming-back": [_car(rows[i]) for i in reached.returning],
    }


def _car(row: Row) -> dict[str, Any]:
    return {"severity": row.form.words or None, "supply": row.supply}


def _groups(result: Result) -> list[dict[str, Any]]:
    bench = result.proof.bench
    return [
        {
            "group": name,
            "parts": list(parts_of(chosen(bench.suspects, group.faults))),
            "why": group.why,
            "told-apart": [
                {"parts": [split.one, split.other], "tests": list(split.steps)}
                for split in result.splits
                if split.group == name
            ],
        }
        for name, group in bench.sheet.groups.items()
    ]


def _edge(result: Result, closest: Closest) -> dict[str, Any]:
    margin, row = closest.margin, result.proof.bench.rows[closest.row]
    return {
        "step": closest.step_id,
        "between": list(names_beside(result.proof, closest)),
        "edge": closest.edge,
        "value": closest.edge + margin.gap,
        "limit-of-error": margin.radius,
        "unit": unit_of(result, closest.step_id),
        "standard-uncertainties": margin.sigmas if math.isfinite(margin.sigmas) else None,
        "within-error": margin.is_within_error,
        "fault": row.suspect.id if row.suspect else "healthy",
        **_car(row),
    }


def _path(result: Result, path: Path) -> dict[str, Any]:
    proof, ended = result.proof, path.ended
    return {
        "fault": path.suspect.id if path.suspect else "healthy",
        "conclusion": ended.end.conclusion or None,
        "trouble": ended.end.trouble or None,
        "worth": ended.worth.value,
        "minutes": ended.end.minutes,
        "cars": [{**_car(proof.row(w)), "fault-is": _FAULT_IS[w.mode]} for w in path.walked],
        "steps": [_passed(result, path, passed) for passed in ended.end.path],
    }


_FAULT_IS = {
    Mode.PRESENT: "there",
    Mode.COMES_BACK: "coming and going",
    Mode.ABSENT: "away",
}


def _passed(result: Result, path: Path, passed: Passed) -> dict[str, Any]:
    step = result.proof.tree.steps[passed.step_id]
    data: dict[str, Any] = {
        "step": passed.step_id,
        "taken": passed.way,
        "leads-to": passed.target or None,
        "minutes": passed.minutes,
        "fault-away": path.is_away(passed),
    }
    if passed.span is not None and isinstance(step, Measure | WorkOut):
        data["reading"] = span_json(passed.span, step.quantity)
    if passed.posts is not None:
        data["battery"] = span_json(passed.posts, Quantity.VOLTAGE)
    if passed.judged is not None and isinstance(step, Measure | WorkOut):
        data["edges"] = [number(edge) for edge in passed.judged.edges]
        data["may-lie-in"] = [step.bands[i].name for i in passed.judged.bands]
    return data


def span_json(span: Span, quantity: Quantity) -> dict[str, Any]:
    """A reading: its limits, the same unless it swings, and the limit of error of each."""
    return {
        "low": number(span.low),
        "high": number(span.high),
        "limit-of-error": max(span.low.radius, span.high.radius),
        "unit": SI_UNITS[quantity],
    }


def number(value: Uncertain) -> float | str:
    """A value, `OL` where it is an open circuit."""
    return value.value if math.isfinite(value.value) else "OL"


def unit_of(result: Result, step_id: str) -> str:
    """The SI unit of a step's reading."""
    step = result.proof.tree.steps[step_id]
    assert isinstance(step, Measure | WorkOut)
    return SI_UNITS[step.quantity]
