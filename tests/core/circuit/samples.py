"""Circuits that many tests use, and short ways to solve and read them."""

from functools import cache
from pathlib import Path

import numpy as np

from faulttree.core.circuit.cases import Cases
from faulttree.core.circuit.circuit import Circuit, State
from faulttree.core.circuit.document import CircuitModel
from faulttree.core.circuit.edits import Edit
from faulttree.core.circuit.faults import Injected, Severity, faults_of
from faulttree.core.circuit.readings import read
from faulttree.core.circuit.solve import Solved, solve
from faulttree.files.documents import circuit_from_bytes, load_circuit

FOLDER = Path(__file__).parents[2] / "data" / "circuits"
NAMES = tuple(sorted(path.stem for path in FOLDER.glob("*.yaml")))
HEAD = 'format: circuit/1\nid: sample\nversion: "1.0.0"\ntitle: Sample\nreference: minus\n'
BATTERY = "  battery: {kind: battery, plus: plus, minus: minus, emf: 12.6 V, internal: 10 mohm}\n"


@cache
def sample(name: str) -> Circuit:
    return Circuit.from_document(load_circuit(FOLDER / f"{name}.yaml").document)


def model_of(nodes: str, elements: str, inputs: str = "{}", more: str = "") -> CircuitModel:
    """A model with a 12.6 V battery between plus and minus, and what is given."""
    names = ", ".join(f"{n}: {{}}" for n in ("plus", "minus", *nodes.split()))
    text = f"{HEAD}inputs: {inputs}\nnodes: {{{names}}}\nelements:\n{BATTERY}{elements}\n{more}"
    return circuit_from_bytes(text.encode(), "sample").document


def circuit_of(nodes: str, elements: str, inputs: str = "{}", more: str = "") -> Circuit:
    return Circuit.from_document(model_of(nodes, elements, inputs, more))


def solved(circuit: Circuit, *edits: Edit, **inputs: str | float) -> Solved:
    """One case, with edits as the fault."""
    return solve(circuit, cases(*edits, **inputs))


def cases(*edits: Edit, **inputs: str | float) -> Cases:
    named = {name.replace("_", "-"): value for name, value in inputs.items()}
    return Cases.one(State(named), *([Injected("by hand", edits)] if edits else []))


def reading(circuit: Circuit, probe, *edits: Edit, **inputs):
    """Value and flags of one probe in one case."""
    found = read(circuit, cases(*edits, **inputs), [probe])
    return float(found.values[0, 0]), int(found.flags[0, 0])


def every_fault(circuit: Circuit, severity: Severity = Severity.TYPICAL):
    return [(), *((f.at(severity),) for f in faults_of(circuit.model))]


def every_state(circuit: Circuit):
    """The usual state, and each other state of each input that has states."""
    found = [State()]
    for name, each in circuit.model.inputs.items():
        others = [s for s in each.states or () if s != each.usual.text]
        found += [State({name: state}) for state in others]
    return found


def grounded(solved: Solved) -> np.ndarray:
    """Where a node has a path to the reference, shape (n_cases, n_nodes)."""
    return solved.island == 0
