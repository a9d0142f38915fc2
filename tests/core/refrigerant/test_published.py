"""Saturation and states against printed tables and correlations, each with its source."""

import math

import pytest

from faulttree.core.atmosphere import Atmosphere
from faulttree.core.refrigerant.refrigerant import Refrigerant, properties
from faulttree.core.units import PSI_PA

R134A, R12, R1234YF, R22 = Refrigerant


def kelvin(fahrenheit):
    return (fahrenheit + 459.67) / 1.8


def psia(refrigerant, fahrenheit):
    return properties(refrigerant).pressure(kelvin(fahrenheit)) / PSI_PA


def downing(fahrenheit, a, b, c, d, e=0.0, f=0.0, zero=459.7):
    """Vapour pressure [psia] by R. C. Downing, Refrigerant Equations, ASHRAE Transactions 80
    (1974), paper 2313; the curves behind the service tables of that time."""
    t = fahrenheit + zero
    log = a + b / t + c * math.log10(t) + d * t
    if e:
        log += e * (f - t) / t * math.log10(f - t)
    return 10**log


@pytest.mark.parametrize("fahrenheit", [-15, 5, 32, 60, 86, 100, 120, 150])
def test_r12_by_the_equation_of_1974(fahrenheit):
    old = downing(fahrenheit, 39.88381727, -3436.632228, -12.47152228, 4.73044244e-3)
    # The newer equation of state lies 0.1 to 0.3 % below it.
    assert psia(R12, fahrenheit) == pytest.approx(old, rel=3.5e-3)


@pytest.mark.parametrize("fahrenheit", [5, 32, 60, 86, 100, 120])
def test_r22_by_the_equation_of_1974(fahrenheit):
    old = downing(
        fahrenheit, 29.35754453, -3845.193152, -7.86103122, 2.190939044e-3, 0.445746703, 686.1,
        zero=459.69,
    )  # fmt: skip
    assert psia(R22, fahrenheit) == pytest.approx(old, rel=2.5e-3)


@pytest.mark.parametrize(
    ("megapascal", "celsius"), [(0.06, -37.07), (0.10, -26.43), (0.18, -12.73), (0.24, -5.37)]
)
def test_r134a_by_the_headings_of_the_textbook_table(megapascal, celsius):
    """Superheated R-134a, the widely reprinted table of engineering thermodynamics; it rests on an
    older fit, which lies up to 0.14 K away at low pressure."""
    found = properties(R134A).temperature(megapascal * 1e6) - 273.15
    assert found == pytest.approx(celsius, abs=0.15)


@pytest.mark.parametrize(
    ("psig", "r22", "r134a"), [(0, -41, -15), (10, -20, 7), (25, 2, 29), (30, 7, 35)]
)
def test_a_printed_chart_of_whole_degrees(psig, r22, r134a):
    """Pressure-temperature chart in °F at highperformancehvac.com, read 2026."""
    absolute = Atmosphere().absolute(psig * PSI_PA)
    for refrigerant, printed in ((R22, r22), (R134A, r134a)):
        found = properties(refrigerant).temperature(absolute) * 1.8 - 459.67
        assert found == pytest.approx(printed, abs=1.2)


@pytest.mark.parametrize(
    ("celsius", "r134a", "r12"),
    [(-10, 99, 117), (0, 191, 207), (10, 313, 321), (30, 669, 642), (50, 1217, 1115),
     (65, 1788, 1593), (80, 2532, 2196)],
)  # fmt: skip
def test_gauge_kilopascals_at_sea_level(celsius, r134a, r12):
    """Public equations of state, worked out apart from the tables of the program."""
    for refrigerant, kilopascal in ((R134A, r134a), (R12, r12)):
        pressure = properties(refrigerant).pressure(celsius + 273.15)
        assert Atmosphere().gauge(pressure) / 1e3 == pytest.approx(kilopascal, abs=1.1)


@pytest.mark.parametrize(
    ("psig", "metres", "fahrenheit"), [(30, 0, 34.56), (30, 500, 33.59), (250, 1000, 145.79)]
)
def test_r134a_on_a_gauge_at_altitude(psig, metres, fahrenheit):
    """Standard atmosphere of ASHRAE Handbook Fundamentals (2017), with CoolProp 8.0.0."""
    absolute = Atmosphere.at_altitude(metres).absolute(psig * PSI_PA)
    found = properties(R134A).temperature(absolute) * 1.8 - 459.67
    assert found == pytest.approx(fahrenheit, abs=0.1)


@pytest.mark.parametrize(
    ("refrigerant", "psig", "saturation"),
    [(R134A, 28, 32.27), (R12, 30, 32.0), (R1234YF, 38, 39.55), (R134A, 200, 130.44),
     (R12, 180, 129.78)],
)  # fmt: skip
def test_on_a_gauge_at_sea_level(refrigerant, psig, saturation):
    """CoolProp 8.0.0, °F."""
    absolute = Atmosphere().absolute(psig * PSI_PA)
    found = properties(refrigerant).temperature(absolute) * 1.8 - 459.67
    assert found == pytest.approx(saturation, abs=0.15)
