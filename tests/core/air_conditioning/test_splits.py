"""Superheat, subcooling, split and ratio, on absolute pressures."""

import pytest

from faulttree.core.air_conditioning.splits import (
    condensing_split,
    pressure_ratio,
    subcooling,
    superheat,
)
from faulttree.core.refrigerant.refrigerant import Refrigerant, properties
from faulttree.core.refrigerant.table import OutOfTable


@pytest.mark.parametrize("refrigerant", Refrigerant)
def test_at_saturation_there_is_neither(refrigerant):
    for kelvin in (260.0, 275.0, 320.0, 340.0):
        pressure = properties(refrigerant).pressure(kelvin)
        assert superheat(refrigerant, pressure, kelvin + 5) == pytest.approx(5, abs=1e-4)
        assert subcooling(refrigerant, pressure, kelvin - 5) == pytest.approx(5, abs=1e-4)
        assert condensing_split(refrigerant, pressure, kelvin - 20) == pytest.approx(20, abs=1e-4)


def test_the_split_is_the_approach_and_the_subcooling():
    high, pipe, ambient = 1.4e6, 315.0, 303.0
    whole = condensing_split(Refrigerant.R134A, high, ambient)
    assert whole == pytest.approx(subcooling(Refrigerant.R134A, high, pipe) + pipe - ambient)


def test_a_ratio_is_one_of_absolute_pressures():
    assert pressure_ratio(300e3, 1500e3) == 5


def test_what_no_table_holds_is_refused():
    with pytest.raises(OutOfTable, match="R-12 is known from"):
        superheat(Refrigerant.R12, 1.0, 280.0)
