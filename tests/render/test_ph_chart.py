"""The chart of pressure and enthalpy: points in proportion, two cycles told apart, words alike."""

import math
import re
import xml.etree.ElementTree as ET
from dataclasses import replace
from pathlib import Path

import pint
import pytest
from golden import assert_golden
from hypothesis import given, settings
from hypothesis import strategies as st

from faulttree.core.units import BTU_PER_LB, UnitSystem
from faulttree.render.ph_axes import axes_for
from faulttree.render.ph_canvas import Canvas
from faulttree.render.ph_chart import ph_rows
from faulttree.render.ph_chart_svg import BOTTOM, LEFT, RIGHT, TOP, ph_chart_svg
from faulttree.render.ph_cycle import POINT_NAMES, Cycle, CyclePoint, PhChart
from faulttree.render.ph_words import REGIONS, said
from faulttree.render.scale import as_text

GOLDEN = Path(__file__).parent / "golden"
SVG = "{http://www.w3.org/2000/svg}"
HOSTILE = '<script>x</script> ]]> & " \x1b[2J \x00 \ufffe \ud800 \u202e'

# R-134a every 10 degrees from -30 to 90 °C, then 95, 100 and 101.03 °C: kJ/kg and kPa. Source:
# CoolProp 8.0.0, enthalpy 200 kJ/kg for liquid at 0 °C.
PRESSURES = (84.4, 132.7, 200.6, 292.8, 414.6, 571.7, 770.2, 1016.6)
PRESSURES += (1317.9, 1681.8, 2116.8, 2633.2, 3244.2, 3591.2, 3972.4, 4056.6)
LIQUID = (160.8, 173.6, 186.7, 200.0, 213.6, 227.5, 241.7, 256.4)
LIQUID += (271.6, 287.5, 304.3, 322.4, 342.9, 355.2, 373.3, 385.7)
VAPOUR = (380.3, 386.6, 392.7, 398.6, 404.3, 409.7, 414.8, 419.4)
VAPOUR += (423.4, 426.6, 428.6, 428.8, 425.4, 420.7, 407.7, 393.9)


def _line(enthalpies):
    return tuple((h * 1e3, p * 1e3) for h, p in zip(enthalpies, PRESSURES, strict=True))


def _cycle(name, pressures, enthalpies, temperatures):
    points = zip(POINT_NAMES, pressures, enthalpies, temperatures, strict=True)
    return Cycle(name, tuple(CyclePoint(n, p * 1e3, h * 1e3, t + 273.15) for n, p, h, t in points))


CAR = _cycle("This car", (210, 1100, 1100, 210), (412, 464, 258, 258), (13.2, 83, 41, -8.8))
SOUND = _cycle("Healthy", (300, 1500, 1500, 300), (406, 444, 267, 267), (8.7, 70.7, 47.2, 0.7))
CHART = PhChart(
    "R-134a",
    _line(LIQUID),
    _line(VAPOUR),
    CAR,
    SOUND,
    UnitSystem.METRIC,
    ("Enthalpy counts from liquid at 0 °C, 200 kJ/kg.",),
)


def _lines(*how, **more):
    return as_text(ph_rows(*how, **more))


def _picture(chart, width=80, height=20, only_ascii=False):
    """The rows between the axes, without what stands before them."""
    rows = ph_rows(chart, width, only_ascii, height)
    texts = ["".join(s.text for s in row) for row in rows[2 : height - 1]]
    return [
        re.split("[│|]", text, maxsplit=1)[1] for text in texts if re.match("[ 0-9,]*[│|]", text)
    ]


def _cell(rows, sign):
    (found,) = [(r.index(sign), i) for i, r in enumerate(rows) if sign in r]
    return found


def _elements(svg, tag, **wanted):
    return [
        e
        for e in ET.fromstring(svg).iter(SVG + tag)
        if all(e.get(key.rstrip("_").replace("_", "-")) == value for key, value in wanted.items())
    ]


@pytest.mark.parametrize(
    ("name", "width", "only_ascii", "units"),
    [
        ("ph-80", 80, False, UnitSystem.BOTH),
        ("ph-60", 60, True, UnitSystem.METRIC),
    ],
)
def test_the_chart_looks_as_it_should(name, width, only_ascii, units):
    lines = _lines(replace(CHART, units=units), width, only_ascii)
    assert_golden(GOLDEN / f"{name}.txt", "\n".join(lines) + "\n")


def test_the_drawing_looks_as_it_should():
    assert_golden(GOLDEN / "ph-chart.svg", ph_chart_svg(CHART))


def test_the_btu_per_pound_is_the_exact_one():
    assert pint.UnitRegistry().Quantity(1, "Btu_it/lb").to("J/kg").magnitude == pytest.approx(
        BTU_PER_LB, rel=1e-9
    )


states = st.tuples(st.floats(1e5, 4e6), st.floats(150e3, 480e3))


