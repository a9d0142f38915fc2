"""Which quantities go together, and how the parts of an expression are worked out.

Every part has a quantity, so volts minus ohms is an error before any walk. A part may be readable
as several quantities (5 C is a temperature or a difference of two); all of them are followed until
the place where the expression stands says which one is meant.
"""

import operator
from collections.abc import Callable, Iterable, Mapping
from functools import lru_cache
from itertools import product
from typing import NamedTuple

from faulttree.core.expression_functions import call_typings
from faulttree.core.expression_parser import Call, ExpressionError, Name, Node, Number
from faulttree.core.expression_values import Evaluate, Typings, Values, kinds_in_words
from faulttree.core.uncertain import CannotWorkOut, Uncertain, exactly, largest, smallest
from faulttree.core.units import Quantity, units_spelled

_PLAIN = (Quantity.RATIO, Quantity.COUNT)
_AFFINE = {
    Quantity.TEMPERATURE: Quantity.TEMPERATURE_DIFFERENCE,
    Quantity.GAUGE_PRESSURE: Quantity.PRESSURE_DIFFERENCE,
    Quantity.ABSOLUTE_PRESSURE: Quantity.PRESSURE_DIFFERENCE,
}
"""Quantities whose difference is another quantity."""
_WITHOUT_SIGN = (Quantity.TEMPERATURE, Quantity.ABSOLUTE_PRESSURE)
"""Quantities counted from an absolute zero, where a minus or an amount without it says nothing."""
_PRODUCTS = {
    (Quantity.CURRENT, Quantity.RESISTANCE): Quantity.VOLTAGE,
    (Quantity.RESISTANCE, Quantity.CURRENT): Quantity.VOLTAGE,
}
_QUOTIENTS = {
    (Quantity.VOLTAGE, Quantity.CURRENT): Quantity.RESISTANCE,
    (Quantity.VOLTAGE, Quantity.RESISTANCE): Quantity.CURRENT,
}


def typings(node: Node, names: Mapping[str, Quantity]) -> Typings:
    """Every quantity a part can be read as, at least one.

    Args:
        node: the part.
        names: the quantity of each name that may be used.

    Raises:
        ExpressionError: the kinds do not fit together, or a name is unknown.
    """
    if isinstance(node, Number):
        return _number_typings(node)
    if isinstance(node, Name):
        return _name_typings(node.name, names)
    operands = [typings(operand, names) for operand in node.operands]
    if isinstance(node, Call):
        return call_typings(node.function, operands)
    if node.sign == "negate":
        return _signed(operator.neg, operands[0]) | _negative_literal(operands[0])
    if node.sign == "abs":
        return _signed(abs, operands[0])
    if node.sign in ("min", "max"):
        return _choice(node.sign, operands)
    return _binary(node.sign, operands[0], operands[1])


@lru_cache(maxsize=2048)
def _number_typings(node: Number) -> Typings:
    found: Typings = {}
    for unit in units_spelled(node.unit):
        found.setdefault(unit.quantity, _always(exactly(unit.to_si(node.number))))
    return found


def _name_typings(name: str, names: Mapping[str, Quantity]) -> Typings:
    if name not in names:
        raise ExpressionError(f"“{name}” is neither an earlier step nor a value under needs")

    def look_up(values: Values) -> Uncertain:
        value = values.get(name)
        if not isinstance(value, Uncertain):
            raise CannotWorkOut(f"{name} has not been measured")
        return value

    return {names[name]: look_up}


def _signed(apply: Callable[[Uncertain], Uncertain], operand: Typings) -> Typings:
    found = {q: _applied(apply, f) for q, f in operand.items() if q not in _WITHOUT_SIGN}
    if not found:
        kinds = kinds_in_words(operand)
        raise ExpressionError(f"{kinds} takes no minus and no abs; take those of a difference")
    return found


def _negative_literal(operand: Typings) -> Typings:
    """-5 C: the minus belongs to the number typed, not to the kelvins it stands for."""
    temperature = operand.get(Quantity.TEMPERATURE)
    difference = operand.get(Quantity.TEMPERATURE_DIFFERENCE)
    if temperature is None or difference is None:
        return {}
    return {
        Quantity.TEMPERATURE: lambda values: (
            temperature(values) - difference(values) - difference(values)
        )
    }


def _choice(function: str, operands: list[Typings]) -> Typings:
    pick = smallest if function == "min" else largest
    shared = set.intersection(*(set(operand) for operand in operands))
    if not shared:
        raise ExpressionError(f"{function} needs values of one kind")
    return {q: _picked(pick, [operand[q] for operand in operands]) for q in shared}


def _binary(sign: str, left: Typings, right: Typings) -> Typings:
    rule = _SIGNS[sign]
    found: Typings = {}
    for (left_kind, f), (right_kind, g) in product(left.items(), right.items()):
        kind = rule.kind(left_kind, right_kind)
        if kind is not None:
            found.setdefault(kind, _applied(rule.apply, f, g))
    if not found:
        raise ExpressionError(rule.misfit.format(kinds_in_words(left), kinds_in_words(right)))
    return found


def _always(value: Uncertain) -> Evaluate:
    return lambda _values: value


def _applied(apply: Callable[..., Uncertain], *parts: Evaluate) -> Evaluate:
    if len(parts) == 2:
        left, right = parts
        return lambda values: apply(left(values), right(values))
    return lambda values: apply(*(part(values) for part in parts))


def _picked(pick: Callable[[Iterable[Uncertain]], Uncertain], parts: list[Evaluate]) -> Evaluate:
    return lambda values: pick(part(values) for part in parts)


def _sum_of(left: Quantity, right: Quantity) -> Quantity | None:
    if left in _AFFINE or right in _AFFINE:
        if _AFFINE.get(left) is right:
            return left
        return right if _AFFINE.get(right) is left else None
    return left if left is right else None


def _difference_of(left: Quantity, right: Quantity) -> Quantity | None:
    if left in _AFFINE:
        if left is right:
            return _AFFINE[left]
        return left if _AFFINE[left] is right else None
    return left if left is right else None


def _product_of(left: Quantity, right: Quantity) -> Quantity | None:
    if left in _PLAIN and right not in _AFFINE:
        return right
    if right in _PLAIN and left not in _AFFINE:
        return left
    return _PRODUCTS.get((left, right))


def _quotient_of(left: Quantity, right: Quantity) -> Quantity | None:
    if left is right and (left not in _AFFINE or left is Quantity.ABSOLUTE_PRESSURE):
        return Quantity.RATIO
    if right in _PLAIN and left not in _AFFINE:
        return left
    return _QUOTIENTS.get((left, right))


class _Sign(NamedTuple):
    """What a sign between two parts does: the kind of the result, its value, and when it fails."""

    kind: Callable[[Quantity, Quantity], Quantity | None]
    apply: Callable[[Uncertain, Uncertain], Uncertain]
    misfit: str


_SIGNS = {
    "+": _Sign(_sum_of, operator.add, "{0} and {1} cannot be added"),
    "-": _Sign(_difference_of, operator.sub, "{1} cannot be taken from {0}"),
    "*": _Sign(_product_of, operator.mul, "{0} and {1} cannot be multiplied"),
    "/": _Sign(_quotient_of, operator.truediv, "{0} cannot be divided by {1}"),
}
