"""The small language of bands and sums: numbers with units, names, + - * /, min, max, abs.

An expression is parsed by the grammar below and evaluated by walking what was parsed. It is never
handed to Python. Every part has a quantity, so volts minus ohms is an error before any walk.

    sum     := product (("+" | "-" | "plus" | "minus") product)*
    product := factor (("*" | "/" | "times") factor)*
    factor  := "-" factor | number [unit] ["of" factor] | name | function "(" sum, ... ")"
             | "(" sum ")"
"""

import re
from collections.abc import Callable, Mapping
from dataclasses import dataclass
from typing import Any

from faulttree.core.uncertain import CannotWorkOut, Uncertain, exactly, largest, smallest
from faulttree.core.units import Quantity, all_spellings, units_spelled, with_usual_signs

MAX_LENGTH = 200
"""Longest expression [characters]; it also bounds the depth of brackets."""

LARGEST = 1e15
"""Largest number an author may write; more is a slip in every unit here."""

Values = Mapping[str, Uncertain]
Evaluate = Callable[[Values], Uncertain]
Typings = dict[Quantity, Evaluate]
"""Every quantity an expression can be read as (5 C is a temperature or a difference)."""

_SIGNS = {"plus": "+", "minus": "-", "times": "*"}
_UNITS = "|".join(re.escape(spelling) for spelling in all_spellings() if spelling not in _SIGNS)
_TOKEN = re.compile(
    r"\s*(?:(?P<number>(?:\d+(?:\.\d*)?|\.\d+)(?:[eE][+-]?\d+)?)"
    r"|(?P<name>[a-z][a-z0-9]*(?:-[a-z0-9]+)*(?![A-Za-z0-9]))"
    r"|(?P<unit>[A-Za-zµΩ°%\"]+)"
    r"|(?P<sign>[-+*/(),]))",
    re.ASCII,
)
_UNIT_AFTER_NUMBER = re.compile(rf"\s*(?P<unit>{_UNITS})(?![A-Za-z0-9])", re.ASCII)
"""What is a unit only behind a number: 3 min, 2 kg/cm2, 5 deg C, 12 v-0.5 v."""
_FUNCTIONS = ("min", "max", "abs")


class ExpressionError(ValueError):
    """The text is not an expression; the message says what was expected."""


@dataclass(frozen=True, slots=True)
class Number:
    """A number with the unit as written, empty for a bare number."""

    number: float
    unit: str


@dataclass(frozen=True, slots=True)
class Name:
    """An earlier reading or a value of the vehicle sheet."""

    name: str


@dataclass(frozen=True, slots=True)
class Operation:
    """A sign or function with its operands."""

    sign: str
    operands: tuple["Node", ...]


Node = Number | Name | Operation


@dataclass(frozen=True, slots=True)
class Expression:
    """A parsed expression; `text` is what the author wrote."""

    text: str
    root: Node

    @classmethod
    def parse(cls, text: str | float) -> "Expression":
        """Parse what an author wrote.

        Raises:
            ExpressionError: with what was expected and where.
        """
        written = " ".join(str(text).split())
        if len(written) > MAX_LENGTH:
            raise ExpressionError(f"longer than {MAX_LENGTH} characters; split it into steps")
        return cls(written, _Parser(with_usual_signs(written)).parse())

    @property
    def names(self) -> frozenset[str]:
        """The names it refers to."""
        return frozenset(_names(self.root))

    def quantities(self, names: Mapping[str, Quantity]) -> frozenset[Quantity]:
        """The quantities it can be read as.

        Raises:
            ExpressionError: the kinds do not fit together, or a name is unknown.
        """
        return frozenset(_typings(self.root, names))

    def evaluator(self, quantity: Quantity, names: Mapping[str, Quantity]) -> Evaluate:
        """A function from values to the result, as `quantity` [SI].

        Raises:
            ExpressionError: it cannot be read as `quantity`.
        """
        typings = _typings(self.root, names)
        if quantity not in typings:
            found = " or ".join(sorted(q.words for q in typings))
            raise ExpressionError(f"“{self.text}” is {found}, not {quantity.words}")
        return typings[quantity]

    @classmethod
    def __get_pydantic_core_schema__(cls, _source: Any, _handler: Any) -> Any:
        """Let a document field be an expression: text or a number, parsed on the way in."""
        from pydantic_core import core_schema

        written = core_schema.union_schema(
            [
                core_schema.str_schema(strict=True),
                core_schema.int_schema(strict=True),
                core_schema.float_schema(strict=True),
            ]
        )
        return core_schema.no_info_after_validator_function(
            cls.parse,
            written,
            serialization=core_schema.plain_serializer_function_ser_schema(lambda e: e.text),
        )


