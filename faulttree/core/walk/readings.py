"""What was read on an instrument, turned into an event with where, how and beside what."""

import math
from collections.abc import Callable
from functools import partial

from faulttree.core.expression_values import Values
from faulttree.core.figures import show
from faulttree.core.reading import Entry, ReadingRefused, parse_fitting_reading
from faulttree.core.tree import BATTERY_VOLTAGE, Measure, Observe
from faulttree.core.uncertain import CannotWorkOut
from faulttree.core.units import Quantity, UnitSystem
from faulttree.core.walk.asks import Ask
from faulttree.core.walk.battery import age_s
from faulttree.core.walk.car_words import place_for, text_for
from faulttree.core.walk.events import BatteryAge, Place, ReadingTaken
from faulttree.core.walk.judge import is_plausible, reference_values, references_for, value_of
from faulttree.core.walk.results import Confirm, Recorded, Refused, Result, Typed
from faulttree.core.walk.state import WalkState

BATTERY_PLAUSIBLE_V = (4.0, 17.0)
"""What a 12 V battery can show between its posts [V]. Source: common practice."""


def parse_entry(
    ask: Ask, typed: Typed, units: UnitSystem, fits: Callable[[float], bool] = lambda _value: True
) -> Entry | Refused:
    """The number that was typed for a question, with its unit; `fits` settles a doubtful comma."""
    assert ask.quantity is not None
    try:
        return parse_fitting_reading(typed.text, ask.quantity, units, fits)
    except ReadingRefused as refused:
        return Refused(str(refused))


def reading(state: WalkState, ask: Ask, typed: Typed) -> Result:
    """The reading of a step; one that the point can hardly show is asked about once."""
    step = state.tree.steps[ask.step_id]
    assert isinstance(step, Measure)
    references = references_for(state, step.names_used - {ask.step_id})
    values = reference_values(state, references)
    fits = partial(is_plausible, state, step, values=values)
    entry = parse_entry(ask, typed, state.units, fits)
    if isinstance(entry, Refused):
        return entry
    plausible = is_plausible(state, step, entry.value, values)
    if not plausible and not typed.confirmed:
        return Confirm(_implausible_question(state, step, entry, values))
    event = ReadingTaken(
        **_reading_fields(state, entry, typed.now),
        step=ask.step_id,
        replaces=replaced_by(state, ask),
        place=place_of(state, step),
        references=references,
        kept_though_implausible=not plausible,
    )
    return Recorded((event,))


def battery(state: WalkState, ask: Ask, typed: Typed) -> Result:
    """A battery voltage, under the conditions of the step it was asked at."""
    low, high = BATTERY_PLAUSIBLE_V
    entry = parse_entry(ask, typed, state.units, lambda value: low <= value < high)
    if isinstance(entry, Refused):
        return entry
    if not low <= entry.value < high and not typed.confirmed:
        return Confirm(_slip_question(entry, low, high, state.units))
    step = state.tree.steps[ask.step_id]
    conditions = place_of(state, step) if isinstance(step, Measure | Observe) else Place()
    posts = {"red_lead": "battery positive post", "black_lead": "battery negative post"}
    event = ReadingTaken(
        **_reading_fields(state, entry, typed.now),
        slot="battery-voltage",
        step=ask.step_id,
        place=conditions.model_copy(update={**posts, "spot": None, "connector": None}),
    )
    return Recorded((event,))


def _reading_fields(state: WalkState, entry: Entry, now: str) -> dict[str, object]:
    return {
        "text": entry.text,
        "quantity": entry.quantity,
        "value": "OL" if math.isinf(entry.value) else entry.value,
        "digit": entry.step,
        "unit": entry.unit,
        "complaint": state.complaint.complaint,
        "battery": _battery_now(state, now),
    }


def _battery_now(state: WalkState, now: str) -> BatteryAge | None:
    seq = state.latest.get(BATTERY_VOLTAGE)
    if seq is None:
        return None
    event = state.readings[seq][0]
    try:
        volts = value_of(state, seq).value
    except CannotWorkOut:
        return None
    return BatteryAge(seq=seq, value=volts, age_s=age_s(event.at, now))


def place_of(state: WalkState, step: Measure | Observe) -> Place:
    """Where and under which conditions a step is done on this car."""
    instrument = state.instruments.get(step.with_) if step.with_ else None
    set_up = step.set_up
    return Place(
        instrument=instrument.id if instrument else None,
        red_lead=place_for(state, step.red_lead) or None,
        black_lead=place_for(state, step.black_lead) or None,
        spot=place_for(state, step.at) or None,
        key=set_up.key,
        engine=set_up.engine.value,
        load=text_for(state, set_up.load) or None,
        connector=text_for(state, set_up.connector) or None,
        other=text_for(state, set_up.other) or None,
    )


def _implausible_question(state: WalkState, step: Measure, entry: Entry, values: Values) -> str:
    window = (step.plausible.from_, step.plausible.below)
    low, high = (e.evaluator(step.quantity, state.tree.quantities)(values).value for e in window)
    return _slip_question(entry, low, high, state.units)


def _slip_question(entry: Entry, low: float, high: float, units: UnitSystem) -> str:
    digit = entry.step or None
    read = show(entry.value, entry.quantity, units, digit)
    window = f"{show(low, entry.quantity, units)} to {show(high, entry.quantity, units)}"
    slipped = _without_slip(entry, low, high)
    meant = f" Did you mean {show(slipped, entry.quantity, units)}?" if slipped is not None else ""
    return f"{read} is outside what this point can show ({window}).{meant} Keep {read}?"


def _without_slip(entry: Entry, low: float, high: float) -> float | None:
    """The value with its point moved, where that makes it plausible."""
    if entry.quantity is Quantity.TEMPERATURE:
        return None
    for factor in (0.1, 10.0, 0.01, 0.001, 1000.0):
        if low <= entry.value * factor < high and entry.value:
            return entry.value * factor
    return None


def replaced_by(state: WalkState, ask: Ask) -> int | None:
    """The answer in force that this one takes the place of."""
    if ask.replaces is not None:
        return ask.replaces
    standing = state.answers.get(ask.step_id)
    return standing.seq if standing else None
