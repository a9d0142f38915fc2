"""Which way every reading goes under a fault, against published tables of rules."""

from dataclasses import replace

import pytest
from loops import HOUSE_RUN, HOUSE_TUBE, change

from faulttree.core.loop.parts import Loop, Metering, Run
from faulttree.core.loop.standing import standing
from faulttree.core.refrigerant.refrigerant import Refrigerant, properties

# Table of rules by Rossi and Braun, HVAC&R Research 3 (1997), as reprinted by Li and Braun, Fault
# Detection and Diagnostics for Rooftop Air Conditioners (Purdue University, 2004), page 22, for an
# orifice: boiling temperature, superheat, condensing temperature, subcooling, discharge
# temperature.
# The discharge temperature of a worn compressor is left out: gas that is pumped twice is heated
# twice, and other studies report that it rises.
RULES = {
    "leak": ({"charge": 0.75}, "-+--+"),
    "worn compressor": ({"leak": 0.3}, "+---."),
    "liquid line restricted": ({"restriction": 0.8}, "-+-++"),
    "condenser fouled": ({"condenser_air": 0.4}, "+-+-+"),
    "evaporator fouled": ({"evaporator_air": 0.6}, "-----"),
}
READINGS = ("evaporator_in", "superheat", "condensing", "subcooling", "discharge_pipe")
FILLED = replace(HOUSE_RUN, charge=0.92)
"""So filled that the vapour is superheated, as in the study."""


@pytest.mark.parametrize(("wrong", "signs"), RULES.values(), ids=RULES)
def test_the_rules_of_rossi_and_braun(wrong, signs):
    charge = wrong.get("charge", 1.0) * FILLED.charge
    found = change(HOUSE_TUBE, FILLED, **{**wrong, "charge": charge})
    assert found.before.superheat > 2
    for reading, sign in zip(READINGS, signs, strict=True):
        if sign != ".":
            assert (found.of(reading) > 0) == (sign == "+"), reading


CAR = Loop()
TUBE = Loop(metering=Metering.TUBE)
WARM = Run(ambient=305.15, humidity=0.45)
UP, DOWN, SAME = "up", "down", "same"
# Low side and high side of a car, with the source that says so. "same" is within 60 kPa on the low
# side and 18 % of the high side: the published windows of a healthy car are wider than that.
PATTERNS = [
    # US Army TM 9-2320-387-24-2; TB 9-2320-360-13&P-1
    (CAR, {"charge": 0.3}, DOWN, DOWN, "undercharge"),
    (TUBE, {"charge": 0.3}, DOWN, DOWN, "undercharge with an orifice tube"),
    # US Army TB 9-2320-360-13&P-1: low or vacuum, low to normal
    (CAR, {"valve_held": 0.1}, DOWN, DOWN, "valve shut"),
    (TUBE, {"metering_area": 0.1}, DOWN, DOWN, "screen blocked"),
    # US Army TM 9-4120-388-14: low and normal
    (CAR, {"evaporator_air": 0.5}, DOWN, SAME, "evaporator without air"),
    # US Army TM 9-2320-280-34
    (CAR, {"leak": 3.0}, UP, DOWN, "compressor valves"),
    (TUBE, {"leak": 3.0}, UP, DOWN, "compressor valves"),
    # common practice, no source: both high
    (CAR, {"condenser_air": 0.35}, UP, UP, "condenser without air"),
    (TUBE, {"condenser_air": 0.35}, UP, UP, "condenser without air"),
    # US Army TM 9-4110-255-14: normal and high
    (CAR, {"charge": 1.6}, SAME, UP, "overcharge"),
    # US Army TM 9-4120-388-14: high and normal
    (CAR, {"valve_held": 1.0}, UP, SAME, "valve stuck open"),
    # common practice, no source
    (CAR, {"air": 1.0}, SAME, UP, "air"),
    (CAR, {"slip": 0.7}, UP, DOWN, "slipping clutch"),
]


@pytest.mark.parametrize(
    ("loop", "wrong", "low", "high", "what"), PATTERNS, ids=[p[4] for p in PATTERNS]
)
def test_both_gauges_of_a_car(loop, wrong, low, high, what):
    found = change(loop, WARM, **wrong)
    assert _way(found.of("low_side"), 20e3, 60e3, low), what
    share = found.after.high_side / found.before.high_side - 1.0
    assert _way(share, 0.08, 0.18, high), what


