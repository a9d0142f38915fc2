"""The cycle that gauges and pipes tell, and the usual one beside it.

Sources: Cengel and Boles, Thermodynamics, examples 11-1 and 11-2; CoolProp for all other states.
"""

from dataclasses import replace

import pytest
from CoolProp.CoolProp import PropsSI, set_reference_state
from hypothesis import given, settings
from hypothesis import strategies as st

from faulttree.core.air_conditioning.cycle import USUAL_EFFICIENCY, cycle, usual_cycle
from faulttree.core.air_conditioning.on_gauges import (
    AMBIENT,
    DISCHARGE,
    HIGH_SIDE,
    LIQUID,
    LOW_SIDE,
    SUCTION,
    OnGauges,
    Read,
)
from faulttree.core.atmosphere import SEA_LEVEL_PA
from faulttree.core.refrigerant.refrigerant import Refrigerant
from faulttree.core.uncertain import CannotWorkOut, exactly

MOST = settings(derandomize=True, max_examples=60, deadline=None)
ASHRAE_ZERO = 148.14
"""What enthalpy counted from 0 °C at 200 kJ/kg is above that counted from -40 °C [kJ/kg]."""
R134A = Refrigerant.R134A
set_reference_state("R134a", "IIR")


def on_gauges(altitude=None, refrigerant=R134A, **reads):
    """Readings without error: low and high in kPa gauge, all else in °C."""
    names = {"low": LOW_SIDE, "high": HIGH_SIDE, "suction": SUCTION, "liquid": LIQUID}
    names |= {"discharge": DISCHARGE, "ambient": AMBIENT}
    found = {}
    for name, value in reads.items():
        is_pressure = name in ("low", "high")
        found[names[name]] = Read(exactly(value * 1e3 if is_pressure else value + 273.15))
    return OnGauges(refrigerant, altitude, found)


AT_SEA = SEA_LEVEL_PA / 1e3
GOOD = on_gauges(low=193, high=1448, suction=6, liquid=45, ambient=30)


def enthalpies(found):
    """Of all four corners [kJ/kg, from -40 °C]."""
    return [corner.enthalpy / 1e3 - ASHRAE_ZERO for corner in found.corners]


def test_a_worked_cycle_with_losses():
    """Example 11-2: -10 °C in at 140 kPa, 50 °C out at 800 kPa, liquid of 26 °C; 246.36, 286.69
    and 87.83 kJ/kg."""
    on = on_gauges(low=140 - AT_SEA, high=800 - AT_SEA, suction=-10, discharge=50, liquid=26)
    found = cycle(on)
    assert enthalpies(found) == pytest.approx([246.36, 286.69, 87.83, 87.83], abs=0.15)
    assert found.evaporator_in.temperature == pytest.approx(273.15 - 18.77, abs=0.1)
    assert found.notes == ()


def test_the_worked_compression_without_loss_is_the_ideal_one():
    """Example 11-1: dry vapour of 140 kPa to 800 kPa, 239.16 to 275.39 kJ/kg, liquid 95.47."""
    on = on_gauges(low=140 - AT_SEA, high=800 - AT_SEA, suction=-18.77, liquid=31.31)
    first, out, liquid, _ = enthalpies(cycle(on))
    assert (first, liquid) == pytest.approx((239.16, 95.47), abs=0.15)
    assert (out - first) * USUAL_EFFICIENCY == pytest.approx(275.39 - 239.16, abs=0.15)


@MOST
@given(
    low=st.floats(50, 400),
    high=st.floats(700, 2400),
    above=st.floats(0.5, 30),
    below=st.floats(0.5, 30),
    altitude=st.floats(0, 3000),
)
def test_every_corner_is_that_of_the_equation_of_state(low, high, above, below, altitude):
    air = on_gauges(altitude).atmosphere.pressure
    p_low, p_high = low * 1e3 + air, high * 1e3 + air
    warm = PropsSI("T", "P", p_low, "Q", 1, "R134a") + above
    cool = PropsSI("T", "P", p_high, "Q", 0, "R134a") - below
    found = cycle(
        on_gauges(altitude, low=low, high=high, suction=warm - 273.15, liquid=cool - 273.15)
    )
    start = PropsSI("H", "P", p_low, "T", warm, "R134a")
    ideal = PropsSI("H", "P", p_high, "S", PropsSI("S", "P", p_low, "T", warm, "R134a"), "R134a")
    out = start + (ideal - start) / USUAL_EFFICIENCY
    condensed = PropsSI("H", "P", p_high, "T", cool, "R134a")
    wanted = [start, out, condensed, condensed]
    # Vapour within 0.25 kJ/kg; liquid without what pressure adds: core/refrigerant says so.
    for corner, enthalpy, most in zip(found.corners, wanted, (300, 900, 2500, 2500), strict=True):
        assert corner.enthalpy == pytest.approx(enthalpy, abs=most)
    pressures = [corner.pressure for corner in found.corners]
    assert pressures == pytest.approx([p_low, p_high, p_high, p_low])


