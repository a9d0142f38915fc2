"""Laws that hold in every circuit: Kirchhoff's, superposition, balance of energy.

Each holds to 1e-9 of the largest current, voltage or power in the circuit.
"""

import numpy as np
from hypothesis import given, settings
from hypothesis import strategies as st

from faulttree.core.circuit.cases import Cases
from faulttree.core.circuit.circuit import Circuit, State
from faulttree.core.circuit.document import CircuitModel
from faulttree.core.circuit.solve import solve

MOST = settings(derandomize=True, max_examples=120, deadline=None)
RELATIVE = 1e-9

resistances = st.floats(-3, 5).map(lambda exponent: 10.0**exponent)
"""From a milliohm to 100 kohm."""


def _wire(ends, ohm):
    return {"kind": "wire", "between": list(ends), "resistance": f"{ohm!r} ohm"}


@st.composite
def pairs(draw, n_nodes):
    a = draw(st.integers(0, n_nodes - 1))
    b = draw(st.integers(0, n_nodes - 2))
    return f"n{a}", f"n{b if b < a else b + 1}"


@st.composite
def circuits(draw, curved=True):
    """A tree of resistors over all nodes, more across it, two batteries, and bent laws at will."""
    n = draw(st.integers(3, 9))
    elements = {}
    for i in range(1, n):
        ends = f"n{draw(st.integers(0, i - 1))}", f"n{i}"
        elements[f"tree{i}"] = _wire(ends, draw(resistances))
    for i in range(draw(st.integers(0, 6))):
        elements[f"more{i}"] = _wire(draw(pairs(n)), draw(resistances))
    for i, name in enumerate(("first", "second")):
        plus, minus = draw(pairs(n))
        elements[name] = {"kind": "battery", "plus": plus, "minus": minus, "emf": f"emf-{i}",
                          "internal": f"{draw(st.floats(0.005, 0.1))!r} ohm"}  # fmt: skip
    if curved:
        for i in range(draw(st.integers(0, 3))):
            elements[f"bent{i}"] = draw(bent(n))
    usual = {f"emf-{i}": {"quantity": "voltage", "usual": f"{draw(st.floats(1, 15))!r} V"}
             for i in range(2)}  # fmt: skip
    nodes = {f"n{i}": {} for i in range(n)}
    data = {"format": "circuit/1", "id": "random", "version": "1.0.0", "title": "Random",
            "inputs": usual, "reference": "n0", "nodes": nodes, "elements": elements}  # fmt: skip
    return Circuit.from_document(CircuitModel.model_validate(data))


@st.composite
def bent(draw, n):
    ends = list(draw(pairs(n)))
    power = f"{draw(st.floats(2, 60))!r} W"
    return draw(
        st.sampled_from(
            [
                {"kind": "lamp", "between": ends, "power": power},
                {"kind": "led", "between": ends},
                {"kind": "diode", "between": ends},
                {"kind": "motor", "between": ends, "voltage": "13 V", "current": "15 A",
                 "winding": "0.3 ohm"},
                {"kind": "motor", "between": ends, "voltage": "12 V", "current": "6 A",
                 "winding": "0.5 ohm", "load": "steady"},
            ]
        )
    )  # fmt: skip


def _ends(circuit):
    branches = circuit.netlist.branches
    return np.array([b.a for b in branches]), np.array([b.b for b in branches])


@MOST
@given(circuits())
def test_current_into_every_node_is_current_out_of_it(circuit):
    found = solve(circuit, Cases.one())
    amps = found.currents[0]
    a, b = _ends(circuit)
    leaving = np.zeros(len(circuit.netlist.nodes))
    np.add.at(leaving, a, amps)
    np.add.at(leaving, b, -amps)
    assert found.is_stable[0]
    assert np.abs(leaving).max() <= RELATIVE * max(np.abs(amps).max(), 1e-12)


@MOST
@given(circuits())
def test_voltages_round_every_loop_add_up_to_nothing(circuit):
    """Each linear branch's law gives back the difference of its nodes' voltages: loops close."""
    found = solve(circuit, Cases.one())
    car = circuit.car(State())
    for branch, amps in zip(circuit.netlist.branches, found.currents[0], strict=True):
        drop = found.voltages[0, branch.a] - found.voltages[0, branch.b]
        if branch.law == "linear":
            terms = branch.terms(car, {})
            assert abs(terms.ohm * amps + terms.emf - drop) <= RELATIVE * 15


@MOST
@given(circuits())
def test_the_power_given_is_the_power_taken(circuit):
    found = solve(circuit, Cases.one())
    a, b = _ends(circuit)
    powers = (found.voltages[0, a] - found.voltages[0, b]) * found.currents[0]
    assert abs(powers.sum()) <= RELATIVE * max(np.abs(powers).max(), 1e-12)
    passive = [p for p, branch in zip(powers, circuit.netlist.branches, strict=True)
               if not branch.is_source]  # fmt: skip
    assert min(passive) >= -RELATIVE * max(np.abs(powers).max(), 1e-12)


@MOST
@given(circuits(curved=False), st.floats(-15, 15), st.floats(-15, 15))
def test_two_sources_make_the_sum_of_what_each_makes_alone(circuit, first, second):
    pairs = [(first, second), (first, 0.0), (0.0, second)]
    states = [State({"emf-0": one, "emf-1": two}) for one, two in pairs]
    both, one, two = solve(circuit, Cases.every(states, [()])).voltages
    scale = max(np.abs([both, one, two]).max(), 1e-9)
    assert np.abs(both - one - two).max() <= RELATIVE * scale


@MOST
@given(circuits())
def test_cases_solved_together_are_what_they_are_alone(circuit):
    states = [State({"emf-0": v}) for v in (3.0, 9.0, 14.0)]
    together = solve(circuit, Cases.every(states, [()])).voltages
    alone = np.concatenate([solve(circuit, Cases.one(s)).voltages for s in states])
    assert np.allclose(together, alone, rtol=1e-9, atol=1e-9)
