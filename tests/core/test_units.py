"""Units against the published factors and against a general-purpose unit library."""

import math

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from faulttree.core.units import (
    COMPOUND,
    UNITS,
    Quantity,
    Unit,
    UnitSystem,
    display_units,
    entry_unit,
    find_unit,
    units_spelled,
    with_usual_signs,
)

MOST = settings(derandomize=True, max_examples=200, deadline=None)

Q = Quantity

NIST_FACTORS = [
    # Source: NIST SP 811 (2008), appendix B.8, factors as printed there, from memory.
    (Q.GAUGE_PRESSURE, "psi", 6.894757e3, 1e-6),  # pound-force per square inch
    (Q.GAUGE_PRESSURE, "bar", 1.0e5, 0.0),  # exact
    (Q.GAUGE_PRESSURE, "mbar", 1.0e2, 0.0),  # exact
    (Q.GAUGE_PRESSURE, "inHg", 3.386389e3, 0.0),  # inch of mercury, conventional
    (Q.GAUGE_PRESSURE, "kgf/cm2", 9.80665e4, 0.0),  # exact
    (Q.MASS, "lb", 4.535924e-1, 1e-6),  # pound, avoirdupois
    (Q.MASS, "oz", 2.834952e-2, 1e-6),  # ounce, avoirdupois
    (Q.LENGTH, "in", 2.54e-2, 0.0),  # exact
    (Q.LENGTH, "mil", 2.54e-5, 1e-15),  # 0.001 in, exact
    (Q.LENGTH, "ft", 3.048e-1, 1e-15),  # exact
    (Q.TEMPERATURE_DIFFERENCE, "F", 5.555556e-1, 1e-6),  # degree Fahrenheit, interval
    (Q.AREA, "mm2", 1.0e-6, 0.0),  # exact
    (Q.AREA, "in2", 6.4516e-4, 1e-12),  # square inch, exact
    (Q.POWER, "kW", 1.0e3, 0.0),  # exact
    (Q.TIME, "min", 6.0e1, 0.0),  # exact
    (Q.TIME, "h", 3.6e3, 0.0),  # exact
]


def unit_of(spelling: str, quantity: Quantity) -> Unit:
    unit = find_unit(spelling, quantity)
    assert unit is not None
    return unit


@pytest.mark.parametrize(("quantity", "spelling", "factor", "tolerance"), NIST_FACTORS)
def test_factors_are_those_of_the_nist_guide(
    quantity: Quantity, spelling: str, factor: float, tolerance: float
) -> None:
    assert unit_of(spelling, quantity).factor == pytest.approx(factor, rel=tolerance, abs=0.0)


@pytest.mark.parametrize("quantity", [Q.ABSOLUTE_PRESSURE, Q.PRESSURE_DIFFERENCE])
def test_all_pressures_have_the_same_units(quantity: Quantity) -> None:
    for gauge in (u for u in UNITS if u.quantity is Q.GAUGE_PRESSURE):
        assert unit_of(gauge.symbol, quantity).factor == gauge.factor


@pytest.mark.parametrize("t", [-459.67, -40.0, 0.0, 32.0, 41.0, 212.0])
def test_fahrenheit_is_turned_into_kelvin_by_the_nist_formula(t: float) -> None:
    # Source: NIST SP 811 (2008), B.8: T/K = (t/degF + 459.67)/1.8, from memory.
    assert unit_of("F", Q.TEMPERATURE).to_si(t) == pytest.approx((t + 459.67) / 1.8, abs=1e-9)


@pytest.mark.parametrize("t", [-273.15, -40.0, 0.0, 100.0])
def test_celsius_is_turned_into_kelvin_by_the_nist_formula(t: float) -> None:
    # Source: NIST SP 811 (2008), B.8: T/K = t/degC + 273.15, from memory.
    assert unit_of("C", Q.TEMPERATURE).to_si(t) == pytest.approx(t + 273.15, abs=1e-9)


def table(*lines: str) -> dict[str, str]:
    return dict(pair.split("=") for line in lines for pair in line.split())


PINT_NAMES = table(
    "V=volt mV=millivolt kV=kilovolt µV=microvolt uV=microvolt",
    "A=ampere mA=milliampere µA=microampere uA=microampere",
    "Ω=ohm mΩ=milliohm kΩ=kiloohm KΩ=kiloohm MΩ=megaohm k=kiloohm M=megaohm",
    "psi=psi kPa=kilopascal MPa=megapascal Pa=pascal bar=bar mbar=millibar",
    "inHg=inch_Hg kg/cm2=kgf/cm**2",
    "lb=pound oz=ounce kg=kilogram g=gram in=inch thou=thou ft=foot mm=mm cm=cm m=meter",
    "mm²=mm**2 cm²=cm**2 in²=inch**2 W=watt mW=milliwatt kW=kilowatt",
    "cm³=cm**3 L=liter in³=inch**3 rpm=turn/minute",
    "s=second ms=millisecond min=minute h=hour %=percent =dimensionless",
)
PINT_TEMPERATURES = table("°F=degF °C=degC K=kelvin")
PINT_DIFFERENCES = table("°F=delta_degF K=kelvin")
PINT_SI = table(
    "voltage=volt current=ampere resistance=ohm",
    "gauge-pressure=pascal absolute-pressure=pascal pressure-difference=pascal",
    "temperature=kelvin temperature-difference=kelvin mass=kilogram length=meter time=second",
    "area=meter**2 power=watt volume=meter**3 rotational-speed=turn/second",
    "ratio=dimensionless count=dimensionless",
)