def test_what_was_not_read_or_cannot_be_is_told():
    assert "Compressor out was not measured" in cycle(GOOD).notes[0]
    assert "68 %" in cycle(GOOD).notes[0]
    flooding = cycle(on_gauges(low=193, high=1448, suction=-5, liquid=45, discharge=80))
    assert "suction pipe is no warmer" in flooding.notes[0]
    assert flooding.compressor_in.temperature > 268.15
    short = cycle(on_gauges(low=193, high=1448, suction=6, liquid=60, discharge=80))
    assert "liquid pipe is no colder" in short.notes[0]
    cool = cycle(on_gauges(low=193, high=1448, suction=6, liquid=45, discharge=58))
    assert "cooler than an ideal compression" in cool.notes[0]


def test_readings_of_several_states_are_told():
    reads = {**GOOD.reads, HIGH_SIDE: replace(GOOD.reads[HIGH_SIDE], engine="idling")}
    reads[LOW_SIDE] = replace(GOOD.reads[LOW_SIDE], engine="at a fast idle")
    notes = cycle(replace(GOOD, reads=reads, minutes_apart=45.0)).notes
    assert "ran differently at these readings (at a fast idle, idling)" in notes[1]
    assert "over 45 minutes" in notes[2]
    assert len(cycle(replace(GOOD, minutes_apart=20.0)).notes) == 1


@pytest.mark.parametrize(
    ("on", "why"),
    [
        (on_gauges(low=193), "not measured yet: high side, suction pipe, liquid pipe"),
        (on_gauges(low=193, high=1448, suction=6), "not measured yet: liquid pipe"),
        (replace(GOOD, refrigerant=None, why_no_refrigerant="who knows"), "who knows"),
        (on_gauges(low=600, high=590, suction=30, liquid=30), "nothing is pumped"),
        (on_gauges(low=-100, high=590, suction=6, liquid=30), "beyond what is known"),
        (on_gauges(low=193, high=3900, suction=6, liquid=30), "beyond what is known"),
        (on_gauges(low=193, high=1448, suction=140, liquid=45), "vapour is known up to"),
    ],
)
def test_where_there_is_no_cycle_it_is_said_why(on, why):
    with pytest.raises(CannotWorkOut, match=why):
        cycle(on)


def test_a_system_at_rest_has_none():
    reads = {**GOOD.reads, LOW_SIDE: replace(GOOD.reads[LOW_SIDE], stands=True)}
    with pytest.raises(CannotWorkOut, match="compressor stood"):
        cycle(replace(GOOD, reads=reads))


def test_the_usual_cycle_lies_in_the_middle_of_the_army_s_row():
    """32 °C in US Army TM 5-3805-291-23-1 table 1: 105 to 210 and 1175 to 1650 kPa."""
    usual = usual_cycle(on_gauges(ambient=32))
    low, high = usual.compressor_in, usual.condenser_out
    assert low.pressure == pytest.approx(157.5e3 + SEA_LEVEL_PA)
    assert high.pressure == pytest.approx(1412.5e3 + SEA_LEVEL_PA)
    boils = PropsSI("T", "P", low.pressure, "Q", 1, "R134a")
    condenses = PropsSI("T", "P", high.pressure, "Q", 0, "R134a")
    assert low.temperature - boils == pytest.approx(5.5, abs=0.01)
    assert condenses - high.temperature == pytest.approx(8.5, abs=0.01)


@pytest.mark.parametrize(
    "on", [on_gauges(), on_gauges(ambient=15), on_gauges(ambient=30, refrigerant=None)]
)
def test_without_air_refrigerant_or_figures_there_is_no_usual_cycle(on):
    assert usual_cycle(on) is None


@MOST
@given(refrigerant=st.sampled_from(Refrigerant), ambient=st.floats(21, 43), up=st.floats(0, 3000))
def test_there_is_a_usual_cycle_for_every_refrigerant_on_every_such_day(refrigerant, ambient, up):
    usual = usual_cycle(on_gauges(up, refrigerant, ambient=ambient))
    first, out, liquid, expanded = usual.corners
    assert out.enthalpy > first.enthalpy > liquid.enthalpy == expanded.enthalpy
    assert out.temperature > liquid.temperature > expanded.temperature
