"""Vapour compression cycles worked in textbooks, done again with the tables of the program."""

import pytest

from faulttree.core.refrigerant.refrigerant import Refrigerant, properties

R134A = properties(Refrigerant.R134A)
ASHRAE_ZERO = 148.14
"""What enthalpy counted from 0 °C at 200 kJ/kg is above that counted from -40 °C [kJ/kg]."""


def kilojoules(state):
    return state.enthalpy / 1e3 - ASHRAE_ZERO


def test_ideal_cycle_between_140_and_800_kilopascals():
    """Cengel and Boles, Thermodynamics, example 11-1, kJ/kg: 239.16, 275.39, 95.47; COP 3.97."""
    low, high = 140e3, 800e3
    h1 = R134A.dry(R134A.temperature(low))
    h2 = R134A.vapour_of_entropy(high, h1.entropy)
    h3 = R134A.boiling(R134A.temperature(high))
    assert [kilojoules(s) for s in (h1, h2, h3)] == pytest.approx([239.16, 275.39, 95.47], abs=0.1)
    cooling, work = h1.enthalpy - h3.enthalpy, h2.enthalpy - h1.enthalpy
    assert cooling / work == pytest.approx(3.97, abs=0.01)


def test_a_cycle_with_losses():
    """Cengel and Boles, example 11-2: -10 °C in at 140 kPa, 50 °C out at 800 kPa, liquid of 26 °C;
    246.36, 286.69, 284.21 without loss, 87.83 kJ/kg; efficiency 0.939, COP 3.93."""
    h1 = R134A.vapour(140e3, 263.15)
    h2 = R134A.vapour(800e3, 323.15)
    ideal = R134A.vapour_of_entropy(800e3, h1.entropy)
    h3 = R134A.liquid(720e3, 299.15)
    found = [kilojoules(s) for s in (h1, h2, ideal, h3)]
    assert found == pytest.approx([246.36, 286.69, 284.21, 87.83], abs=0.15)
    efficiency = (ideal.enthalpy - h1.enthalpy) / (h2.enthalpy - h1.enthalpy)
    assert efficiency == pytest.approx(0.939, abs=0.004)
    assert (h1.enthalpy - h3.enthalpy) / (h2.enthalpy - h1.enthalpy) == pytest.approx(
        3.93, abs=0.02
    )


def test_ideal_cycle_from_minus_twenty():
    """A homework of a mechanical engineering course: -20 °C to 1.2 MPa, 238.41, 284.48, 117.77
    kJ/kg, 55.5 °C behind the compressor; COP 2.62."""
    h1 = R134A.dry(253.15)
    h2 = R134A.vapour_of_entropy(1200e3, h1.entropy)
    h3 = R134A.boiling(R134A.temperature(1200e3))
    assert [kilojoules(s) for s in (h1, h2, h3)] == pytest.approx([238.41, 284.48, 117.77], abs=0.1)
    assert h2.temperature - 273.15 == pytest.approx(55.5, abs=0.3)


@pytest.mark.parametrize(
    ("boiling", "high", "efficiency", "liquid", "cop"),
    [(0, 685.3e3, 1.0, 26, 9.24), (-10, 900e3, 1.0, None, 4.57), (-10, 900e3, 0.8, 30, 3.86)],
)
def test_cycles_of_an_older_book(boiling, high, efficiency, liquid, cop):
    """Moran and Shapiro, examples 10.1 to 10.3; their properties are older, so 1 % is left."""
    h1 = R134A.dry(boiling + 273.15)
    ideal = R134A.vapour_of_entropy(high, h1.entropy)
    work = (ideal.enthalpy - h1.enthalpy) / efficiency
    at = R134A.temperature(high) if liquid is None else liquid + 273.15
    assert (h1.enthalpy - R134A.liquid(high, at).enthalpy) / work == pytest.approx(cop, rel=0.01)


@pytest.mark.parametrize(
    ("bar", "celsius", "volume", "liquid", "vapour"),
    [(2, -10.18, 0.1001, 37.8, 243.6), (4, 8.86, 0.0514, 63.3, 254.9),
     (6, 21.54, 0.0344, 81.0, 262.1), (10, 39.41, 0.0204, 106.9, 270.9)],
)  # fmt: skip
def test_a_printed_table(bar, celsius, volume, liquid, vapour):
    """Mechanical Engineers' Handbook, volume 4 (Kutz, Wiley), table 14; an older fit, counted from
    -40 °C."""
    at = R134A.temperature(bar * 1e5)
    assert at - 273.15 == pytest.approx(celsius, abs=0.2)
    assert 1 / R134A.dry(at).density == pytest.approx(volume, rel=0.01)
    assert kilojoules(R134A.boiling(at)) == pytest.approx(liquid, abs=0.9)
    assert kilojoules(R134A.dry(at)) == pytest.approx(vapour, abs=1.0)
