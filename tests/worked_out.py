"""Expressions about refrigerant and air, worked out for a car."""

from faulttree.core.expression import Expression
from faulttree.core.expression_values import ALTITUDE, REFRIGERANT_WORD
from faulttree.core.uncertain import Uncertain, exactly
from faulttree.core.units import PSI_PA, Quantity

Q = Quantity
NAMES = {
    "low-side": Q.GAUGE_PRESSURE,
    "high-side": Q.GAUGE_PRESSURE,
    "manifold": Q.ABSOLUTE_PRESSURE,
    "pipe": Q.TEMPERATURE,
    "ambient": Q.TEMPERATURE,
    "humidity": Q.RATIO,
    "altitude": Q.LENGTH,
    "feed": Q.VOLTAGE,
}
ZERO_C = 273.15


def psig(number: float) -> Uncertain:
    return exactly(number * PSI_PA)


def fahrenheit(number: float) -> Uncertain:
    return exactly((number + 459.67) / 1.8)


def celsius(number: float) -> Uncertain:
    return exactly(number + ZERO_C)


def worked_out(
    text: str,
    quantity: Quantity,
    refrigerant: str | None = "R-134a",
    altitude: float | None = None,
    **values: Uncertain,
) -> Uncertain:
    known: dict[str, Uncertain | str] = {n.replace("_", "-"): v for n, v in values.items()}
    if refrigerant is not None:
        known[REFRIGERANT_WORD] = refrigerant
    if altitude is not None:
        known[ALTITUDE] = exactly(altitude)
    return Expression.parse(text).evaluator(quantity, NAMES)(known)
