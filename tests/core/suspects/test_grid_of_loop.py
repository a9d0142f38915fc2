"""Faults of the refrigerant loop on a grid of sizes."""

from pathlib import Path

import pytest

from faulttree.core.circuit.loop_faults import faults_of_loop
from faulttree.core.suspects.grid import _forms_of_loop
from faulttree.files.documents import circuit_from_bytes

CAR = Path(__file__).parents[2] / "data" / "loop" / "car.yaml"
FAULTS = faults_of_loop(circuit_from_bytes(CAR.read_bytes(), "car").document.loop)


@pytest.mark.parametrize("fault", [f for f in FAULTS if f.sizes], ids=lambda f: f.id)
def test_the_grid_holds_the_sizes_and_never_more_than_makes_sense(fault):
    sizes = [form.size for form in _forms_of_loop(fault)]
    assert sizes in (sorted(sizes), sorted(sizes, reverse=True))
    assert len(set(sizes)) == len(sizes)
    assert min(sizes) <= min(fault.sizes)
    assert max(fault.sizes) <= max(sizes) <= fault.most
    for form in _forms_of_loop(fault):
        (value,) = form.inputs.values()
        assert float(value) >= 0.0  # nobody loses more than there is
