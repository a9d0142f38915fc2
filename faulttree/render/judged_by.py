"""What a step is judged by: earlier readings, vehicle data, refrigerant and air outside."""

from collections.abc import Iterator, Mapping
from contextlib import suppress

from faulttree.core.expression_car import atmosphere_of, refrigerant_of
from faulttree.core.expression_values import ALTITUDE, REFRIGERANT
from faulttree.core.expression_windows import source_of
from faulttree.core.figures import show, show_altitude
from faulttree.core.tree import BATTERY_VOLTAGE, Measure, WorkOut, expressions
from faulttree.core.uncertain import CannotWorkOut, Uncertain
from faulttree.core.units import Quantity
from faulttree.core.walk.battery import age_s, battery_wanted
from faulttree.core.walk.car_words import missing_data, text_for
from faulttree.core.walk.judge import Banded, judge_value, reference_values, references_for
from faulttree.core.walk.state import WalkState
from faulttree.render.line import Line


def judged_by(state: WalkState, step: Banded, now: str) -> Iterator[Line]:
    """The readings, the vehicle data and the air that the bands of a step go by."""
    names = set().union(*(edge.names for edge in step.edges))
    values = reference_values(state, references_for(state, names))
    for name in sorted(names):
        value = values.get(name)
        if isinstance(value, Uncertain):
            text = show(value.value, state.tree.quantities[name], state.units)
            words = f"{_name_in_words(state, name)}: {text}{_age(state, name, now)}"
            yield Line("Judged by", words)
    if car := "; ".join(gone_by(state, step)):
        yield Line("Judged by", car)


def gone_by(state: WalkState, step: Banded) -> Iterator[str]:
    """What the functions of a step go by on this car: refrigerant, air outside."""
    if REFRIGERANT in step.car_data:
        yield f"refrigerant {_refrigerant(state)}"
    if ALTITUDE in step.car_data:
        yield f"air outside {_air_outside(state)}"


def figures_from(state: WalkState, step: Banded) -> Iterator[str]:
    """Where the usual figures come from that functions of a step tell."""
    functions = frozenset().union(*(expression.functions for expression in expressions(step)))
    with suppress(CannotWorkOut):
        sources = (source_of(name, state.vehicle_data) for name in sorted(functions))
        yield from dict.fromkeys(filter(None, sources))


def not_judged(state: WalkState, step: Measure, now: str) -> Iterator[Line]:
    """Why no band can be told of a step, once everything it needs was asked for."""
    if missing_data(state, step) or battery_wanted(state, step, now):
        return
    values = reference_values(state, references_for(state, step.names_used))
    trouble = judge_value(state, step, Uncertain(0.0), values).trouble
    if trouble:
        onward = text_for(state, state.tree.steps[step.cannot.go].title)
        words = f"No band can be told: {trouble}. After the reading the walk goes on to “{onward}”."
        yield Line("Note", words, "warning")


def _refrigerant(state: WalkState) -> str:
    try:
        return refrigerant_of(state.vehicle_data).value
    except CannotWorkOut:
        return state.fact(REFRIGERANT) or "not known"


def _air_outside(state: WalkState) -> str:
    try:
        weight = atmosphere_of(state.vehicle_data).pressure
    except CannotWorkOut as error:
        return f"not known: {error}"
    told = f"{show(weight, Quantity.ABSOLUTE_PRESSURE, state.units)} absolute"
    altitude = state.vehicle_values.get(ALTITUDE)
    if altitude is None:
        return f"{told} as at sea level, for the altitude is not known"
    return f"{told} at {show_altitude(altitude.value, state.units)}"


def _name_in_words(state: WalkState, name: str) -> str:
    """What a name of an expression stands for: a step's title, what was asked, or itself."""
    if name in state.tree.steps:
        return text_for(state, state.tree.steps[name].title)
    if name in state.tree.needs.values:
        return text_for(state, state.tree.needs.values[name].ask)
    return name.replace("-", " ")


def _age(state: WalkState, name: str, now: str) -> str:
    if name != BATTERY_VOLTAGE or name not in state.latest:
        return ""
    seconds = age_s(state.readings[state.latest[name]][0].at, now)
    if seconds is None:
        return ", age unknown (the clock was set back)"
    return ", just now" if seconds < 60 else f", {seconds / 60:.0f} min old"


def sum_in_words(state: WalkState, step: WorkOut) -> str:
    """A sum as the author wrote it, with what its names stand for now."""
    values = reference_values(state, references_for(state, step.value.names))
    known: Mapping[str, str] = {
        name: show(value.value, state.tree.quantities[name], state.units)
        for name, value in values.items()
        if name in step.value.names and isinstance(value, Uncertain)
    }
    listed = "; ".join(f"{_name_in_words(state, n)}: {text}" for n, text in sorted(known.items()))
    return f"{step.value.text}" + (f" ({listed})" if listed else "")
