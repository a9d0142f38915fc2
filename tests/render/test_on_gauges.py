"""Gauges and cycle of a car: what is expected or why nothing is, figures, chart, drawings, data.

Expected pressures: US Army TM 5-3805-291-23-1 table 1. All other figures: core/air_conditioning.
"""

import json
import xml.etree.ElementTree as ET
from dataclasses import replace
from pathlib import Path

import gauge_tree
import pytest
from golden import assert_golden
from hypothesis import given, settings
from hypothesis import strategies as st

from faulttree.core.air_conditioning.on_gauges import (
    AMBIENT,
    HIGH_SIDE,
    HUMIDITY,
    LIQUID,
    LOW_SIDE,
    PLACES,
    OnGauges,
    Read,
)
from faulttree.core.refrigerant.refrigerant import Refrigerant
from faulttree.core.uncertain import CannotWorkOut, Uncertain, exactly
from faulttree.core.units import Quantity, UnitSystem
from faulttree.core.walk.on_gauges import on_gauges
from faulttree.render.cycle_here import ph_chart
from faulttree.render.gauge_drawings import drawings
from faulttree.render.gauges_here import gauge_pair
from faulttree.render.on_gauges import on_gauges_rows, on_gauges_text
from faulttree.render.on_gauges_json import on_gauges_json

GOLDEN = Path(__file__).parent / "golden"
HOSTILE = '<b>``` & " \x1b[2J \x00 \ufffe \ud800 \u202e'
METRIC = UnitSystem.METRIC


def _read(*answers):
    return on_gauges(gauge_tree.walk().go(*answers).state)


READ = _read(*gauge_tree.READ)
SHOWN = {
    "before measuring": _read("30 C"),
    "low side alone": _read("30 C", "193 kPa"),
    "all of it": READ,
    "nothing is known": OnGauges(None, why_no_refrigerant="the refrigerant is not told"),
}


def _pair(on, units=METRIC):
    return gauge_pair(on, units)


def _on(**reads):
    return OnGauges(Refrigerant.R134A, None, reads)


@pytest.mark.parametrize(
    ("name", "units", "width", "only_ascii"),
    [("both-80", UnitSystem.BOTH, 80, False), ("us-60", UnitSystem.US, 60, True)],
)
def test_all_of_it_looks_as_it_should(name, units, width, only_ascii):
    texts = (f"--- {n}\n{on_gauges_text(on, units, width, only_ascii)}" for n, on in SHOWN.items())
    assert_golden(GOLDEN / f"on-gauges-{name}.txt", "\n".join(texts))


@pytest.mark.parametrize(
    ("celsius", "low", "high"), [(32, (105, 210), (1175, 1650)), (43, (105, 210), (1450, 2075))]
)
def test_what_is_expected_is_what_is_published(celsius, low, high):
    pair = _pair(_on(ambient=Read(exactly(celsius + 273.15))))
    found = [(g.expected.low / 1e3, g.expected.high / 1e3) for g in pair.gauges]
    assert found == [pytest.approx(low), pytest.approx(high)]
    assert "TM 5-3805-291-23-1" in pair.low.expected.source


def test_high_up_the_gauges_show_more_and_the_scale_says_where_it_boils():
    air = {AMBIENT: Read(exactly(305.15))}
    low, up = _pair(OnGauges(Refrigerant.R134A, 0.0, air)), _pair(READ)
    assert _pair(OnGauges(Refrigerant.R134A, 1500.0, air)).low.expected.low > low.low.expected.low
    zero = next(tick for tick in low.low.scale.ticks if tick.at == 0)
    # R-134a boils at -26.07 °C at the pressure of sea level. Source: CoolProp.
    assert zero.labels == ("0", "-26")
    assert next(tick for tick in up.low.scale.ticks if tick.at == 0).labels == ("0", "-27")
    assert "altitude 300 m" in up.conditions
    assert "altitude not known and taken as sea level" in _pair(_on()).conditions


@pytest.mark.parametrize(
    ("on", "why"),
    [
        (replace(READ, refrigerant=None, why_no_refrigerant="who knows"), "who knows"),
        (_on(), "goes by the air at the condenser, which is not measured yet"),
        (_on(ambient=Read(exactly(288.15))), "published for 21 to 43 °C (70 to 110 °F)"),
        (_on(ambient=Read(exactly(318.15))), "published for 21 to 43 °C (70 to 110 °F)"),
    ],
)
def test_where_nothing_is_expected_it_is_said_why(on, why):
    for gauge in _pair(on).gauges:
        assert gauge.expected is None
        assert why in gauge.why_none_expected
    assert why in on_gauges_json(on)["why-none-expected"]


def test_at_rest_no_running_pressure_is_expected():
    reads = {**READ.reads, LOW_SIDE: replace(READ.reads[LOW_SIDE], stands=True)}
    low, high = _pair(replace(READ, reads=reads)).gauges
    assert (low.expected, high.expected is None) == (None, False)
    assert "engine stopped" in low.why_none_expected


def test_without_a_refrigerant_no_temperature_stands_on_the_scales():
    pair = _pair(replace(READ, refrigerant=None))
    assert pair.low.scale.row_names == ("kPa",)
    assert not any("boils" in note for note in pair.notes)


