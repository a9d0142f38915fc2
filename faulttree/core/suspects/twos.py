"""Two faults at once: thought of when no single one explains what was read."""

import math
from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass
from itertools import combinations, product

import numpy as np

from faulttree.core.bench.suspects import Form, Suspect
from faulttree.core.suspects.density import Floats
from faulttree.core.suspects.grid import Cell
from faulttree.core.suspects.hypotheses import Hypotheses, Pairs

MOST_SUSPECTS = 10
"""Suspects of which all pairs are tried: those that explain some reading best."""
MOST_SIZES = 4
"""Spans of sizes that each is tried in; what is read in a span is taken as spread between its ends,
as in a cell of the grid."""
LEAST_GAIN = 3.0
"""A suspect is tried that makes some reading so many times as likely as a healthy car does."""
PAIR_SHARE = 0.02
"""How likely a second fault is beside the one that is there; common practice, no source."""


@dataclass(frozen=True, slots=True)
class Sizes:
    """A span of sizes of a suspect.

    Attributes:
        cells: indexes of the cells in it.
        forms: those of its forms at the ends.
        best: the cell that explains most, which stands for the span where the other is away.
    """

    cells: tuple[int, ...]
    forms: tuple[int, ...]
    best: int


@dataclass(frozen=True, slots=True)
class Two:
    """Two suspects, each in a span of sizes."""

    first: Sizes
    second: Sizes


@dataclass(frozen=True, slots=True)
class _Both(Suspect):
    """Two suspects at once; what names one of them names it."""

    each: tuple[Suspect, Suspect]

    def is_named_by(self, names: Iterable[str]) -> bool:
        """Whether one of the two, or its element, is among the names."""
        wanted = tuple(names)
        return any(suspect.is_named_by(wanted) for suspect in self.each)


def worth_pairing(
    cells: Sequence[Cell], likelihood: Floats, healthy: Floats
) -> Mapping[int, tuple[Sizes, ...]]:
    """The suspects that explain some readings better than a healthy car does, the best first.

    What a suspect does not explain is not held against it: that is what the other one is for.

    Args:
        cells: what the rows of `likelihood` are.
        likelihood: of each reading under each cell, shape (n_cells, n_readings), above 0.
        healthy: of each reading on a healthy car, shape (n_readings,), above 0.

    Returns:
        Suspect to spans that hold all of its sizes.
    """
    gains = np.maximum(np.log(likelihood) - np.log(healthy), 0.0)
    gain, most = gains.sum(axis=1).tolist(), gains.max(axis=1, initial=0.0)
    of: dict[int, list[int]] = {}
    for index, cell in enumerate(cells):
        of.setdefault(cell.suspect, []).append(index)
    tried = [s for s, own in of.items() if most[own].max() >= math.log(LEAST_GAIN)]
    tried.sort(key=lambda s: (-max(gain[i] for i in of[s]), s))
    return {s: tuple(_spans(cells, of[s], gain)) for s in tried[:MOST_SUSPECTS]}


def _spans(cells: Sequence[Cell], own: list[int], gain: list[float]) -> Iterator[Sizes]:
    step = math.ceil(len(own) / MOST_SIZES)
    for begin in range(0, len(own), step):
        part = tuple(own[begin : begin + step])
        ends = (cells[part[0]].forms[0], cells[part[-1]].forms[-1])
        yield Sizes(part, tuple(dict.fromkeys(ends)), max(part, key=lambda i: gain[i]))


def both_of(
    suspects: Sequence[Suspect], chosen: Mapping[int, Sequence[Sizes]]
) -> tuple[tuple[Suspect, ...], tuple[Cell, ...], tuple[Two, ...]]:
    """Every pair of some suspects as one suspect.

    Returns:
        The pairs as suspects, their cells, and what each of these stands for.
    """
    pairs: list[Suspect] = []
    own: list[Cell] = []
    twos: list[Two] = []
    for a, b in combinations(sorted(chosen), 2):
        if not may_be_together(suspects[a], suspects[b]):
            continue
        corners: dict[tuple[int, int], int] = {}
        for one, other in product(chosen[a], chosen[b]):
            ends = product(one.forms, other.forms)
            own.append(Cell(len(pairs), tuple(corners.setdefault(e, len(corners)) for e in ends)))
            twos.append(Two(one, other))
        pairs.append(both(suspects[a], suspects[b], tuple(corners)))
    return tuple(pairs), tuple(own), tuple(twos)


def may_be_together(one: Suspect, other: Suspect) -> bool:
    """Whether two suspects are two faults: not of one element, nor two states of one input."""
    mine, its = one.id.partition("."), other.id.partition(".")
    if mine[0] == its[0] and mine[0] != "shorts":
        return False
    return not any(f.inputs.keys() & g.inputs.keys() for f in one.forms for g in other.forms)


def pairs_of(
    suspects: Sequence[Suspect],
    weights: Floats,
    twos: Sequence[Two],
    shows: Floats,
    likelihood: Floats,
) -> Pairs:
    """The pairs as hypotheses.

    Args:
        suspects: single ones.
        weights: of their cells, shape (n_cells,).
        twos: one for each row of `shows` and `likelihood`.
        shows, likelihood: see Pairs.
    """
    whole = sum(s.weight for s in suspects) or 1.0
    first = np.array([t.first.best for t in twos], np.intp)
    second = np.array([t.second.best for t in twos], np.intp)
    one, other = (
        np.array([weights[list(each.cells)].sum() for each in side])
        for side in ([t.first for t in twos], [t.second for t in twos])
    )
    return Pairs(first, second, PAIR_SHARE * one * other / whole, shows, likelihood)


def named(pairs: Pairs, hypotheses: Hypotheses, shares: Floats) -> dict[tuple[int, int], float]:
    """Probability of each pair of suspects, all their forms together."""
    found: dict[tuple[int, int], float] = {}
    one, two = hypotheses.suspect[pairs.first], hypotheses.suspect[pairs.second]
    for a, b, share in zip(one.tolist(), two.tolist(), shares.tolist(), strict=True):
        found[a, b] = found.get((a, b), 0.0) + share
    return found


def both(one: Suspect, other: Suspect, corners: Sequence[tuple[int, int]] = ((0, 0),)) -> Suspect:
    """Two suspects as one, with a form of each in every one of its forms."""
    forms = tuple(_form(one.forms[i], other.forms[j]) for i, j in corners)
    name, part = f"{one.id} + {other.id}", f"{one.part}, {other.part}"
    return _Both(name, part, f"{one.words}, and {other.words}", 1.0, None, forms, (one, other))


def _form(one: Form, other: Form) -> Form:
    put_in = (*one.injected, *other.injected)
    return Form(injected=put_in, inputs={**one.inputs, **other.inputs})
