"""A clutch pulls in by current. Figures: common practice, no source; copper: NBS Handbook 100."""

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from faulttree.core.air_conditioning.clutch import pull_in_current, pull_in_voltage

MOST = settings(derandomize=True, max_examples=60, deadline=None)
GAPS = st.floats(0.0002, 0.0015)
OHMS = st.floats(2.0, 6.0)


@pytest.mark.parametrize(
    ("gap", "volts", "amps"), [(0.0004, (7, 7.5, 8), 2.08), (0.001, (9, 10, 11), 2.78)]
)
def test_the_cold_coil_of_the_figures(gap, volts, amps):
    assert pull_in_voltage(gap, 3.6) == pytest.approx(volts)
    assert pull_in_current(gap)[1] == pytest.approx(amps, abs=0.005)


def test_half_way_between_the_gaps():
    assert pull_in_voltage(0.0007, 3.6)[1] == pytest.approx(8.75)


def test_a_hot_coil_needs_the_same_current_and_so_more_volts():
    # 1 + 0.00393 x 100 at 120 °C: 7.5 V are 10.4 V, which a charging car has and an idling one
    # with a bad joint has not.
    hot = 3.6 * (1 + 0.00393 * 100)
    assert pull_in_voltage(0.0004, hot)[1] == pytest.approx(7.5 * 1.393)


@MOST
@given(GAPS, GAPS, OHMS)
def test_a_wider_gap_needs_more(one, other, ohm):
    near, wide = sorted((one, other))
    volts = zip(pull_in_voltage(near, ohm, ohm), pull_in_voltage(wide, ohm, ohm), strict=True)
    assert all(less <= more for less, more in volts)
    least, usual, most = pull_in_current(wide, ohm)
    assert 0 < least < usual < most


@MOST
@given(GAPS, OHMS)
def test_a_coil_of_other_wire_needs_the_same_power_cold(gap, ohm):
    # Same space, same ampere turns: P = I² R does not depend on how thick the wire is.
    watts = pull_in_current(gap, ohm)[1] ** 2 * ohm
    assert watts == pytest.approx(pull_in_current(gap)[1] ** 2 * 3.6)
