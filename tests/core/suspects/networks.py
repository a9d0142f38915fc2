"""Belief networks: published ones as hypotheses, and hypotheses as networks for pgmpy."""

import json
from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from functools import cache
from itertools import product
from pathlib import Path
from typing import Any

import numpy as np

from faulttree.core.suspects.hypotheses import Evidence, Hypotheses, Pairs, Sighting, Stretch
from faulttree.core.suspects.modes import FALSE_SIGHT, ODD_SHARES

_DATA = Path(__file__).parents[2] / "data" / "networks.json"
State = Mapping[str, str]
"""Variable to its state."""


@cache
def published() -> Any:
    """Three published networks with their sources, and what pgmpy made of them."""
    return json.loads(_DATA.read_text("utf-8"))


@dataclass
class Network:
    """A network of discrete variables."""

    states: Mapping[str, list[str]]
    cpts: Mapping[str, Any]

    def chance(self, variable: str, state: State) -> float:
        """Of a variable's state, given those of its parents."""
        parents = [state[p] for p in self.cpts[variable]["parents"]]
        row = next(chances for given, chances in self.cpts[variable]["table"] if given == parents)
        return float(row[self.states[variable].index(state[variable])])

    def ancestors(self, variables: set[str]) -> list[str]:
        """The variables and all that they depend on, in the order of the network."""
        found = set(variables)
        while more := {p for v in found for p in self.cpts[v]["parents"]} - found:
            found |= more
        return [v for v in self.states if v in found]

    def hypotheses(self, seen: State, asked: set[str]) -> tuple[list[State], Hypotheses, Evidence]:
        """Every state of all that is not seen as one hypothesis; what is seen as readings."""
        there = self.ancestors(set(seen) | asked)
        worlds = list(self._worlds(there, seen))
        prior = [np.prod([self.chance(v, w) for v in there if v not in seen]) for w in worlds]
        reads = [[self.chance(v, w) for v in seen] for w in worlds]
        n, ones = len(worlds), np.ones(len(worlds))
        table = np.array(reads, float).reshape(n, len(seen))
        suspects = Hypotheses(np.arange(n), np.array(prior, float), ones, ones, ones, table)
        whole = Stretch(Sighting.UNKNOWN, tuple(range(len(seen))))
        nothing = np.ones(len(seen))
        return worlds, suspects, Evidence((whole,), nothing, nothing)

    def _worlds(self, there: list[str], seen: State) -> Iterator[State]:
        """Those that are possible; a variable comes after its parents."""
        worlds: list[dict[str, str]] = [dict(seen)]
        for variable in self._in_order(there):
            if variable in seen:
                continue
            more = ({**w, variable: s} for w in worlds for s in self.states[variable])
            known = all(p in there for p in self.cpts[variable]["parents"])
            assert known
            worlds = [w for w in more if self.chance(variable, w) > 0.0]
        yield from worlds

    def _in_order(self, there: list[str]) -> list[str]:
        found: list[str] = []
        while len(found) < len(there):
            ready = (
                v for v in there
                if v not in found and all(p in found for p in self.cpts[v]["parents"])
            )  # fmt: skip
            found.append(next(ready))
        return found


def drawn_case(rng: np.random.Generator, n: int, n_pairs: int, n_stretches: int) -> Any:
    """Suspects, pairs and readings at random; likelihoods are chances."""
    n_readings = 2 * n_stretches
    sightings = rng.choice(list(Sighting), n_stretches)
    stretches = tuple(
        Stretch(Sighting(s), (2 * i, 2 * i + 1)) for i, s in enumerate(sightings.tolist())
    )
    evidence = Evidence(stretches, rng.uniform(size=n_readings), rng.uniform(size=n_readings))
    hypotheses = Hypotheses(
        np.arange(n), rng.uniform(size=n), rng.uniform(size=n), rng.uniform(size=n),
        rng.uniform(size=n), rng.uniform(size=(n, n_readings)),
    )  # fmt: skip
    both = [(i, j) for i in range(n) for j in range(i + 1, n)][:n_pairs]
    count = len(both)
    pairs = Pairs(
        np.array([i for i, _ in both], np.intp), np.array([j for _, j in both], np.intp),
        rng.uniform(size=count), rng.uniform(size=count), rng.uniform(size=(count, n_readings)),
    )  # fmt: skip
    return hypotheses, evidence, float(rng.uniform()), pairs


