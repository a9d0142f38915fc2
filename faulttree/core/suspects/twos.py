"""Two faults at once: thought of when no single one explains what was read."""

import math
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass
from itertools import combinations, product

import numpy as np

from faulttree.core.bench.suspects import Form, Suspect
from faulttree.core.suspects.density import Floats
from faulttree.core.suspects.grid import Cell
from faulttree.core.suspects.hypotheses import Hypotheses, Pairs

MOST_SUSPECTS = 12
"""Suspects of which all pairs are tried: those that explain some reading best."""
MOST_CELLS = 3
"""Sizes of each that are tried, by the same measure."""
LEAST_GAIN = 3.0
"""A suspect is tried that makes some reading so many times as likely as a healthy car does."""
PAIR_SHARE = 0.02
"""How likely a second fault is beside the one that is there; common practice, no source."""


@dataclass(frozen=True, slots=True)
class Two:
    """Two suspects, each in one cell; by their indexes."""

    first_cell: int
    second_cell: int


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
) -> Mapping[int, tuple[int, ...]]:
    """The suspects that explain some readings better than a healthy car does, the best first.

    What a suspect does not explain is not held against it: that is what the other one is for.

    Args:
        cells: what the rows of `likelihood` are.
        likelihood: of each reading under each cell, shape (n_cells, n_readings), above 0.
        healthy: of each reading on a healthy car, shape (n_readings,), above 0.

    Returns:
        Suspect to those of its cells that explain most.
    """
    gains = np.maximum(np.log(likelihood) - np.log(healthy), 0.0)
    gain, best = gains.sum(axis=1).tolist(), gains.max(axis=1, initial=0.0)
    of: dict[int, list[int]] = {}
    for index in sorted(range(len(cells)), key=lambda i: (-gain[i], i)):
        if best[index] >= math.log(LEAST_GAIN):
            of.setdefault(cells[index].suspect, []).append(index)
    chosen = list(of)[:MOST_SUSPECTS]
    return {suspect: tuple(of[suspect][:MOST_CELLS]) for suspect in chosen}


def both_of(
    suspects: Sequence[Suspect], cells: Sequence[Cell], chosen: Mapping[int, Sequence[int]]
) -> tuple[tuple[Suspect, ...], tuple[Cell, ...], tuple[Two, ...]]:
    """Every pair of some suspects as one suspect.

    Returns:
        The pairs as suspects, their cells, and the two cells that each of these stands for.
    """
    pairs: list[Suspect] = []
    own: list[Cell] = []
    twos: list[Two] = []
    for a, b in combinations(sorted(chosen), 2):
        if not may_be_together(suspects[a], suspects[b]):
            continue
        ends: dict[tuple[int, int], int] = {}
        for one, other in product(chosen[a], chosen[b]):
            corners = product(cells[one].forms, cells[other].forms)
            places = tuple(ends.setdefault(corner, len(ends)) for corner in corners)
            own.append(Cell(len(pairs), places))
            twos.append(Two(one, other))
        pairs.append(_both(suspects[a], suspects[b], tuple(ends)))
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
    first = np.array([t.first_cell for t in twos], np.intp)
    second = np.array([t.second_cell for t in twos], np.intp)
    prior = PAIR_SHARE * weights[first] * weights[second] / whole
    return Pairs(first, second, prior, shows, likelihood)


def named(pairs: Pairs, hypotheses: Hypotheses, shares: Floats) -> dict[tuple[int, int], float]:
    """Probability of each pair of suspects, all their forms together."""
    found: dict[tuple[int, int], float] = {}
    one, two = hypotheses.suspect[pairs.first], hypotheses.suspect[pairs.second]
    for a, b, share in zip(one.tolist(), two.tolist(), shares.tolist(), strict=True):
        found[a, b] = found.get((a, b), 0.0) + share
    return found


def _both(one: Suspect, other: Suspect, corners: Sequence[tuple[int, int]]) -> Suspect:
    forms = tuple(_form(one.forms[i], other.forms[j]) for i, j in corners)
    name, part = f"{one.id} + {other.id}", f"{one.part}, {other.part}"
    return _Both(name, part, f"{one.words}, and {other.words}", 1.0, None, forms, (one, other))


def _form(one: Form, other: Form) -> Form:
    put_in = (*one.injected, *other.injected)
    return Form(injected=put_in, inputs={**one.inputs, **other.inputs})
