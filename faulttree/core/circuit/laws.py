"""Published laws of wires, windings, batteries, fuses and thermistors. SI throughout."""

import math
from bisect import bisect_right
from collections.abc import Sequence

from faulttree.core.units import ZERO_C

COPPER_OHM_M = 1.7241e-8
"""Resistivity of annealed copper at 20 degC [ohm m]. Source: IACS, IEC 60028 (from memory)."""
COPPER_PER_K = 0.00393
"""Temperature coefficient of copper at 20 degC [1/K]. Source: NBS Handbook 100 (1966)."""
_TWENTY_C = ZERO_C + 20.0

REST_EMF = ((0.0, 11.6), (0.25, 12.0), (0.5, 12.2), (0.75, 12.4), (1.0, 12.6))
"""State of charge [1] to rested EMF [V] of a 12 V flooded battery; lists of such values differ by
0.1 V. Source: a published rule-of-thumb list of a radio club; common practice."""

FUSE_DROP_V = 0.08
"""Drop of a blade fuse at its rated current [V], which gives its resistance; common practice,
no source: 8 mohm for 10 A, 2.7 mohm for 30 A."""
FUSE_OPENS_AT = 1.35
"""Share of its rating at which a fuse goes in the end. Source: UL/CSA 248-14 as summarised by a
fuse maker: opens at 135 % within an hour."""
LINK_OPENS_AT = 2.0
"""The same of a fusible link, which is slow; common practice, no source."""

LAMP_EXPONENT = 0.55
"""Current of a filament goes with the voltage to this power near its rated point. Source: usual
lamp rerating exponents of the trade, 0.54 to 0.58 (from memory)."""
LIGHT_EXPONENT = 3.4
"""Light of a filament goes with the voltage to this power; usual lamp rerating exponent of the
trade, from memory."""


def copper_factor(temperature_k: float) -> float:
    """Resistance of copper at a temperature [K] over that at 20 degC [1]."""
    return 1.0 + COPPER_PER_K * (temperature_k - _TWENTY_C)


def wire_resistance(length_m: float, area_m2: float, temperature_k: float = _TWENTY_C) -> float:
    """Resistance of a copper wire [ohm] of a length [m] and cross-section [m2].

    Source: definition of resistivity; strands and tin add 2 to 5 % (IEC 60228 lists maxima).
    """
    return COPPER_OHM_M * length_m / area_m2 * copper_factor(temperature_k)


def battery_emf(charge: float) -> float:
    """EMF of a rested 12 V battery [V] at a state of charge [1]; straight lines between points."""
    return interpolated(charge, REST_EMF)


def battery_charge(emf: float) -> float:
    """State of charge [1] of a rested 12 V battery by its EMF [V]; the way back of the above."""
    return interpolated(emf, tuple((volts, charge) for charge, volts in REST_EMF))


def interpolated(x: float, points: Sequence[tuple[float, float]]) -> float:
    """The value at x on straight lines between points in rising order; level beyond the ends."""
    index = bisect_right([p[0] for p in points], x)
    if index in (0, len(points)):
        return points[min(index, len(points) - 1)][1]
    (x0, y0), (x1, y1) = points[index - 1], points[index]
    return y0 + (y1 - y0) * (x - x0) / (x1 - x0)


def thermistor_resistance(temperature_k: float, points: Sequence[tuple[float, float]]) -> float:
    """Resistance of a thermistor [ohm] by points (temperature [K], resistance [ohm]) of its table.

    Three points fit the Steinhart-Hart equation 1/T = A + B ln R + C (ln R)^3; any other number
    is joined by straight lines of ln R over 1/T, which is the beta formula between each two.
    Beyond the table the outermost line is drawn on.

    Source: Steinhart and Hart, Deep-Sea Research 15 (1968) 497 (from memory).
    """
    if len(points) == 3:
        return _steinhart_hart_resistance(temperature_k, points)
    falling = sorted((1.0 / t, math.log(r)) for t, r in points)
    x = 1.0 / temperature_k
    index = min(max(bisect_right([p[0] for p in falling], x), 1), len(falling) - 1)
    (x0, y0), (x1, y1) = falling[index - 1], falling[index]
    return math.exp(y0 + (y1 - y0) * (x - x0) / (x1 - x0))


def steinhart_hart(points: Sequence[tuple[float, float]]) -> tuple[float, float, float]:
    """The coefficients A, B, C through three points (temperature [K], resistance [ohm])."""
    (l1, y1), (l2, y2), (l3, y3) = ((math.log(r), 1.0 / t) for t, r in points)
    g2, g3 = (y2 - y1) / (l2 - l1), (y3 - y1) / (l3 - l1)
    c = (g3 - g2) / (l3 - l2) / (l1 + l2 + l3)
    b = g2 - c * (l1 * l1 + l1 * l2 + l2 * l2)
    return y1 - (b + l1 * l1 * c) * l1, b, c


def _steinhart_hart_resistance(
    temperature_k: float, points: Sequence[tuple[float, float]]
) -> float:
    """Newton's method on ln R, started on the line between the outer points."""
    a, b, c = steinhart_hart(points)
    (t0, r0), (t1, r1) = points[0], points[-1]
    y0, slope = math.log(r0), (math.log(r1) - math.log(r0)) / (1 / t1 - 1 / t0)
    x = y0 + slope * (1 / temperature_k - 1 / t0)
    for _ in range(50):
        step = (a + b * x + c * x**3 - 1 / temperature_k) / (b + 3 * c * x * x)
        x -= step
        if abs(step) < 1e-13 * abs(x):
            break
    return math.exp(x)
