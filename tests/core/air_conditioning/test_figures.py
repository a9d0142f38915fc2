"""Figures from gauges and pipes: their values, their limits of error, what is usual.

Reference: CoolProp for saturation.
"""

from dataclasses import replace

import pytest
from CoolProp.CoolProp import PropsSI
from hypothesis import given, settings
from hypothesis import strategies as st

from faulttree.core.air_conditioning.figures import Figure, figures, usual_vent
from faulttree.core.air_conditioning.on_gauges import (
    AMBIENT,
    HIGH_SIDE,
    HUMIDITY,
    LIQUID,
    LOW_SIDE,
    SUCTION,
    OnGauges,
    Read,
)
from faulttree.core.atmosphere import NoSuchPlace
from faulttree.core.refrigerant.refrigerant import Refrigerant
from faulttree.core.uncertain import Uncertain, exactly
from faulttree.core.units import Quantity

MOST = settings(derandomize=True, max_examples=60, deadline=None)
READS = {
    LOW_SIDE: (193e3, 16e3),
    HIGH_SIDE: (1448e3, 69e3),
    SUCTION: (285.15, 2.0),
    LIQUID: (318.15, 2.0),
    AMBIENT: (303.15, 2.0),
}


def on_gauges(with_error=True, altitude=None, **changed):
    reads = READS | {name.replace("_", "-"): value for name, value in changed.items()}
    return OnGauges(
        Refrigerant.R134A,
        altitude,
        {n: Read(Uncertain(v, {n: e if with_error else 0.0})) for n, (v, e) in reads.items()},
    )


def named(on):
    return {figure.name: figure for figure in figures(on)}


def saturation(gauge, altitude=0.0):
    absolute = gauge + OnGauges(None, altitude).atmosphere.pressure
    return PropsSI("T", "P", absolute, "Q", 1, "R134a")


@MOST
@given(low=st.floats(20e3, 400e3), high=st.floats(600e3, 2500e3), altitude=st.floats(0, 3000))
def test_every_figure_by_the_equation_of_state(low, high, altitude):
    found = named(on_gauges(False, altitude, low_side=(low, 0.0), high_side=(high, 0.0)))
    boils, condenses = saturation(low, altitude), saturation(high, altitude)
    air = OnGauges(None, altitude).atmosphere.pressure
    wanted = {
        "boils at": boils,
        "condenses at": condenses,
        "superheat": 285.15 - boils,
        "subcooling": condenses - 318.15,
        "condensing split": condenses - 303.15,
        "pressure ratio": (high + air) / (low + air),
    }
    assert {name: f.value.value for name, f in found.items()} == pytest.approx(wanted, abs=0.02)


def test_the_error_is_that_of_both_readings():
    found = named(on_gauges())["superheat"].value
    corners = [285.15 + e - saturation(193e3 + g) for e in (-2.0, 2.0) for g in (-16e3, 16e3)]
    assert min(corners) - 0.2 < found.low <= min(corners)
    assert max(corners) <= found.high < max(corners) + 0.2


def test_what_is_usual_and_where_a_figure_lies_to_it():
    found = named(on_gauges())
    assert (found["superheat"].usual, found["subcooling"].usual) == ((3.0, 8.0), (5.0, 12.0))
    assert found["condensing split"].usual == (13.0, 32.0)
    assert "TM 5-3805-291-23-1" in found["condensing split"].source
    assert {name: f.place for name, f in found.items()} == {
        "boils at": "",
        "condenses at": "",
        "superheat": "above",
        "subcooling": "inside",
        "condensing split": "inside",
        "pressure ratio": "",
    }


@pytest.mark.parametrize(
    ("value", "error", "place", "is_clear"),
    [
        (2.9, 0.0, "below", True),
        (3.0, 0.0, "inside", False),
        (5.0, 1.9, "inside", True),
        (5.0, 2.0, "inside", False),
        (8.1, 0.05, "above", True),
        (9.0, 1.5, "above", False),
    ],
)
def test_a_limit_of_error_that_reaches_an_edge_leaves_it_open(value, error, place, is_clear):
    quantity = Quantity.TEMPERATURE_DIFFERENCE
    figure = Figure("superheat", quantity, Uncertain(value, rest=error), (3.0, 8.0))
    assert (figure.place, figure.is_clear) == (place, is_clear)


def test_only_what_the_readings_reach_is_told():
    on = on_gauges()

    def without(*names):
        return set(named(replace(on, reads={n: r for n, r in on.reads.items() if n not in names})))

    everything = set(named(on))
    assert everything - without(SUCTION) == {"superheat"}
    assert everything - without(LIQUID) == {"subcooling"}
    assert everything - without(AMBIENT) == {"condensing split"}
    assert without(HIGH_SIDE) == {"boils at", "superheat"}
    assert without(LOW_SIDE) == {"condenses at", "subcooling", "condensing split"}
    assert set(named(replace(on, refrigerant=None))) == {"pressure ratio"}


def test_at_rest_there_is_no_more_than_saturation():
    on = on_gauges()
    still = {name: replace(read, stands=True) for name, read in on.reads.items()}
    assert set(named(replace(on, reads=still))) == {"boils at", "condenses at"}


def test_a_day_that_nothing_is_published_for_has_no_usual_split():
    split = named(on_gauges(ambient=(283.15, 0.0)))["condensing split"]
    assert (split.usual, split.source, split.place) == (None, "", "")


def test_a_pressure_beyond_the_table_has_no_saturation():
    assert set(named(on_gauges(high_side=(3800e3, 10e3)))) == {
        "boils at",
        "superheat",
        "pressure ratio",
    }


def test_the_vent_goes_by_air_and_humidity():
    """Between common practice's 9 to 14 °C at 27 °C and 13 to 18 °C at 32 °C, 50 %."""
    on = on_gauges()
    assert usual_vent(on) is None
    damp = replace(on, reads={**on.reads, HUMIDITY: Read(exactly(0.5))})
    band, source = usual_vent(damp)
    assert [each - 273.15 for each in band] == pytest.approx([11.4, 16.4])
    assert "common practice" in source


def test_no_car_is_that_high_up():
    with pytest.raises(NoSuchPlace):
        OnGauges(Refrigerant.R134A, 9000.0)
