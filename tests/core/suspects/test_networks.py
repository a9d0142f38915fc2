"""Exact Bayes against published belief networks and against pgmpy's variable elimination.

A suspect here is alone or one of two, so of the published networks only the car start problem is
said in suspects as they are: two causes, independent of each other. The chest clinic has causes of
its causes, and it and the car that does not start have more than two at once: each of their states
is a hypothesis by itself here, which tries the arithmetic and not the model.
"""

from typing import Any

import numpy as np
import pytest
from core.suspects.networks import AsNetwork, Network, drawn_case, published

from faulttree.core.suspects.bayes import posterior
from faulttree.core.suspects.hypotheses import Evidence, Hypotheses, Pairs, Sighting, Stretch

EXACT = 1e-9


def _network(name: str) -> Network:
    found = published()["networks"][name]
    return Network(found["states"], found["cpts"])


@pytest.mark.parametrize(
    "query", published()["queries"], ids=lambda q: f"{q['network']} {q['evidence']}"
)
def test_the_posteriors_of_published_networks(query: Any) -> None:
    network, asked = _network(query["network"]), set(query["posteriors"])
    worlds, hypotheses, evidence = network.hypotheses(query["evidence"], asked)
    found = posterior(hypotheses, evidence, 0.0)
    for variable, states in query["posteriors"].items():
        for state, chance in states.items():
            is_so = np.array([world[variable] == state for world in worlds])
            assert float(found.forms[is_so].sum()) == pytest.approx(chance, abs=EXACT)
    assert np.exp(found.log_evidence) == pytest.approx(query["p_evidence"], abs=EXACT)


@pytest.mark.parametrize(
    "seen", [{"St": "no"}, {"St": "no", "FM": "half"}], ids=lambda seen: str(seen)
)
def test_the_car_start_problem_in_suspects_and_pairs(seen: dict[str, str]) -> None:
    """No fuel, dirty plugs, both, or neither: Jensen and Nielsen (2007), chapter 2."""
    network = _network("jensen_car")
    no_fuel, dirty = network.chance("Fu", {"Fu": "no"}), network.chance("SP", {"SP": "no"})

    def reads(fuel: str, plugs: str) -> list[float]:
        state = {"Fu": fuel, "SP": plugs, **seen}
        return [network.chance(variable, state) for variable in seen]

    alone = [no_fuel * (1.0 - dirty), (1.0 - no_fuel) * dirty, (1.0 - no_fuel) * (1.0 - dirty)]
    table = [reads("no", "yes"), reads("yes", "no"), reads("yes", "yes")]
    ones, zero = np.ones(3), np.zeros(1, np.intp)
    hypotheses = Hypotheses(np.arange(3), np.array(alone), ones, ones, ones, np.array(table))
    both = Pairs(
        zero, zero + 1, np.array([no_fuel * dirty]), np.ones(1), np.array([reads("no", "no")])
    )
    nothing = np.ones(len(seen))
    whole = Stretch(Sighting.UNKNOWN, tuple(range(len(seen))))
    found = posterior(hypotheses, Evidence((whole,), nothing, nothing), 0.0, both)
    involved = found.involved(both, hypotheses)
    query = next(
        q for q in published()["queries"]
        if q["network"] == "jensen_car" and q["evidence"] == seen
    )  # fmt: skip
    assert involved[0] == pytest.approx(query["posteriors"]["Fu"]["no"], abs=EXACT)
    assert involved[1] == pytest.approx(query["posteriors"]["SP"]["no"], abs=EXACT)


@pytest.mark.filterwarnings("ignore::FutureWarning")  # of pgmpy, about itself
@pytest.mark.parametrize("seed", range(4))
def test_variable_elimination_gives_the_same(seed: int) -> None:
    """pgmpy on the same model as a network, with faults that come and go and pairs of them."""
    rng = np.random.default_rng(seed)
    case = drawn_case(rng, n=3, n_pairs=2, n_stretches=3)
    singles, pairs, none = AsNetwork(case).posterior()
    found = posterior(*case)
    assert found.forms == pytest.approx(singles, abs=EXACT)
    assert found.pairs == pytest.approx(pairs, abs=EXACT)
    assert found.none == pytest.approx(none, abs=EXACT)
