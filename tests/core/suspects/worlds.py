"""Every world by itself, in plain loops: what the engine's arrays are held against.

A world is: which hypothesis (one suspect, two, none of these), which of them are there for good,
and for the others in which stretches they are there. No logarithm, no array, nothing shared with
the engine but its constants.
"""

from dataclasses import dataclass
from decimal import Decimal
from itertools import product
from math import prod

from faulttree.core.suspects.hypotheses import Evidence, Hypotheses, Pairs, Sighting, Stretch
from faulttree.core.suspects.modes import FALSE_SIGHT, ODD_SHARES


@dataclass
class Worlds:
    """Probabilities by counting worlds; they add up to 1."""

    forms: list[float]
    pairs: list[float]
    none: float


def counted(
    hypotheses: Hypotheses, evidence: Evidence, none_prior: float, pairs: Pairs | None
) -> Worlds:
    """The weight of every hypothesis over that of all."""
    forms = [
        float(hypotheses.prior[i]) * _one(hypotheses, evidence, i)
        for i in range(len(hypotheses.prior))
    ]
    both = []
    if pairs is not None:
        both = [
            float(pairs.prior[i]) * _two(hypotheses, pairs, evidence, i)
            for i in range(len(pairs.prior))
        ]
    none = none_prior * _none(evidence)
    whole = sum(forms) + sum(both) + none
    return Worlds([f / whole for f in forms], [b / whole for b in both], none / whole)


def _one(hypotheses: Hypotheses, evidence: Evidence, index: int) -> float:
    """Of what was read, under one hypothesis."""
    good, chance = float(hypotheses.for_good[index]), float(hypotheses.chance[index])
    n, total = len(evidence.stretches), 0.0
    for is_good in (True, False):
        for there in product((True, False), repeat=n):
            weight = _presence(is_good, good, chance, there)
            for stretch, is_there in zip(evidence.stretches, there, strict=True):
                weight *= _stretch(hypotheses, evidence, stretch, index if is_there else None)
            total += weight
    return total


def _two(hypotheses: Hypotheses, pairs: Pairs, evidence: Evidence, index: int) -> float:
    a, b = int(pairs.first[index]), int(pairs.second[index])
    n, total = len(evidence.stretches), 0.0
    states = list(product((True, False), repeat=n))
    goods = [(float(hypotheses.for_good[i]), float(hypotheses.chance[i])) for i in (a, b)]
    for one_good, other_good in product((True, False), repeat=2):
        for one, other in product(states, repeat=2):
            weight = _presence(one_good, *goods[0], one) * _presence(other_good, *goods[1], other)
            for stretch, has_one, has_other in zip(evidence.stretches, one, other, strict=True):
                if has_one and has_other:
                    weight *= _product(stretch, pairs.likelihood[index], float(pairs.shows[index]))
                else:
                    alone = a if has_one else b if has_other else None
                    weight *= _stretch(hypotheses, evidence, stretch, alone)
            total += weight
    return total


def _none(evidence: Evidence) -> float:
    """A fault that nobody thought of, under each share of readings that it may change."""
    total = 0.0
    for share in ODD_SHARES:
        weight = 1.0 / len(ODD_SHARES)
        for stretch in evidence.stretches:
            weight *= 1.0 if stretch.sighting is Sighting.UNKNOWN else 0.5
            for r in stretch.readings:
                healthy, anything = float(evidence.healthy[r]), float(evidence.anything[r])
                weight *= (1.0 - share) * healthy + share * anything
        total += weight
    return total


def _presence(is_good: bool, good: float, chance: float, there: tuple[bool, ...]) -> float:
    """Of being there in just these stretches."""
    if is_good:
        return good if all(there) else 0.0
    weight = 1.0 - good
    for is_there in there:
        weight *= chance if is_there else 1.0 - chance
    return weight


