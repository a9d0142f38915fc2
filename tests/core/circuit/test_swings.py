"""A relay that chatters has no reading; it swings between two, which are told."""

import numpy as np
import pytest
from core.circuit.samples import circuit_of

from faulttree.core.circuit.attached import Flag, read_pairs
from faulttree.core.circuit.cases import Cases
from faulttree.core.circuit.circuit import State
from faulttree.core.circuit.probes import Probe, Tool, ohms, volts
from faulttree.core.circuit.solve import solve

# The coil hangs behind its own break contact. At rest: battery 12.6 V, 0.01 + 0.1 + 0.01 ohm, the
# coil beside the lamp; pulled in: the contact is open, and only the meter is left behind it.
BUZZER = """\
  feed: {kind: contact, between: [plus, common], resistance: 0.1 ohm}
  relay:
    kind: relay
    coil: {between: [coil-in, minus], resistance: 80 ohm}
    contacts: {main: {common: common, break: coil-in, resistance: 0.01 ohm}}
  lamp: {kind: heater, between: [coil-in, minus], resistance: 10 ohm}
"""
PULL = 80 * 10 / 90
AT_REST = 12.6 * PULL / (PULL + 0.01 + 0.1 + 0.01)


def _pairs(*probes: Probe):
    circuit = circuit_of("common coil-in", BUZZER)
    solved = solve(circuit, Cases.one(State()))
    case = np.zeros(len(probes), np.intp)
    return read_pairs(circuit, solved, probes, case, np.arange(len(probes)))


def test_a_meter_swings_between_both_states_of_the_relay() -> None:
    found = _pairs(volts("coil-in", "minus"))
    assert found.flags[0] & Flag.UNSTABLE
    assert found.low[0] == pytest.approx(0.0, abs=1e-3)
    assert found.high[0] == pytest.approx(AT_REST, rel=1e-3)


def test_so_does_a_clamp() -> None:
    found = _pairs(Probe(Tool.CLAMP, through="feed"))
    assert found.low[0] == pytest.approx(0.0, abs=1e-3)
    assert found.high[0] == pytest.approx(AT_REST / PULL, rel=1e-3)


def test_what_does_not_hang_on_the_relay_stands_still() -> None:
    found = _pairs(volts("plus", "minus"), ohms("coil-in", "minus", "lamp"))
    assert found.low[0] == pytest.approx(found.high[0], rel=2e-3)
    # On a dead circuit the relay is at rest: the coil alone, 80 ohm.
    assert not found.flags[1] & Flag.UNSTABLE
    assert found.low[1] == found.high[1] == pytest.approx(80.0, rel=1e-3)
