"""The small language of bands and sums: numbers with units, names, + - * /, functions.

An expression is parsed by the grammar of expression_parser, checked by the rules of
expression_kinds and evaluated by walking what was parsed. It is never handed to Python.
"""

from collections.abc import Mapping
from dataclasses import dataclass
from functools import cached_property, lru_cache
from typing import Any

from faulttree.core.expression_functions import goes_by
from faulttree.core.expression_kinds import typings
from faulttree.core.expression_parser import ExpressionError, Node, functions_in, names_in, parse
from faulttree.core.expression_values import Evaluate, kinds_in_words
from faulttree.core.units import Quantity

__all__ = ["Expression", "ExpressionError"]


@dataclass(frozen=True)
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
        return _parsed(" ".join(str(text).split()))

    @cached_property
    def names(self) -> frozenset[str]:
        """The names it refers to."""
        return names_in(self.root)

    @cached_property
    def functions(self) -> frozenset[str]:
        """The functions of certain quantities that it calls, known or not."""
        return functions_in(self.root)

    @cached_property
    def car_data(self) -> frozenset[str]:
        """Names of the vehicle data that its functions go by without naming it."""
        return frozenset().union(*map(goes_by, self.functions))

    @property
    def is_fixed(self) -> bool:
        """Whether it is the same on every car, whatever was read."""
        return not self.names and not self.car_data

    def quantities(self, names: Mapping[str, Quantity]) -> frozenset[Quantity]:
        """The quantities it can be read as.

        Args:
            names: the quantity of each name that may be used.

        Raises:
            ExpressionError: the kinds do not fit together, or a name is unknown.
        """
        return frozenset(typings(self.root, names))

    def evaluator(self, quantity: Quantity, names: Mapping[str, Quantity]) -> Evaluate:
        """A function from values to the result, as `quantity` [SI].

        Args:
            quantity: what the expression must be here.
            names: the quantity of each name that may be used.

        Raises:
            ExpressionError: it cannot be read as `quantity`.
        """
        found = typings(self.root, names)
        if quantity not in found:
            kinds = kinds_in_words(found)
            raise ExpressionError(f"“{self.text}” is {kinds}, not {quantity.words}")
        return found[quantity]

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


@lru_cache(maxsize=2048)
def _parsed(written: str) -> Expression:
    """Trees write the same edges again and again; one expression serves them all."""
    return Expression(written, parse(written))
