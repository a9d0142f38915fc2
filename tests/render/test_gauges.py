"""The gauge pair: marks in proportion, words that agree with them, nothing beyond the paper.

Scales, expected pressures and readings are made up for these tests.
"""

import re
import xml.etree.ElementTree as ET
from dataclasses import replace
from itertools import pairwise
from pathlib import Path

import pytest
from golden import assert_golden
from hypothesis import given, settings
from hypothesis import strategies as st

from faulttree.core.units import PSI_PA, UnitSystem
from faulttree.render.gauge_pair import (
    Expected,
    Gauge,
    GaugePair,
    GaugeReading,
    GaugeScale,
    Tick,
    even_scale,
)
from faulttree.render.gauge_words import reading_label, verdict
from faulttree.render.gauges import gauge_lines, gauge_rows
from faulttree.render.gauges_svg import LEFT, RIGHT, gauges_svg
from faulttree.render.svg import WIDTH, length

GOLDEN = Path(__file__).parent / "golden"
SHEET = "example sheet, page 4"
SVG = "{http://www.w3.org/2000/svg}"
MARGIN = len("psi ")
HOSTILE = '<script>x</script> ]]> & " \x1b[2J \x00 \ufffe \ud800 \u202e'


def _saturation(pressure):
    """A made-up curve that rises; there is none in deep vacuum."""
    return None if pressure < -60e3 else 247.0 + 12 * (pressure + 101e3) ** 0.5 / 100


def _reading(psi, error=0.0, **more):
    return GaugeReading(psi * PSI_PA, error * PSI_PA, PSI_PA, **more)


def _low(reading=None, expected=(24, 35), units=UnitSystem.US):
    scale = even_scale(-15 * PSI_PA, 120 * PSI_PA, units, _saturation)
    edges = expected and Expected(expected[0] * PSI_PA, expected[1] * PSI_PA, SHEET)
    return Gauge("Low side", scale, edges, reading)


def _pair(low=None, high=None, units=UnitSystem.US):
    scale = even_scale(0, 500 * PSI_PA, units, _saturation)
    expected = Expected(190 * PSI_PA, 230 * PSI_PA, SHEET)
    return GaugePair(
        _low(low, units=units),
        Gauge("High side", scale, expected, high),
        units,
        "30 °C, humidity 50 %, R-134a, 300 m above the sea",
        ("°F: where R-134a boils and condenses at that pressure.",),
    )


PAIRS = {
    "before measuring": _pair(),
    "as expected, and too high": _pair(_reading(28, 1, note="boils at 32 °F"), _reading(250, 5)),
    "metric, vacuum": _pair(_reading(-10), _reading(200), UnitSystem.METRIC),
    "both units, off the scale": _pair(_reading(130), _reading(600), UnitSystem.BOTH),
    "nothing published": replace(_pair(), low=_low(_reading(30), expected=None)),
}


def _said(gauge, units=UnitSystem.US):
    return verdict(gauge, units).text


def _row_with(pair, letters, width=80):
    """The first row of the gauges that has one of some letters; the low side's."""
    texts = ("".join(s.text for s in row) for row in gauge_rows(pair, width)[1:])
    return next(text for text in texts if set(text) & set(letters))


def _shapes(svg, tag, kind):
    return [e for e in ET.fromstring(svg).iter(SVG + tag) if e.get("class") == kind]


@pytest.mark.parametrize(("width", "only_ascii"), [(80, False), (60, True)])
def test_the_gauges_look_as_they_should(width, only_ascii):
    texts = (
        f"--- {name}\n" + "\n".join(gauge_lines(pair, width, only_ascii)) + "\n"
        for name, pair in PAIRS.items()
    )
    assert_golden(GOLDEN / f"gauges-{width}.txt", "".join(texts))


def test_the_drawing_looks_as_it_should():
    assert_golden(GOLDEN / "gauges.svg", gauges_svg(PAIRS["as expected, and too high"]))


