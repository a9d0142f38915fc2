"""What is still suspect in a walk, as a list: parts, pairs, none of these, what is cleared."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from faulttree.core.suspects.along import Along
from faulttree.core.suspects.by_part import Part, cleared_faults
from faulttree.core.suspects.ranking import Suspicion, Together
from faulttree.core.suspects.shares import Share, Standing
from faulttree.core.suspects.suspected import CIRCUIT_MODEL, Suspected
from faulttree.core.walk.state import WalkState
from faulttree.render import suspects_words as say
from faulttree.render.line import Line

CIRCUIT, CLEARED, NONE, BOTH, OTHERS = "circuit", "cleared", "none", "both", "others"
"""What rows that are no part are asked for by."""
_MOST_PARTS, _MOST_PAIRS = 8, 3
_LEAST_PAIR = 0.01
_BAR = 12
"""Columns of a bar."""
_BESIDE_BAR = 23
"""Columns of the longest numbers beside it: `  <1 % down: >99 → <1 %`."""


@dataclass(frozen=True, slots=True)
class Entry:
    """One row of the list.

    Attributes:
        name: what it is asked for by: the part, or one of the words above.
        words: what it is.
        share: how likely; None for a row that is no suspect.
        is_part: whether it is a part.
    """

    name: str
    words: str
    share: Share | None = None
    is_part: bool = False

    def numbers(self, width: int) -> str:
        """Percent, bar, and what the last reading changed; the bar is as long as width allows.

        Args:
            width: columns there are.
        """
        if self.share is None:
            return ""
        bar = say.bar(self.share.now, max(0, min(_BAR, width - _BESIDE_BAR)))
        shown = " ".join(part for part in (f"{say.percent(self.share.now):>5}", bar) if part)
        return f"{shown} {say.change(self.share)}"


def entries(suspected: Suspected) -> list[Entry]:
    """The rows: the likeliest parts first."""
    suspicion = suspected.suspicion
    named = named_parts(suspected)
    return [
        *(Entry(part.name, part.name, part.share, True) for part in named),
        *_others(other_parts(suspected)),
        *(Entry(BOTH, two_at_once(two), of_pair(two)) for two in pairs(suspicion)),
        Entry(NONE, say.NONE, none_of_these(suspicion)),
        Entry(CLEARED, cleared(suspicion)),
        *([Entry(CIRCUIT, _along(suspected.along))] if suspected.source == CIRCUIT_MODEL else []),
    ]


def list_lines(state: WalkState, suspected: Suspected) -> Iterator[Line]:
    """The list as text: head, and rows with the number or word that they are asked for by."""
    yield Line("Suspects", f"{after(suspected.suspicion)}. {say.odds_of(suspected.source)}")
    yield from last_reading(state, suspected.suspicion)
    for number, row in enumerate(entries(suspected), 1):
        asked = "" if row.is_part else f"suspects {row.name}"
        if row.share is None:
            yield Line("", f"    {row.words} ({asked})")
            continue
        first = f"{number:>2}" if row.is_part else "  "
        more = "; ".join(text for text in (say.change(row.share), asked) if text)
        yield Line("", f"{first} {say.percent(row.share.now):>5}  {row.words} ({more})")


def after(suspicion: Suspicion) -> str:
    """How many readings it rests on."""
    count = len(suspicion.reads)
    if not count:
        return "before any reading"
    return f"after {count} reading{'' if count == 1 else 's'}"


def last_reading(state: WalkState, suspicion: Suspicion) -> Iterator[Line]:
    """The reading that the changes are those of."""
    if suspicion.reads:
        yield Line("Last", say.reading(state, suspicion.reads[-1]))


def named_parts(suspected: Suspected) -> list[Part]:
    """The parts that have a row of their own, the likeliest first."""
    return [part for part in suspected.parts if part.share.now >= say.LEAST][:_MOST_PARTS]


def other_parts(suspected: Suspected) -> list[Part]:
    """The parts that are not cleared, and too many or too unlikely for a row of their own."""
    rest = suspected.parts[len(named_parts(suspected)) :]
    return [part for part in rest if not part.is_cleared]


def none_of_these(suspicion: Suspicion) -> Share:
    """That it is none of these; what it was before any reading is not told."""
    return Share(suspicion.none, suspicion.none_before, 0.0)


def pairs(suspicion: Suspicion) -> list[Together]:
    """The likeliest pairs, where there are any."""
    return [two for two in suspicion.together if two.share >= _LEAST_PAIR][:_MOST_PAIRS]


def of_pair(two: Together) -> Share:
    """How likely a pair is; what it was before any reading is not told."""
    return Share(two.share, two.before, 0.0)


def two_at_once(two: Together) -> str:
    """A pair in words."""
    return f"both at once: {two.one.words}, and {two.other.words}"


def cleared(suspicion: Suspicion) -> str:
    """How many faults are cleared: `cleared: 23 of 60 faults`."""
    return f"cleared: {len(cleared_faults(suspicion))} of {len(suspicion.ranked)} faults"


def _others(rest: Sequence[Part]) -> Iterator[Entry]:
    if rest:
        shares = [(p.share.now, p.share.before, p.share.prior) for p in rest]
        now, before, prior = (min(1.0, sum(column)) for column in zip(*shares, strict=True))
        words = f"{len(rest)} other part{'' if len(rest) == 1 else 's'} together"
        yield Entry(OTHERS, words, Share(now, before, prior))


def _along(along: Along) -> str:
    """The stretches of the circuit, counted: `along the circuit: 6 proved good, 3 in question`."""
    standings = [
        reach.share.standing for strand in along.strands for reach in strand if reach.elements
    ]
    words = (
        (Standing.CLEARED, "proved good"),
        (Standing.OPEN, "in question"),
        (Standing.LIKELY, "likely"),
    )
    counted = (f"{standings.count(each)} {text}" for each, text in words)
    return f"along the circuit: {', '.join(counted)}"
