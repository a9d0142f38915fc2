"""What a walk has read on gauges and pipes, by the names that a tree has for it."""

import math
from collections.abc import Iterator, Mapping
from contextlib import suppress

from faulttree.core.air_conditioning.on_gauges import (
    AMBIENT,
    HIGH_SIDE,
    HUMIDITY,
    LOW_SIDE,
    PLACES,
    OnGauges,
    Read,
)
from faulttree.core.atmosphere import Atmosphere, NoSuchPlace
from faulttree.core.expression_car import refrigerant_of
from faulttree.core.expression_values import ALTITUDE
from faulttree.core.refrigerant.refrigerant import Refrigerant
from faulttree.core.tree import Engine, Measure, Tree
from faulttree.core.uncertain import CannotWorkOut
from faulttree.core.units import Quantity
from faulttree.core.walk.battery import age_s
from faulttree.core.walk.events import ReadingTaken
from faulttree.core.walk.judge import value_of
from faulttree.core.walk.state import WalkState

_AIR = (AMBIENT, HUMIDITY)
"""What is measured of the weather, and may be told of the place."""
_STANDING = (Engine.STOPPED, Engine.CRANKING)


def on_gauges(state: WalkState) -> OnGauges | None:
    """The readings that stand, the last one for each name.

    A step gives the reading of its id, and of its `as`: `low-side`, `high-side`, `suction-pipe`,
    `discharge-pipe`, `liquid-pipe`, `ambient`, `humidity`. Of another quantity it gives none.

    Returns:
        None where the tree measures neither the low side nor the high side.
    """
    if not any(_measures(state.tree, side) for side in (LOW_SIDE, HIGH_SIDE)):
        return None
    reads = dict(_reads(state))
    refrigerant, why_not = _refrigerant(state)
    apart = _minutes_apart(state, reads)
    return OnGauges(refrigerant, _altitude(state), reads, why_not, apart)


def _measures(tree: Tree, name: str) -> bool:
    return any(
        isinstance(step, Measure) and name in (step_id, step.as_) and step.quantity is PLACES[name]
        for step_id, step in tree.steps.items()
    )


def _reads(state: WalkState) -> Iterator[tuple[str, Read]]:
    for name, quantity in PLACES.items():
        read = _read(state, name, quantity) or _told(state, name, quantity)
        if read is not None and math.isfinite(read.value.value):
            yield name, read


def _read(state: WalkState, name: str, quantity: Quantity) -> Read | None:
    """The last reading of a name that stands."""
    event = _event(state, name)
    if event is None or event.quantity is not quantity:
        return None
    engine = event.place.engine or ""
    return Read(
        value_of(state, event.seq),
        event.digit,
        Engine(engine).words if engine in set(Engine) else "",
        engine in _STANDING,
    )


def _told(state: WalkState, name: str, quantity: Quantity) -> Read | None:
    """What was told of the air, where it is no step of the tree."""
    need = state.tree.needs.values.get(name)
    if name not in _AIR or need is None or need.quantity is not quantity:
        return None
    value = state.vehicle_values.get(name)
    return None if value is None else Read(value)


def _event(state: WalkState, name: str) -> ReadingTaken | None:
    seq = state.latest.get(name)
    event = None if seq is None else state.readings[seq][0]
    return event if isinstance(event, ReadingTaken) else None


def _refrigerant(state: WalkState) -> tuple[Refrigerant | None, str]:
    try:
        return refrigerant_of(state.vehicle_data), ""
    except CannotWorkOut as error:
        return None, str(error)


def _altitude(state: WalkState) -> float | None:
    """Of the place [m], where it is known and a car can be there."""
    told = state.vehicle_values.get(ALTITUDE)
    if told is None or state.tree.needs.values[ALTITUDE].quantity is not Quantity.LENGTH:
        return None
    with suppress(NoSuchPlace):
        Atmosphere.at_altitude(told.value)
        return told.value
    return None


def _minutes_apart(state: WalkState, reads: Mapping[str, Read]) -> float:
    """Between the first and the last of the readings but those of the air [min]."""
    events = (_event(state, name) for name in reads if name not in _AIR)
    times = sorted(event.at for event in events if event is not None)
    return (age_s(times[0], times[-1]) or 0.0) / 60.0 if times else 0.0