@given(psi=st.floats(-15, 120), width=st.integers(50, 120))
def test_the_marker_stands_in_proportion(psi, width):
    marks = [
        "".join(s.text for s in row)
        for row in gauge_rows(_pair(GaugeReading(psi * PSI_PA)), width)
        if any(s.tone == "mark" for s in row)
    ]
    column = marks[0].index("v") - MARGIN
    assert abs(column - (psi + 15) / 135 * (width - MARGIN - 1)) <= 0.5 + 1e-6


@given(psi=st.floats(-15, 120))
def test_the_drawn_marker_stands_in_proportion(psi):
    (mark,) = _shapes(gauges_svg(_pair(GaugeReading(psi * PSI_PA))), "polygon", "reading")[:1]
    x = float(mark.get("points").split(",")[0])
    assert x == pytest.approx(LEFT + (psi + 15) / 135 * (RIGHT - LEFT), abs=0.01)


@given(ends=st.tuples(st.floats(-15, 120), st.floats(-15, 120)).map(sorted))
def test_what_is_expected_stands_in_proportion(ends):
    low, high = ends
    pair = replace(_pair(), low=_low(expected=(low, high)))
    box = _shapes(gauges_svg(pair), "rect", "expected")[0]
    left, width = float(box.get("x")), float(box.get("width"))
    per_psi = (RIGHT - LEFT) / 135
    assert left == pytest.approx(LEFT + (low + 15) * per_psi, abs=0.01)
    assert width == pytest.approx((high - low) * per_psi, abs=0.01)
    text = _row_with(pair, "│")
    if "[" in text:
        for bracket, edge in (("[", low), ("]", high)):
            column = text.index(bracket) - MARGIN
            assert abs(column - (edge + 15) / 135 * (80 - MARGIN - 1)) <= 0.5 + 1e-6


@pytest.mark.parametrize(
    ("psi", "place", "tone"),
    [
        (23.9, "below", "fault"),
        (24, "inside", "good"),
        (35, "inside", "good"),
        (35.1, "above", "fault"),
    ],
)
def test_both_edges_belong_to_what_is_expected(psi, place, tone):
    told = verdict(_low(_reading(psi)), UnitSystem.US)
    assert f", {place} the expected 24 to 35 psi" in told.text
    assert told.tone == tone


@given(psi=st.floats(-10, 100), error=st.floats(0.01, 30))
def test_an_edge_within_the_error_is_too_close_to_call(psi, error):
    told = verdict(_low(_reading(psi, error)), UnitSystem.US)
    touched = [edge for edge in (24, 35) if abs(psi - edge) <= error]
    if all(abs(abs(psi - edge) - error) > 1e-6 for edge in (24, 35)):
        assert ("too close to call" in told.text) == bool(touched)
        assert (told.tone == "unclear") == bool(touched)


def test_the_error_is_drawn_to_both_sides():
    lines = gauge_lines(_pair(_reading(60, 20)), 80)
    mark = next(line for line in lines if "-v-" in line)
    dashes = re.search(r"-+v-+", mark)
    assert dashes[0].index("v") == pytest.approx(20 / 135 * 75, abs=1)
    assert _shapes(gauges_svg(_pair(_reading(60, 20))), "line", "error")


def test_before_measuring_there_is_no_marker_and_what_is_expected_is_told():
    assert _said(_low()) == "Low side: not measured yet; expected 24 to 35 psi"
    assert verdict(_low(), UnitSystem.US).tone == "plain"
    assert not any(segment.tone == "mark" for row in gauge_rows(_pair()) for segment in row)
    assert not _shapes(gauges_svg(_pair()), "polygon", "reading")


def test_where_nothing_is_expected_none_is_drawn_and_the_reason_is_told():
    gauge = replace(_low(_reading(30), expected=None), why_none_expected="nothing below 15 °C")
    assert _said(gauge) == "Low side: 30 psi; nothing below 15 °C"
    pair = replace(_pair(), low=gauge, high=replace(_pair().high, expected=None))
    assert not any("═" in line or "expected" in line for line in gauge_lines(pair))
    assert not _shapes(gauges_svg(pair), "rect", "expected")


