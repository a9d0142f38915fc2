"""Gauges, figures and cycle of one car as data; every value is SI, readings of gauges are gauge."""

from typing import Any

from faulttree.core.air_conditioning.cycle import cycle
from faulttree.core.air_conditioning.figures import Figure, figures
from faulttree.core.air_conditioning.on_gauges import HIGH_SIDE, LOW_SIDE, OnGauges
from faulttree.core.uncertain import CannotWorkOut, Uncertain
from faulttree.core.units import UnitSystem
from faulttree.render.gauges_here import gauge_pair, why_none_expected
from faulttree.render.ph_cycle import POINT_NAMES


def on_gauges_json(on: OnGauges) -> dict[str, Any]:
    """Everything as plain data."""
    return {
        "refrigerant": on.refrigerant.value if on.refrigerant else None,
        "altitude": on.altitude,
        "air-outside": on.atmosphere.pressure,
        "readings": {name: _measured(read.value) for name, read in on.reads.items()},
        "expected": _expected(on),
        "why-none-expected": why_none_expected(on) or None,
        "figures": [_figure(each) for each in figures(on)],
        **_cycle(on),
    }


def _measured(value: Uncertain) -> dict[str, float]:
    return {"value": value.value, "limit-of-error": value.radius}


def _expected(on: OnGauges) -> dict[str, Any] | None:
    """What both gauges usually read today; None where nothing is published for it."""
    pair = gauge_pair(on, UnitSystem.METRIC)
    sides = zip((LOW_SIDE, HIGH_SIDE), pair.gauges, strict=True)
    found: dict[str, Any] = {s: [g.expected.low, g.expected.high] for s, g in sides if g.expected}
    sources = [gauge.expected.source for gauge in pair.gauges if gauge.expected]
    return {**found, "source": sources[0]} if found else None


def _figure(figure: Figure) -> dict[str, Any]:
    return {
        "name": figure.name,
        "quantity": figure.quantity.value,
        **_measured(figure.value),
        "usual": list(figure.usual) if figure.usual else None,
        "source": figure.source or None,
        "place": figure.place or None,
        "too-close-to-call": not figure.is_clear,
    }


def _cycle(on: OnGauges) -> dict[str, Any]:
    try:
        read = cycle(on)
    except CannotWorkOut as error:
        return {"cycle": None, "why-no-cycle": str(error)}
    corners = [
        {"at": name, "pressure": c.pressure, "temperature": c.temperature, "enthalpy": c.enthalpy}
        for name, c in zip(POINT_NAMES, read.corners, strict=True)
    ]
    return {"cycle": {"points": corners, "notes": list(read.notes)}, "why-no-cycle": None}
