"""What must hold whatever is wrong: heat in equals heat out, and all balances are met."""

from itertools import pairwise

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from faulttree.core.loop.balance import Balance
from faulttree.core.loop.parts import Loop, Metering, Run
from faulttree.core.loop.solver import solved
from faulttree.core.loop.steady import FIRST, running, sized
from faulttree.core.refrigerant.refrigerant import properties

WEATHER = {
    "ambient": st.floats(290, 316),
    "humidity": st.floats(0.2, 0.8),
    "speed": st.floats(12, 50),
    "condenser_air": st.floats(0.4, 1.4),
}
FAULTS = {
    "charge": st.floats(0.25, 1.35),
    "air": st.floats(0.2, 1.5),
    "restriction": st.floats(0.8, 0.98),
    "valve_held": st.floats(0.05, 1.0),
    "evaporator_air": st.floats(0.2, 1.0),
    "leak": st.floats(0.2, 3.0),
    "slip": st.floats(0.1, 0.8),
}


@st.composite
def _runs(draw):
    """A car in some weather with one thing wrong, or none."""
    name = draw(st.sampled_from([None, *FAULTS]))
    wrong = {name: draw(FAULTS[name])} if name else {}
    return Run(**{key: draw(value) for key, value in WEATHER.items()}, **wrong)


RUNS = _runs()
LOOPS = st.sampled_from([Loop(metering=m) for m in Metering])


@settings(max_examples=80)
@given(LOOPS, RUNS)
def test_heat_out_is_heat_in_and_work(loop, run):
    (found,) = running(loop, [run])
    _, h2, h3, h4 = (corner.enthalpy for corner in found.corners)
    assert h4 == h3  # a valve takes and gives no heat
    assert found.flow * (h2 - h3) == pytest.approx(found.capacity + found.power, rel=1e-9)
    assert found.capacity > 0
    assert found.power > 0


@settings(max_examples=80)
@given(LOOPS, RUNS)
def test_every_balance_is_met(loop, run):
    balance = Balance([sized(loop)], [run])
    start = np.array(FIRST)[:, None]
    unknowns, _ = solved(lambda u, which: balance.part(which).settled(u).off, start)
    settled = balance.settled(unknowns)
    if not running(loop, [run])[0].is_beyond:
        # Where a condenser is full of liquid, nothing meets all four, and the nearest is shown.
        is_full = run.charge > 1.2 or run.restriction > 0.9
        most = 0.1 if is_full else 1e-3
        assert np.abs(settled.off).max() < most


@settings(max_examples=60)
@given(LOOPS, RUNS)
def test_gauges_and_pipes_agree_with_saturation(loop, run):
    """The low side is saturation of the evaporator's inlet; the high side too, without air."""
    (found,) = running(loop, [run])
    known = properties(loop.refrigerant)
    low = known.temperature(max(found.low_side + run.atmosphere, 1e4))
    assert low == pytest.approx(found.evaporator_in, abs=0.01)
    high = known.temperature(found.high_side + run.atmosphere)
    if run.air == 0.0 and found.subcooling > 0:
        assert high - found.subcooling == pytest.approx(found.liquid_pipe, abs=0.01)
    if run.air > 0.0:
        assert high > found.liquid_pipe + found.subcooling


@settings(max_examples=25)
@given(LOOPS, st.lists(RUNS, min_size=2, max_size=6))
def test_together_or_alone_a_loop_settles_the_same(loop, runs):
    together = running(loop, runs)
    for run, one in zip(runs, together, strict=True):
        (alone,) = running(loop, [run])
        if not alone.is_beyond:
            assert one.low_side == pytest.approx(alone.low_side, rel=1e-5, abs=20)
            assert one.high_side == pytest.approx(alone.high_side, rel=1e-5, abs=20)


@pytest.mark.parametrize("metering", Metering)
def test_the_more_charge_the_higher_the_high_side(metering):
    """Up to where the coils are full, and what a cut-out would have ended long before."""
    runs = [Run(charge=1.0 + 0.04 * step) for step in range(30)]
    found = running(Loop(metering=metering), runs)
    pressures = [each.high_side for each in found]
    assert all(later >= earlier - 500 for earlier, later in pairwise(pressures))
    assert found[-1].is_beyond
    assert pressures[-1] > 3e6
