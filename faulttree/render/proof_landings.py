"""A picture of where the faults end up: a bar for each conclusion, wrong ones first."""

from collections.abc import Iterator

from faulttree.render.page import WIDTH, column, count, cut, section, wrapped
from faulttree.render.proof_ends import Landing
from faulttree.render.proof_words import WORTH, Words, percent

_BAR = 20
_FEW = 4
"""Faults that are named; of more only the number is told."""


def landing_lines(landings: tuple[Landing, ...], words: Words) -> Iterator[str]:
    """The picture; a fault that may end in two places counts in both."""
    head = "Where the faults may end, by weight (two possible ends count twice)"
    yield from section(head, _groups(landings, words))


def _groups(landings: tuple[Landing, ...], words: Words) -> Iterator[str]:
    width = column((words.text(each.where) for each in landings), 28)
    most = max((each.share for each in landings), default=0.0)
    before = None
    for each in landings:
        if each.worth is not before:
            yield f"  {WORTH[each.worth]}"
            before = each.worth
        yield from _row(each, words, width, most)


def _row(landing: Landing, words: Words, width: int, most: float) -> Iterator[str]:
    bar = "#" * (max(1, round(_BAR * landing.share / most)) if landing.share else 0)
    where = cut(words.text(landing.where), width)
    share = percent(landing.share) if landing.is_counted else "-"
    line = f"    {where:<{width}}  {bar:<{_BAR}} {share:>7}  "
    faults = ", ".join(landing.faults)
    is_named = landing.worth.is_wrong or len(landing.faults) <= _FEW
    if not is_named:
        faults = count(len(landing.faults), "fault")
    if len(line) + len(faults) <= WIDTH:
        yield line + faults
    else:
        yield line.rstrip()
        yield from wrapped(faults, " " * 8)
