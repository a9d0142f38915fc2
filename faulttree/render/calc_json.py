"""Sums as data: docs/calc.md describes the keys. Values are SI; charge is in ampere hours."""

import math
from typing import Any

from faulttree.core.calc.answered import Answered
from faulttree.core.calc.kinds import ABOUT, Kind
from faulttree.core.calc.registry import SUMS
from faulttree.core.calc.sums import Input, Sum

FORMAT = "sum/1"


def sums_json() -> dict[str, Any]:
    """All sums with what they need."""
    return {"format": FORMAT, "sums": [sum_json(each) for each in SUMS.values()]}


def sum_json(the_sum: Sum) -> dict[str, Any]:
    """What a sum needs."""
    count, names = the_sum.choose
    return {
        "sum": the_sum.name,
        "title": the_sum.title,
        "formula": the_sum.formula,
        "symbols": the_sum.symbols,
        "source": the_sum.source,
        "example": the_sum.example,
        "give": {"count": count, "of": list(names)} if count else None,
        "inputs": [_input(the_sum, each) for each in the_sum.inputs],
    }


def _input(the_sum: Sum, each: Input) -> dict[str, Any]:
    return {
        "name": each.name,
        "kind": each.kind.value,
        "unit": ABOUT[each.kind].si or None,
        "words": each.words,
        "needed": the_sum.is_needed(each),
        "many": each.many,
        "default": each.default or None,
        "choices": list(each.choices) or None,
    }


def answered_json(done: Answered) -> dict[str, Any]:
    """A sum with its inputs and results."""
    given = []
    for name, amounts in done.given.items():
        each = done.sum.input(name)
        for amount in amounts:
            is_word = each.kind is Kind.WORD
            given.append(
                {
                    "name": name,
                    "text": amount.text,
                    "value": amount.word if is_word else amount.measured.value,
                    "limit-of-error": None if is_word else amount.measured.radius,
                    "unit": ABOUT[each.kind].si or None,
                }
            )
    results = [
        {
            "name": found.name,
            "value": _number(found.value),
            "low": _number(found.low),
            "high": _number(found.high),
            "unit": ABOUT[found.kind].si,
        }
        for found in done.found
    ]
    return {
        "format": FORMAT,
        "sum": done.sum.name,
        "given": given,
        "results": results,
        "formula": done.sum.formula,
        "symbols": done.sum.symbols,
        "remarks": list(done.remarks),
        "source": done.sum.source,
    }


def _number(value: float) -> float | None:
    """A value; none where it has no limit."""
    return value if math.isfinite(value) else None
