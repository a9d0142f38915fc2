"""Wire sizes: square millimetres, American gauges, and the sizes that can be bought."""

import math
import re

from faulttree.core.reading import ReadingRefused, parse_reading
from faulttree.core.units import Quantity, with_usual_signs

MM2 = 1e-6
"""Square millimetre [m2]."""
METRIC_SIZES = (0.35, 0.5, 0.75, 1.0, 1.5, 2.5, 4.0, 6.0, 10.0, 16.0, 25.0, 35.0, 50.0, 70.0, 95.0)
"""Cross-sections of vehicle wire that are sold [mm2]; common practice, after ISO 6722 (from
memory)."""
GAUGES = (22, 20, 18, 16, 14, 12, 10, 8, 6, 4, 2, 0, -1, -2, -3)
"""Gauges of vehicle wire that are sold, thin to thick; -3 is 4/0. Common practice."""
THICKEST_SOLD = GAUGES[-1]
"""The thickest of them."""
_THINNEST = 40
_AUGHTS = re.compile(r"^(?:([1-4])/0|(0{1,4}))$")
_WITH_WORD = re.compile(r"^(?:#|awg|ga)?\s*([\d/]+)\s*(?:awg|ga|gauge)?$", re.IGNORECASE)
_IS_GAUGE = re.compile(r"#|awg|ga|/", re.IGNORECASE)


def gauge_area(gauge: int) -> float:
    """Cross-section of a gauge [m2]; 0 is 1/0, -3 is 4/0.

    Source: ASTM B258: diameter = 0.127 mm x 92^((36 - gauge)/39).
    """
    return math.pi / 4 * gauge_diameter(gauge) ** 2


def gauge_diameter(gauge: int) -> float:
    """Diameter of a gauge's solid wire [m]. Source: ASTM B258."""
    return float(0.127e-3 * 92.0 ** ((36 - gauge) / 39))


def nearest_gauge(area_m2: float) -> int:
    """The gauge whose cross-section is nearest, by ratio."""
    exact = 36 - 39 * math.log(math.sqrt(4 * area_m2 / math.pi) / 0.127e-3, 92.0)
    return min(_THINNEST, max(THICKEST_SOLD, round(exact)))


def gauge_name(gauge: int) -> str:
    """`14 AWG`, `2/0 AWG`."""
    return f"{gauge if gauge > 0 else f'{1 - gauge}/0'} AWG"


def parse_size(text: str) -> tuple[float, str]:
    """A wire size as typed: its cross-section [m2] and how it is shown.

    A bare number is refused: 4 may be 4 mm2 or 4 AWG, which is 21 mm2.

    Raises:
        ReadingRefused: it is neither a cross-section nor a gauge.
    """
    plain = with_usual_signs(text)
    if _IS_GAUGE.search(plain):
        gauge = _gauge(plain)
        area = gauge_area(gauge)
        return area, f"{gauge_name(gauge)} ({area / MM2:.3g} mm²)"
    if plain.replace(".", "", 1).replace(",", "", 1).isdecimal():
        raise ReadingRefused(
            f"{plain} may be square millimetres or a gauge; type {plain}mm2 or {plain}AWG."
        )
    entry = parse_reading(plain, Quantity.AREA)
    if entry.value <= 0:
        raise ReadingRefused("A wire has a cross-section above zero; type 2.5mm2 or 14AWG.")
    return entry.value, entry.text


def _gauge(text: str) -> int:
    match = _WITH_WORD.match(text)
    number = match[1] if match else ""
    aughts = _AUGHTS.match(number)
    if aughts:
        return 1 - (int(aughts[1]) if aughts[1] else len(aughts[2]))
    if number.isdecimal() and int(number) <= _THINNEST:
        return int(number)
    raise ReadingRefused(f"“{text}” is no gauge; type 14AWG, 2/0AWG, or 2.5mm2.")
