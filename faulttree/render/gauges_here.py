"""The gauges of this car: scales in the user's units, what is expected today, what was read."""

from collections.abc import Iterator

from faulttree.core.air_conditioning.figures import saturation, usual_vent
from faulttree.core.air_conditioning.on_gauges import (
    AMBIENT,
    BY_WEIGHT,
    HIGH_SIDE,
    HUMIDITY,
    LOW_SIDE,
    OnGauges,
    Read,
)
from faulttree.core.air_conditioning.windows import GaugeWindow, gauge_window
from faulttree.core.figures import show, show_altitude
from faulttree.core.refrigerant.refrigerant import properties
from faulttree.core.refrigerant.table import OutOfTable
from faulttree.core.tree import Engine
from faulttree.core.units import PSI_PA, Quantity, UnitSystem, display_units
from faulttree.render.gauge_pair import (
    Expected,
    Gauge,
    GaugePair,
    GaugeReading,
    GaugeScale,
    Saturation,
    even_scale,
)
from faulttree.render.span import span

GAUGES = "gauges"
"""Name of the drawing."""
NO_GAUGES = (
    "This tree measures neither the low side nor the high side, so there are no gauges to draw."
)
"""Said where a walk has nothing to draw."""
_RUN_FOR = "usual pressures hold for a test run at 1000 to 1500 rpm"
PUBLISHED_FOR = "usual pressures are published for 21 to 43 °C (70 to 110 °F) at the condenser"
_SCALES_PSI = {LOW_SIDE: (-15.0, 120.0), HIGH_SIDE: (0.0, 500.0)}
_SCALES_KPA = {LOW_SIDE: (-100.0, 800.0), HIGH_SIDE: (0.0, 3500.0)}
"""Ends of the scales, about those of common gauges: in psi and in kPa."""
_WHOLE_KELVIN = 1.0


def gauge_pair(on: OnGauges, units: UnitSystem) -> GaugePair:
    """Both gauges.

    Args:
        on: what was read.
        units: the units wanted.
    """
    window = _window(on)
    low, high = (window.low, window.high) if window else (None, None)
    return GaugePair(
        _gauge(on, LOW_SIDE, units, _expected(low, window)),
        _gauge(on, HIGH_SIDE, units, _expected(high, window)),
        units,
        ", ".join(_conditions(on, units)),
        tuple(_notes(on, units)),
    )


def why_none_expected(on: OnGauges) -> str:
    """Why no pressures can be told that are usual today; empty where they can."""
    air = on.value(AMBIENT)
    if on.refrigerant is None:
        return on.why_no_refrigerant
    if air is None:
        return "what is usual goes by the air at the condenser, which is not measured yet"
    return "" if _window(on) else PUBLISHED_FOR


def _window(on: OnGauges) -> GaugeWindow | None:
    air = on.value(AMBIENT)
    if on.refrigerant is None or air is None:
        return None
    return gauge_window(on.refrigerant, air.value, on.atmosphere)


def _expected(band: tuple[float, float] | None, window: GaugeWindow | None) -> Expected | None:
    return Expected(*band, window.source) if band and window else None


def _gauge(on: OnGauges, side: str, units: UnitSystem, expected: Expected | None) -> Gauge:
    name = {LOW_SIDE: "Low side", HIGH_SIDE: "High side"}[side]
    read = on.reads.get(side)
    why_none = why_none_expected(on)
    if read is not None and read.stands:
        expected, why_none = None, "read with the engine stopped, where no usual pressure holds"
    elif read is not None and read.engine == Engine.IDLE.words:
        expected, why_none = None, f"read at idle; {_RUN_FOR}"
    reading = None if read is None else _reading(on, side, read, units)
    return Gauge(name, _scale(on, side, units), expected, reading, why_none)


def _scale(on: OnGauges, side: str, units: UnitSystem) -> GaugeScale:
    is_metric = units is UnitSystem.METRIC
    factor, ends = (1e3, _SCALES_KPA) if is_metric else (PSI_PA, _SCALES_PSI)
    low, high = (end * factor for end in ends[side])
    return even_scale(low, high, units, _saturation(on))


def _saturation(on: OnGauges) -> Saturation | None:
    """Where the refrigerant of this car boils, here; None where it is not known what it is."""
    if on.refrigerant is None:
        return None
    known, air = properties(on.refrigerant), on.atmosphere

    def temperature(gauge: float) -> float | None:
        try:
            return known.temperature(air.absolute(gauge))
        except OutOfTable:
            return None

    return temperature


def _reading(on: OnGauges, side: str, read: Read, units: UnitSystem) -> GaugeReading:
    kelvins, note = saturation(on, side), ""
    if kelvins is not None:
        does = "boils" if side == LOW_SIDE else "condenses"
        note = f"{on.refrigerant} {does} at {_degrees(kelvins.value, units)}"
    return GaugeReading(read.value.value, read.value.radius, read.step, note)


def _conditions(on: OnGauges, units: UnitSystem) -> Iterator[str]:
    """Refrigerant, air outside and altitude, as far as they are known."""
    if on.refrigerant is not None:
        yield on.refrigerant.value
    air, humidity = on.value(AMBIENT), on.value(HUMIDITY)
    if air is not None:
        yield f"air at the condenser {_degrees(air.value, units)}"
    if humidity is not None:
        yield f"relative humidity {show(humidity.value, Quantity.RATIO)}"
    if on.altitude is None:
        yield "altitude not known and taken as sea level"
    else:
        yield f"altitude {show_altitude(on.altitude, units)}"


def _notes(on: OnGauges, units: UnitSystem) -> Iterator[str]:
    if on.refrigerant is not None:
        rows = ", ".join(unit.symbol for unit in display_units(Quantity.TEMPERATURE, units))
        yield f"{rows}: where {on.refrigerant} boils and condenses at that pressure."
    if _window(on) is not None:
        yield f"{_RUN_FOR.capitalize()}, doors open, outside air, blower on high."
    vent = usual_vent(on)
    if vent is not None:
        band, source = vent
        usual = span(band, Quantity.TEMPERATURE, units, _WHOLE_KELVIN)
        yield f"Usual at the middle vent, blower on high, outside air: {usual} ({source})."
    yield f"Both as expected proves no charge. {BY_WEIGHT}"


def _degrees(kelvins: float, units: UnitSystem) -> str:
    return show(kelvins, Quantity.TEMPERATURE, units, _WHOLE_KELVIN)
