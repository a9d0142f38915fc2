"""What was told of the car where the vehicle sheet is silent, turned into an event."""

import math

from faulttree.core.atmosphere import Atmosphere, NoSuchPlace
from faulttree.core.reading import Entry
from faulttree.core.units import UnitSystem, entry_unit
from faulttree.core.walk.asks import Ask
from faulttree.core.walk.car_words import ALTITUDE_EXAMPLE, is_altitude
from faulttree.core.walk.events import VehicleDataGiven
from faulttree.core.walk.readings import parse_entry
from faulttree.core.walk.results import Recorded, Refused, Result, Typed
from faulttree.core.walk.state import WalkState


def text(state: WalkState, ask: Ask, typed: Typed) -> Result:
    """A place or a word; nothing typed means that it is not known."""
    return Recorded((VehicleDataGiven(name=ask.name, text=typed.text.strip() or None),))


def value(state: WalkState, ask: Ask, typed: Typed) -> Result:
    """A specified value; nothing typed means that it is not known."""
    if not typed.text.strip():
        return Recorded((VehicleDataGiven(name=ask.name, text=None),))
    entry = parse_entry(ask, typed, state.units)
    if isinstance(entry, Refused):
        return entry
    if math.isinf(entry.value):
        return Refused("A specified value is a number; leave the line empty if it is not known.")
    if is_altitude(ask.name, entry.quantity) and (refused := _no_altitude(entry, state.units)):
        return refused
    return Recorded((VehicleDataGiven(name=ask.name, text=entry.text, value=entry.value),))


def _no_altitude(entry: Entry, units: UnitSystem) -> Refused | None:
    """Why a length is no altitude: a bare number is one of feeler gauges, not of metres."""
    if entry.unit == entry_unit(entry.quantity, units).symbol:
        return Refused(f"Type the altitude with its unit: {ALTITUDE_EXAMPLE}.")
    try:
        Atmosphere.at_altitude(entry.value)
    except NoSuchPlace as error:
        return Refused(f"That is no place for a car: {error}.")
    return None
