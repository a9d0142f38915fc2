"""Cars that read the same in every test are of one kind; a search sees kinds alone.

A suspect with one outcome in every test is of one kind. One that may show either of two outcomes of
a test is of two kinds, half of it each: so every kind has one outcome in every test, and every way
that a car may take through a plan is a kind. Suspects of one kind cannot be told apart.
"""

import math
from collections.abc import Collection, Iterable, Mapping, Sequence
from dataclasses import dataclass
from itertools import product

from faulttree.core.order.problem import CannotOrder, Problem, Suspect, Test

KINDS_AT_MOST = 500
"""Kinds in one problem; a search goes about as deep as there are kinds."""
ANY = -1
"""In place of an outcome: the test tells nothing, whoever does it."""
WAYS_AT_MOST = 20_000
"""Ways of all suspects together, before those that read the same are made one."""


@dataclass(frozen=True, slots=True)
class Kind:
    """Cars that give the same outcome in every test.

    Attributes:
        shows: index of the outcome for each test of the problem; ANY where every car alike may
            show any outcome.
        weight: its share of all the weight.
        shares: suspect to how much of it is of this kind; all of a suspect's kinds make 1.
        finds: what may be wrong with a car of this kind.
    """

    shows: tuple[int, ...]
    weight: float
    shares: Mapping[str, float]
    finds: frozenset[str]


@dataclass(frozen=True, slots=True)
class Kinds:
    """All kinds of a problem.

    Attributes:
        problem: the problem, without the tests that were left out.
        kinds: in the order of the suspects.
        left_out: tests whose outcome is open for so many suspects that there would be more ways
            than can be searched.
    """

    problem: Problem
    kinds: tuple[Kind, ...]
    left_out: tuple[str, ...] = ()

    def only(
        self, kinds: Sequence[Kind], suspects: Collection[str] | None
    ) -> tuple[Sequence[Kind], bool]:
        """Some of the kinds with some of the suspects alone, and whether each kind stayed whole."""
        if suspects is None:
            return kinds, True
        wanted = {s.id: s for s in self.problem.suspects if s.id in suspects}
        whole = sum(s.weight for s in self.problem.suspects)
        found, is_whole = [], True
        for kind in kinds:
            shares = {name: share for name, share in kind.shares.items() if name in wanted}
            if shares:
                is_same = len(shares) == len(kind.shares)
                is_whole = is_whole and is_same
                found.append(kind if is_same else _kind(kind.shows, shares, wanted, whole))
        return found, is_whole


def kinds_of(problem: Problem) -> Kinds:
    """The kinds of a problem.

    Raises:
        CannotOrder: there are too many.
    """
    left_out: list[str] = []
    while True:
        rows = _rows(problem)
        if _ways(rows) <= WAYS_AT_MOST:
            found = _merged(problem, rows)
            if len(found) <= KINDS_AT_MOST:
                return Kinds(problem, found, tuple(left_out))
        widest = _most_open(problem)
        if widest is None:
            raise CannotOrder(
                f"The suspects read in more than {KINDS_AT_MOST} different ways: give fewer "
                "suspects, or fewer forms of each."
            )
        left_out.append(widest.name)
        problem = problem.without({widest.name})


_Row = tuple[tuple[int, ...], ...]
"""For each test the outcomes that a suspect may give."""


def _rows(problem: Problem) -> list[_Row]:
    columns = [_column(test) for test in problem.tests]
    return [tuple(column[n] for column in columns) for n in range(len(problem.suspects))]


def _column(test: Test) -> list[tuple[int, ...]]:
    index = {outcome: n for n, outcome in enumerate(test.outcomes)}
    every = [tuple(dict.fromkeys(index[o] for o in each)) for each in test.shows]
    if len(every[0]) > 1 and len({frozenset(each) for each in every}) == 1:
        return [(ANY,)] * len(every)
    return every


def _ways(rows: Iterable[_Row]) -> int:
    return sum(math.prod(len(each) for each in row) for row in rows)


def _merged(problem: Problem, rows: Sequence[_Row]) -> tuple[Kind, ...]:
    shares: dict[tuple[int, ...], dict[str, float]] = {}
    for suspect, row in zip(problem.suspects, rows, strict=True):
        share = 1 / math.prod(len(each) for each in row)
        for shows in product(*row):
            shares.setdefault(shows, {})[suspect.id] = share
    by_id = {s.id: s for s in problem.suspects}
    whole = sum(s.weight for s in problem.suspects)
    return tuple(_kind(shows, each, by_id, whole) for shows, each in shares.items())


def _kind(
    shows: tuple[int, ...],
    shares: Mapping[str, float],
    suspects: Mapping[str, Suspect],
    whole: float,
) -> Kind:
    weight = sum(suspects[name].weight * share for name, share in shares.items()) / whole
    return Kind(shows, weight, shares, frozenset(suspects[name].find for name in shares))


def _most_open(problem: Problem) -> Test | None:
    """The test whose outcome is open for the most suspects; None where every outcome is fixed."""
    is_open = [sum(len(each) > 1 for each in _column(test)) for test in problem.tests]
    most = max(is_open, default=0)
    return problem.tests[is_open.index(most)] if most else None