@given(states=st.lists(states, min_size=4, max_size=4), width=st.integers(50, 110))
@settings(max_examples=60)
def test_points_stand_at_log_pressure_and_enthalpy(states, width):
    cycle = Cycle("c", tuple(CyclePoint(n, *s) for n, s in zip(POINT_NAMES, states, strict=True)))
    chart = replace(CHART, cycle=cycle, healthy=None)
    axes = axes_for(chart)
    rows = _picture(chart, width)
    circles = _elements(ph_chart_svg(chart), "circle")[:4]
    for number, (point, circle) in enumerate(zip(cycle.points, circles, strict=True), 1):
        x = (point.enthalpy - axes.left) / (axes.right - axes.left)
        y = (math.log(point.pressure) - axes.bottom) / (axes.top - axes.bottom)
        assert float(circle.get("cx")) == pytest.approx(LEFT + x * (RIGHT - LEFT), abs=0.01)
        assert float(circle.get("cy")) == pytest.approx(BOTTOM - y * (BOTTOM - TOP), abs=0.01)
        column, row = round(x * (len(rows[0]) - 1)), round((1 - y) * (len(rows) - 1))
        assert rows[row][column] in "123456789"[number - 1 : 4]


def test_every_pressure_tick_stands_at_its_logarithm():
    chart = replace(CHART, healthy=None)
    ys = {
        float(e.text.replace(",", "")): float(e.get("y"))
        for e in _elements(ph_chart_svg(chart), "text", text_anchor="end")
        if re.fullmatch(r"[\d,]+", e.text)
    }
    assert set(ys) == {100, 200, 500, 1000, 2000}
    assert ys[100] - ys[200] == pytest.approx(ys[1000] - ys[2000], abs=0.02)
    decade = (BOTTOM - TOP) * math.log(10) / (axes_for(chart).top - axes_for(chart).bottom)
    assert ys[100] - ys[1000] == pytest.approx(decade, abs=0.02)


def test_lines_run_level_upright_and_back_to_the_first_point():
    rows = _picture(replace(CHART, liquid=(), vapour=(), healthy=None))
    (c1, r1), (c2, r2), (c3, r3), (c4, r4) = (_cell(rows, sign) for sign in "1234")
    assert (r2, r4, c3) == (r3, r1, c4)
    assert set(rows[r2][c3 + 1 : c2]) == {"─"}
    assert set(rows[r4][c4 + 1 : c1]) == {"─"}
    assert {row[c3] for row in rows[r3 + 1 : r4]} == {"│"}
    assert all("/" in row for row in rows[r2 + 1 : r1])


def test_the_healthy_cycle_has_another_sign_and_letters():
    rows = _picture(CHART)
    (ca, ra), (cd, rd) = _cell(rows, "a"), _cell(rows, "d")
    assert ra == rd
    assert set(rows[ra][cd + 1 : ca]) <= {"+", "─", "/", "│"}
    assert rows[ra][cd + 1 : ca].count("+") > 20
    text = "\n".join(_lines(CHART))
    assert "─│ This car; + Healthy; .' saturation" in text


def test_without_a_healthy_cycle_there_is_nothing_of_it():
    chart = replace(CHART, healthy=None)
    assert not any("+" in row for row in _picture(chart))
    assert not any("Healthy" in line for line in _lines(chart))
    assert not _elements(ph_chart_svg(chart), "polyline", class_="healthy")


def test_this_car_is_drawn_over_the_healthy_one():
    rows = _picture(replace(CHART, healthy=replace(CAR, name="Healthy")))
    assert all(any(sign in row for row in rows) for sign in "1234")
    assert not any("+" in row for row in rows)


def test_the_cycles_are_told_apart_without_colour():
    svg = ph_chart_svg(CHART)
    (car,) = _elements(svg, "polyline", class_="cycle")[:1]
    (sound,) = _elements(svg, "polyline", class_="healthy")[:1]
    (dome, _) = _elements(svg, "polyline", class_="dome")
    dashes = [e.get("stroke-dasharray") for e in (car, sound, dome)]
    assert len(set(dashes)) == 3
    assert dashes[0] is None


def test_a_drawn_cycle_comes_back_to_its_first_point():
    for kind in ("cycle", "healthy"):
        points = _elements(ph_chart_svg(CHART), "polyline", class_=kind)[0].get("points").split()
        assert len(points) == 5
        assert points[0] == points[-1]


def test_the_regions_are_told_where_there_is_a_dome():
    assert REGIONS in " ".join(" ".join(_lines(CHART)).split())
    assert REGIONS not in list(said(replace(CHART, liquid=(), vapour=())))


def test_the_dome_is_drawn_where_its_points_lie():
    rows = _picture(replace(CHART, healthy=None))
    axes = axes_for(CHART)
    for h, p in (CHART.liquid[1], CHART.vapour[1], CHART.vapour[-2]):
        column, row = (
            round(axes.x(h) * (len(rows[0]) - 1)),
            round((1 - axes.y(p)) * (len(rows) - 1)),
        )
        assert rows[row][column] in ".':"


