"""A soaked system at rest: what its pressure tells, and where the error leaves it open.

Saturation: CoolProp, and gauge pressures of R-134a worked out with it (470 kPa at 20 °C, 669 kPa at
30 °C). That pressure below saturation means no liquid: US Army TM 9-4120-381-14. 5 % above: common
practice.
"""

import pytest

from faulttree.core.air_conditioning.static import (
    Standing,
    above_saturation,
    apart,
    could_be,
)
from faulttree.core.atmosphere import Atmosphere
from faulttree.core.refrigerant.refrigerant import Refrigerant

R134A, R12 = Refrigerant.R134A, Refrigerant.R12
LIQUID, NO_LIQUID, MIXED, NOT_EQUAL = Standing


def check(celsius, *kilopascals, refrigerant=R134A, air=None, kelvins_off=0.0, kpa_off=0.0):
    """What a system may be whose one or two gauges and thermometer may be so far off."""
    here, kelvins, off = air or Atmosphere(), celsius + 273.15, kpa_off * 1e3
    read = [here.absolute(each * 1e3) for each in kilopascals]
    mean = sum(read) / len(read)
    above = (
        above_saturation(refrigerant, mean - off, kelvins + kelvins_off),
        above_saturation(refrigerant, mean + off, kelvins - kelvins_off),
    )
    low, high = read[0], read[-1]
    return could_be(above, (apart(low + off, high - off), apart(low - off, high + off)))


@pytest.mark.parametrize(
    ("celsius", "gauges", "standing"),
    [
        (20, (470,), LIQUID),
        (20, (470, 470), LIQUID),
        (30, (669, 675), LIQUID),
        (20, (430,), NO_LIQUID),
        (20, (0,), NO_LIQUID),
        (20, (-90, -90), NO_LIQUID),
        (20, (520, 520), MIXED),
        (20, (300, 700), NOT_EQUAL),
        (20, (510, 440), NOT_EQUAL),
    ],
)
def test_what_it_tells(celsius, gauges, standing):
    assert check(celsius, *gauges) == (standing,)


@pytest.mark.parametrize(
    ("gauges", "off", "possible"),
    [
        ((455,), {"kelvins_off": 1, "kpa_off": 5}, (NO_LIQUID, LIQUID)),
        ((490,), {"kelvins_off": 1, "kpa_off": 5}, (LIQUID, MIXED)),
        ((470,), {"kelvins_off": 4}, (NO_LIQUID, LIQUID, MIXED)),
        ((470,), {"kelvins_off": 0.5, "kpa_off": 5}, (LIQUID,)),
        ((300,), {"kelvins_off": 2, "kpa_off": 20}, (NO_LIQUID,)),
        ((470, 485), {"kpa_off": 10}, (LIQUID,)),
        ((455, 490), {"kpa_off": 10}, (LIQUID, NOT_EQUAL)),
    ],
)
def test_what_the_error_leaves_open(gauges, off, possible):
    assert check(20, *gauges, **off) == possible


def test_high_up_the_same_gauge_means_less():
    # 470 kPa gauge at 2500 m is 27 kPa less absolute: 5 % of 571 kPa.
    assert check(20, 470) == (LIQUID,)
    high = Atmosphere.at_altitude(2500)
    assert above_saturation(R134A, high.absolute(470e3), 293.15) == pytest.approx(-0.047, abs=0.003)


@pytest.mark.parametrize(("theirs", "refrigerant"), [("R134a", R134A), ("R12", R12)])
@pytest.mark.parametrize("celsius", [-5, 10, 25, 45])
def test_saturation_is_nothing_above(theirs, refrigerant, celsius):
    coolprop = pytest.importorskip("CoolProp.CoolProp")
    pressure = coolprop.PropsSI("P", "T", celsius + 273.15, "Q", 1, theirs)
    assert above_saturation(refrigerant, pressure, celsius + 273.15) == pytest.approx(0, abs=2e-3)


def test_the_two_old_refrigerants_cannot_be_told_apart_by_pressure():
    # Source: an EPA-approved section 609 study manual.
    for celsius in (10, 20, 25):
        assert check(celsius, {10: 321, 20: 465, 25: 549}[celsius]) == (LIQUID,)


def test_sides_are_compared_by_their_mean():
    assert apart(500e3, 600e3) == pytest.approx(100 / 550)
    assert apart(600e3, 500e3) == -apart(500e3, 600e3)


def test_every_share_is_something():
    for above in (-1.0, -0.051, -0.05, 0.0, 0.05, 0.051, 3.0):
        assert len(could_be((above, above))) == 1