def _way(moved, least, most, wanted):
    """Up and down are plainly so; what is the same has not moved far."""
    return {UP: moved > least, DOWN: moved < -least, SAME: abs(moved) < most}[wanted]


@pytest.mark.parametrize("share", [0.05, 0.2, 0.4])
def test_the_vent_tells_a_heat_leak(share):
    """Common practice, no source: a warm vent. Air that leaves the core no hotter than its coolant,
    mixed with the rest, and brought towards the air outside by the ducts: less than the mixture
    alone would show, and more than half of it."""
    found = change(CAR, WARM, through_heater=share)
    mixture = share * (WARM.coolant - found.before.vent)
    assert 0.5 * mixture < found.of("vent") < mixture


def test_valve_stuck_open_floods_the_suction_pipe():
    """US Army TM 9-4120-388-14 for the pressures; no superheat is left: common practice."""
    found = change(CAR, WARM, valve_held=1.0)
    assert found.after.superheat == 0
    assert found.of("discharge_pipe") < -15


def test_a_restriction_is_cold_behind_it():
    """US Army TB 9-2320-360-13&P-1: frost at a spot means a restriction there."""
    found = change(CAR, WARM, restriction=0.95)
    assert found.after.liquid_pipe - found.after.valve_in > 20
    assert found.after.valve_in < 273.15 < found.before.valve_in


def test_overcharge_shows_in_the_liquid_and_not_in_the_superheat():
    """Kim, Yoon, Payne and Domanski, NIST SP 1087 (2008), table 5.2, expansion valve: subcooling,
    condensing and discharge temperature rise, superheat stays."""
    found = change(CAR, WARM, charge=1.6)
    for reading in ("subcooling", "condensing", "discharge_pipe"):
        assert found.of(reading) > 3, reading
    assert abs(found.of("superheat")) < 1


def test_with_an_expansion_valve_suction_hardly_feels_the_charge():
    """Grace, Datta and Tassou, Applied Thermal Engineering 25 (2005), abstract: within a quarter of
    the charge no significant effect, suction pressure nearly insensitive."""
    for share in (0.8, 1.2):
        found = change(CAR, WARM, charge=share)
        assert abs(found.of("low_side")) < 5e3
        assert 0.97 < found.capacity < 1.03


def test_an_orifice_suffers_before_a_valve_does():
    """Survey of ASHRAE RP-1173 (Oak Ridge): orifice systems degrade below 90 % of the charge,
    expansion valves below 80 %."""
    valve = replace(HOUSE_TUBE, metering=Metering.VALVE)
    by_share = {
        share: [
            change(loop, HOUSE_RUN, charge=share).of("superheat") for loop in (HOUSE_TUBE, valve)
        ]
        for share in (0.95, 0.9, 0.7)
    }
    for tube, expansion in by_share.values():
        assert tube > expansion
    assert by_share[0.95][1] < 1.5
    assert by_share[0.7][1] > 8


def test_air_stands_above_saturation_running_and_at_rest():
    """Li and Braun 2004, pages 49 and 53: pressure above that of the condensing temperature, and
    above saturation with the compressor off."""
    found = change(CAR, WARM, air=1.0)
    known = properties(Refrigerant.R134A)
    condensed = found.after.liquid_pipe + found.after.subcooling
    assert known.temperature(found.after.high_side + WARM.atmosphere) > condensed + 5
    at_rest = standing(CAR, replace(WARM, air=1.0)).low_side + WARM.atmosphere
    assert at_rest > 1.05 * known.pressure(WARM.ambient)


def test_another_refrigerant_in_an_r12_car():
    """R-134a in an R-12 car: equal capacity within 2 %, high side 9 to 20 % up: worked out with
    CoolProp for 3 and 55 °C; the upper end is common practice for conversions."""
    car = Loop(refrigerant=Refrigerant.R12)
    found = change(car, WARM, charged_with=Refrigerant.R134A)
    assert found.capacity == pytest.approx(1.0, abs=0.02)
    absolute = [r.high_side + WARM.atmosphere for r in (found.before, found.after)]
    assert 1.09 < absolute[1] / absolute[0] < 1.20
