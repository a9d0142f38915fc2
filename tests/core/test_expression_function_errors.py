"""How limits of error pass through saturation, dew points and windows."""

import pytest
from hypothesis import assume, given, settings
from hypothesis import strategies as st
from worked_out import ZERO_C, Q, worked_out

from faulttree.core.atmosphere import Atmosphere
from faulttree.core.expression_functions import FUNCTIONS
from faulttree.core.refrigerant.refrigerant import Refrigerant, properties
from faulttree.core.uncertain import CannotWorkOut, Uncertain, exactly

MANY = settings(derandomize=True, max_examples=300, deadline=None)

one_error = st.floats(-40e3, 40e3)
shares = st.floats(-1, 1)


@MANY
@given(
    st.sampled_from(Refrigerant), st.floats(0, 2.5e6), one_error, one_error, st.floats(0, 40e3),
    shares, shares, shares, st.floats(0, 3000),
)  # fmt: skip
def test_saturation_encloses_the_truth_and_what_is_shared_cancels(
    refrigerant: Refrigerant,
    gauge: float,
    gain: float,
    digits: float,
    rest: float,
    gain_share: float,
    digits_share: float,
    rest_share: float,
    altitude: float,
) -> None:
    read = Uncertain(gauge, {"gain": gain, "reading 1": digits}, rest)
    air = Atmosphere.at_altitude(altitude)
    table = properties(refrigerant)
    assume(table.pressure(table.coldest) < air.absolute(read.low))
    assume(air.absolute(read.high) < table.pressure(table.hottest))
    text = "saturation(low-side)"
    found = worked_out(text, Q.TEMPERATURE, refrigerant.value, altitude, low_side=read)
    low, high = (table.temperature(air.absolute(p)) for p in (read.low, read.high))
    assert found.low - 1e-6 <= low <= high <= found.high + 1e-6
    # The named errors as they were drawn, and no more than the rest beside them.
    drawn = gauge + gain * gain_share + digits * digits_share + rest * rest_share
    named = found.terms
    moved = named.get("gain", 0) * gain_share + named.get("reading 1", 0) * digits_share
    off = table.temperature(air.absolute(drawn)) - found.value - moved
    assert abs(off) <= found.rest + 1e-6


@MANY
@given(st.sampled_from(Refrigerant), st.floats(235, 345), st.floats(0, 6), st.floats(0, 3))
def test_saturation_there_and_back_keeps_what_is_shared(
    refrigerant: Refrigerant, kelvin: float, gain: float, rest: float
) -> None:
    read = Uncertain(kelvin, {"gain": gain}, rest)
    text = "saturation(saturation-pressure(pipe)) - pipe"
    found = worked_out(text, Q.TEMPERATURE_DIFFERENCE, refrigerant.value, pipe=read)
    assert found.value == pytest.approx(0, abs=0.01)
    assert abs(found.terms.get("gain", 0.0)) <= 0.2 * gain + 1e-9


def test_the_error_of_one_gauge_nearly_cancels_between_two_of_its_readings() -> None:
    one = Uncertain(1500e3, {"gain": 30e3}, 0.0)
    other = Uncertain(1480e3, {"gain": 29.6e3}, 0.0)
    text = "saturation(high-side) - saturation(low-side)"
    found = worked_out(text, Q.TEMPERATURE_DIFFERENCE, high_side=one, low_side=other)
    alone = worked_out("saturation(high-side)", Q.TEMPERATURE, high_side=one)
    assert found.radius < alone.radius / 10


@MANY
@given(
    st.floats(21, 43), st.floats(0.02, 0.7), st.floats(0, 4), st.floats(0, 0.1), shares, shares,
    st.sampled_from(sorted(FUNCTIONS.keys() - {"saturation", "saturation-pressure", "absolute"})),
)  # fmt: skip
def test_dew_points_and_windows_enclose_the_truth(
    air: float, damp: float, off: float, off_damp: float, share: float, other: float, name: str
) -> None:
    ambient = Uncertain(air + ZERO_C, {"gain": off / 2}, off / 2)
    humidity = Uncertain(damp, rest=off_damp)
    takes_both = len(FUNCTIONS[name].takes) == 2
    quantity = FUNCTIONS[name].forms[0].gives
    text = f"{name}(ambient, humidity)" if takes_both else f"{name}(ambient)"
    drawn = exactly(ambient.value + share * off), exactly(damp + other * off_damp)
    try:
        found = worked_out(text, quantity, ambient=ambient, humidity=humidity)
        truth = worked_out(text, quantity, ambient=drawn[0], humidity=drawn[1]).value
    except CannotWorkOut:
        assume(False)
    assert found.low - 1e-6 * abs(truth) <= truth <= found.high + 1e-6 * abs(truth)
