"""A sum done: every answer with the limits that its inputs and its law leave it.

Every sum rises or falls steadily with each of its inputs, so the least and the greatest answer lie
where every input is at one of its own limits: all those corners are tried. The limits so found are
exact. Sums of `Uncertain` values would be wider where an input stands in a formula twice.
"""

import math
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from itertools import product

from faulttree.core.calc.amounts import Amount
from faulttree.core.calc.kinds import Kind
from faulttree.core.calc.sums import Answer, Given, Input, Sum, SumRefused, Values

_MOST_CORNERS = 2**10


@dataclass(frozen=True, slots=True)
class Found:
    """One result [SI] with its limits; an infinite one has none on that side."""

    name: str
    kind: Kind
    low: float
    value: float
    high: float


@dataclass(frozen=True, slots=True)
class Answered:
    """A sum with its inputs and its results."""

    sum: Sum
    given: Given
    found: tuple[Found, ...]
    remarks: tuple[str, ...]


def answered(the_sum: Sum, given: Given) -> Answered:
    """Do a sum.

    Args:
        the_sum: which one.
        given: everything it needs; defaults filled in.

    Raises:
        SumRefused: an input is out of bounds, or there is no answer.
    """
    for name, amounts in given.items():
        for amount in amounts:
            _check_bounds(the_sum.input(name), amount)
    values = _values(the_sum, given, {})
    the_sum.check(values)
    try:
        answers = the_sum.work(values)
        corners = [the_sum.work(corner) for corner in _corners(the_sum, given)]
    except (ArithmeticError, ValueError) as error:
        raise _no_answer(the_sum, error) from None
    if any(math.isnan(answer.value) for answer in answers):
        raise _no_answer(the_sum)
    found = tuple(
        _found(answer, [corner[i] for corner in corners]) for i, answer in enumerate(answers)
    )
    limited = [Answer(each.name, each.kind, each.value, each.low, each.high) for each in found]
    return Answered(the_sum, given, found, tuple(the_sum.remarks(values, limited)))


def _no_answer(the_sum: Sum, why: Exception | None = None) -> SumRefused:
    if isinstance(why, SumRefused):
        return why
    return SumRefused(f"These numbers have no answer; type others, as in {the_sum.command}")


def _check_bounds(each: Input, amount: Amount) -> None:
    value = amount.measured.value
    if each.kind is Kind.WORD or each.signed or value > 0 or (each.zero and value == 0):
        return
    least = "cannot be below zero" if each.zero else "must be greater than zero"
    raise SumRefused(f"{each.name} {least}; type it as {each.example}.")


def _values(the_sum: Sum, given: Given, ends: Mapping[str, int]) -> Values:
    """The numbers; those named in `ends` at the lower (0) or upper (1) limit of their error."""
    numbers, words = {}, {}
    for name, amounts in given.items():
        each = the_sum.input(name)
        if each.kind is Kind.WORD:
            words[name] = amounts[0].word
        else:
            numbers[name] = tuple(_at(each, amount, ends.get(name)) for amount in amounts)
    return Values(numbers, words)


def _at(each: Input, amount: Amount, end: int | None) -> float:
    if end is None:
        return amount.measured.value
    limit = amount.measured.high if end else amount.measured.low
    return limit if each.signed else max(0.0, limit)


def _corners(the_sum: Sum, given: Given) -> Iterator[Values]:
    unsure = [name for name, all_of in given.items() if any(a.measured.radius for a in all_of)]
    if 2 ** len(unsure) > _MOST_CORNERS:
        raise SumRefused("Leave out some of the ±: these are too many to combine.")
    for ends in product((0, 1), repeat=len(unsure)) if unsure else ():
        yield _values(the_sum, given, dict(zip(unsure, ends, strict=True)))


def _found(answer: Answer, corners: Sequence[Answer]) -> Found:
    every = [limit for each in (answer, *corners) for limit in each.limits]
    known = [limit for limit in every if not math.isnan(limit)]
    return Found(answer.name, answer.kind, min(known), answer.value, max(known))