@pytest.mark.parametrize(("psi", "sign", "words"), [(130, ">", "above"), (-15.5, "<", "below")])
def test_a_reading_off_the_scale_points_beyond_its_end(psi, sign, words):
    pair = _pair(_reading(psi))
    assert f"off the scale {words}" in _said(pair.low)
    line = next(line for line in gauge_lines(pair, 80) if sign in line)
    assert line.index(sign) == (79 if sign == ">" else 4)
    (arrow,) = _shapes(gauges_svg(pair), "polygon", "off-scale")
    xs = [float(x) for x in re.findall(r"([\d.]+),", arrow.get("points"))]
    assert min(xs) > RIGHT if sign == ">" else max(xs) < LEFT


@given(psi=st.floats(-40, 300))
def test_the_label_of_a_drawn_reading_stays_on_the_paper(psi):
    pair = _pair(_reading(psi), units=UnitSystem.BOTH)
    label = reading_label(pair.low.reading, UnitSystem.BOTH)
    root = ET.fromstring(gauges_svg(pair))
    (drawn,) = [e for e in root.iter(SVG + "text") if e.text == label]
    begin = float(drawn.get("x")) - (length(label) if drawn.get("text-anchor") == "end" else 0)
    assert begin >= 0
    assert begin + length(label) <= WIDTH


def test_vacuum_is_told_in_inches_of_mercury():
    """1 psi is 2.036 inHg: NIST SP 811 (2008), B.8, 6894.757 Pa over 3386.389 Pa."""
    assert "-10 psi, 20.4 inHg of vacuum" in _said(_low(_reading(-10)))
    assert "-69 kPa, vacuum" in _said(_low(_reading(-10)), UnitSystem.METRIC)
    assert "vacuum" not in _said(_low(_reading(10)))


def test_vacuum_is_drawn_below_zero_and_only_there():
    low, high = (line for line in gauge_lines(_pair()) if "═" in line and "expected" not in line)
    assert low[4:].startswith("." * 8)
    assert "." not in low[4 + round(15 / 135 * 75) :]
    assert "." not in high


def test_both_units_are_told():
    """24 and 35 psi are 165.5 and 241.3 kPa: NIST SP 811 (2008), B.8."""
    said = _said(_low(_reading(28)), UnitSystem.BOTH)
    assert "28 psi (193 kPa), inside the expected 24 to 35 psi (165 to 241 kPa)" in said


def test_the_rows_of_an_even_scale_are_pressure_and_saturation():
    scale = even_scale(-100e3, 400e3, UnitSystem.BOTH, _saturation)
    assert scale.row_names == ("psi", "kPa", "°F", "°C")
    zero = next(tick for tick in scale.ticks if tick.at == 0)
    assert zero.labels[:2] == ("0", "0")
    assert float(zero.labels[3]) == pytest.approx(_saturation(0) - 273.15, abs=0.5)
    assert next(tick for tick in scale.ticks if tick.at < -60e3).labels[2:] == ("", "")


@given(low=st.floats(-1e5, 1e6), span=st.floats(1e3, 5e6), most=st.integers(2, 12))
def test_an_even_scale_has_round_ticks_within_its_ends(low, span, most):
    scale = even_scale(low, low + span, UnitSystem.METRIC, most=most)
    assert len(scale.ticks) <= most
    assert all(low - 1 <= tick.at <= low + span + 1 for tick in scale.ticks)
    places = [tick.at for tick in scale.ticks]
    gaps = [after - before for before, after in pairwise(places)]
    assert gaps == pytest.approx(gaps[:1] * len(gaps), abs=0.02)
    labels = [float(tick.labels[0]) * 1e3 for tick in scale.ticks]
    assert labels == pytest.approx(places, rel=1e-5, abs=0.02)


def test_labels_stand_under_their_ticks():
    lines = gauge_lines(_pair(), 80)
    bar = next(line for line in lines if "═" in line)
    numbers = next(line for line in lines if line.startswith("psi"))
    for found in re.finditer(r"\d+", numbers):
        middle = 4 + (float(found[0]) + 15) / 135 * 75
        assert found.start() - 1.5 <= middle <= found.end() + 1
        assert "│" in bar[found.start() - 1 : found.end() + 1]


