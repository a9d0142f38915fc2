"""Two faults at once: thought of when no single one explains what was read."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from itertools import combinations

import numpy as np

from faulttree.core.bench.suspects import Form, Suspect
from faulttree.core.suspects.bayes import Hypotheses, Pairs
from faulttree.core.suspects.density import Floats
from faulttree.core.suspects.grid import Cell

MOST_SUSPECTS = 14
"""Suspects of which all pairs are tried: those that explain some reading best."""
PAIR_SHARE = 0.02
"""How likely two faults at once are beside one; common practice, no source."""


@dataclass(frozen=True, slots=True)
class Two:
    """Two suspects in one form each, and the cells they stand for."""

    first: int
    second: int
    first_cell: int
    second_cell: int


def worth_pairing(cells: Sequence[Cell], likelihood: Floats, healthy: Floats) -> tuple[int, ...]:
    """The suspects that explain some reading better than a healthy car does, the best first.

    Args:
        cells: what the rows of `likelihood` are.
        likelihood: of each reading under each cell, shape (n_cells, n_readings).
        healthy: of each reading on a healthy car, shape (n_readings,).
    """
    gain = np.log(np.maximum(likelihood, 1e-300)) - np.log(np.maximum(healthy, 1e-300))
    best = np.maximum(gain, 0.0).max(axis=1) if likelihood.shape[1] else np.zeros(len(cells))
    by_suspect: dict[int, float] = {}
    for cell, value in zip(cells, best.tolist(), strict=True):
        by_suspect[cell.suspect] = max(by_suspect.get(cell.suspect, 0.0), value)
    ranked = sorted(by_suspect, key=lambda s: (-by_suspect[s], s))
    return tuple(s for s in ranked[:MOST_SUSPECTS] if by_suspect[s] > 0.0)


def both_of(
    suspects: Sequence[Suspect], cells: Sequence[Cell], chosen: Sequence[int]
) -> tuple[tuple[Suspect, ...], tuple[Two, ...]]:
    """Every pair of some suspects as one suspect, and what each of its forms stands for.

    Returns:
        The pairs as suspects, and one entry for each of their forms, in order.
    """
    pairs: list[Suspect] = []
    twos: list[Two] = []
    for a, b in combinations(sorted(chosen), 2):
        forms = []
        for one, form_a in _some(cells, a, suspects[a]):
            for other, form_b in _some(cells, b, suspects[b]):
                put_in = (*form_a.injected, *form_b.injected)
                inputs = {**form_a.inputs, **form_b.inputs}
                forms.append(Form(injected=put_in, inputs=inputs))
                twos.append(Two(a, b, one, other))
        pairs.append(_both(suspects[a], suspects[b], tuple(forms)))
    return tuple(pairs), tuple(twos)


def pairs_of(
    suspects: Sequence[Suspect],
    twos: Sequence[Two],
    hypothesis_of: dict[int, int],
    shows: Floats,
    likelihood: Floats,
) -> Pairs:
    """The pairs as hypotheses.

    Args:
        suspects: single ones.
        twos: one for each row of `shows` and `likelihood`.
        hypothesis_of: cell to the hypothesis that stands for it.
        shows, likelihood: see Pairs.
    """
    whole = sum(s.weight for s in suspects) or 1.0
    forms: dict[tuple[int, int], int] = {}
    for two in twos:
        forms[two.first, two.second] = forms.get((two.first, two.second), 0) + 1
    prior = [
        PAIR_SHARE
        * suspects[t.first].weight
        * suspects[t.second].weight
        / whole
        / forms[t.first, t.second]
        for t in twos
    ]
    first = np.array([hypothesis_of[t.first_cell] for t in twos], np.intp)
    second = np.array([hypothesis_of[t.second_cell] for t in twos], np.intp)
    return Pairs(first, second, np.array(prior), shows, likelihood)


def named(pairs: Pairs, hypotheses: Hypotheses, shares: Floats) -> dict[tuple[int, int], float]:
    """Probability of each pair of suspects, all their forms together."""
    found: dict[tuple[int, int], float] = {}
    one, two = hypotheses.suspect[pairs.first], hypotheses.suspect[pairs.second]
    for a, b, share in zip(one.tolist(), two.tolist(), shares.tolist(), strict=True):
        found[a, b] = found.get((a, b), 0.0) + share
    return found


def _some(cells: Sequence[Cell], index: int, suspect: Suspect) -> Iterator[tuple[int, Form]]:
    """A few cells of a suspect, each by its lower form: slight, middling and bad."""
    own = [i for i, cell in enumerate(cells) if cell.suspect == index]
    picked = own if len(own) <= 3 else [own[1], own[len(own) // 2], own[-2]]
    for place in picked:
        yield place, suspect.forms[cells[place].low]


def _both(one: Suspect, other: Suspect, forms: tuple[Form, ...]) -> Suspect:
    words = f"{one.words}, and {other.words}"
    return Suspect(f"{one.id} + {other.id}", f"{one.part}, {other.part}", words, 1.0, None, forms)
