"""Nonlinear laws: they rise everywhere, do not jump, and their slopes are their slopes."""

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from faulttree.core.circuit.devices import line
from faulttree.core.circuit.netlist import Law

MOST = settings(derandomize=True, max_examples=200, deadline=None)
LAWS = {
    "lamp": (Law.LAMP, 0.6857, 12.0, (6.857, 0.0, 0.0)),
    "led": (Law.DIODE, 680.0, 1.9, (0.0, 0.0, 0.0)),
    "fan": (Law.MOTOR, 0.3, 0.0, (1.5, 0.09, 0.18)),
    "steady": (Law.MOTOR, 0.5, 0.0, (5.1, 0.1, 0.0)),
    "seized": (Law.MOTOR, 0.5, 0.0, (np.inf, 0.0, 0.0)),
}


def at(name, *volts):
    law, ohm, emf, shape = LAWS[name]
    v = np.array(volts, float)
    return line(law, v, np.full_like(v, ohm), np.full_like(v, emf), np.tile(shape, (len(v), 1)))


@pytest.mark.parametrize("name", LAWS)
@MOST
@given(st.floats(-30, 30), st.floats(1e-6, 5))
def test_more_voltage_is_never_less_current(name, volts, more):
    amps = at(name, volts, volts + more).amps
    assert amps[1] >= amps[0]


@pytest.mark.parametrize("name", LAWS)
@MOST
@given(st.floats(-30, 30))
def test_the_slope_is_that_of_the_law_on_one_side_at_least(name, volts):
    step = 1e-6
    low, here, high = at(name, volts - step, volts, volts + step).amps
    slope = at(name, volts).slope[0]
    sides = (here - low) / step, (high - here) / step
    assert min(abs(side - slope) for side in sides) <= 1e-4 * (1 + abs(slope))


@pytest.mark.parametrize("name", ["lamp", "fan", "steady", "seized"])
@MOST
@given(st.floats(0, 30))
def test_what_has_no_polarity_does_the_same_the_other_way(name, volts):
    amps = at(name, volts, -volts).amps
    assert amps[0] == -amps[1]


def test_a_lamp_takes_its_rated_current_at_its_rated_voltage():
    assert at("lamp", 12.0).amps[0] == pytest.approx(12 / 6.857, rel=1e-12)


def test_a_lamp_just_lit_has_its_cold_resistance():
    assert at("lamp", 0.01).amps[0] == pytest.approx(0.01 / 0.6857, rel=1e-12)


def test_a_running_motor_balances_its_torque():
    volts, ohm, (friction, drag, fan) = 13.0, 0.3, LAWS["fan"][3]
    amps = at("fan", volts).amps[0]
    back_emf = volts - ohm * amps
    assert amps == pytest.approx(friction + drag * back_emf + fan * back_emf**2, rel=1e-12)


def test_an_led_carries_nothing_below_its_forward_voltage():
    assert at("led", -20.0, 0.0, 1.89).amps.tolist() == [0.0, 0.0, 0.0]
    assert at("led", 12.6).amps[0] == pytest.approx(10.7 / 680, rel=1e-12)
