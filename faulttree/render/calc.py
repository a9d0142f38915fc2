"""Sums as text: the list of them, what one needs, and a result with its formula and source."""

from collections.abc import Iterable, Iterator

from faulttree.core.calc.answered import Answered, Found
from faulttree.core.calc.kinds import Kind, bare_unit
from faulttree.core.calc.registry import FAMILIES
from faulttree.core.calc.sums import Given, Input, Sum
from faulttree.core.units import UnitSystem
from faulttree.render.calc_figures import figure
from faulttree.render.line import Line

_NAME_WIDTH = 20
_INPUT_WIDTH = 12
INPUT_INDENT = 2 + _INPUT_WIDTH
"""Columns in front of what is said of an input."""


def sums_text() -> str:
    """All sums, one line each, by what they are about."""
    lines = []
    for family, sums in FAMILIES:
        lines.append(f"{family}:")
        lines.extend(f"  {each.name:{_NAME_WIDTH}}{each.title}" for each in sums)
    return "\n".join(lines)


def about_lines(the_sum: Sum, system: UnitSystem) -> Iterator[Line]:
    """What a sum tells, what it needs, and where it comes from."""
    yield Line("", f"{the_sum.name}: {the_sum.title}")
    count, names = the_sum.choose
    for each in the_sum.inputs:
        yield Line("", f"  {each.name:{_INPUT_WIDTH}}{_about_input(the_sum, each, system)}")
    if count:
        yield Line("Give", f"{count} of {', '.join(names)}")
    yield Line("Type", f"faulttree {the_sum.command}")
    yield from basis_lines(the_sum)


def _about_input(the_sum: Sum, each: Input, system: UnitSystem) -> str:
    unit = bare_unit(each.kind, system)
    takes_bare = unit and the_sum.is_needed(each) and not each.unit_needed
    told = f"{each.words} [{unit}]" if takes_bare else each.words
    if not each.choices:
        told += f", as {each.name}={each.example}" if each.by_name else f", as {each.example}"
    if each.default:
        return f"{told}; {each.default} unless told"
    return f"{told}; may be left out" if each.optional else told


def result_lines(done: Answered, system: UnitSystem) -> Iterator[Line]:
    """A sum with its inputs as understood, its results, and where they come from."""
    yield from given_lines(done.sum, done.given, system)
    yield from found_lines(done, system)
    yield from basis_lines(done.sum, done.remarks)


def given_lines(the_sum: Sum, given: Given, system: UnitSystem) -> Iterator[Line]:
    """Inputs as understood."""
    for name, text in _inputs(the_sum, given, system):
        yield Line("", f"  {name:{_INPUT_WIDTH}}{text}")


def found_lines(done: Answered, system: UnitSystem) -> Iterator[Line]:
    """The results."""
    for found in done.found:
        yield Line(found.name, figure(found, system))


def basis_lines(the_sum: Sum, remarks: Iterable[str] = ()) -> Iterator[Line]:
    """Formula, what to mind, source."""
    yield Line("Formula", the_sum.formula)
    yield Line("", f"    {the_sum.symbols}")
    for remark in remarks:
        yield Line("Note", remark)
    yield Line("Source", the_sum.source)


def note_text(done: Answered, system: UnitSystem) -> str:
    """The sum as a note in a case: one line with all that went in and came out."""
    given = ", ".join(f"{name} {text}" for name, text in _inputs(done.sum, done.given, system))
    results = ", ".join(f"{found.name} {figure(found, system)}" for found in done.found)
    return f"Worked out ({done.sum.name}): {given}: {results}."


def _inputs(the_sum: Sum, given: Given, system: UnitSystem) -> Iterator[tuple[str, str]]:
    for name, amounts in given.items():
        each = the_sum.input(name)
        for amount in amounts:
            if each.kind is Kind.TEMPERATURE and amount.text == each.default:
                value = amount.measured.value
                yield name, figure(Found(name, each.kind, value, value, value), system)
            else:
                yield name, amount.text
