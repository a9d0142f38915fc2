"""The words of a line as the inputs of a sum.

The grammar, as docs/calc.md tells it: values stand in any order. A value goes to the first input,
in the order listed, that is still empty and takes its unit; a number without a unit to the first
needed one. `name=value` goes where it says. So a forgotten order does no harm, and what could be
meant in two ways is refused.
"""

import re
from collections.abc import Iterator, Sequence

from faulttree.core.calc.amounts import PLUS_MINUS, Amount, is_bare, read_amount
from faulttree.core.calc.kinds import Kind
from faulttree.core.calc.sums import Given, Input, Sum, SumRefused
from faulttree.core.reading import ReadingRefused
from faulttree.core.uncertain import Uncertain
from faulttree.core.units import COMPOUND, UnitSystem, units_spelled, with_usual_signs

_EQUALS = re.compile(r"\s*=\s*")
_UNIT_WORDS = ("awg", "ga", "gauge", "ah")
_NUMBER = re.compile(r"[+-]?[\d.,]+")
_UNIT_AT_END = re.compile(r"[\d.,]\s*([^\d\s.,]+)$")
LONGEST = 400
"""Longest line taken [characters]."""


def inputs_of(the_sum: Sum, line: str, system: UnitSystem) -> Given:
    """The inputs that a line gives.

    Args:
        the_sum: whose inputs they are.
        line: what was typed behind its name.
        system: which unit a number without one has.

    Raises:
        SumRefused: a value fits no input, or an input is given twice or contradicts itself.
        ReadingRefused: a value is none.
    """
    given: dict[str, tuple[Amount, ...]] = {}
    values = list(_values(the_sum, line))
    for name, text in values:
        if name:
            _put(given, _named(the_sum, name), text, system)
    for name, text in values:
        if not name:
            _put(given, _taker(the_sum, given, text, system), text, system)
    return given


def complete(the_sum: Sum, given: Given, system: UnitSystem) -> Given:
    """The inputs with defaults where none is given, in the order listed.

    Raises:
        SumRefused: something is still lacking, or more is given than can be.
    """
    lacking = the_sum.lacking(given)
    if lacking:
        raise SumRefused(f"{the_sum.name} still needs {lacking}; type: {the_sum.command}")
    count, names = the_sum.choose
    if sum(name in given for name in names) > count:
        raise SumRefused(
            f"{the_sum.name} takes {count} of {', '.join(names)}, not more; type: {the_sum.command}"
        )
    _check_unless(the_sum, given)
    full: dict[str, tuple[Amount, ...]] = {}
    for each in the_sum.inputs:
        if each.name in given:
            full[each.name] = given[each.name]
        elif each.default and each.unless not in given:
            full[each.name] = (read_input(each, each.default, system),)
    return full


def _check_unless(the_sum: Sum, given: Given) -> None:
    for each in the_sum.inputs:
        if each.name in given and each.unless in given:
            raise SumRefused(f"{the_sum.name} takes {each.name} or {each.unless}, not both.")


def read_input(each: Input, text: str, system: UnitSystem) -> Amount:
    """Read what was typed for one input.

    Raises:
        ReadingRefused: it is none, or lacks the unit that is needed to know what is meant.
    """
    if each.kind is Kind.WORD:
        return _word(each, text)
    if each.unit_needed and is_bare(text):
        raise ReadingRefused(f"Type {each.name} with its unit, as {each.example}.")
    return read_amount(text, each.kind, system)


def _word(each: Input, text: str) -> Amount:
    if each.spelled:
        found = [choice for choice in [each.spelled(text)] if choice]
    else:
        found = [choice for choice in each.choices if text and choice.startswith(text.lower())]
    if len(found) != 1:
        raise ReadingRefused(f"{each.name} is one of {', '.join(each.choices)}.")
    return Amount(Uncertain(0.0), found[0], found[0])


def _put(given: dict[str, tuple[Amount, ...]], each: Input, text: str, system: UnitSystem) -> None:
    before = given.get(each.name, ())
    if before and not each.many:
        raise SumRefused(f"{each.name} is given twice: {before[0].text} and {text}.")
    given[each.name] = (*before, read_input(each, text, system))