class _Parser:
    def __init__(self, text: str) -> None:
        self._text = text
        self._tokens = list(_tokens(text))
        self._at = 0

    def parse(self) -> Node:
        if not self._tokens:
            raise ExpressionError("empty; write a number with a unit, for example 0.5 V")
        node = self._sum()
        if self._at < len(self._tokens):
            raise ExpressionError(f"“{self._peek()[1]}” does not belong there in “{self._text}”")
        return node

    def _sum(self) -> Node:
        node = self._product()
        while sign := self._take_sign("+-"):
            node = Operation(sign, (node, self._product()))
        return node

    def _product(self) -> Node:
        node = self._factor()
        while sign := self._take_sign("*/"):
            node = Operation(sign, (node, self._factor()))
        return node

    def _factor(self) -> Node:
        if self._take_sign("-"):
            return Operation("negate", (self._factor(),))
        kind, text = self._next()
        if kind == "number":
            return self._quantity(float(text))
        if text == "(":
            node = self._sum()
            self._expect(")")
            return node
        if text in _FUNCTIONS:
            return self._call(text)
        if kind == "name":
            return Name(text)
        raise ExpressionError(f"“{text}” in “{self._text}”: expected a number or a name")

    def _quantity(self, number: float) -> Node:
        kind, text = self._peek()
        unit = ""
        if kind in ("unit", "name") and text not in _SIGNS and text != "of":
            if not units_spelled(text):
                raise ExpressionError(f"“{text}” in “{self._text}” is not a unit known here")
            self._at += 1
            unit = text
        if number > LARGEST:
            raise ExpressionError(f"a number in “{self._text}” is too large")
        literal = Number(number, unit)
        if self._peek()[1] == "of":
            self._at += 1
            return Operation("*", (literal, self._factor()))
        return literal

    def _call(self, name: str) -> Node:
        self._expect("(")
        operands = [self._sum()]
        while self._peek()[1] == ",":
            self._at += 1
            operands.append(self._sum())
        self._expect(")")
        if name == "abs" and len(operands) != 1:
            raise ExpressionError("abs takes one value")
        return Operation(name, tuple(operands))

    def _peek(self) -> tuple[str, str]:
        return self._tokens[self._at] if self._at < len(self._tokens) else ("end", "the end")

    def _next(self) -> tuple[str, str]:
        token = self._peek()
        if token[0] == "end":
            raise ExpressionError(f"“{self._text}” stops where a number or a name should follow")
        self._at += 1
        return token

    def _take_sign(self, signs: str) -> str:
        text = _SIGNS.get(self._peek()[1], self._peek()[1])
        if len(text) == 1 and text in signs:
            self._at += 1
            return text
        return ""

    def _expect(self, text: str) -> None:
        found = self._peek()[1]
        if found != text:
            raise ExpressionError(f"“{self._text}”: expected {text} but found {found}")
        self._at += 1


def _tokens(text: str) -> list[tuple[str, str]]:
    tokens: list[tuple[str, str]] = []
    at = 0
    while at < len(text):
        is_after_number = bool(tokens) and tokens[-1][0] == "number"
        match = (is_after_number and _UNIT_AFTER_NUMBER.match(text, at)) or _TOKEN.match(text, at)
        if match is None:
            sign = text[at:].strip()[0]
            shown = sign if sign.isprintable() else f"U+{ord(sign):04X}"
            raise ExpressionError(f"“{shown}” cannot be used in an expression")
        assert match.lastgroup is not None
        tokens.append((match.lastgroup, match[match.lastgroup]))
        at = match.end()
    return tokens


def _names(node: Node) -> set[str]:
    if isinstance(node, Name):
        return {node.name}
    if isinstance(node, Operation):
        return set().union(*(_names(o) for o in node.operands))
    return set()


def _typings(node: Node, names: Mapping[str, Quantity]) -> Typings:
    if isinstance(node, Number):
        return _number_typings(node)
    if isinstance(node, Name):
        return _name_typings(node.name, names)
    operands = [_typings(o, names) for o in node.operands]
    if node.sign in ("negate", "abs"):
        return _unary(node.sign, operands[0])
    if node.sign in ("min", "max"):
        return _choice(node.sign, operands)
    return _binary(node.sign, operands[0], operands[1])


