"""Which parts the tests of a tree can tell apart: whether an ambiguity group is one."""

from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from itertools import combinations

from faulttree.core.bench.bench import Bench, Key, Seen, Shown
from faulttree.core.bench.sights import SURELY
from faulttree.core.bench.suspects import Suspect, chosen, parts_of
from faulttree.core.proof.judged import Judge, Span


@dataclass(frozen=True, slots=True)
class Split:
    """Two parts of a group that tests of the tree always tell apart.

    Attributes:
        group: the group.
        one, other: the parts.
        steps: tests that tell them apart.
    """

    group: str
    one: str
    other: str
    steps: tuple[str, ...]


def splits(bench: Bench, judge: Judge) -> Iterator[Split]:
    """Every pair of parts in a group that the tests of the tree always tell apart.

    Two parts are, when at every supply each fault of the one, in each of its forms, reads
    differently from each of the other in some test, the instrument's error counted on both sides.
    Cars that do not surely show the complaint are left out.
    """
    for name, group in bench.sheet.groups.items():
        members = chosen(bench.suspects, group.faults)
        for one, other in combinations(parts_of(members), 2):
            cars = [_cars(bench, [s for s in members if s.part == part]) for part in (one, other)]
            steps = _always_apart(bench, judge, *cars)
            if steps:
                yield Split(name, one, other, steps)


def _cars(bench: Bench, suspects: Iterable[Suspect]) -> list[int]:
    wanted = [id(s) for s in suspects]
    return [
        i
        for i, row in enumerate(bench.rows)
        if id(row.suspect) in wanted and bench.complaint[i] == SURELY
    ]


def _always_apart(
    bench: Bench, judge: Judge, ones: list[int], others: list[int]
) -> tuple[str, ...]:
    """The tests needed to tell all pairs apart, few of them; none where some pair stays alike."""
    pairs = [(a, b) for a in ones for b in others if bench.rows[a].supply == bench.rows[b].supply]
    found: list[str] = []
    for key in bench.keys:
        left = [pair for pair in pairs if not is_told_apart(bench, judge, key, *pair)]
        if len(left) < len(pairs):
            found.append(key[0])
        if not left:
            return tuple(found)
        pairs = left
    return ()


def is_told_apart(bench: Bench, judge: Judge, key: Key, a: int, b: int) -> bool:
    """Whether one test always tells two cars apart."""
    shown = bench.shown(key)
    if isinstance(shown, Seen):
        return not (shown.may_be[:, a] & shown.may_be[:, b]).any()
    one, other = _span(judge, key, shown, a), _span(judge, key, shown, b)
    if one is None or other is None:
        return False
    return one.low.low > other.high.high or other.low.low > one.high.high


def _span(judge: Judge, key: Key, shown: Shown, row: int) -> Span | None:
    return judge.span(key[0], float(shown.low[row]), float(shown.high[row]))
