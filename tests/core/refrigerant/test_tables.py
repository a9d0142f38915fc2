"""The tables against CoolProp 8, the library of equations of state that they are made from."""

import re

import pytest
from CoolProp import CoolProp
from hypothesis import given
from hypothesis import strategies as st
from reference.refrigerant_tables import FLUIDS, FOLDER, module

from faulttree.core.refrigerant.refrigerant import Refrigerant, properties
from faulttree.core.refrigerant.table import OutOfTable

REFRIGERANTS = [(Refrigerant(name), fluid) for name, fluid in FLUIDS.items()]
refrigerants = pytest.mark.parametrize(("refrigerant", "fluid"), REFRIGERANTS)
shares = st.floats(0, 1)


@pytest.fixture(autouse=True)
def _one_zero():
    for fluid in FLUIDS.values():
        CoolProp.set_reference_state(fluid, "IIR")


def between(refrigerant, share):
    known = properties(refrigerant)
    return known, known.coldest + share * (known.hottest - known.coldest)


@refrigerants
def test_the_committed_table_is_what_the_script_makes(refrigerant, fluid):
    committed = (FOLDER / f"{refrigerant.value.replace('-', '').lower()}.py").read_text("utf-8")
    assert _numbers(committed) == pytest.approx(
        _numbers(module(refrigerant.value, fluid)), rel=1e-4
    )


def _numbers(text):
    figures = text[text.index("TABLE") :]
    return [float(each) for each in re.findall(r"-?\d+\.\d+(?:e[-+]?\d+)?", figures)]


@refrigerants
@given(share=shares)
def test_saturation_pressure_within_a_millionth(refrigerant, fluid, share):
    known, kelvin = between(refrigerant, share)
    truth = CoolProp.PropsSI("P", "T", kelvin, "Q", 1, fluid)
    assert known.pressure(kelvin) == pytest.approx(truth, rel=1e-6)
    assert known.temperature(truth) == pytest.approx(kelvin, abs=5e-5)


@refrigerants
@pytest.mark.parametrize(("side", "quality"), [("boiling", 0), ("dry", 1)])
@given(share=shares)
def test_saturated_states(refrigerant, fluid, side, quality, share):
    known, kelvin = between(refrigerant, share)
    state = getattr(known, side)(kelvin)
    assert state.density == pytest.approx(
        CoolProp.PropsSI("D", "T", kelvin, "Q", quality, fluid), rel=1e-4
    )
    assert state.enthalpy == pytest.approx(
        CoolProp.PropsSI("H", "T", kelvin, "Q", quality, fluid), abs=5
    )
    assert state.entropy == pytest.approx(
        CoolProp.PropsSI("S", "T", kelvin, "Q", quality, fluid), abs=0.02
    )


@refrigerants
@given(share=shares, superheat=st.floats(0.01, 100))
def test_superheated_vapour(refrigerant, fluid, share, superheat):
    known, kelvin = between(refrigerant, share)
    pressure = CoolProp.PropsSI("P", "T", kelvin, "Q", 1, fluid)
    state = known.vapour(pressure, kelvin + superheat)
    there = ("T", kelvin + superheat, "P", pressure, fluid)
    assert state.density == pytest.approx(CoolProp.PropsSI("D", *there), rel=5e-3)
    assert state.enthalpy == pytest.approx(CoolProp.PropsSI("H", *there), abs=250)
    assert state.entropy == pytest.approx(CoolProp.PropsSI("S", *there), abs=0.7)


@refrigerants
@given(share=shares, below=st.floats(0.5, 40))
def test_liquid_below_saturation_within_what_the_docstring_says(refrigerant, fluid, share, below):
    known, kelvin = between(refrigerant, share)
    if kelvin - below < known.coldest:
        return
    pressure = CoolProp.PropsSI("P", "T", kelvin, "Q", 0, fluid)
    state = known.liquid(pressure, kelvin - below)
    there = ("T", kelvin - below, "P", pressure, fluid)
    assert state.enthalpy == pytest.approx(CoolProp.PropsSI("H", *there), abs=2500)
    assert state.density == pytest.approx(CoolProp.PropsSI("D", *there), rel=0.03)


@refrigerants
@given(share=st.floats(0.2, 1), superheat=st.floats(0.5, 95))
def test_vapour_found_by_what_it_holds(refrigerant, fluid, share, superheat):
    known, kelvin = between(refrigerant, share)
    pressure = known.pressure(kelvin)
    entropy = CoolProp.PropsSI("S", "T", kelvin + superheat, "P", pressure, fluid)
    enthalpy = CoolProp.PropsSI("H", "T", kelvin + superheat, "P", pressure, fluid)
    by_entropy = known.vapour_of_entropy(pressure, entropy)
    by_enthalpy = known.vapour_of_enthalpy(pressure, enthalpy)
    assert by_entropy.temperature == pytest.approx(kelvin + superheat, abs=0.5)
    assert by_enthalpy.temperature == pytest.approx(kelvin + superheat, abs=0.5)


@refrigerants
def test_outside_the_table_it_says_what_the_table_holds(refrigerant, fluid):
    known = properties(refrigerant)
    for beyond in (known.coldest - 0.1, known.hottest + 0.1):
        with pytest.raises(OutOfTable, match=f"{refrigerant.value} is known from -60 to"):
            known.pressure(beyond)
    with pytest.raises(OutOfTable, match="kPa absolute"):
        known.temperature(100.0)
    with pytest.raises(OutOfTable, match="up to 100 K"):
        known.vapour(3e5, 600.0)
