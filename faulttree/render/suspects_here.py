"""What is still suspect in a walk, as a list: parts, pairs, none of these, what is cleared."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from faulttree.core.suspects.along import Along
from faulttree.core.suspects.by_part import Part, cleared_faults
from faulttree.core.suspects.shares import Share, Standing
from faulttree.core.suspects.suspected import Suspected
from faulttree.core.suspects.suspicion import Ranked, Suspicion, Together
from faulttree.core.walk.state import WalkState
from faulttree.render import suspects_words as say
from faulttree.render.line import Line

CIRCUIT, CLEARED = "circuit", "cleared"
"""What the way through the circuit, and the faults that are cleared, are asked for by."""
_MOST_PARTS, _MOST_PAIRS = 8, 3
_BAR = 12
"""Columns of a bar."""
_LEAST_PAIR = 0.01


@dataclass(frozen=True, slots=True)
class Entry:
    """One row of the list.

    Attributes:
        name: what it is asked for by; empty where there is no more to tell.
        words: what it is.
        share: how likely; None for a row that is no suspect.
    """

    name: str
    words: str
    share: Share | None = None

    @property
    def numbers(self) -> str:
        """Percent, bar, and what the last reading changed; columns of one width."""
        if self.share is None:
            return ""
        shown = f"{say.percent(self.share.now):>5} {say.bar(self.share.now, _BAR)}"
        return f"{shown} {say.change(self.share)}"


def entries(suspected: Suspected) -> list[Entry]:
    """The rows: the likeliest parts first."""
    parts, suspicion = suspected.parts, suspected.suspicion
    told = [part for part in parts if part.share.now >= say.LEAST][:_MOST_PARTS]
    return [
        *(Entry(part.name, part.name, part.share) for part in told),
        *_others(parts[len(told) :]),
        *(_pair(two) for two in pairs(suspicion)),
        Entry("", say.NONE, none_of_these(suspicion)),
        Entry(CLEARED, cleared(suspicion)),
        Entry(CIRCUIT, _along(suspected.along)),
    ]


def list_lines(state: WalkState, suspected: Suspected) -> Iterator[Line]:
    """The list as text: head, rows with the number they are asked for by, and how to ask."""
    yield Line("Suspects", f"{after(suspected.suspicion)}. {say.MODEL}")
    yield from last_reading(state, suspected.suspicion)
    for number, row in enumerate(entries(suspected), 1):
        if row.share is None:
            yield Line("", f"{row.words} (suspects {row.name})")
        else:
            asked = f"{number:>2} " if row.name else "   "
            moved = say.change(row.share)
            yield Line("", f"{asked} {say.percent(row.share.now):>5}  {row.words} ({moved})")


def after(suspicion: Suspicion) -> str:
    """How many readings it rests on."""
    count = len(suspicion.reads)
    if not count:
        return "Before any reading"
    return f"After {count} reading{'' if count == 1 else 's'}"


def last_reading(state: WalkState, suspicion: Suspicion) -> Iterator[Line]:
    """The reading that the changes are those of."""
    if suspicion.reads:
        yield Line("Last", say.reading(state, suspicion.reads[-1]))


def none_of_these(suspicion: Suspicion) -> Share:
    """How likely a fault is that the model does not know; nobody asks for its likelihood before."""
    return Share(suspicion.none, suspicion.none_before, 0.0)


def pairs(suspicion: Suspicion) -> list[Together]:
    """The likeliest pairs, where there are any."""
    return [two for two in suspicion.together if two.share >= _LEAST_PAIR][:_MOST_PAIRS]


def cleared(suspicion: Suspicion) -> str:
    """How many faults are cleared: `cleared: 23 of 60 faults`."""
    return f"cleared: {len(cleared_faults(suspicion))} of {len(suspicion.ranked)} faults"


def cleared_lines(suspected: Suspected) -> Iterator[Line]:
    """The faults that are cleared, by part."""
    yield Line("Cleared", f"{cleared(suspected.suspicion)[9:]}, to less than a tenth of their odds")
    found: dict[str, list[Ranked]] = {}
    for each in cleared_faults(suspected.suspicion):
        found.setdefault(each.suspect.part, []).append(each)
    for part, faults in found.items():
        yield Line(part, say.faults(faults))


def two_at_once(two: Together) -> str:
    """A pair in words."""
    return f"both at once: {two.one.words}, and {two.other.words}"


def _others(parts: Sequence[Part]) -> Iterator[Entry]:
    """The parts that are not cleared and too many or too unlikely to be named."""
    rest = [part for part in parts if not part.is_cleared]
    if rest:
        now, before, prior = (
            min(1.0, sum(values))
            for values in zip(
                *((p.share.now, p.share.before, p.share.prior) for p in rest), strict=True
            )
        )
        name = f"{len(rest)} other part{'' if len(rest) == 1 else 's'} together"
        yield Entry("", name, Share(now, before, prior))


def _pair(two: Together) -> Entry:
    return Entry("", two_at_once(two), Share(two.share, two.before, 0.0))


def _along(along: Along) -> str:
    """The stretches of the circuit, counted: `along the circuit: 6 proved good, 3 in question`."""
    standings = [
        reach.share.standing for strand in along.strands for reach in strand if reach.elements
    ]
    words = {
        Standing.CLEARED: "proved good",
        Standing.OPEN: "in question",
        Standing.LIKELY: "likely",
    }
    counted = [f"{standings.count(each)} {text}" for each, text in words.items()]
    return f"along the circuit: {', '.join(counted)}"