def _stretch(
    hypotheses: Hypotheses, evidence: Evidence, stretch: Stretch, index: int | None
) -> float:
    """Of one stretch while a hypothesis is there; with None nothing is."""
    if index is None:
        return _product(stretch, evidence.healthy, FALSE_SIGHT)
    return _product(stretch, hypotheses.likelihood[index], float(hypotheses.shows[index]))


def _product(stretch: Stretch, likelihood: object, shows: float) -> float:
    shows = min(max(shows, FALSE_SIGHT), 1.0 - FALSE_SIGHT)
    told = {Sighting.PRESENT: shows, Sighting.ABSENT: 1.0 - shows, Sighting.UNKNOWN: 1.0}
    weight = told[stretch.sighting]
    for reading in stretch.readings:
        weight *= float(likelihood[reading])  # type: ignore[index]
    return weight


def in_digits(
    hypotheses: Hypotheses, evidence: Evidence, none_prior: float, pairs: Pairs
) -> list[Decimal]:
    """The same for many stretches, with the digits of the decimal context: singles, pairs, none.

    In a mode the stretches are independent, so each is added up by itself and they are multiplied.
    """
    goods = [(Decimal(g), 1 - Decimal(g)) for g in hypotheses.for_good.tolist()]
    chances = [(Decimal(c), 1 - Decimal(c)) for c in hypotheses.chance.tolist()]
    alone = [_table(evidence, each, s) for each, s in _rows(hypotheses)]
    both = [_table(evidence, each, s) for each, s in _rows(pairs)]
    away = _table(evidence, evidence.healthy.tolist(), FALSE_SIGHT)
    weights = []
    for i, prior in enumerate(hypotheses.prior.tolist()):
        (good, bad), (p, q) = goods[i], chances[i]
        comes = [p * a + q * h for a, h in zip(alone[i], away, strict=True)]
        weights.append(Decimal(prior) * (good * prod(alone[i]) + bad * prod(comes)))
    for i, prior in enumerate(pairs.prior.tolist()):
        a, b = int(pairs.first[i]), int(pairs.second[i])
        total = Decimal(0)
        for share, (p, q), (r, s) in (
            (goods[a][0] * goods[b][0], (1, 0), (1, 0)),
            (goods[a][0] * goods[b][1], (1, 0), chances[b]),
            (goods[a][1] * goods[b][0], chances[a], (1, 0)),
            (goods[a][1] * goods[b][1], chances[a], chances[b]),
        ):
            columns = zip(both[i], alone[a], alone[b], away, strict=True)
            total += share * prod(
                p * r * two + p * s * one + q * r * other + q * s * none
                for two, one, other, none in columns
            )
        weights.append(Decimal(prior) * total)
    weights.append(Decimal(none_prior) * _none_in_digits(evidence))
    whole = sum(weights)
    return [weight / whole for weight in weights]


def _rows(of: Hypotheses | Pairs) -> list[tuple[list[float], float]]:
    return list(zip(of.likelihood.tolist(), of.shows.tolist(), strict=True))


def _table(evidence: Evidence, likelihood: list[float], shows: float) -> list[Decimal]:
    """Of each stretch while something is there."""
    chance = Decimal(min(max(shows, FALSE_SIGHT), 1.0 - FALSE_SIGHT))
    told = {Sighting.PRESENT: chance, Sighting.ABSENT: 1 - chance, Sighting.UNKNOWN: Decimal(1)}
    return [
        told[s.sighting] * prod(Decimal(likelihood[r]) for r in s.readings)
        for s in evidence.stretches
    ]


def _none_in_digits(evidence: Evidence) -> Decimal:
    known = sum(s.sighting is not Sighting.UNKNOWN for s in evidence.stretches)
    reads = list(zip(evidence.healthy.tolist(), evidence.anything.tolist(), strict=True))
    kinds = [
        prod((1 - Decimal(odd)) * Decimal(h) + Decimal(odd) * Decimal(a) for h, a in reads)
        for odd in ODD_SHARES
    ]
    return sum(kinds, Decimal(0)) / len(kinds) / 2**known