class AsNetwork:
    """The same as a network for pgmpy: what is wrong, whether each is there for good, whether it is
    there in each stretch, and what was read and seen, each as a variable."""

    def __init__(self, case: Any) -> None:
        self.hypotheses, self.evidence, self.none_prior, self.pairs = case
        n = len(self.hypotheses.prior)
        pairs = zip(self.pairs.first.tolist(), self.pairs.second.tolist(), strict=True)
        self.worlds: list[frozenset[int]] = [frozenset([i]) for i in range(n)]
        self.worlds += [frozenset(pair) for pair in pairs]
        self.worlds += [frozenset()] * len(ODD_SHARES)
        none = [self.none_prior / len(ODD_SHARES)] * len(ODD_SHARES)
        weights = [*self.hypotheses.prior.tolist(), *self.pairs.prior.tolist(), *none]
        self.prior = [w / sum(weights) for w in weights]
        self.n = n

    def model(self) -> Any:
        """The network; its only evidence is that every observation is as it was."""
        from pgmpy.factors.discrete import TabularCPD
        from pgmpy.models import DiscreteBayesianNetwork

        tables = [TabularCPD("wrong", len(self.prior), [[p] for p in self.prior])]
        for i in range(self.n):
            good = float(self.hypotheses.for_good[i])
            tables.append(TabularCPD(f"good{i}", 2, [[1.0 - good], [good]]))
        for place, stretch in enumerate(self.evidence.stretches):
            tables += [self._there(place, i) for i in range(self.n)]
            tables += [self._seen(place, r) for r in stretch.readings]
            if stretch.sighting is not Sighting.UNKNOWN:
                tables.append(self._seen(place, None))
        network = DiscreteBayesianNetwork(
            [(parent, t.variable) for t in tables for parent in t.variables[1:]]
        )
        network.add_cpds(*tables)
        return network

    @property
    def observed(self) -> dict[str, int]:
        """The variables that are seen; state 1 is what was seen."""
        found = {f"read{r}": 1 for s in self.evidence.stretches for r in s.readings}
        known = enumerate(self.evidence.stretches)
        return found | {f"sight{i}": 1 for i, s in known if s.sighting is not Sighting.UNKNOWN}

    def posterior(self) -> Any:
        """By variable elimination: singles, pairs, none of these."""
        from pgmpy.inference import VariableElimination

        query = VariableElimination(self.model()).query(
            ["wrong"], self.observed, show_progress=False
        )
        values = query.values
        kinds = len(ODD_SHARES)
        return values[: self.n], values[self.n : -kinds], float(values[-kinds:].sum())

    def _there(self, place: int, i: int) -> Any:
        from pgmpy.factors.discrete import TabularCPD

        chance = float(self.hypotheses.chance[i])
        there = [
            (1.0 if good else chance) if i in world else 0.0
            for world in self.worlds
            for good in (False, True)
        ]
        return TabularCPD(
            f"there{place}.{i}", 2, [[1.0 - t for t in there], there],
            ["wrong", f"good{i}"], [len(self.worlds), 2],
        )  # fmt: skip

    def _seen(self, place: int, reading: int | None) -> Any:
        from pgmpy.factors.discrete import TabularCPD

        chances = [
            self._chance(place, reading, world, frozenset(np.flatnonzero(active).tolist()))
            for world in range(len(self.worlds))
            for active in product((0, 1), repeat=self.n)
        ]
        name = f"sight{place}" if reading is None else f"read{reading}"
        parents = ["wrong", *(f"there{place}.{i}" for i in range(self.n))]
        table = [[1.0 - c for c in chances], chances]
        return TabularCPD(name, 2, table, parents, [len(self.worlds), *[2] * self.n])

    def _chance(self, place: int, reading: int | None, world: int, active: frozenset[int]) -> float:
        kinds, members = len(ODD_SHARES), self.worlds[world]
        is_none = world >= len(self.worlds) - kinds
        if reading is None:
            shows = self._shows(world, active & members)
            chance = min(max(shows, FALSE_SIGHT), 1.0 - FALSE_SIGHT)
            is_present = self.evidence.stretches[place].sighting is Sighting.PRESENT
            return 0.5 if is_none else chance if is_present else 1.0 - chance
        healthy = float(self.evidence.healthy[reading])
        if is_none:
            odd = ODD_SHARES[world - len(self.worlds) + kinds]
            return (1.0 - odd) * healthy + odd * float(self.evidence.anything[reading])
        there = active & members
        if not there:
            return healthy
        if len(there) == 2:
            return float(self.pairs.likelihood[world - self.n, reading])
        return float(self.hypotheses.likelihood[next(iter(there)), reading])

    def _shows(self, world: int, there: frozenset[int]) -> float:
        if not there:
            return FALSE_SIGHT
        if len(there) == 2:
            return float(self.pairs.shows[world - self.n])
        return float(self.hypotheses.shows[next(iter(there))])
