"""The condenser fan by its pressure switch. Common practice, no source."""

import pytest

from faulttree.core.air_conditioning.fan import Fan, fan

RUNS, EITHER, STANDS = Fan


@pytest.mark.parametrize(
    ("megapascal", "rising", "falling"),
    [
        (0.9, STANDS, STANDS),
        (1.2, STANDS, EITHER),
        (1.4, STANDS, RUNS),
        (1.6, EITHER, RUNS),
        (1.8, RUNS, RUNS),
        (2.4, RUNS, RUNS),
    ],
)
def test_what_it_does_on_the_way_up_and_down(megapascal, rising, falling):
    high = (megapascal * 1e6, megapascal * 1e6)
    assert fan(high, rising=True) is rising
    assert fan(high, rising=False) is falling
    assert fan(high, rising=True, asked=True) is RUNS


def test_an_error_that_reaches_into_the_range_leaves_it_open():
    assert fan((1.75e6, 1.95e6), rising=True) is EITHER
    assert fan((1.85e6, 1.95e6), rising=True) is RUNS
