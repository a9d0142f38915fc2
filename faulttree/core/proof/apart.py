"""Which faults a test could tell apart: the groups that no test of the tree can split."""

from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from itertools import combinations

from faulttree.core.bench.bench import Bench, Key, Seen, Shown
from faulttree.core.bench.sights import SURELY
from faulttree.core.bench.suspects import Suspect, chosen
from faulttree.core.proof.judged import Judge, Span


@dataclass(frozen=True, slots=True)
class Split:
    """Two parts of a group that tests of the tree always tell apart.

    Attributes:
        group: the group.
        one, other: a fault of each.
        steps: the tests that tell some of their forms apart.
    """

    group: str
    one: Suspect
    other: Suspect
    steps: tuple[str, ...]


def splits(bench: Bench, judge: Judge) -> Iterator[Split]:
    """Every pair of faults in a group that is none, because tests tell all their forms apart.

    Faults of one part need not be told apart. Two faults are, when at every supply each form of
    the one reads differently from each form of the other in some test, the instrument's error
    counted on both sides. Cars that do not show the complaint are left out.
    """
    for name, group in bench.sheet.groups.items():
        members = chosen(bench.suspects, group.faults)
        for one, other in combinations(members, 2):
            if one.part == other.part:
                continue
            steps = _always_apart(bench, judge, one, other)
            if steps:
                yield Split(name, one, other, steps)


def _always_apart(bench: Bench, judge: Judge, one: Suspect, other: Suspect) -> tuple[str, ...]:
    found: dict[str, None] = {}
    pairs = list(_pairs(bench, one, other))
    for a, b in pairs:
        telling = [key[0] for key in bench.keys if is_told_apart(bench, judge, key, a, b)]
        if not telling:
            return ()
        found.update(dict.fromkeys(telling))
    return tuple(found) if pairs else ()


def _pairs(bench: Bench, one: Suspect, other: Suspect) -> Iterator[tuple[int, int]]:
    rows = [
        (i, row)
        for i, row in enumerate(bench.rows)
        if row.suspect in (one, other) and bench.complaint[i] == SURELY
    ]
    for a, row_a in rows:
        for b, row_b in rows:
            if row_a.suspect is one and row_b.suspect is other and row_a.supply == row_b.supply:
                yield a, b


def is_told_apart(bench: Bench, judge: Judge, key: Key, a: int, b: int) -> bool:
    """Whether one test always tells two cars apart."""
    shown = bench.shown(key)
    if isinstance(shown, Seen):
        return not (shown.may_be[:, a] & shown.may_be[:, b]).any()
    spans = [_span(judge, key, shown, row) for row in (a, b)]
    if None in spans:
        return False
    return not _overlap(s for s in spans if s is not None)


def _span(judge: Judge, key: Key, shown: Shown, row: int) -> Span | None:
    return judge.span(key[0], float(shown.low[row]), float(shown.high[row]))


def _overlap(spans: Iterable[Span]) -> bool:
    one, other = spans
    return one.low.low <= other.high.high and other.low.low <= one.high.high
