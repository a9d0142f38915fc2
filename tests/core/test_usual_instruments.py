"""The usual instruments of a shop."""

import pytest

from faulttree.core.instruments import Instrument, InstrumentClass, measured
from faulttree.core.reading import parse_reading
from faulttree.core.units import Quantity
from faulttree.core.usual_instruments import built_in, one_per_class


def test_there_is_one_built_in_instrument_of_each_class() -> None:
    instruments = built_in()
    assert {i.class_ for i in instruments} == set(InstrumentClass)
    assert len({i.id for i in instruments}) == len(instruments) == len(InstrumentClass)


@pytest.mark.parametrize("instrument", built_in(), ids=lambda i: i.id)
def test_the_ranges_of_a_built_in_instrument_rise_and_hold_their_own_ends(
    instrument: Instrument,
) -> None:
    for quantity, ranges in instrument.functions.items():
        limits = [each.limits(quantity) for each in ranges]
        assert limits == sorted(limits)
        assert all(0 < resolution < upper for upper, resolution in limits)


def test_the_usual_meter_reads_a_resting_battery_to_a_tenth_of_a_volt() -> None:
    usual = next(i for i in built_in() if i.class_ is InstrumentClass.METER)
    # 0.5 % of 12.58 V + 2 digits of 0.01 V.
    assert measured(parse_reading("12.58", Quantity.VOLTAGE), usual, "1").radius == pytest.approx(
        0.0829
    )


def test_an_instrument_of_the_shop_wins_over_the_built_in_one() -> None:
    own = built_in()[0].model_copy(update={"id": "bench-meter"})
    chosen = one_per_class([own])
    assert chosen[InstrumentClass.METER] is own
    assert chosen[InstrumentClass.SCALE].id == "usual-scale"
    assert set(chosen) == set(InstrumentClass)


def test_of_two_own_instruments_of_a_class_the_last_one_named_is_used() -> None:
    first, last = (built_in()[0].model_copy(update={"id": each}) for each in ("old", "new"))
    assert one_per_class([first, last])[InstrumentClass.METER] is last


def test_the_usual_hygrometer_is_off_by_points_of_humidity_and_not_by_a_share_of_them() -> None:
    usual = next(i for i in built_in() if i.class_ is InstrumentClass.HYGROMETER)
    for typed in ("20 %", "80 %"):
        found = measured(parse_reading(typed, Quantity.RATIO), usual, "1")
        assert found.radius == pytest.approx(0.04)
