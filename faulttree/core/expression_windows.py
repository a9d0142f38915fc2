"""What is usual for a good system as functions of expressions: by the air outside, as published."""

from collections.abc import Callable, Sequence

from faulttree.core.air_conditioning.windows import (
    GaugeWindow,
    Window,
    gauge_window,
    vent_window,
)
from faulttree.core.expression_car import atmosphere_of, refrigerant_of
from faulttree.core.expression_values import Values
from faulttree.core.uncertain import CannotWorkOut, Uncertain, within

_HALVINGS = 40
"""After so many the rim of what is published is known to less than a billionth of a kelvin."""
_WARM_K, _DAMP, _COOL_K, _DRY = 305.15, 0.5, 294.15, 0.2
"""Air for which both kinds of vent figures are published: damp and warm, dry and cool."""
_GAUGE_AIR = (
    "what gauges usually read is published for air of 21 to 43 °C (70 to 110 °F) at the condenser"
)
_VENT_AIR = (
    "what the vent usually gives is known for air of 27 to 38 °C (81 to 100 °F) with up to 70 % "
    "relative humidity, and from 21 °C (70 °F) with up to 30 %"
)


def source_of(name: str, values: Values) -> str:
    """Where the figures of a window come from; empty for other functions.

    Raises:
        CannotWorkOut: the refrigerant is not known.
    """
    if name in GAUGE_WINDOWS:
        window = gauge_window(refrigerant_of(values), _WARM_K)
        return window.source if window else ""
    if name not in VENT_WINDOWS:
        return ""
    usual, dry = vent_window(_WARM_K, _DAMP), vent_window(_COOL_K, _DRY)
    return f"{usual.source}; below 27 °C {dry.source}" if usual and dry else ""


def _gauges(pick: Callable[[GaugeWindow], float]) -> Callable[[Values, Uncertain], Uncertain]:
    """An edge of what gauges usually read, by the air at the condenser."""

    def work(values: Values, ambient: Uncertain) -> Uncertain:
        refrigerant, air = refrigerant_of(values), atmosphere_of(values)

        def read(kelvin: float) -> float | None:
            window = gauge_window(refrigerant, kelvin, air)
            return pick(window) if window else None

        return _published(read, _GAUGE_AIR, ambient)

    return work


def _vent(pick: Callable[[Window], float]) -> Callable[[Values, Uncertain, Uncertain], Uncertain]:
    """An edge of what the vent usually gives, by the air that goes in."""

    def read(kelvin: float, humidity: float) -> float | None:
        window = vent_window(kelvin, humidity)
        return pick(window) if window else None

    def work(_values: Values, ambient: Uncertain, humidity: Uncertain) -> Uncertain:
        return _published(read, _VENT_AIR, ambient, humidity)

    return work


def _published(read: Callable[..., float | None], where: str, *operands: Uncertain) -> Uncertain:
    """A published figure that never falls with its operands; their limits count as far as it goes.

    Raises:
        CannotWorkOut: nothing is published there; it says where something is.
    """
    at = [operand.value for operand in operands]
    middle = read(*at)
    if middle is None:
        raise CannotWorkOut(where)
    low, high = (
        read(*_corner(read, at, ends))
        for ends in ([o.low for o in operands], [o.high for o in operands])
    )
    assert low is not None
    assert high is not None
    return within(middle, low, high)


def _corner(
    read: Callable[..., float | None], at: Sequence[float], ends: Sequence[float]
) -> list[float]:
    """The limits of all operands, each no further than something is published."""
    place = list(at)
    for index, end in enumerate(ends):
        inside, place[index] = place[index], end
        if read(*place) is not None:
            continue
        outside = end
        for _ in range(_HALVINGS):
            place[index] = (inside + outside) / 2
            if read(*place) is None:
                outside = place[index]
            else:
                inside = place[index]
        place[index] = inside
    return place


GAUGE_WINDOWS = {
    "least-low-side": _gauges(lambda window: window.low[0]),
    "most-low-side": _gauges(lambda window: window.low[1]),
    "least-high-side": _gauges(lambda window: window.high[0]),
    "most-high-side": _gauges(lambda window: window.high[1]),
}
"""What both gauges usually read, by the air at the condenser [Pa gauge]."""
VENT_WINDOWS = {
    "least-vent": _vent(lambda window: window.low),
    "most-vent": _vent(lambda window: window.high),
}
"""Air that the vent usually gives, by temperature and humidity of the air that goes in [K]."""
