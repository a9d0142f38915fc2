"""A loop that stands still and has taken the temperature of its surroundings."""

from faulttree.core.loop.charge import COILS, vessel_of
from faulttree.core.loop.parts import Loop, Readings, Run
from faulttree.core.loop.steady import sized
from faulttree.core.refrigerant.refrigerant import Properties, properties
from faulttree.core.units import ZERO_C

_ROUNDS = 60


def standing(loop: Loop, run: Run) -> Readings:
    """What instruments show on a soaked loop: both gauges alike, every pipe as warm as the air.

    While any liquid is left the pressure is that of saturation, however little it is; with less
    than the vapour that fills the loop it is lower. Air adds its own pressure (Dalton).
    """
    litres = sized(loop).volume * (COILS + vessel_of(loop))
    density = loop.charge * run.charge / (litres * 1e-3)
    known = properties(run.charged_with or loop.refrigerant)
    pressure = vapour_pressure(known, run.ambient, density)
    pressure += run.air * run.atmosphere * run.ambient / (ZERO_C + 20.0)
    gauge, at = pressure - run.atmosphere, run.ambient
    return Readings(gauge, gauge, at, at, at, at, at, at, at)


def vapour_pressure(known: Properties, temperature: float, density: float) -> float:
    """Absolute pressure [Pa] of refrigerant of a temperature [K] and mean density [kg/m3]."""
    if density >= known.dry(temperature).density:
        return known.pressure(temperature)
    low, high = known.coldest, temperature
    if known.superheated(low, min(temperature, low + 100.0), known.pressure(low)).density > density:
        return known.pressure(low) * density / known.dry(low).density * temperature / low
    for _ in range(_ROUNDS):
        middle = (low + high) / 2
        pressure = known.pressure(middle)
        if known.superheated(middle, min(temperature, middle + 100.0), pressure).density < density:
            low = middle
        else:
            high = middle
    return known.pressure(high)
