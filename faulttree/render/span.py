"""From one value to another, in the units wanted: `24 to 35 psi (165 to 241 kPa)`."""

from faulttree.core.figures import show
from faulttree.core.units import Quantity, UnitSystem


def span(
    band: tuple[float, float], quantity: Quantity, units: UnitSystem, step: float | None = None
) -> str:
    """Both ends with one unit, in each unit system wanted.

    Args:
        band: lowest and highest [SI].
        quantity: what they are.
        units: the units wanted.
        step: smallest step told [SI].
    """
    systems = (UnitSystem.US, UnitSystem.METRIC) if units is UnitSystem.BOTH else (units,)
    first, *others = (_span(band, quantity, system, step) for system in systems)
    return f"{first} ({others[0]})" if others else first


def _span(
    band: tuple[float, float], quantity: Quantity, system: UnitSystem, step: float | None
) -> str:
    low, high = (show(value, quantity, system, step) for value in band)
    return high if low == high else f"{low.rsplit(' ', 1)[0]} to {high}"