def pint_name(unit: Unit) -> str:
    if unit.quantity is Q.TEMPERATURE:
        return PINT_TEMPERATURES[unit.symbol]
    if unit.quantity is Q.TEMPERATURE_DIFFERENCE:
        return PINT_DIFFERENCES[unit.symbol]
    return PINT_NAMES[unit.symbol]


def test_every_unit_agrees_with_pint() -> None:
    # Source: pint, a general-purpose unit library; its inch of mercury is 3386.38864 Pa, the
    # conventional one is 3386.389 Pa, 1.1e-7 apart.
    registry = pytest.importorskip("pint").UnitRegistry()
    for unit in UNITS:
        for number in (-40.0, -0.02, 0.0, 1.0, 12.58, 4700.0):
            theirs = registry.Quantity(number, pint_name(unit)).to(PINT_SI[unit.quantity.value])
            assert unit.to_si(number) == pytest.approx(theirs.magnitude, rel=2e-7, abs=1e-9), unit
            if unit.symbol != "inHg":
                assert unit.to_si(number) == pytest.approx(theirs.magnitude, rel=1e-12, abs=1e-12)


@MOST
@given(st.sampled_from(UNITS), st.floats(-1e9, 1e9))
def test_a_number_comes_back_from_si(unit: Unit, number: float) -> None:
    slack = 1e-12 * (abs(unit.offset) + 1) / unit.factor
    assert unit.from_si(unit.to_si(number)) == pytest.approx(number, rel=1e-12, abs=slack)


@MOST
@given(st.integers(-99999, 99999), st.integers(0, 4))
def test_millivolts_and_volts_meet_exactly(digits: int, decimals: int) -> None:
    in_millivolts = unit_of("mV", Q.VOLTAGE).to_si(float(f"{digits}e-{decimals}"))
    assert in_millivolts == float(f"{digits}e-{decimals + 3}")


@pytest.mark.parametrize("fives", range(-20, 60))
def test_fahrenheit_and_celsius_meet_exactly(fives: int) -> None:
    fahrenheit = unit_of("F", Q.TEMPERATURE).to_si(32.0 + 9 * fives)
    assert fahrenheit == unit_of("C", Q.TEMPERATURE).to_si(5.0 * fives)


def test_every_spelling_is_found_as_a_unit_of_the_same_size() -> None:
    for unit in UNITS:
        for spelling in unit.spellings:
            found = unit_of(spelling, unit.quantity)
            assert (found.factor, found.offset) == (unit.factor, unit.offset), spelling


def test_psi_alone_may_be_any_pressure_but_a_suffix_says_which() -> None:
    assert {u.quantity for u in units_spelled("psi")} == {
        Q.GAUGE_PRESSURE,
        Q.ABSOLUTE_PRESSURE,
        Q.PRESSURE_DIFFERENCE,
    }
    assert [u.quantity for u in units_spelled("psig")] == [Q.GAUGE_PRESSURE]
    assert [u.quantity for u in units_spelled("psia")] == [Q.ABSOLUTE_PRESSURE]
    assert [u.quantity for u in units_spelled("psid")] == [Q.PRESSURE_DIFFERENCE]


def test_a_spelling_that_is_none_has_no_units() -> None:
    assert units_spelled("furlong") == ()
    assert find_unit("V", Q.CURRENT) is None


@pytest.mark.parametrize(
    ("typed", "meant"),
    [
        ("\u00b5V", "\u00b5V"),  # micro sign
        ("\u03bcV", "\u00b5V"),  # Greek small letter mu
        ("k\u03a9", "k\u03a9"),  # Greek capital letter omega
        ("k\u2126", "k\u03a9"),  # ohm sign
    ],
)
def test_signs_that_look_alike_are_the_same_unit(typed: str, meant: str) -> None:
    assert [u.symbol for u in units_spelled(typed)] == [meant]


def test_all_kinds_of_spaces_become_one_plain_space() -> None:
    assert with_usual_signs("\u00a01\u20092\u202f \t3\n") == "1 2 3"


def test_units_that_stand_together_are_of_one_quantity_and_the_greater_comes_first() -> None:
    for big, small in COMPOUND:
        pairs = [
            (a, b) for a in units_spelled(big) for b in units_spelled(small) if a.symbol == big
        ]
        assert any(a.quantity is b.quantity and a.factor > b.factor for a, b in pairs)


@pytest.mark.parametrize("quantity", Quantity)
def test_every_quantity_has_display_units_in_every_system(quantity: Quantity) -> None:
    us, metric = (display_units(quantity, s) for s in (UnitSystem.US, UnitSystem.METRIC))
    both = display_units(quantity, UnitSystem.BOTH)
    assert both == (us if us == metric else us + metric)
    assert all(u.quantity is quantity for u in both)


def test_a_bare_number_is_in_the_first_unit_shown() -> None:
    assert entry_unit(Q.GAUGE_PRESSURE, UnitSystem.US).symbol == "psi"
    assert entry_unit(Q.GAUGE_PRESSURE, UnitSystem.METRIC).symbol == "kPa"
    assert entry_unit(Q.GAUGE_PRESSURE, UnitSystem.BOTH).symbol == "psi"
    assert entry_unit(Q.RATIO, UnitSystem.METRIC).symbol == "%"


def test_a_quantity_is_named_in_words() -> None:
    assert Q.GAUGE_PRESSURE.words == "gauge pressure"


def test_no_number_is_lost_to_an_infinity() -> None:
    assert math.isfinite(unit_of("Mohm", Q.RESISTANCE).to_si(1e300))
