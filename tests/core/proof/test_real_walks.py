"""The set walk against the walk itself: whatever a technician records lies within what is proved.

The walk's own engine is the reference: its events, its fold, its rules for the battery voltage and
for readings too close to call. Readings are off at random, up to the instrument's limit of error.
"""

from random import Random

import pytest
from benches import TREES, gate, gate_proof, on_bench, opened, proof_of
from core.proof.real_walks import RealWalk

from faulttree.core.proof.standing import Mode
from faulttree.core.proof.tree_proof import TreeProof

WALKS = 40
"""Real walks of each tree; each takes some ten milliseconds."""


def _check(proof: TreeProof, real: RealWalk) -> None:
    conclusion, path = real.to_the_end()
    suspect = real.bench.rows[real.row].suspect
    mode = Mode.ABSENT if suspect is None else Mode.PRESENT
    computed = next(w for w in proof.walked if w.row == real.row and w.mode is mode)
    where = (suspect.id if suspect else "healthy", real.bench.rows[real.row].supply, path)
    assert conclusion in {e.end.conclusion for e in computed.ends}, where


@pytest.mark.parametrize("name", TREES)
def test_a_recorded_walk_ends_where_the_proof_says(name: str) -> None:
    proof, (_, judge) = proof_of(name), on_bench(name)
    vehicle, chance = opened(name).vehicle, Random(name)
    sheet = vehicle.document if vehicle else None
    for row in chance.sample(range(len(proof.bench.rows)), WALKS):
        _check(proof, RealWalk(proof.bench, judge, sheet, row, chance))


def test_so_it_does_with_a_lead_that_stays_fitted_and_every_car() -> None:
    bench, judge = gate()
    chance = Random(3)
    for row in range(len(bench.rows)):
        _check(gate_proof(), RealWalk(bench, judge, None, row, chance))
