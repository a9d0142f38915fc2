"""From text to a tree of parts: the tokens and the grammar of expressions.

    sum     := product (("+" | "-" | "plus" | "minus") product)*
    product := factor (("*" | "/" | "times") factor)*
    factor  := ("-" | "minus") factor | "(" sum ")" | name "(" sum ("," sum)* ")"
             | number [unit] ["of" factor] | name

The text is never handed to Python. What the parts mean together is decided in expression_kinds.
"""

import re
from dataclasses import dataclass
from typing import NamedTuple

from faulttree.core.units import all_spellings, units_spelled, with_usual_signs

MAX_LENGTH = 200
"""Longest expression [characters]; it also bounds the depth of brackets."""

LARGEST = 1e15
"""Largest number an author may write; more is a slip in every unit here."""

OWN_FUNCTIONS = ("min", "max", "abs")
"""Functions of any quantity; their names never stand for a reading."""

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
    """A sign, or a function of any quantity, with its operands.

    Attributes:
        sign: "+", "-", "*", "/" with two operands; "negate", "abs" with one; "min", "max" with
            one or more.
        operands: the parts it works on, as written from left to right.
    """

    sign: str
    operands: tuple["Node", ...]


@dataclass(frozen=True, slots=True)
class Call:
    """A function of certain quantities, known or not, with its operands from left to right."""

    function: str
    operands: tuple["Node", ...]


Node = Number | Name | Operation | Call
"""A part of an expression."""


def parse(text: str) -> Node:
    """The parts of an expression.

    Raises:
        ExpressionError: with what was expected and where.

    Example:
        >>> parse("feed - 0.5 V")
        Operation(sign='-', operands=(Name(name='feed'), Number(number=0.5, unit='V')))
    """
    if len(text) > MAX_LENGTH:
        raise ExpressionError(f"longer than {MAX_LENGTH} characters; split it into steps")
    return _Parser(with_usual_signs(text)).parse()


def names_in(node: Node) -> frozenset[str]:
    """The names that a part and the parts inside it refer to."""
    if isinstance(node, Name):
        return frozenset({node.name})
    if isinstance(node, Operation | Call):
        return frozenset().union(*(names_in(operand) for operand in node.operands))
    return frozenset()


def functions_in(node: Node) -> frozenset[str]:
    """The functions of certain quantities that a part and the parts inside it call."""
    if isinstance(node, Operation | Call):
        own = {node.function} if isinstance(node, Call) else ()
        return frozenset(own).union(*(functions_in(operand) for operand in node.operands))
    return frozenset()


class _Token(NamedTuple):
    kind: str
    text: str


_END = _Token("end", "the end")


def _tokens(text: str) -> list[_Token]:
    tokens: list[_Token] = []
    at = 0
    while at < len(text):
        is_after_number = bool(tokens) and tokens[-1].kind == "number"
        match = (is_after_number and _UNIT_AFTER_NUMBER.match(text, at)) or _TOKEN.match(text, at)
        if match is None:
            raise ExpressionError(f"“{_first_sign(text[at:])}” cannot be used in an expression")
        assert match.lastgroup is not None
        tokens.append(_Token(match.lastgroup, match[match.lastgroup]))
        at = match.end()
    return [*tokens, _END]


def _first_sign(text: str) -> str:
    sign = text.strip()[0]
    return sign if sign.isprintable() else f"U+{ord(sign):04X}"


class _Parser:
    """One method for each rule of the grammar."""

    def __init__(self, text: str) -> None:
        self._text = text
        self._tokens = _tokens(text)
        self._at = 0

    def parse(self) -> Node:
        if self._peek() == _END:
            raise ExpressionError("empty; write a number with a unit, for example 0.5 V")
        node = self._sum()
        if self._peek() != _END:
            raise ExpressionError(f"“{self._peek().text}” does not belong there in “{self._text}”")
        return node

    def _sum(self) -> Node:
        node = self._product()
        while sign := self._take("+", "-"):
            node = Operation(sign, (node, self._product()))
        return node

    def _product(self) -> Node:
        node = self._factor()
        while sign := self._take("*", "/"):
            node = Operation(sign, (node, self._factor()))
        return node

    def _factor(self) -> Node:
        if self._take("-"):
            return Operation("negate", (self._factor(),))
        if self._take("("):
            node = self._sum()
            self._expect(")")
            return node
        kind, text = self._next()
        if kind == "number":
            return self._amount(float(text))
        if text in OWN_FUNCTIONS or (kind == "name" and self._peek().text == "("):
            return self._call(text)
        if kind == "name":
            return Name(text)
        raise ExpressionError(f"“{text}” in “{self._text}”: expected a number or a name")

    def _amount(self, number: float) -> Node:
        unit = self._unit()
        if number > LARGEST:
            raise ExpressionError(f"a number in “{self._text}” is too large")
        amount = Number(number, unit)
        return Operation("*", (amount, self._factor())) if self._take("of") else amount

    def _unit(self) -> str:
        kind, text = self._peek()
        if kind not in ("unit", "name") or text in _SIGNS or text == "of":
            return ""
        if not units_spelled(text):
            raise ExpressionError(f"“{text}” in “{self._text}” is not a unit known here")
        return self._next().text

    def _call(self, function: str) -> Node:
        self._expect("(")
        operands = [self._sum()]
        while self._take(","):
            operands.append(self._sum())
        self._expect(")")
        if function not in OWN_FUNCTIONS:
            return Call(function, tuple(operands))
        if function == "abs" and len(operands) != 1:
            raise ExpressionError("abs takes one value")
        return Operation(function, tuple(operands))

    def _peek(self) -> _Token:
        return self._tokens[self._at]

    def _next(self) -> _Token:
        token = self._peek()
        if token == _END:
            raise ExpressionError(f"“{self._text}” stops where a number or a name should follow")
        self._at += 1
        return token

    def _take(self, *wanted: str) -> str:
        """The next token if it is one of these, otherwise nothing; a sign may be a word."""
        text = _SIGNS.get(self._peek().text, self._peek().text)
        if text not in wanted:
            return ""
        self._at += 1
        return text

    def _expect(self, wanted: str) -> None:
        if not self._take(wanted):
            found = self._peek().text
            raise ExpressionError(f"“{self._text}”: expected {wanted} but found {found}")
