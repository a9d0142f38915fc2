"""What a sum is: its inputs, its formula, where that comes from, and the work itself.

The work is done on plain SI numbers, so that the same function serves the value and its limits.
"""

import math
from collections.abc import Callable, Iterator, Mapping, Sequence
from dataclasses import dataclass

from faulttree.core.calc.amounts import Amount
from faulttree.core.calc.kinds import ABOUT, Kind

Given = Mapping[str, tuple[Amount, ...]]
"""Inputs by name; one amount each, several only where an input may be given more than once."""


class SumRefused(ValueError):
    """The sum has no answer for what was given; the message says why and what to type."""


@dataclass(frozen=True, slots=True)
class Input:
    """One input of a sum.

    Attributes:
        name: what it is called on the command line.
        kind: what it is.
        words: what it means.
        default: what is taken when it is left out; empty when it is needed, or not known.
        optional: it may be left out, with or without a default.
        many: it may be given more than once.
        unit_needed: a number without a unit is refused, for it could be meant in two.
        zero: it may be zero; else it must be greater.
        signed: it may be below zero too.
        choices: what may be chosen, for a word.
        spelled: finds the choice that is meant, however it is written; without it a word may be
            cut short.
        by_name: it is given by name only, for a value could be meant for another input.
        unless: the input that may be given in its place; then its default is not taken.
        like: what may be typed, where the usual example of its kind would mislead.
    """

    name: str
    kind: Kind
    words: str
    default: str = ""
    optional: bool = False
    many: bool = False
    unit_needed: bool = False
    zero: bool = False
    signed: bool = False
    choices: tuple[str, ...] = ()
    spelled: Callable[[str], str | None] | None = None
    by_name: bool = False
    unless: str = ""
    like: str = ""

    @property
    def may_be_left_out(self) -> bool:
        """True when the sum can do without."""
        return self.optional or bool(self.default)

    @property
    def example(self) -> str:
        """What may be typed."""
        return self.like or (self.choices[0] if self.choices else ABOUT[self.kind].example)


class Values:
    """The inputs as plain numbers [SI]: what the work is done on."""

    def __init__(self, numbers: Mapping[str, tuple[float, ...]], words: Mapping[str, str]) -> None:
        self._numbers = numbers
        self._words = words

    def __getitem__(self, name: str) -> float:
        return self._numbers[name][0]

    def __contains__(self, name: str) -> bool:
        return name in self._numbers

    def every(self, name: str) -> tuple[float, ...]:
        """All amounts of an input that may be given more than once."""
        return self._numbers[name]

    def word(self, name: str) -> str:
        """The word chosen."""
        return self._words[name]


@dataclass(frozen=True, slots=True)
class Answer:
    """One result [SI]; `low` and `high` where the law itself, or the part, leaves it uncertain."""

    name: str
    kind: Kind
    value: float
    low: float = math.nan
    high: float = math.nan

    @property
    def limits(self) -> tuple[float, float]:
        """The limits that the law leaves; the value itself where it leaves none."""
        return (
            self.value if math.isnan(self.low) else self.low,
            self.value if math.isnan(self.high) else self.high,
        )


Work = Callable[[Values], Sequence[Answer]]
"""The answers, in the same order for all numbers."""
Remarks = Callable[[Values, Sequence[Answer]], Iterator[str]]
"""What the result means, or where the formula ends. The answers come with all their limits: those
that the law leaves and those of the inputs."""


def no_remarks(_values: Values, _answers: Sequence[Answer]) -> Iterator[str]:
    """For sums whose number says it all."""
    return iter(())


def no_check(_values: Values) -> None:
    """For sums that have an answer for all inputs."""


@dataclass(frozen=True, slots=True)
class Sum:
    """One sum.

    Attributes:
        name: what is typed for it.
        title: what it tells, in one line.
        formula: in words.
        symbols: the same in symbols.
        inputs: needed ones first, in the order in which bare numbers fill them.
        source: where the formula and its figures come from.
        example: inputs to type.
        work: the answers.
        choose: how many of which inputs are to be given.
        check: raises SumRefused for inputs that contradict each other.
        remarks: what the result means.
        keywords: other words it is found by.
    """

    name: str
    title: str
    formula: str
    symbols: str
    inputs: tuple[Input, ...]
    source: str
    example: str
    work: Work
    choose: tuple[int, tuple[str, ...]] = (0, ())
    check: Callable[[Values], None] = no_check
    remarks: Remarks = no_remarks
    keywords: str = ""

    def input(self, name: str) -> Input:
        """The input of a name."""
        return next(each for each in self.inputs if each.name == name)

    def is_needed(self, each: Input) -> bool:
        """True for an input without which there is no answer, whatever else is given."""
        return not each.may_be_left_out and each.name not in self.choose[1]

    def lacking(self, given: Given) -> str:
        """What is still to be given, in words; empty when the sum can be done."""
        needed = [i.name for i in self.inputs if self.is_needed(i) and i.name not in given]
        count, names = self.choose
        more = count - sum(name in given for name in names)
        if more > 0:
            left = [name for name in names if name not in given]
            needed.append(left[0] if len(left) == more else f"{_NUMBERS[more]} of {_listed(left)}")
        return _joined(needed)

    @property
    def command(self) -> str:
        """An example as it is typed."""
        return f"calc {self.name} {self.example}"


_NUMBERS = {1: "one", 2: "two"}


def _joined(names: Sequence[str]) -> str:
    return " and ".join(filter(None, [", ".join(names[:-1]), *names[-1:]]))


def _listed(names: Sequence[str]) -> str:
    return " or ".join(filter(None, [", ".join(names[:-1]), *names[-1:]]))


def over(number: float, divisor: float) -> float:
    """A quotient; infinite where it has no limit."""
    if divisor == 0:
        return math.inf if number > 0 else math.nan
    return number / divisor
