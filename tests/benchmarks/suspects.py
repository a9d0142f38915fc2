"""How long it takes to say what is suspect, with the likelihoods of all readings at hand."""

import sys
from decimal import Decimal, getcontext
from pathlib import Path
from time import perf_counter
from typing import Any

from .rows import Row, in_turn

FAULTS, READINGS, STRETCHES = 60, 40, 40
"""Each fault comes and goes or is there for good; every pair of them is thought of."""
SMALL = (6, 6, 6)
"""Faults, pairs and stretches of what a network of tables can hold: they double with each fault."""
DIGITS = 50


def rows(rounds: int) -> list[Row]:
    """After a reading: probabilities, then all that is told; exactness; against pgmpy."""
    sys.path.insert(0, str(Path(__file__).parents[1]))
    case = _large()
    pairs = len(case[3].prior)
    what = f"suspects after a reading, {FAULTS} faults, {pairs:,} pairs, {READINGS} readings"
    alone, told = in_turn(max(rounds, 15), lambda: _posterior(case), lambda: _everything(case))
    found = [
        Row(what, "", round(alone * 1e3, 2), 20, "ms", f"{STRETCHES} stretches"),
        Row("the same with all that speaks", "", round(told * 1e3, 2), 100, "ms"),
        Row("furthest from 50 digits", "", round(_difference(case) / 1e-9, 4), 1, "x 1e-9"),
    ]
    return [*found, *_against_pgmpy(rounds)]


def _large() -> Any:
    import numpy as np

    rng = np.random.default_rng(1)
    from core.suspects.networks import drawn_case

    from faulttree.core.suspects.hypotheses import Evidence, Sighting, Stretch

    n_pairs = FAULTS * (FAULTS - 1) // 2
    hypotheses, evidence, none, pairs = drawn_case(rng, FAULTS, n_pairs, READINGS // 2)
    each = READINGS // STRETCHES
    stretches = tuple(
        Stretch(list(Sighting)[i % 3], tuple(range(i * each, (i + 1) * each)))
        for i in range(STRETCHES)
    )
    return hypotheses, Evidence(stretches, evidence.healthy, evidence.anything), none, pairs


def _posterior(case: Any) -> float:
    from faulttree.core.suspects.bayes import posterior

    begun = perf_counter()
    posterior(*case)
    return perf_counter() - begun


def _everything(case: Any) -> float:
    """Now, before the last reading, and what every reading and sighting does to every suspect."""
    from faulttree.core.suspects.bayes import posterior
    from faulttree.core.suspects.explain import sightings_speaking, speaking

    hypotheses, evidence, none, pairs = case
    begun = perf_counter()
    posterior(hypotheses, evidence, none, pairs)
    posterior(hypotheses, evidence.without(READINGS - 1), none, pairs)
    speaking(hypotheses, evidence, none, FAULTS, pairs)
    sightings_speaking(hypotheses, evidence, none, FAULTS, pairs)
    return perf_counter() - begun


def _difference(case: Any) -> float:
    """From the same sum in plain loops with fifty digits."""
    from core.suspects.worlds import in_digits

    from faulttree.core.suspects.bayes import posterior

    getcontext().prec = DIGITS
    found, exact = posterior(*case), in_digits(*case)
    ours = [*found.forms.tolist(), *found.pairs.tolist(), found.none]
    return max(abs(float(Decimal(a) - b)) for a, b in zip(ours, exact, strict=True))


def _against_pgmpy(rounds: int) -> list[Row]:
    """Its variable elimination, the network built beforehand; left out where it is missing."""
    import numpy as np

    try:
        from pgmpy.inference import VariableElimination
    except ImportError:
        return []
    from core.suspects.networks import AsNetwork, drawn_case

    n, n_pairs, n_stretches = SMALL
    case = drawn_case(np.random.default_rng(2), n, n_pairs, n_stretches)
    network = AsNetwork(case)
    model, seen = network.model(), network.observed

    def theirs() -> float:
        begun = perf_counter()
        VariableElimination(model).query(["wrong"], seen, show_progress=False)
        return perf_counter() - begun

    their_s, our_s = in_turn(max(rounds, 5), theirs, lambda: _posterior(case))
    what = f"the same, {n} faults, {n_pairs} pairs, {2 * n_stretches} readings, times faster"
    detail = f"{their_s * 1e3:.1f} ms / {our_s * 1e3:.2f} ms"
    return [Row(what, "pgmpy", their_s / our_s, 10, "x", detail, more_is_better=True)]