def test_the_vent_and_the_charge_are_told_below():
    notes = " ".join(_pair(READ).notes)
    assert "Usual at the middle vent, blower on high, outside air: 11 to 16 °C" in notes
    assert "Both as expected proves no charge. Charge by weight, never by gauge." in notes


@pytest.mark.parametrize("units", UnitSystem)
def test_scales_are_in_the_units_of_the_technician(units):
    pair = _pair(READ, units)
    first = {UnitSystem.METRIC: "kPa"}.get(units, "psi")
    assert [gauge.scale.row_names[0] for gauge in pair.gauges] == [first, first]
    for gauge in pair.gauges:
        assert all(gauge.scale.holds(tick.at) for tick in gauge.scale.ticks)


def test_the_chart_has_the_car_over_the_usual_cycle_inside_its_dome():
    chart = ph_chart(READ, METRIC)
    assert (chart.refrigerant, chart.cycle.name) == ("R-134a", "This car")
    assert chart.healthy.name == "Usual at 30 °C"
    for line in (chart.liquid, chart.vapour):
        assert line[0][1] < min(p.pressure for c in chart.cycles for p in c.points)
        assert [p for _, p in line] == sorted(p for _, p in line)
    assert ph_chart(replace(READ, reads=_without(AMBIENT)), METRIC).healthy is None


def _without(*names):
    return {name: read for name, read in READ.reads.items() if name not in names}


def test_without_a_cycle_it_is_said_why_and_one_drawing_is_left():
    on = replace(READ, reads=_without(LIQUID))
    with pytest.raises(CannotWorkOut):
        ph_chart(on, METRIC)
    text = on_gauges_text(on, METRIC)
    assert "No cycle is drawn: not measured yet: liquid pipe." in text
    assert drawings(on, METRIC).keys() == {"gauges"}
    data = on_gauges_json(on)
    assert (data["cycle"], data["why-no-cycle"]) == (None, "not measured yet: liquid pipe")


def test_the_first_thing_said_is_to_identify_the_refrigerant():
    first = "".join(segment.text for segment in on_gauges_rows(READ, METRIC)[0])
    assert first.startswith("! Caution: Identify the refrigerant before connecting anything")


def test_the_data_hold_what_the_pictures_show():
    data = json.loads(json.dumps(on_gauges_json(READ), allow_nan=False))
    assert data["refrigerant"] == "R-134a"
    assert data["readings"].keys() == PLACES.keys()
    assert data["readings"]["low-side"]["value"] == 193e3
    assert data["expected"]["low-side"] == pytest.approx([94.6e3, 198.8e3], rel=0.01)
    superheat = next(each for each in data["figures"] if each["name"] == "superheat")
    assert superheat["value"] == pytest.approx(12.2, abs=0.05)
    assert (superheat["usual"], superheat["place"]) == ([3.0, 8.0], "above")
    points = data["cycle"]["points"]
    assert [p["at"] for p in points][0::2] == ["compressor in", "condenser out"]
    assert points[2]["enthalpy"] == points[3]["enthalpy"]


@pytest.mark.parametrize("units", UnitSystem)
def test_drawings_are_sound_and_nothing_typed_acts(units):
    on = replace(READ, refrigerant=None, why_no_refrigerant=HOSTILE)
    for each in (READ, on):
        for svg in drawings(each, units).values():
            ET.fromstring(svg)
            assert not any(ord(letter) < 32 and letter != "\n" for letter in svg)
            assert "<b>" not in svg
            assert "\u202e" not in svg
    text = on_gauges_text(on, units)
    assert not any(ord(letter) < 32 and letter != "\n" for letter in text)
    assert "\u202e" not in text


_LIMITS = {
    Quantity.GAUGE_PRESSURE: (-101e3, 6e6),
    Quantity.TEMPERATURE: (200.0, 500.0),
    Quantity.RATIO: (0.0, 1.0),
}
_ANY = st.fixed_dictionaries(
    {},
    optional={
        name: st.builds(
            Read,
            st.builds(Uncertain, st.floats(*_LIMITS[q]), st.just({}), st.floats(0, 1)),
            stands=st.booleans(),
        )
        for name, q in PLACES.items()
    },
)


@settings(max_examples=80, deadline=None)
@given(
    reads=_ANY,
    refrigerant=st.none() | st.sampled_from(Refrigerant),
    altitude=st.none() | st.floats(-400, 5000),
    units=st.sampled_from(UnitSystem),
    width=st.integers(20, 120),
)
def test_whatever_was_read_can_be_shown(reads, refrigerant, altitude, units, width):
    on = OnGauges(refrigerant, altitude, reads)
    assert all(len(line) <= width for line in on_gauges_text(on, units, width, True).splitlines())
    for svg in drawings(on, units).values():
        ET.fromstring(svg)
    json.dumps(on_gauges_json(on), allow_nan=False)


def test_humidity_is_told_where_it_is_known():
    damp = _on(**{AMBIENT: Read(exactly(303.15)), HUMIDITY: Read(exactly(0.4))})
    assert "relative humidity 40 %" in _pair(damp).conditions
    assert HIGH_SIDE not in damp.reads
