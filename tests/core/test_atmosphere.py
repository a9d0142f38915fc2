"""The standard atmosphere, and gauge and absolute pressure."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from faulttree.core.atmosphere import Atmosphere, NoSuchPlace


@pytest.mark.parametrize(
    ("metres", "pascal"), [(-500, 107478), (0, 101325), (500, 95461), (1000, 89875), (3000, 70108)]
)
def test_the_table_of_the_handbook(metres, pascal):
    """ASHRAE Handbook Fundamentals (2017), chapter 1, table 1."""
    assert Atmosphere.at_altitude(metres).pressure == pytest.approx(pascal, abs=1)


@given(st.floats(-500, 5000), st.floats(-1e5, 4e6))
def test_there_and_back(metres, gauge):
    air = Atmosphere.at_altitude(metres)
    assert air.gauge(air.absolute(gauge)) == pytest.approx(gauge, abs=1e-6)
    assert air.absolute(0.0) == air.pressure


@pytest.mark.parametrize("metres", [-501, 5001, float("nan")])
def test_places_without_a_car(metres):
    with pytest.raises(NoSuchPlace, match="-500 and 5000 m"):
        Atmosphere.at_altitude(metres)