def _number_typings(node: Number) -> Typings:
    typings: Typings = {}
    for unit in units_spelled(node.unit):
        value = exactly(unit.to_si(node.number))
        typings.setdefault(unit.quantity, lambda _values, v=value: v)  # type: ignore[misc]
    return typings


def _name_typings(name: str, names: Mapping[str, Quantity]) -> Typings:
    if name not in names:
        raise ExpressionError(f"“{name}” is neither an earlier step nor a value under needs")

    def look_up(values: Values) -> Uncertain:
        if name not in values:
            raise CannotWorkOut(f"{name} has not been measured")
        return values[name]

    return {names[name]: look_up}


def _unary(sign: str, operand: Typings) -> Typings:
    apply = _negate if sign == "negate" else abs
    typings: Typings = {
        q: (lambda values, f=f: apply(f(values)))  # type: ignore[misc]
        for q, f in operand.items()
        if q not in _WITHOUT_SIGN
    }
    literal = _negative_literal(operand) if sign == "negate" else {}
    if not typings | literal:
        found = " or ".join(sorted(q.words for q in operand))
        raise ExpressionError(f"{found} takes no minus and no abs; take those of a difference")
    return typings | literal


_WITHOUT_SIGN = (Quantity.TEMPERATURE, Quantity.ABSOLUTE_PRESSURE)
"""Quantities counted from an absolute zero, where a minus or an amount without it says nothing."""


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


def _negate(value: Uncertain) -> Uncertain:
    return -value


def _choice(sign: str, operands: list[Typings]) -> Typings:
    pick = smallest if sign == "min" else largest
    shared = set.intersection(*(set(o) for o in operands))
    if not shared:
        raise ExpressionError(f"{sign} needs values of one kind")
    return {
        q: (lambda values, q=q: pick(o[q](values) for o in operands))  # type: ignore[misc]
        for q in shared
    }


def _binary(sign: str, left: Typings, right: Typings) -> Typings:
    typings: Typings = {}
    for left_quantity, f in left.items():
        for right_quantity, g in right.items():
            result = _result(sign, left_quantity, right_quantity)
            if result is not None:
                typings.setdefault(result, _applied(sign, f, g))
    if not typings:
        a, b = (" or ".join(sorted(q.words for q in side)) for side in (left, right))
        raise ExpressionError(_MISFITS[sign].format(a, b))
    return typings


_MISFITS = {
    "+": "{0} and {1} cannot be added",
    "-": "{1} cannot be taken from {0}",
    "*": "{0} and {1} cannot be multiplied",
    "/": "{0} cannot be divided by {1}",
}


def _applied(sign: str, f: Evaluate, g: Evaluate) -> Evaluate:
    if sign == "+":
        return lambda values: f(values) + g(values)
    if sign == "-":
        return lambda values: f(values) - g(values)
    if sign == "*":
        return lambda values: f(values) * g(values)
    return lambda values: f(values) / g(values)


_PLAIN = (Quantity.RATIO, Quantity.COUNT)
_AFFINE = {
    Quantity.TEMPERATURE: Quantity.TEMPERATURE_DIFFERENCE,
    Quantity.GAUGE_PRESSURE: Quantity.PRESSURE_DIFFERENCE,
    Quantity.ABSOLUTE_PRESSURE: Quantity.PRESSURE_DIFFERENCE,
}
"""Quantities whose difference is another quantity."""
_PRODUCTS = {
    (Quantity.CURRENT, Quantity.RESISTANCE): Quantity.VOLTAGE,
    (Quantity.RESISTANCE, Quantity.CURRENT): Quantity.VOLTAGE,
}
_QUOTIENTS = {
    (Quantity.VOLTAGE, Quantity.CURRENT): Quantity.RESISTANCE,
    (Quantity.VOLTAGE, Quantity.RESISTANCE): Quantity.CURRENT,
}


def _result(sign: str, left: Quantity, right: Quantity) -> Quantity | None:
    """The quantity of `left sign right`, or None where it has no meaning."""
    if sign == "+":
        return _sum_of(left, right)
    if sign == "-":
        return _difference_of(left, right)
    if sign == "*":
        return _product_of(left, right)
    return _quotient_of(left, right)


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