def test_values_are_told_in_both_units():
    """210 kPa is 30.5 psi, 13.2 °C is 55.8 °F, 412 kJ/kg is 177.1 Btu/lb: NIST SP 811, B.8."""
    first = next(line for line in _lines(replace(CHART, units=UnitSystem.BOTH)) if "1 com" in line)
    assert first.split("  ")[0] == "1 compressor in"
    assert "30 psi (210 kPa)" in first
    assert "56 °F (13 °C)" in first
    assert "177.1 Btu/lb (412 kJ/kg)" in first


def test_what_has_no_room_in_columns_is_told_in_sentences():
    lines = _lines(replace(CHART, units=UnitSystem.BOTH), 60)
    assert "1 compressor in: 30 psi (210 kPa), 56 °F (13 °C), 177.1" in lines


def test_a_point_without_temperature_is_told_without_it():
    points = tuple(replace(point, temperature=None) for point in CAR.points)
    told = " ".join(said(replace(CHART, cycle=replace(CAR, points=points))))
    assert "1 compressor in: 210 kPa, 412 kJ/kg" in told


@given(
    name=st.text(max_size=60),
    states=st.lists(states, min_size=3, max_size=9),
    width=st.integers(20, 110),
    units=st.sampled_from(UnitSystem),
)
@settings(max_examples=100)
def test_no_line_is_wider_than_it_may_be(name, states, width, units):
    cycle = Cycle(name, tuple(CyclePoint(name, *state, 300.0) for state in states))
    chart = PhChart(name, CHART.liquid[:3], (), cycle, SOUND, units, (name,))
    assert max(map(len, _lines(chart, width))) <= width
    in_ascii = _lines(chart, width, only_ascii=True)
    assert max(map(len, in_ascii)) <= width
    assert all(line.isascii() and line.isprintable() for line in in_ascii)
    ET.fromstring(ph_chart_svg(chart))


def test_the_picture_is_as_high_as_wanted():
    for height in (12, 20, 24):
        above_words = _lines(CHART, 80, height=height).index(
            "─│ This car; + Healthy; .' saturation"
        )
        assert above_words == height + 1


def test_a_cycle_without_extent_is_drawn_all_the_same():
    flat = Cycle("flat", tuple(CyclePoint(name, 3e5, 4e5) for name in POINT_NAMES))
    chart = PhChart("R-134a", (), (), flat)
    assert any("4" in row for row in _picture(chart))
    ET.fromstring(ph_chart_svg(chart))


def test_text_and_drawing_say_the_same():
    root = ET.fromstring(ph_chart_svg(CHART))
    drawn = {e.text for e in root.iter(SVG + "text")}
    text = "\n".join(_lines(CHART))
    for point in (*CAR.points, *SOUND.points):
        assert point.name in drawn
        assert f"{point.enthalpy / 1e3:.0f} kJ/kg" in drawn
        assert f"{point.enthalpy / 1e3:.0f} kJ/kg" in text
        assert f"{point.name}: {point.pressure / 1e3:.0f} kPa" in root.find(SVG + "desc").text
    assert {"kPa absolute", "enthalpy, kJ/kg", *CHART.notes} <= drawn


def test_hostile_words_stay_data():
    cycle = Cycle(HOSTILE, tuple(replace(point, name=HOSTILE) for point in CAR.points))
    chart = replace(CHART, refrigerant=HOSTILE, cycle=cycle, healthy=cycle, notes=(HOSTILE,))
    svg = ph_chart_svg(chart)
    root = ET.fromstring(svg)
    assert {e.tag.removeprefix(SVG) for e in root.iter()} == {
        *("svg", "title", "desc", "rect", "line", "polyline", "circle", "text")
    }
    assert any("<script>" in (e.text or "") for e in root.iter(SVG + "text"))
    assert "\ufffe" not in svg
    assert "href" not in svg
    for text in (svg, *_lines(chart)):
        assert not set(text) & set("\x1b\x00\ud800\u202e")


@pytest.mark.parametrize(
    "make",
    [
        lambda: CyclePoint("x", 0, 4e5),
        lambda: CyclePoint("x", 1e5, float("nan")),
        lambda: Cycle("x", CAR.points[:2]),
        lambda: replace(CHART, liquid=((2e5, -1.0),)),
    ],
)
def test_what_is_no_chart_is_refused(make):
    with pytest.raises(ValueError, match=r"point"):
        make()


def test_a_dotted_line_tells_upper_and_lower_halves():
    canvas = Canvas(11, 3)
    canvas.curve([(0, 0.6), (1, 0.6)], "plain")
    assert ["".join(s.text for s in row) for row in canvas.lines()][1] == "'" * 11
    canvas.curve([(0, 0.4), (1, 0.4)], "plain")
    assert ["".join(s.text for s in row) for row in canvas.lines()][1] == ":" * 11
