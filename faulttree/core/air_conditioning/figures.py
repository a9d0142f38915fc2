"""Figures that follow from gauges and pipes, with their limit of error and what is usual.

Superheat, subcooling and condensing split are differences to saturation temperatures; the pressure
ratio is one of absolute pressures.
"""

from collections.abc import Iterator
from dataclasses import dataclass, replace

from faulttree.core.air_conditioning.on_gauges import (
    AMBIENT,
    HIGH_SIDE,
    HUMIDITY,
    LIQUID,
    LOW_SIDE,
    SUCTION,
    OnGauges,
)
from faulttree.core.air_conditioning.splits import NORMAL_SUBCOOLING_K, NORMAL_SUPERHEAT_K
from faulttree.core.air_conditioning.windows import Band, condensing_split_window, vent_window
from faulttree.core.refrigerant.refrigerant import properties
from faulttree.core.refrigerant.table import OutOfTable
from faulttree.core.uncertain import Uncertain, bent
from faulttree.core.units import Quantity

_PRACTICE = "common practice"


@dataclass(frozen=True, slots=True)
class Figure:
    """One figure.

    Attributes:
        name: what it is: `superheat`.
        quantity: what its value is.
        value: it, with its limit of error [SI].
        usual: lowest and highest of a good system [SI]; None where there is no such figure.
        source: where `usual` comes from.
    """

    name: str
    quantity: Quantity
    value: Uncertain
    usual: Band | None = None
    source: str = ""

    @property
    def place(self) -> str:
        """Where it lies to what is usual: below, inside or above; empty where nothing is usual."""
        if self.usual is None:
            return ""
        low, high = self.usual
        if self.value.value < low:
            return "below"
        return "above" if self.value.value > high else "inside"

    @property
    def is_clear(self) -> bool:
        """Whether its limit of error leaves it where it lies."""
        return not any(self.value.low <= edge <= self.value.high for edge in self.usual or ())


def saturation(on: OnGauges, side: str) -> Uncertain | None:
    """Saturation temperature [K] on a side; None where it cannot be known."""
    gauge = on.value(side)
    if gauge is None or on.refrigerant is None:
        return None
    absolute = replace(gauge, value=on.atmosphere.absolute(gauge.value))
    try:
        return bent(properties(on.refrigerant).temperature, absolute)
    except OutOfTable:
        return None


def figures(on: OnGauges) -> Iterator[Figure]:
    """All that can be worked out from what was read, and nothing else.

    Readings on a system at rest give none but the temperatures of saturation.
    """
    boils, condenses = saturation(on, LOW_SIDE), saturation(on, HIGH_SIDE)
    if boils is not None:
        yield Figure("boils at", Quantity.TEMPERATURE, boils)
    if condenses is not None:
        yield Figure("condenses at", Quantity.TEMPERATURE, condenses)
    yield from _superheat(on, boils)
    yield from _of_high_side(on, condenses)
    yield from _ratio(on)


def _superheat(on: OnGauges, boils: Uncertain | None) -> Iterator[Figure]:
    pipe = on.value(SUCTION)
    if boils is not None and pipe is not None and _runs(on, LOW_SIDE, SUCTION):
        yield _difference("superheat", pipe - boils, NORMAL_SUPERHEAT_K)


def _of_high_side(on: OnGauges, condenses: Uncertain | None) -> Iterator[Figure]:
    if condenses is None or not _runs(on, HIGH_SIDE):
        return
    pipe, air = on.value(LIQUID), on.value(AMBIENT)
    if pipe is not None and _runs(on, LIQUID):
        yield _difference("subcooling", condenses - pipe, NORMAL_SUBCOOLING_K)
    if air is not None:
        usual = condensing_split_window(air.value)
        band, source = ((usual.low, usual.high), usual.source) if usual else (None, "")
        yield _difference("condensing split", condenses - air, band, source)


def _ratio(on: OnGauges) -> Iterator[Figure]:
    low, high = on.value(LOW_SIDE), on.value(HIGH_SIDE)
    if low is None or high is None or not _runs(on, LOW_SIDE, HIGH_SIDE):
        return
    below, above = (replace(g, value=on.atmosphere.absolute(g.value)) for g in (low, high))
    if below.low > 0:
        yield Figure("pressure ratio", Quantity.COUNT, above / below)


def usual_vent(on: OnGauges) -> tuple[Band, str] | None:
    """Air that the vent usually gives [K] in the air of the day, and where the figure comes from.

    Returns:
        Nothing where air or humidity were not measured, or no figure is known for them.
    """
    air, humidity = on.value(AMBIENT), on.value(HUMIDITY)
    usual = vent_window(air.value, humidity.value) if air and humidity else None
    return ((usual.low, usual.high), usual.source) if usual else None


def _difference(name: str, value: Uncertain, usual: Band | None, source: str = _PRACTICE) -> Figure:
    return Figure(name, Quantity.TEMPERATURE_DIFFERENCE, value, usual, source if usual else "")


def _runs(on: OnGauges, *names: str) -> bool:
    return not any(on.reads[name].stands for name in names)
