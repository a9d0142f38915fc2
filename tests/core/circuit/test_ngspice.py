"""Fourteen automotive circuits against ngspice, in normal state and with every fault.

Source: ngspice (Debian package ngspice), a circuit simulator with nothing in common with the
solver; the decks are written by tests/core/circuit/hand_run.py with formulas of their own.
"""

import numpy as np
import pytest
from core.circuit.hand_run import NGSPICE, Hand, run
from core.circuit.samples import NAMES, every_fault, every_state, grounded, sample

from faulttree.core.circuit.cases import Cases
from faulttree.core.circuit.faults import Severity
from faulttree.core.circuit.probes import Probe, Tool
from faulttree.core.circuit.readings import Flag, read
from faulttree.core.circuit.solve import solve

pytestmark = pytest.mark.skipif(
    NGSPICE is None, reason="ngspice is not installed (Debian: apt-get install ngspice)"
)


def close(ours, theirs):
    """Within 0.1 mV and 1e-4 of the value."""
    return np.abs(ours - theirs) <= 1e-4 + 1e-4 * np.abs(theirs)


def edits(faults):
    return tuple(edit for fault in faults for edit in fault.edits)


def hands_of(circuit, cases, load=None):
    return [
        Hand(circuit.model, dict(cases.states[s].inputs), edits(cases.faults[f]), load)
        for s, f in zip(cases.state_of, cases.fault_of, strict=True)
    ]


def test_there_are_at_least_twelve_circuits():
    assert len(NAMES) >= 12


@pytest.mark.parametrize("severity", Severity)
@pytest.mark.parametrize("name", NAMES)
def test_node_voltages_are_those_of_ngspice_under_every_fault(name, severity, tmp_path):
    circuit = sample(name)
    cases = Cases.every(every_state(circuit), every_fault(circuit, severity))
    found = solve(circuit, cases)
    hands = hands_of(circuit, cases)
    run(hands, tmp_path)
    assert [h.is_done for h in hands] == found.is_stable.tolist()
    nodes = list(circuit.model.nodes)
    theirs = np.array([[hand.volts[n] for n in nodes] for hand in hands])
    index = [circuit.netlist.node(n) for n in nodes]
    is_right = close(found.voltages[:, index], theirs) | ~grounded(found)[:, index]
    wrong = [(cases.faults[cases.fault_of[c]], cases.states[cases.state_of[c]].inputs, nodes[n],
              found.voltages[c, index[n]], theirs[c, n])
             for c, n in np.argwhere(~is_right & found.is_stable[:, None])]  # fmt: skip
    assert not wrong


@pytest.mark.parametrize("tool", [Tool.VOLTMETER, Tool.TEST_LIGHT])
@pytest.mark.parametrize("name", NAMES)
def test_readings_are_those_of_ngspice_with_the_instrument_in_the_deck(name, tool, tmp_path):
    circuit = sample(name)
    cases = Cases.every(every_state(circuit)[:1], every_fault(circuit))
    nodes = [n for n in circuit.model.nodes if n != circuit.model.reference]
    points = nodes[-4:-1]
    probes = [Probe(tool, node, circuit.model.reference) for node in points]
    base = solve(circuit, cases)
    found = read(circuit, cases, probes, base)
    for column, node in enumerate(points):
        hands = hands_of(circuit, cases, (tool.value, node, circuit.model.reference))
        for hand, on, blown in zip(hands, base.on, base.blown, strict=True):
            names = [c.name for c in circuit.netlist.controls]
            hand.on = dict(zip(names, on.tolist(), strict=True))
            hand.blown = set(blown)
        run(hands, tmp_path)
        stable = (found.flags[:, column] & Flag.UNSTABLE) == 0
        assert [h.is_done for h in hands] == stable.tolist()
        theirs = np.array([hand.volts[node] for hand in hands])
        is_right = close(found.values[:, column], theirs) | ~stable
        assert is_right.all(), [
            (node, cases.faults[c], found.values[c, column], theirs[c])
            for c in np.flatnonzero(~is_right)
        ]