@given(
    name=st.text(max_size=40),
    psi=st.none() | st.floats(-40, 900),
    expected=st.none() | st.tuples(st.floats(-30, 600), st.floats(-30, 600)).map(sorted),
    width=st.integers(20, 100),
    units=st.sampled_from(UnitSystem),
)
@settings(max_examples=150)
def test_no_line_is_wider_than_it_may_be(name, psi, expected, width, units):
    low = replace(_low(expected=expected, units=units), name=name or "x")
    low = replace(low, reading=None if psi is None else _reading(psi, 2, note=name))
    pair = replace(_pair(units=units), low=low, notes=(name,), conditions=name)
    assert max(map(len, gauge_lines(pair, width))) <= width
    in_ascii = gauge_lines(pair, width, only_ascii=True)
    assert max(map(len, in_ascii)) <= width
    assert all(line.isascii() and line.isprintable() for line in in_ascii)


def test_labels_that_have_no_room_are_left_out():
    ticks = tuple(Tick(i * 1e4, (f"{i}" * 6,)) for i in range(9))
    gauge = Gauge("Low side", GaugeScale(0, 8e4, ("long",), ticks))
    line = next(s for s in gauge_lines(replace(_pair(), low=gauge), 60) if s.startswith("long"))
    shown = line.split()[1:]
    assert 3 < len(shown) < 9
    assert all(label in {t.labels[0] for t in ticks} for label in shown)


def test_text_and_drawing_say_the_same():
    for pair in PAIRS.values():
        root = ET.fromstring(gauges_svg(pair))
        drawn = " ".join(e.text for e in root.iter(SVG + "text"))
        text = " ".join(" ".join(gauge_lines(pair, 80)).split())
        for gauge in pair.gauges:
            said = _said(gauge, pair.units)
            assert said in drawn
            assert said in text
            assert said in root.find(SVG + "desc").text
        assert pair.conditions in drawn


def test_what_is_alike_in_one_source_is_told_once():
    assert sum(SHEET in line for line in gauge_lines(_pair())) == 1
    other = replace(_pair().high, expected=Expected(1e6, 2e6, "another sheet"))
    text = "\n".join(gauge_lines(replace(_pair(), high=other)))
    assert f"Low side, expected by: {SHEET}" in text
    assert "High side, expected by: another sheet" in text


def test_hostile_words_stay_data():
    low = replace(_low(_reading(28, note=HOSTILE)), name=HOSTILE)
    low = replace(low, scale=GaugeScale(0, 1e6, (HOSTILE,), (Tick(5e5, (HOSTILE,)),)))
    pair = replace(_pair(), low=low, conditions=HOSTILE, notes=(HOSTILE,))
    svg = gauges_svg(pair)
    root = ET.fromstring(svg)
    assert {e.tag.removeprefix(SVG) for e in root.iter()} <= {
        *("svg", "title", "desc", "rect", "line", "polygon", "polyline", "text")
    }
    assert any("<script>" in (e.text or "") for e in root.iter(SVG + "text"))
    svg.encode("utf-8")
    assert "\ufffe" not in svg
    for text in (svg, *gauge_lines(pair)):
        assert not set(text) & set("\x1b\x00\ud800\u202e")


def test_a_drawing_refers_to_nothing_and_has_words_for_a_screen_reader():
    svg = gauges_svg(PAIRS["both units, off the scale"])
    root = ET.fromstring(svg)
    assert root.get("viewBox").startswith(f"0 0 {WIDTH} ")
    assert root[0].tag == SVG + "title"
    assert root[1].tag == SVG + "desc"
    assert "href" not in svg
    assert "url(" not in svg
    assert {e.get("fill") for e in root.iter()} <= {None, "white", "black", "none", "#d0d0d0"}


@pytest.mark.parametrize(
    "make",
    [
        lambda: GaugeScale(5, 5),
        lambda: GaugeScale(0, float("nan")),
        lambda: GaugeScale(0, 1, ("psi",), (Tick(0, ()),)),
        lambda: Expected(2, 1),
        lambda: GaugeReading(float("inf")),
    ],
)
def test_what_is_no_gauge_is_refused(make):
    with pytest.raises(ValueError, match=r"gauge|expected|tick"):
        make()
