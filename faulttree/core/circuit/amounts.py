"""Amounts in a circuit document: expressions that know the quantity they must be.

An amount is a number with its unit, or a sum that may use the car's measured inputs:
`temperature: engine-temperature`.
"""

from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from typing import Annotated, Any

from faulttree.core.document import Document
from faulttree.core.expression import Expression
from faulttree.core.uncertain import Uncertain
from faulttree.core.units import Quantity


@dataclass(frozen=True, slots=True)
class Of:
    """Marks a field of a document with the quantity of its expression.

    Attributes:
        quantity: what the amount must be.
        may_follow: whether it may use the car's measured inputs by name.
    """

    quantity: Quantity
    may_follow: bool = True


Volts = Annotated[Expression, Of(Quantity.VOLTAGE)]
"""A voltage [V]."""
Ohms = Annotated[Expression, Of(Quantity.RESISTANCE)]
"""A resistance [ohm]."""
Metres = Annotated[Expression, Of(Quantity.LENGTH)]
"""A length [m]."""
SquareMetres = Annotated[Expression, Of(Quantity.AREA)]
"""A cross-section [m2]."""
Kelvins = Annotated[Expression, Of(Quantity.TEMPERATURE)]
"""A temperature [K]."""
Share = Annotated[Expression, Of(Quantity.RATIO)]
"""A share of a whole [1]."""
FixedVolts = Annotated[Expression, Of(Quantity.VOLTAGE, may_follow=False)]
"""A voltage that no input changes [V]."""
FixedOhms = Annotated[Expression, Of(Quantity.RESISTANCE, may_follow=False)]
"""A resistance that no input changes [ohm]."""
FixedAmperes = Annotated[Expression, Of(Quantity.CURRENT, may_follow=False)]
"""A current that no input changes [A]."""
FixedWatts = Annotated[Expression, Of(Quantity.POWER, may_follow=False)]
"""A power that no input changes [W]."""
FixedKelvins = Annotated[Expression, Of(Quantity.TEMPERATURE, may_follow=False)]
"""A temperature that no input changes [K]."""
FixedSeconds = Annotated[Expression, Of(Quantity.TIME, may_follow=False)]
"""A time that no input changes [s]."""
FixedKilograms = Annotated[Expression, Of(Quantity.MASS, may_follow=False)]
"""A mass that no input changes [kg]."""
FixedCubicMetres = Annotated[Expression, Of(Quantity.VOLUME, may_follow=False)]
"""A volume that no input changes [m3]."""
FixedTurns = Annotated[Expression, Of(Quantity.ROTATIONAL_SPEED, may_follow=False)]
"""A rotational speed that no input changes [1/s]."""
FixedKelvinsApart = Annotated[Expression, Of(Quantity.TEMPERATURE_DIFFERENCE, may_follow=False)]
"""A temperature difference that no input changes [K]."""
FixedShare = Annotated[Expression, Of(Quantity.RATIO, may_follow=False)]
"""A share of a whole that no input changes [1]."""

Surroundings = Mapping[str, Uncertain]
"""The measured inputs of the car [SI], which amounts may use by name."""


def amount(text: str) -> Expression:
    """An amount as a default of a field: amount("10 mohm")."""
    return Expression.parse(text)


def si(
    value: Expression,
    quantity: Quantity,
    names: Mapping[str, Quantity] | None = None,
    surroundings: Surroundings | None = None,
) -> float:
    """The amount [SI].

    Args:
        value: what the author wrote.
        quantity: what it must be.
        names: the quantity of each name it may use.
        surroundings: the value of each name.

    Raises:
        ExpressionError: it is of another kind, or uses an unknown name.
        CannotWorkOut: it has no value, as where it divides by zero.
    """
    return value.evaluator(quantity, names or {})(surroundings or {}).value


@dataclass(frozen=True, slots=True)
class Written:
    """An amount found in a document: its place, its mark (None: another field says) and text."""

    path: tuple[str | int, ...]
    mark: Of | None
    value: Expression


def amounts_in(part: Any, path: tuple[str | int, ...] = ()) -> Iterator[Written]:
    """Every amount in a document or a part of it, with its place."""
    if isinstance(part, Document):
        for name, field in type(part).model_fields.items():
            inner = (*path, field.alias or name)
            marks = _marks(field.metadata, field.annotation)
            yield from _amounts_of(getattr(part, name), inner, marks)
    else:
        yield from _amounts_of(part, path, None)


def _amounts_of(value: Any, path: tuple[str | int, ...], mark: Of | None) -> Iterator[Written]:
    if isinstance(value, Expression):
        yield Written(path, mark, value)
    elif isinstance(value, Document):
        yield from amounts_in(value, path)
    elif isinstance(value, Mapping):
        for key, inner in value.items():
            yield from _amounts_of(inner, (*path, key), mark)
    elif isinstance(value, tuple):
        for index, inner in enumerate(value):
            yield from _amounts_of(inner, (*path, index), mark)


def _marks(metadata: list[Any], annotation: Any) -> Of | None:
    found = next((m for m in metadata if isinstance(m, Of)), None)
    return found or _mark_inside(annotation)


def _mark_inside(annotation: Any) -> Of | None:
    """The mark of `Ohms | None` and of `tuple[Ohms, ...]`."""
    for mark in getattr(annotation, "__metadata__", ()):
        if isinstance(mark, Of):
            return mark
    for argument in getattr(annotation, "__args__", ()):
        found = _mark_inside(argument)
        if found:
            return found
    return None
