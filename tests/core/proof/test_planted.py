"""Errors planted in a tree that is right: each is found, with the fault that shows it."""

import pytest
from benches import TREES, gate, gate_proof, opened, proof_of

from faulttree.core.proof.apart import splits
from faulttree.core.proof.ends import Worth
from faulttree.core.proof.measures import measures_of
from faulttree.core.proof.set_up import set_up
from faulttree.core.proof.tree_proof import TreeProof, prove
from faulttree.core.tree import Conclude, Measure, Tree
from faulttree.files.documents import tree_from_bytes


def _wrong(proof: TreeProof) -> set[tuple[str, str]]:
    found = ((proof.row(w).suspect, e.end.conclusion) for w, e in proof.wrong)
    return {(suspect.id if suspect else "healthy", conclusion) for suspect, conclusion in found}


def test_the_example_is_right() -> None:
    assert _wrong(gate_proof()) == set()


def test_swapped_branches_condemn_good_parts() -> None:
    swapped = (
        ("below: 0.3 V, go: lamp-current, means: The ground is sound.",
         "below: 0.3 V, go: ground-bad, means: The ground is sound."),
        ("go: ground-bad, means: The ground takes voltage.",
         "go: lamp-current, means: The ground takes voltage."),
    )  # fmt: skip
    wrong = _wrong(gate_proof(tree=swapped))
    assert ("lamp.open", "ground-bad") in wrong


def test_a_band_edge_in_the_wrong_place_loses_faults() -> None:
    proof = gate_proof(tree=(("below: 0.3 V, go: lamp-current", "below: 14 V, go: lamp-current"),))
    ground = next(s for s in proof.bench.suspects if s.id == "ground.open")
    assert all(e.worth is not Worth.NAMED for w in proof.of(ground) for e in w.ends)
    assert "ground-bad" in proof.unreached
    assert "ground-drop" in proof.idle


def test_a_window_that_is_too_narrow_is_told() -> None:
    proof = gate_proof(
        tree=(("plausible: {from: -0.5 A, below: 10 A}", "plausible: {from: 0.1 A, below: 10 A}"),)
    )
    lamp = next(s for s in proof.bench.suspects if s.id == "lamp.open")
    ends = [e for w in proof.of(lamp) for e in w.ends]
    assert {e.worth for e in ends} == {Worth.STUCK}
    assert {e.end.trouble for e in ends} == {"implausible"}


def test_a_reading_within_the_meter_error_of_an_edge_goes_both_ways() -> None:
    # The normal battery reads 12.63 V; with the edge there, its error of 0.08 V reaches over it.
    proof = gate_proof(
        tree=(("below: 12 V, go: battery-first", "below: 12.6 V, go: battery-first"),)
    )
    lamp = next(s for s in proof.bench.suspects if s.id == "lamp.open")
    normal = next(w for w in proof.of(lamp) if proof.row(w).supply == "normal")
    assert {e.end.conclusion for e in normal.ends} == {"battery-first", "lamp-burnt"}
    closest = proof.closest[0]
    assert closest.step_id == "battery-rest"
    assert closest.margin.is_within_error


def test_a_group_that_tests_can_split_is_told() -> None:
    bench = (("faults: [relay, socket]", "faults: [relay, socket, lamp]"),)
    found = {(s.one, s.other) for s in splits(*gate(bench=bench))}
    assert ("relay socket", "bulb") in found
    assert not any({"relay", "relay socket"} == {one, other} for one, other in found)


@pytest.mark.parametrize("name", TREES)
def test_swapping_a_measurement_of_a_shipped_tree_is_caught(name: str) -> None:
    """Every test that parts good from bad, its two ends exchanged: the proof does not hold."""
    there = opened(name)
    data = there.tree.data.decode()
    tree = there.tree.document
    step_id = next(i for i, s in tree.steps.items() if _parts(tree, s))
    found = _proved_again(name, _swapped(data, tree, step_id))
    sound, broken = measures_of(proof_of(name)), measures_of(found)
    assert found.wrong or broken.isolated < sound.isolated - 0.02


def _parts(tree: Tree, step: object) -> bool:
    """A measurement with two bands that lead to different tests."""
    if not isinstance(step, Measure):
        return False
    targets = [b.go for b in step.bands]
    leads_on = not any(isinstance(tree.steps[t], Conclude) for t in targets)
    return leads_on and len(set(targets)) > 1 and targets[0] != targets[-1]


def _swapped(text: str, tree: Tree, step_id: str) -> str:
    """The tree with the first and the last target of a step exchanged."""
    step = tree.steps[step_id]
    assert isinstance(step, Measure)
    first, last = step.bands[0].go, step.bands[-1].go
    start = text.index(f"\n  {step_id}:\n")
    end = text.index("cannot:", start)
    inside = text[start:end]
    inside = inside.replace(f"go: {first}", "go: @").replace(f"go: {last}", f"go: {first}")
    return text[:start] + inside.replace("go: @", f"go: {last}") + text[end:]


def _proved_again(name: str, text: str) -> TreeProof:
    there = opened(name)
    tree = tree_from_bytes(text.encode(), "swapped").document
    vehicle = there.vehicle.document if there.vehicle else None
    return prove(*set_up(tree, there.circuit.document, there.sheet.document, vehicle))
