"""Moist air against the tables of the handbook, and against another library's equations."""

import pytest
from CoolProp import CoolProp
from hypothesis import given
from hypothesis import strategies as st

from faulttree.core.atmosphere import Atmosphere
from faulttree.core.moist_air import ZERO_C, MoistAir

SEA = Atmosphere()


@pytest.mark.parametrize(("celsius", "water"), [(5, 0.005425), (50, 0.086863)])
def test_saturated_air_of_the_handbook(celsius, water):
    """ASHRAE Handbook Fundamentals (2017), chapter 1, table 2; in its formulas 1 % remains."""
    found = MoistAir.saturated(celsius + ZERO_C, SEA.pressure).water
    assert found == pytest.approx(water, rel=0.01)


def test_the_first_example_of_the_handbook():
    """ASHRAE Handbook Fundamentals (2017), chapter 1, example 1: 40 °C dry, 20 °C wet bulb."""
    air = MoistAir.of_wet_bulb(40 + ZERO_C, 20 + ZERO_C, SEA)
    assert air.water == pytest.approx(0.0065, abs=1e-4)
    assert air.dew_point - ZERO_C == pytest.approx(7, abs=0.5)
    assert air.humidity == pytest.approx(0.14, abs=0.01)
    assert air.enthalpy == pytest.approx(56700, abs=100)


@given(st.floats(1, 45), st.floats(0.05, 0.98), st.floats(0, 2500))
def test_against_the_virial_equations(celsius, humidity, metres):
    """CoolProp's humid air, after Herrmann, Kretzschmar and Gatley, ASHRAE RP-1485 (2009)."""
    air = MoistAir.of_humidity(celsius + ZERO_C, humidity, Atmosphere.at_altitude(metres))
    at = ("T", celsius + ZERO_C, "P", air.pressure, "R", humidity)
    assert air.dew_point == pytest.approx(CoolProp.HAPropsSI("D", *at), abs=0.1)
    if air.wet_bulb > ZERO_C + 1:  # near freezing the two differ on whether the sock is ice
        assert air.wet_bulb == pytest.approx(CoolProp.HAPropsSI("B", *at), abs=0.1)
    assert air.enthalpy == pytest.approx(CoolProp.HAPropsSI("H", *at), abs=800)
    assert air.humidity == pytest.approx(humidity, abs=1e-6)


def test_a_wet_bulb_warmer_than_the_dry_one_is_refused():
    with pytest.raises(ValueError, match="never warmer"):
        MoistAir.of_wet_bulb(290.0, 291.0, SEA)
