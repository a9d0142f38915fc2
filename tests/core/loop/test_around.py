"""The loop at rest, its control, and the heater."""

import math

import pytest
from CoolProp import CoolProp
from hypothesis import given
from hypothesis import strategies as st

from faulttree.core.loop.control import Control, Watches, controlled
from faulttree.core.loop.heater import Heater, heated
from faulttree.core.loop.parts import Loop, Metering, Run
from faulttree.core.loop.standing import standing, vapour_pressure
from faulttree.core.loop.steady import running
from faulttree.core.refrigerant.refrigerant import Refrigerant, properties

R134A = properties(Refrigerant.R134A)
CAR, TUBE = Loop(), Loop(metering=Metering.TUBE)


@given(st.floats(0.35, 1.5), st.floats(275, 315))
def test_at_rest_with_liquid_left_the_gauge_tells_the_temperature_and_nothing_of_the_amount(
    share, kelvin
):
    """US Army TM 9-4120-381-14: equal and at saturation means some liquid, amount unknown."""
    run = Run(ambient=kelvin, charge=share)
    found = standing(CAR, run)
    expected = CoolProp.PropsSI("P", "T", kelvin, "Q", 1, "R134a") - 101325
    assert found.low_side == pytest.approx(expected, abs=5)
    assert found.high_side == pytest.approx(expected, abs=5)


@given(st.floats(0.3, 25.0), st.floats(275, 315))
def test_vapour_alone(density, kelvin):
    """CoolProp: pressure by temperature and density, where all is vapour."""
    if density > 0.98 * CoolProp.PropsSI("D", "T", kelvin, "Q", 1, "R134a"):
        return
    truth = CoolProp.PropsSI("P", "T", kelvin, "D", density, "R134a")
    assert vapour_pressure(R134A, kelvin, density) == pytest.approx(truth, rel=0.03)


def test_an_empty_loop_is_at_the_pressure_of_the_air_it_stands_open_to():
    run = Run(ambient=293.15, charge=1e-4, air=1.0)
    assert abs(standing(CAR, run).low_side) < 1000


FIN = Control(Watches.FIN, 274.15, 278.15)
SWITCH = Control(Watches.LOW_SIDE, 160e3, 310e3)


def _controlled(loop, control, **more):
    run = Run(**{"ambient": 298.15, **more})
    return controlled(running(loop, [run])[0], standing(loop, run), run, control, R134A)


def test_the_fin_thermostat_keeps_the_fins_at_its_opening_point():
    readings, cycling = _controlled(CAR, FIN, ambient=294.15)
    assert readings.fin == pytest.approx(FIN.opens, abs=0.01)
    boiling = CoolProp.PropsSI("T", "P", readings.low_side + 101325, "Q", 1, "R134a")
    assert boiling == pytest.approx(readings.evaporator_in, abs=0.01)
    assert boiling < readings.fin
    assert 0 < cycling.rate * 60 < 6


def test_the_cycling_switch_is_read_at_its_opening_point():
    readings, _ = _controlled(TUBE, SWITCH)
    assert readings.low_side == pytest.approx(SWITCH.opens, abs=50)


def test_little_charge_cycles_fast_and_a_hot_day_not_at_all():
    """Common practice, no source: more than 8 to 10 cycles a minute above 21 °C is suspicious, a
    full loop cycles a few times."""
    full, low = (_controlled(TUBE, SWITCH, charge=c)[1] for c in (1.0, 0.25))
    assert full.rate * 60 < 5
    assert low.rate * 60 > 8
    assert _controlled(TUBE, SWITCH, ambient=311.15, humidity=0.4)[1].rate == 0


def test_a_stuck_control_lets_the_fins_freeze():
    free, _ = _controlled(CAR, FIN, ambient=294.15)
    stuck, cycling = _controlled(
        CAR, Control(Watches.FIN, 274.15, 278.15, is_stuck=True), ambient=294.15
    )
    assert stuck.fin < 268.15 < free.fin
    assert math.isinf(cycling.on)


def test_a_heater_that_flows_has_both_hoses_hot():
    """Common practice, no source: both hoses within 15 K, vent 39 K above the air outside."""
    found = heated(Heater(coolant=358.15), 273.15)
    assert 358.15 - found.outlet < 15
    assert found.air > 273.15 + 39


def test_a_starved_heater_has_one_hose_hot_and_one_cool():
    """US Army TM 5-4210-230-14&P-1: only the inlet hot means no flow."""
    found = heated(Heater(coolant=358.15, flow=0.15 * 0.05), 273.15)
    assert 358.15 - found.outlet > 40
    assert found.air < 273.15 + 30


@given(st.floats(320, 370), st.floats(1e-3, 0.3), st.floats(0.03, 0.15), st.floats(255, 300))
def test_no_air_is_hotter_than_the_coolant_and_no_coolant_colder_than_the_air(
    coolant, flow, air, entering
):
    found = heated(Heater(coolant, flow, air), entering)
    assert entering <= found.air <= coolant
    assert entering - 1e-6 <= found.outlet <= coolant


@pytest.mark.parametrize(("flow", "air"), [(0.15, 0.1), (0.03, 0.1), (0.0075, 0.1), (0.01, 0.03)])
def test_air_and_coolant_leave_as_a_core_cut_into_small_pieces_says(flow, air):
    """Each of 60 by 60 pieces hands over its share of the conductance times what is left between
    coolant and air; neither mixes on its way. The formula in use is good to about 2 % of that."""
    pieces, inlet, entering = 60, 358.15, 273.15
    by_row, by_column = [inlet] * pieces, [entering] * pieces
    each = 160.0 / pieces**2
    for row in range(pieces):
        for column in range(pieces):
            watts = each * (by_row[row] - by_column[column])
            by_row[row] -= watts / (3600.0 * flow / pieces)
            by_column[column] += watts / (1006.0 * air / pieces)
    found = heated(Heater(inlet, flow, air, 160.0), entering)
    assert found.outlet == pytest.approx(sum(by_row) / pieces, abs=0.02 * (inlet - entering))
    assert found.air == pytest.approx(sum(by_column) / pieces, abs=0.02 * (inlet - entering))


def test_no_flow_no_heat():
    assert heated(Heater(360.0, flow=0.0), 273.15).air == 273.15


@pytest.mark.parametrize(("control", "kelvin"), [(FIN, 277.0), (FIN, 278.15), (SWITCH, 280.0)])
def test_too_cool_for_the_control_to_close_the_loop_stands(control, kelvin):
    readings, cycling = _controlled(TUBE, control, ambient=kelvin)
    assert readings.low_side == readings.high_side
    assert cycling.rate == 0


def test_too_empty_for_the_switch_to_close_the_loop_stands():
    readings, cycling = _controlled(TUBE, SWITCH, charge=0.05)
    assert readings.low_side == readings.high_side < SWITCH.closes
    assert cycling.rate == 0
