"""What is suspect along the circuit, drawn from battery positive down to ground in ASCII.

`o` is a place for a probe, `|` what lies between two of them: + proved good, ? in question,
! likely.
"""

from collections.abc import Iterator, Sequence

from faulttree.core.suspects.along import Reach
from faulttree.core.suspects.by_part import Part
from faulttree.core.suspects.ranking import Ranked
from faulttree.core.suspects.shares import Standing
from faulttree.core.suspects.suspected import Suspected
from faulttree.render import suspects_words as say
from faulttree.render.line import Line

_WORDS = {
    Standing.CLEARED: ("+ proved good", "good"),
    Standing.OPEN: ("? in question", "unclear"),
    Standing.LIKELY: ("! likely", "fault"),
}
"""Sign and words of a stretch, and its tone."""


def along_lines(suspected: Suspected) -> Iterator[Line]:
    """The circuit, way by way; another way than the main one in a line if it is good throughout."""
    along, nodes = suspected.along, suspected.nodes
    yield Line("", "Percent now (and before any reading); proved good: less than a tenth of that.")
    for number, strand in enumerate(along.strands, 1):
        way = "Main way" if number == 1 else f"Way {number}"
        ends = f"{nodes[strand[0].start]} to {nodes[strand[-1].end]}"
        yield Line("", "")
        if number > 1 and _is_good(strand):
            yield Line("", f"+ {way}, proved good throughout: {ends}", "good")
        else:
            yield Line(way, ends)
            yield from _drawn(strand, suspected)
    yield Line("", "")
    yield from _aside(suspected)
    yield Line("None of these", say.percent(suspected.suspicion.none))


def _is_good(strand: Sequence[Reach]) -> bool:
    return all(r.share.standing is Standing.CLEARED for r in strand if r.elements)


def _drawn(strand: Sequence[Reach], suspected: Suspected) -> Iterator[Line]:
    yield Line("", f"o {suspected.nodes[strand[0].start]}", "dim")
    for reach in strand:
        yield _stretch(reach, suspected)
        yield Line("", f"o {suspected.nodes[reach.end]}", "dim")


def _stretch(reach: Reach, suspected: Suspected) -> Line:
    if not reach.elements:
        return Line("", "| nothing in it is suspect", "dim")
    words, tone = _WORDS[reach.share.standing]
    numbers = f"{say.percent(reach.share.now)} ({say.percent(reach.share.prior)})"
    listed = ", ".join(dict.fromkeys(suspected.elements[name] for name in reach.elements))
    return Line("", f"| {words}, {numbers}: {listed}", tone)


def _aside(suspected: Suspected) -> Iterator[Line]:
    """What lies on no way: a short between wires, a state of the car, the battery."""
    aside = frozenset(suspected.along.aside)
    there = (
        (part, [f for f in part.faults if f.suspect.id in aside and f.share >= say.LEAST])
        for part in suspected.parts
    )
    found = [_of_part(part, faults) for part, faults in there if faults]
    if found:
        yield Line("On none of these ways", "; ".join(found))


def _of_part(part: Part, faults: Sequence[Ranked]) -> str:
    """Some faults of a part: `air path: blocked, 3 %`."""
    words = say.faults(faults)
    name = "" if words.startswith(part.name) else f"{part.name}: "
    return f"{name}{words}, {say.percent(sum(fault.share for fault in faults))}"
