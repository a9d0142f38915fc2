"""What must hold whatever is wrong: coils, work and gauges obey air and refrigerant.

What the model gives is held against CoolProp, of which it sees nothing, and against its own other
readings. Effectiveness of a coil with one side at constant temperature: 1 - exp(-units) (Incropera
and DeWitt, Fundamentals of Heat and Mass Transfer, chapter 11, from memory).
"""

import math
from itertools import pairwise

import numpy as np
import pytest
from CoolProp import CoolProp
from hypothesis import given, settings
from hypothesis import strategies as st

from faulttree.core.loop.balance import Balance
from faulttree.core.loop.parts import Loop, Metering, Run
from faulttree.core.loop.solver import solved
from faulttree.core.loop.steady import FIRST, running, sized

DRY_AIR = 1006.0
"""Heat capacity [J/(kg K)]. Source: ASHRAE Handbook Fundamentals (2017), chapter 1."""
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
def test_the_condenser_gives_off_what_its_air_can_take(loop, run):
    """Heat of the evaporator and work both go into air that is no warmer than what condenses."""
    (found,) = running(loop, [run])
    if found.is_beyond:
        return
    share = run.condenser_air
    effective = 1.0 - math.exp(-loop.condenser_units * share**-0.5)
    lift = _condensing(found) - run.ambient
    most = DRY_AIR * loop.condenser_air * share * effective * lift
    # A condenser that is full of liquid gives off less than one that condenses all over.
    assert 0.4 * most < found.capacity + found.power < (1.1 if _is_full(run) else 1.002) * most


@settings(max_examples=80)
@given(LOOPS, RUNS)
def test_the_evaporator_takes_no_more_than_its_air_has(loop, run):
    """Moist air of CoolProp, from that outside to saturated air as cold as what boils."""
    (found,) = running(loop, [run])
    # Behind a flooded evaporator an accumulator lets on drier vapour than came: see docs/loop.md.
    floods = loop.metering is Metering.TUBE and found.superheat < 0.05
    if not found.is_beyond and not _is_full(run) and not floods:
        assert 0 < found.capacity < 1.01 * _most_from_air(loop, run, found)


@pytest.mark.parametrize("metering", Metering)
@pytest.mark.parametrize("kelvin", [295.15, 303.15, 311.15])
def test_a_healthy_evaporator_takes_nearly_all_that_it_can(metering, kelvin):
    loop, run = Loop(metering=metering), Run(ambient=kelvin)
    (found,) = running(loop, [run])
    assert 0.85 < found.capacity / _most_from_air(loop, run, found) < 1.01


@settings(max_examples=80)
@given(LOOPS, RUNS)
def test_the_work_is_that_of_a_usual_compressor(loop, run):
    """Ideal work by CoolProp, over the usual efficiency of 0.6 to 0.75; common practice, no source.
    Gas that leaks back is pumped again, so a worn compressor works harder."""
    (found,) = running(loop, [run])
    if found.is_beyond or found.superheat < 1.0:
        return
    low, high = found.low_side + run.atmosphere, found.high_side + run.atmosphere
    at = ("P", low, "T", found.suction_pipe, "R134a")
    entropy, start = (CoolProp.PropsSI(what, *at) for what in "SH")
    ideal = found.flow * (CoolProp.PropsSI("H", "P", high, "S", entropy, "R134a") - start)
    assert found.power / ideal > 0.95 / 0.75
    if not run.leak:
        assert found.power / ideal < 1.0 / 0.6


def _most_from_air(loop, run, found):
    """Heat that an evaporator can take out of its air at most [W], wet or dry."""
    share, cold = run.evaporator_air, found.evaporator_in
    effective = 1.0 - math.exp(-loop.evaporator_units * share**-0.45)
    warm = ("T", run.ambient, "P", run.atmosphere, "R", run.humidity)
    wet = CoolProp.HAPropsSI("H", *warm) - CoolProp.HAPropsSI(
        "H", "T", cold, "P", run.atmosphere, "R", 1.0
    )
    return loop.evaporator_air * share * effective * max(wet, DRY_AIR * (run.ambient - cold))


def _condensing(found):
    return found.liquid_pipe + found.subcooling


def _is_full(run):
    """Where a condenser is full of liquid, nothing meets all balances, and the nearest is shown."""
    return run.charge > 1.2 or run.restriction > 0.9


@settings(max_examples=80)
@given(LOOPS, RUNS)
def test_every_balance_is_met(loop, run):
    balance = Balance([sized(loop)], [run])
    start = np.array(FIRST)[:, None]
    unknowns, _ = solved(lambda u, which: balance.part(which).settled(u).off, start)
    settled = balance.settled(unknowns)
    if not running(loop, [run])[0].is_beyond:
        most = 0.1 if _is_full(run) else 1e-3
        assert np.abs(settled.off).max() < most


@settings(max_examples=60)
@given(LOOPS, RUNS)
def test_gauges_and_pipes_agree_with_saturation(loop, run):
    """CoolProp: the low side is saturation of the evaporator's inlet; the high side is that of what
    condenses, and above it by air that was left in. Squeezed into a part of the loop, it weighs
    more than where it filled all of it (Dalton), and that part is no less than a sixth."""
    (found,) = running(loop, [run])
    if found.is_beyond:
        return
    low = _saturation(found.evaporator_in)
    assert found.low_side + run.atmosphere == pytest.approx(low, rel=1e-3)
    condensing = _condensing(found)
    above = found.high_side + run.atmosphere - _saturation(condensing)
    spread_out = run.air * run.atmosphere * condensing / 293.15
    assert spread_out - 500 <= above <= 6.0 * spread_out + 500


def _saturation(kelvin):
    return CoolProp.PropsSI("P", "T", kelvin, "Q", 1, "R134a")


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
@pytest.mark.parametrize("kelvin", [295.15, 303.15, 311.15])
def test_lost_charge_shows_late_and_on_the_low_side_of_a_valve_the_wrong_way_first(
    metering, kelvin
):
    """The figures of docs/loop.md. A receiver's reserve goes before any gauge tells: common
    practice, no source."""
    runs = [Run(ambient=kelvin, charge=0.30 + 0.05 * step) for step in range(15)]
    found = running(Loop(metering=metering), runs)
    full = found[-1]
    assert all(one.high_side < other.high_side for one, other in pairwise(found))
    assert all(one.capacity < other.capacity for one, other in pairwise(found))
    above = max(each.low_side for each in found) - full.low_side
    assert (3.5e3 < above < 6.5e3) if metering is Metering.VALVE else (0.0 <= above < 10.0)
    a_quarter_lost = 1.0 - found[9].high_side / full.high_side
    assert 0.0 < a_quarter_lost < (0.015 if metering is Metering.VALVE else 0.1)


@pytest.mark.parametrize("metering", Metering)
def test_the_more_charge_the_higher_the_high_side(metering):
    """Up to where the coils are full, and what a cut-out would have ended long before."""
    runs = [Run(charge=1.0 + 0.04 * step) for step in range(30)]
    found = running(Loop(metering=metering), runs)
    pressures = [each.high_side for each in found]
    assert all(later >= earlier - 500 for earlier, later in pairwise(pressures))
    assert found[-1].is_beyond
    assert pressures[-1] > 3e6
