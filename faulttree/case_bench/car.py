"""The car of a walk as far as expected readings depend on it: battery, instruments, values."""

from collections.abc import Mapping
from dataclasses import dataclass

from faulttree.case_bench.battery import PostVolts, engines_at, post_volts
from faulttree.core.expression_values import Values
from faulttree.core.instruments import Instrument, InstrumentClass
from faulttree.core.tree import Engine
from faulttree.core.walk.state import WalkState


@dataclass(frozen=True, slots=True)
class Car:
    """What the readings of a step depend on besides the documents.

    Attributes:
        engines: the states of the engine that the step is done in.
        lacking: the one of them, in words, that no battery voltage was measured in.
        battery: the battery voltages measured; all None while one is lacking.
        instruments: those in use.
        values: vehicle data, from the sheet and told during the walk.
        fitted: names of what the walk has put on the car and not taken out again.
    """

    engines: frozenset[Engine]
    lacking: str
    battery: PostVolts
    instruments: Mapping[InstrumentClass, Instrument]
    values: Values
    fitted: frozenset[str]


def car_at(state: WalkState, step_id: str) -> Car:
    """The car as it is now, for a step."""
    engines, battery = engines_at(state.tree, step_id), post_volts(state)
    lacking = battery.lacking(engines)
    return Car(
        engines,
        lacking,
        PostVolts() if lacking else battery,
        state.instruments,
        state.vehicle_data,
        frozenset(state.fitted),
    )
