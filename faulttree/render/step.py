"""A step as a technician reads it: cautions first, then what to do, where, and under what."""

import math
from collections.abc import Iterator, Sequence

from faulttree.core.cautions import CAUTIONS
from faulttree.core.figures import show, show_measured
from faulttree.core.tree import (
    Conclude,
    Do,
    Measure,
    Observe,
    SetUp,
    Step,
    WorkOut,
)
from faulttree.core.uncertain import CannotWorkOut, Uncertain
from faulttree.core.walk.car_words import place_for, text_for
from faulttree.core.walk.events import WorkedOut
from faulttree.core.walk.judge import (
    Banded,
    Judgement,
    judge,
    judge_value,
    reference_values,
    references_for,
)
from faulttree.core.walk.path import position
from faulttree.core.walk.proving_run import cycles_planned
from faulttree.core.walk.respond import worked_out_event
from faulttree.core.walk.state import WalkState
from faulttree.render.judged_by import figures_from, judged_by, not_judged, sum_in_words
from faulttree.render.line import Line
from faulttree.render.scale import DrawnBand, Mark

_COMPLAINT_WANTED = {
    "present": "must show itself now",
    "absent": "must be absent now",
    "any": "does not matter here",
}
_KEYS = {"out": "out", "accessory": "accessory", "run": "run", "start": "held in start"}


def step_lines(state: WalkState, step_id: str, now: str) -> list[Line]:
    """Everything to read before a step is done, cautions first."""
    step = state.tree.steps[step_id]
    lines = list(caution_lines(state, step))
    if isinstance(step, Conclude):
        return [*lines, *conclusion_lines(state, step)]
    if isinstance(step, Measure | Observe):
        lines.extend(_probing(state, step))
    if isinstance(step, Do | Observe | Measure) and step.how:
        lines.append(Line("Do", text_for(state, step.how)))
    if isinstance(step, Do):
        lines.extend(Line("Stays fitted", place_for(state, what)) for what in step.fits.values())
        lines.extend(
            Line("Take out", place_for(state, state.fitted.get(name, name)))
            for name in step.removes
        )
    if isinstance(step, WorkOut):
        lines.append(Line("Sum", sum_in_words(state, step)))
    if isinstance(step, Measure | WorkOut):
        lines.extend(judged_by(state, step, now))
    if isinstance(step, Measure | Observe):
        lines.extend(_complaint_warning(state, step))
    if isinstance(step, Measure):
        lines.extend(not_judged(state, step, now))
    return lines


def why_lines(state: WalkState, step_id: str) -> list[Line]:
    """Why this test, how long it takes, and where its bands come from."""
    step = state.tree.steps[step_id]
    if isinstance(step, Conclude):
        return [Line("Why", "This is where the readings lead.")]
    lines = [Line("Why", text_for(state, step.why))]
    minutes = getattr(step, "minutes", None)
    if minutes is not None:
        lines.append(Line("Minutes", f"{minutes:g}, for a prepared technician"))
    if isinstance(step, Measure | WorkOut):
        lines.append(Line("Bands from", _source(state, step.source)))
        lines.extend(Line("Usual figures", source) for source in figures_from(state, step))
    advice = f"{text_for(state, step.cannot.advice)} → " if step.cannot.advice else ""
    lines.append(Line("If it cannot be done", f"{advice}{_title(state, step.cannot.go)}"))
    if isinstance(step, Measure | WorkOut) and step.other_test:
        lines.append(Line("Other test", _title(state, step.other_test)))
    return lines


def band_lines(state: WalkState, step: Banded) -> list[Line]:
    """What each band means and where it leads."""
    return [
        Line(band.name, f"{text_for(state, band.means)} → {_title(state, band.go)}", band.is_)
        for band in step.bands
    ]


def conclusion_lines(state: WalkState, step: Conclude) -> list[Line]:
    """A conclusion in full: finding, proof, repairs, proving run."""
    lines = [Line("Finding", text_for(state, step.finding))]
    if step.part:
        lines.append(Line("Part", text_for(state, step.part)))
    if step.cause:
        lines.append(Line("Cause behind it", text_for(state, step.cause)))
    lines.extend(proof_lines(state, step))
    lines.extend(proving_run_lines(state, step))
    if step.next:
        lines.append(Line("Next", text_for(state, step.next)))
    return lines


def proof_lines(state: WalkState, step: Conclude) -> list[Line]:
    """How a verdict is proved, and how the proof is undone."""
    if step.prove is None:
        return []
    lines = [
        Line("Prove it first", text_for(state, step.prove.how)),
        Line("It is proved when", text_for(state, step.prove.holds)),
        Line("Undo it", text_for(state, step.prove.undo)),
    ]
    if step.prove.fails.advice:
        lines.append(Line("If it fails", text_for(state, step.prove.fails.advice)))
    return lines


def proving_run_lines(state: WalkState, step: Conclude) -> list[Line]:
    """The run that proves the repair."""
    if step.verify is None:
        return []
    here = position(state).step_id
    counted = cycles_planned(state, here) if state.tree.steps[here] is step else None
    wanted = counted or step.verify.cycles
    cycles = f"{wanted} clean cycle{'' if wanted == 1 else 's'}"
    return [Line("Proving run", f"{text_for(state, step.verify.how)} ({cycles})")]


