"""Limits taken from a trace: from the level that is usual, however long dropouts are."""

import numpy as np
import pytest
from traces import analysed, feed_text

from faulttree.core.trace.given import limits_given
from faulttree.core.trace.limits import Limits, Side
from faulttree.core.trace.lines import TraceRefused
from faulttree.core.trace.suggest import Way, noise, usual_level
from faulttree.core.units import Quantity, find_unit

VOLT = find_unit("V", Quantity.VOLTAGE)
MILLIVOLT = find_unit("mV", Quantity.VOLTAGE)


def _noisy(share_out, out=0.2, count=5000):
    rng = np.random.default_rng(7)
    values = 13.8 + 0.02 * rng.standard_normal(count)
    values[: int(count * share_out)] = out
    return values


@pytest.mark.parametrize("share_out", [0, 0.001, 0.05, 0.5, 0.85])
def test_the_usual_level_is_that_without_dropouts_however_long_they_are(share_out):
    assert usual_level(_noisy(share_out), Side.BELOW) == pytest.approx(13.8, abs=0.03)
    above = _noisy(share_out, out=40)
    assert usual_level(above, Side.ABOVE) == pytest.approx(13.8, abs=0.03)


def test_a_few_spikes_are_not_the_usual_level():
    values = _noisy(0)
    values[:200] = 60
    assert usual_level(values, Side.BELOW) == pytest.approx(13.8, abs=0.03)


def test_noise_is_told_from_steps_between_neighbours():
    values = 13.8 + 0.05 * np.random.default_rng(3).standard_normal(20_000)
    values[::50] = 2
    assert noise(np.diff(values)) == pytest.approx(0.05, rel=0.1)


@pytest.mark.parametrize(
    ("values", "side", "limits", "way"),
    [
        ([13.8] * 90 + [2.0] * 10, Side.BELOW, (11.04, 12.42), Way.SHARE_OF_LEVEL),
        ([10.0] * 90 + [40.0] * 10, Side.ABOVE, (11, 12), Way.SHARE_OF_LEVEL),
        ([0.0] * 90 + [5.0] * 10, Side.ABOVE, (1.25, 2.5), Way.WAY_TO_FURTHEST),
    ],
)
def test_limits_come_from_the_level_and_from_the_furthest_reading(values, side, limits, way):
    findings = analysed(feed_text(values), side=side)
    assert (findings.limits.low, findings.limits.high) == pytest.approx(limits, abs=0.02)
    assert findings.suggestion.way is way
    assert len(findings.dropouts) == 1


def test_a_temperature_has_no_share_of_its_level():
    text = feed_text([20.0] * 90 + [5.0] * 10).replace("volts", "Temp (°C)")
    findings = analysed(text)
    assert (findings.limits.low, findings.limits.high) == pytest.approx((12.5, 16.25))


def test_limits_lie_outside_the_noise():
    values = 1 + 0.1 * np.random.default_rng(3).standard_normal(2000)
    findings = analysed(feed_text(values))
    assert findings.suggestion.way is Way.NOISE
    assert findings.limits.low == pytest.approx(0.2, abs=0.1)
    assert len(findings.dropouts) == 0


def test_where_nothing_stands_out_no_limits_are_suggested():
    text = feed_text([20.0, 20.1] * 50).replace("volts", "Temp (°C)")
    with pytest.raises(TraceRefused, match="--low and --high"):
        analysed(text)


@pytest.mark.parametrize(
    ("low", "high", "unit", "limits"),
    [
        ("11", "12.5", VOLT, (11, 12.5)),
        ("11", None, VOLT, (11, 11)),
        ("11,5", None, VOLT, (11.5, 11.5)),
        ("11000", "12.5V", MILLIVOLT, (11000, 12500)),
        ("4.1 mV", None, VOLT, (0.0041, 0.0041)),
        (None, None, VOLT, None),
    ],
)
def test_limits_are_given_in_the_unit_of_the_trace_or_with_one(low, high, unit, limits):
    found = limits_given(low, high, Side.BELOW, unit)
    assert found == (limits and Limits(*limits))


@pytest.mark.parametrize(
    ("low", "high", "side", "told"),
    [
        (None, "12", Side.BELOW, "--low as well"),
        ("12", None, Side.ABOVE, "--high as well"),
        ("12", "11", Side.BELOW, "--low lies above --high"),
        ("12 ohm", None, Side.BELOW, "12 ohm is no limit: "),
        ("low", None, Side.BELOW, "low is no limit: "),
    ],
)
def test_limits_that_cannot_be_are_refused(low, high, side, told):
    with pytest.raises(TraceRefused, match=told):
        limits_given(low, high, side, VOLT)
