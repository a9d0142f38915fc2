"""The cycle of the refrigerant as gauges and pipes tell it, and the usual one beside it.

Four corners: vapour into the compressor, vapour out of it, liquid out of the condenser, and what
comes out of valve or tube, which has the enthalpy of the liquid. Losses of pressure along the way
are left out.
"""

from collections.abc import Iterator
from dataclasses import dataclass

from faulttree.core.air_conditioning.on_gauges import (
    AMBIENT,
    DISCHARGE,
    HIGH_SIDE,
    IN_WORDS,
    LIQUID,
    LOW_SIDE,
    SUCTION,
    OnGauges,
)
from faulttree.core.air_conditioning.splits import NORMAL_SUBCOOLING_K, NORMAL_SUPERHEAT_K
from faulttree.core.air_conditioning.windows import gauge_window
from faulttree.core.refrigerant.refrigerant import Properties, State, properties
from faulttree.core.refrigerant.table import OutOfTable
from faulttree.core.uncertain import CannotWorkOut

USUAL_EFFICIENCY = 0.68
"""Work of an ideal compression over the work of a usual one; common practice: 0.6 to 0.75."""
_NEEDED = (LOW_SIDE, HIGH_SIDE, SUCTION, LIQUID)
_LONG_APART_MIN = 30.0
"""Readings further apart belong to no one state of the car [min]; common practice."""


@dataclass(frozen=True, slots=True)
class Corner:
    """The refrigerant at one corner: pressure [Pa absolute], temperature [K], enthalpy [J/kg]."""

    pressure: float
    temperature: float
    enthalpy: float


@dataclass(frozen=True, slots=True)
class Cycle:
    """The corners in the order of the flow.

    Attributes:
        compressor_in, compressor_out, condenser_out, evaporator_in: the corners.
        notes: what of it was not read, and what in the readings cannot be.
    """

    compressor_in: Corner
    compressor_out: Corner
    condenser_out: Corner
    evaporator_in: Corner
    notes: tuple[str, ...] = ()

    @property
    def corners(self) -> tuple[Corner, Corner, Corner, Corner]:
        """All of them, in the order of the flow."""
        return self.compressor_in, self.compressor_out, self.condenser_out, self.evaporator_in


def cycle(on: OnGauges) -> Cycle:
    """The cycle of this car.

    Raises:
        CannotWorkOut: it takes more readings, or these belong to no running system.
    """
    low, high = _pressures(on)
    assert on.refrigerant is not None
    suction, liquid = on.value(SUCTION), on.value(LIQUID)
    assert suction is not None
    assert liquid is not None
    discharge = on.value(DISCHARGE)
    known = properties(on.refrigerant)
    try:
        start = known.vapour(low, suction.value)
        end = known.vapour(high, discharge.value) if discharge else _compressed(known, start, high)
        condensed = known.liquid(high, min(liquid.value, known.temperature(high)))
        notes = (
            *_doubts(known, start, suction.value, condensed, liquid.value),
            *_of_compression(known, start, end, discharge is not None),
            *_of_the_state(on),
        )
        return Cycle(*_corners(known, start, end, condensed), notes)
    except OutOfTable as error:
        raise CannotWorkOut(f"these readings lie beyond what is known: {error}") from None


def usual_cycle(on: OnGauges) -> Cycle | None:
    """A cycle in the middle of what is usual for the air of the day.

    Both pressures in the middle of those expected, superheat and subcooling in the middle of the
    usual ones, compression with the usual losses.

    Returns:
        Nothing where the refrigerant or the air is not known, or nothing is published for it.
    """
    air = on.value(AMBIENT)
    if on.refrigerant is None or air is None:
        return None
    expected = gauge_window(on.refrigerant, air.value, on.atmosphere)
    if expected is None:
        return None
    known = properties(on.refrigerant)
    low, high = (on.atmosphere.absolute(sum(band) / 2) for band in (expected.low, expected.high))
    start = known.vapour(low, known.temperature(low) + sum(NORMAL_SUPERHEAT_K) / 2)
    condensed = known.liquid(high, known.temperature(high) - sum(NORMAL_SUBCOOLING_K) / 2)
    return Cycle(*_corners(known, start, _compressed(known, start, high), condensed))


def _pressures(on: OnGauges) -> tuple[float, float]:
    """Both sides [Pa absolute], once there is all that a cycle needs."""
    if on.refrigerant is None:
        raise CannotWorkOut(on.why_no_refrigerant)
    missing = [IN_WORDS[name] for name in _NEEDED if name not in on.reads]
    if missing:
        raise CannotWorkOut(f"not measured yet: {', '.join(missing)}")
    if any(on.reads[name].stands for name in _NEEDED):
        raise CannotWorkOut("a reading was taken while the compressor stood")
    low, high = (on.atmosphere.absolute(on.reads[n].value.value) for n in (LOW_SIDE, HIGH_SIDE))
    if high <= low:
        raise CannotWorkOut("the high side is not above the low side, so nothing is pumped")
    return low, high


def _compressed(known: Properties, start: State, high: float) -> State:
    """Vapour behind a compression with the usual losses, to a pressure [Pa absolute]."""
    ideal = known.vapour_of_entropy(high, start.entropy).enthalpy - start.enthalpy
    return known.vapour_of_enthalpy(high, start.enthalpy + ideal / USUAL_EFFICIENCY)


def _corners(
    known: Properties, start: State, end: State, condensed: State
) -> tuple[Corner, Corner, Corner, Corner]:
    cold = min(known.temperature(start.pressure), condensed.temperature)
    expanded = Corner(start.pressure, cold, condensed.enthalpy)
    first, second, third = (
        Corner(state.pressure, state.temperature, state.enthalpy)
        for state in (start, end, condensed)
    )
    return first, second, third, expanded


def _doubts(
    known: Properties, start: State, suction: float, condensed: State, liquid: float
) -> Iterator[str]:
    """Pipes at which no pure vapour or liquid can be told."""
    if suction <= known.temperature(start.pressure):
        yield (
            "The suction pipe is no warmer than the refrigerant boils: liquid may come with the "
            "vapour, and how much cannot be told; drawn as dry vapour."
        )
    if liquid >= known.temperature(condensed.pressure):
        yield (
            "The liquid pipe is no colder than the refrigerant condenses: vapour may come with "
            "the liquid, and how much cannot be told; drawn as liquid."
        )


def _of_compression(known: Properties, start: State, end: State, was_read: bool) -> Iterator[str]:
    if not was_read:
        yield (
            "Compressor out was not measured: worked out as a compression with the usual losses; "
            f"an ideal one takes {USUAL_EFFICIENCY * 100:.0f} % of its work."
        )
    elif end.enthalpy < known.vapour_of_entropy(end.pressure, start.entropy).enthalpy:
        yield (
            "The discharge pipe is cooler than an ideal compression makes it: liquid comes back "
            "to the compressor, or the probe reads low."
        )


def _of_the_state(on: OnGauges) -> Iterator[str]:
    """Readings that do not belong together."""
    engines = {on.reads[name].engine for name in _NEEDED if on.reads[name].engine}
    if len(engines) > 1:
        listed = ", ".join(sorted(engines))
        yield f"The engine ran differently at these readings ({listed}): they may not match."
    if on.minutes_apart > _LONG_APART_MIN:
        yield f"The readings were taken over {on.minutes_apart:.0f} minutes: they may not match."