def repair_lines(state: WalkState, step: Conclude) -> list[Line]:
    """The repair options with what each gives, costs and where it ends."""
    made = {"yes": "part still made", "no": "for a part no longer made", "either": "either way"}
    lines: list[Line] = []
    for number, repair in enumerate(step.repairs, 1):
        head = f"{repair.name} ({made[repair.part_made]}): {repair.gives}"
        lines.append(Line(f"{number}", text_for(state, head), "label"))
        lines.append(Line("  Costs", text_for(state, repair.costs)))
        lines.append(Line("  Limits", text_for(state, repair.limits)))
    return lines


def caution_texts(state: WalkState, ids: Sequence[str]) -> list[str]:
    """The texts of cautions, in order, each once."""
    found = []
    for each in dict.fromkeys(ids):
        own = state.tree.more_cautions.get(each)
        known = CAUTIONS.get(each)
        found.append(text_for(state, own) if own else known.text if known else each)
    return found


def drawn_bands(state: WalkState, step: Banded, edges: Sequence[Uncertain]) -> list[DrawnBand]:
    """The step's bands for drawing; an edge that cannot be worked out shows what was written."""
    drawn = [DrawnBand(step.bands[0].name, step.bands[0].is_)]
    for index, band in enumerate(step.bands[1:]):
        if index < len(edges):
            label = show(edges[index].value, step.quantity, state.units)
        else:
            label = step.edges[index].text
        drawn.append(DrawnBand(band.name, band.is_, label))
    return drawn


def current_edges(state: WalkState, step: Banded) -> tuple[Uncertain, ...]:
    """The edges as they stand now, empty while a reference is missing."""
    names = set().union(*(edge.names for edge in step.edges))
    values = reference_values(state, references_for(state, names))
    return judge_value(state, step, Uncertain(0.0), values).edges


def preview(state: WalkState, step_id: str, step: WorkOut) -> tuple[Judgement, WorkedOut]:
    """A value worked out from the readings as they stand, before it is accepted."""
    event = worked_out_event(state, step_id, step)
    return judge(state, step, event), event


def mark_of(state: WalkState, step: Banded, judgement: Judgement, digit: float = 0) -> Mark | None:
    """The reading's place on the scale."""
    value, where = judgement.value, judgement.placement
    if value is None or where is None:
        return None
    label = show_measured(value.value, value.radius, step.quantity, state.units, digit or None)
    ends = _ends(state, step, judgement)
    share = _share(value.value, where.nominal, ends)
    low = where.lowest, _share(value.low, where.lowest, ends)
    high = where.highest, _share(value.high, where.highest, ends)
    return Mark(where.nominal, share, low, high, label)


def _ends(state: WalkState, step: Banded, judgement: Judgement) -> list[float]:
    """Edges with the plausible ends around them."""
    inner = [edge.value for edge in judgement.edges]
    outer = []
    for expression in (step.plausible.from_, step.plausible.below):
        try:
            evaluate = expression.evaluator(step.quantity, state.tree.quantities)
            outer.append(evaluate(state.vehicle_data).value)
        except CannotWorkOut:
            outer.append(inner[0] if not outer else inner[-1])
    return [outer[0], *inner, outer[1]]


def _share(value: float, band: int, ends: list[float]) -> float:
    low, high = ends[band], ends[band + 1]
    if math.isinf(value) or high <= low:
        return 1.0 if value > low else 0.0
    return min(1.0, max(0.0, (value - low) / (high - low)))


def caution_lines(state: WalkState, step: Step) -> Iterator[Line]:
    """The cautions of a step."""
    for text in caution_texts(state, step.cautions):
        yield Line("Caution", text, "caution")


def _probing(state: WalkState, step: Measure | Observe) -> Iterator[Line]:
    if step.with_:
        instrument = state.instruments[step.with_]
        yield Line("With", _with(step.with_.words, instrument.name))
    for label, text in (("Red lead", step.red_lead), ("Black lead", step.black_lead)):
        if text:
            yield Line(label, place_for(state, text))
    if step.at:
        yield Line("At", place_for(state, step.at))
    yield Line("Set-up", _set_up(state, step.set_up))


def _with(kind: str, name: str) -> str:
    return name if kind.lower() in name.lower() else f"{kind}: {name}"


def _set_up(state: WalkState, set_up: SetUp) -> str:
    parts = [f"key {_KEYS[set_up.key]}" if set_up.key else "", f"engine {set_up.engine.words}"]
    parts += [text_for(state, t) for t in (set_up.load, set_up.connector, set_up.other) if t]
    parts.append(f"complaint {_COMPLAINT_WANTED[set_up.complaint]}")
    return "; ".join(p for p in parts if p)


def _complaint_warning(state: WalkState, step: Measure | Observe) -> Iterator[Line]:
    now = state.complaint.complaint
    if step.set_up.complaint == "present" and not now.shows:
        yield Line(
            "Note",
            f"The complaint is {now} now: a good reading clears nothing that comes and goes.",
            "warning",
        )


def _source(state: WalkState, source: str) -> str:
    return state.tree.sources.get(source, source)


def _title(state: WalkState, step_id: str) -> str:
    if step_id == "again":
        return "the same step again"
    return text_for(state, state.tree.steps[step_id].title)