def _named(the_sum: Sum, name: str) -> Input:
    begun = [each for each in the_sum.inputs if each.name.startswith(name.lower())]
    exact = [each for each in begun if each.name == name.lower()]
    found = exact or begun
    if len(found) == 1:
        return found[0]
    names = ", ".join(each.name for each in the_sum.inputs)
    raise SumRefused(f"{the_sum.name} has no input “{name}”; it has {names}.")


def _taker(the_sum: Sum, given: Given, text: str, system: UnitSystem) -> Input:
    """The first input still empty that takes a value."""
    every = [each for each in the_sum.inputs if each.many or each.name not in given]
    free = [each for each in every if not each.by_name]
    if not every:
        raise SumRefused(f"{text} is one too many; type: {the_sum.command}")
    if is_bare(text):
        needed = [e for e in free if the_sum.is_needed(e) and e.kind is not Kind.WORD]
        if needed:
            return needed[0]
        names = " or ".join(f"{each.name}={text}" for each in free or every)
        raise SumRefused(f"{text} could be {names}: type its unit or its name.")
    for each in free:
        if _takes(each, text, system):
            return each
    _refuse(the_sum, every, text, system)
    raise AssertionError


def _takes(each: Input, text: str, system: UnitSystem) -> bool:
    try:
        read_input(each, text, system)
    except ReadingRefused:
        return False
    return True


def _refuse(the_sum: Sum, free: Sequence[Input], text: str, system: UnitSystem) -> None:
    """Say why no input takes a value: by what the one it is meant for says, or in general."""
    in_its_unit = _NUMBER.sub("20", PLUS_MINUS.split(text)[0], count=1)
    meant = [each for each in free if _takes(each, in_its_unit, system) and not each.by_name]
    left = [each for each in free if not each.by_name]
    for each in meant or (left if len(left) == 1 else ()):
        read_input(each, text, system)
    told = f"{text} is one too many"
    if left:
        names = ", ".join(f"{each.name} (as {each.example})" for each in left)
        told = f"“{text}” fits none of the inputs left: {names}"
    named = [each for each in free if each.by_name and _takes(each, text, system)]
    if named:
        raise SumRefused(f"{told}. For {named[0].name} type {named[0].name}={text}.")
    raise SumRefused(f"{told}. Type: {the_sum.command}")


def _values(the_sum: Sum, line: str) -> Iterator[tuple[str, str]]:
    """The (name, value) pairs of a line; the name is empty where none is given."""
    if len(line) > LONGEST:
        raise SumRefused(f"That line is too long; type: {the_sum.command}")
    for part in _joined_units(_parts(the_sum, line)):
        name, equals, value = part.partition("=")
        if equals and not (name.strip() and value.strip()):
            raise SumRefused(f"“{part}” lacks a name or a value; type {the_sum.inputs[0].name}=….")
        yield (name.strip(), value.strip()) if equals else ("", part)


def _parts(the_sum: Sum, line: str) -> list[str]:
    """The line cut where a new value begins: units and limits of error stay with their number."""
    parts: list[str] = []
    has_words = any(each.choices for each in the_sum.inputs)
    for word in _EQUALS.sub("=", with_usual_signs(line)).split():
        if parts and not _begins(word, parts[-1], has_words):
            parts[-1] = f"{parts[-1]} {word}"
        else:
            parts.append(word)
    return parts


def _begins(word: str, before: str, has_words: bool) -> bool:
    """True for a word that begins another value; `has_words` where one input is a word."""
    if before.endswith(("=", "±", "+", "+/-", "+-")) or PLUS_MINUS.match(word) or word == "+":
        return False
    if "=" in word:
        return True
    if units_spelled(word) or units_spelled(word.lower()) or word.lower() in _UNIT_WORDS:
        return False
    return has_words or any(c.isdigit() for c in word)


def _joined_units(parts: Sequence[str]) -> list[str]:
    """`16 ft` and `6 in` are one value, as in a reading."""
    joined: list[str] = []
    for part in parts:
        if joined and (_unit(joined[-1]), _unit(part)) in COMPOUND and "=" not in part:
            joined[-1] = f"{joined[-1]} {part}"
        else:
            joined.append(part)
    return joined


def _unit(part: str) -> str:
    match = _UNIT_AT_END.search(part)
    return match[1] if match else ""
