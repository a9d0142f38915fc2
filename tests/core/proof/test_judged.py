"""Computed readings against bands: the margin, the instrument's error, swings and open circuits."""

import math

import pytest
from benches import gate

from faulttree.core.proof.judged import Judge, Margin
from faulttree.core.uncertain import exactly


@pytest.fixture(scope="module")
def judge() -> Judge:
    return gate()[1]


def test_a_margin_is_told_in_standard_uncertainties() -> None:
    # JCGM 100:2008, 4.3.7: a rectangular distribution of half-width a has the standard
    # uncertainty a / sqrt(3).
    assert Margin(0, 0.3, 0.1).sigmas == pytest.approx(3 * math.sqrt(3))
    assert Margin(0, -0.05, 0.1).is_within_error
    assert not Margin(0, 0.1, 0.1).is_within_error
    assert Margin(0, 0.1, 0.0).sigmas == math.inf


def test_a_reading_has_the_error_of_the_range_it_is_read_on(judge: Judge) -> None:
    # 0.5 % + 2 digits of 10 mV on the 60 V range of the usual meter: 63 mV + 20 mV at 12.6 V.
    span = judge.span("feed", 12.6, 12.6)
    assert span is not None
    assert span.low.radius == pytest.approx(0.063 + 0.02)
    # On its 600 mV range: 1 mV + 2 digits of 0.1 mV at 0.2 V.
    low = judge.span("ground-drop", 0.2, 0.2)
    assert low is not None
    assert low.low.radius == pytest.approx(0.001 + 0.0002)


def test_shared_gain_cancels_between_reading_and_battery(judge: Judge) -> None:
    posts, span = judge.posts("feed", 12.6, 12.6), judge.span("feed", 11.7, 11.7)
    assert posts is not None
    assert span is not None
    judged = judge.judge("feed", span, {"battery-voltage": posts.value})
    (margin,) = judged.margins
    # Edge: battery less 1 V, 11.6 V. Apart they err by 0.083 + 0.079 V; of the gain 0.9 V x 0.5 %
    # is left, and both have their 20 mV.
    assert margin.gap == pytest.approx(0.1)
    assert margin.radius == pytest.approx(0.9 * 0.005 + 0.04)
    assert judged.bands == (1,)


def test_a_reading_that_swings_lies_in_every_band_between(judge: Judge) -> None:
    span = judge.span("ground-drop", 0.0, 9.0)
    assert span is not None
    assert judge.judge("ground-drop", span, {}).bands == (0, 1)
    assert span.value.value == pytest.approx(4.5)
    assert span.value.radius >= 4.5


def test_an_open_circuit_lies_in_the_last_band(judge: Judge) -> None:
    span = judge.span("bulb-ohms", math.inf, math.inf)
    assert span is not None
    assert judge.judge("bulb-ohms", span, {}).bands == (1,)


def test_what_no_instrument_can_read_is_no_number(judge: Judge) -> None:
    assert judge.span("feed", math.nan, math.nan) is None


def test_outside_the_window_it_is_implausible(judge: Judge) -> None:
    span = judge.span("feed", 20.0, 20.0)
    assert span is not None
    judged = judge.judge("feed", span, {"battery-voltage": exactly(12.6)})
    assert judged.is_implausible
    assert judged.bands == ()


def test_without_its_battery_voltage_it_cannot_be_judged(judge: Judge) -> None:
    span = judge.span("feed", 12.0, 12.0)
    assert span is not None
    judged = judge.judge("feed", span, {})
    assert judged.bands == ()
    assert "battery-voltage" in judged.trouble
