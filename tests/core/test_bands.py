"""Where a reading lies among the bands of a step."""

import math

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from faulttree.core.bands import Placement, place
from faulttree.core.uncertain import Uncertain, exactly

MOST = settings(derandomize=True, max_examples=300, deadline=None)
EDGES = [exactly(1.0), exactly(11.9), exactly(12.4)]


def with_error(value: float, radius: float) -> Uncertain:
    return Uncertain(value, {"reading": radius})


@pytest.mark.parametrize("index", range(3))
def test_a_value_on_an_edge_belongs_to_the_band_above(index: int) -> None:
    assert place(exactly(EDGES[index].value), EDGES) == Placement(
        index + 1, index + 1, index + 1, None
    )


@pytest.mark.parametrize("index", range(3))
def test_a_value_one_step_of_the_float_below_an_edge_belongs_to_the_band_below(index: int) -> None:
    below = math.nextafter(EDGES[index].value, -math.inf)
    assert place(exactly(below), EDGES) == Placement(index, index, index, None)


@pytest.mark.parametrize(("value", "band"), [(-1e9, 0), (0.0, 0), (5.0, 1), (12.0, 2), (1e9, 3)])
def test_a_value_between_edges_belongs_to_the_band_between(value: float, band: int) -> None:
    assert place(exactly(value), EDGES).nominal == band


def test_one_band_without_edges_takes_everything() -> None:
    assert place(with_error(5.0, 1.0), []) == Placement(0, 0, 0, None)


def test_an_error_that_ends_exactly_on_the_lower_edge_stays_in_the_band() -> None:
    placement = place(with_error(1.5, 0.5), [exactly(1.0), exactly(4.0)])
    assert (placement.nominal, placement.reached) == (1, (1,))
    assert placement.is_clear


def test_an_error_that_ends_exactly_on_the_upper_edge_reaches_the_band_above() -> None:
    placement = place(with_error(3.5, 0.5), [exactly(1.0), exactly(4.0)])
    assert (placement.nominal, placement.reached) == (1, (1, 2))
    assert not placement.is_clear


def test_an_error_may_reach_several_bands() -> None:
    assert place(with_error(12.0, 0.5), EDGES).reached == (1, 2, 3)


def test_the_margin_is_the_distance_to_the_nearest_edge_over_the_error() -> None:
    assert place(with_error(12.15, 0.125), EDGES).margin == pytest.approx(2.0)
    assert place(with_error(12.0, 0.2), EDGES).margin == pytest.approx(0.5)


def test_the_error_of_an_edge_counts_too() -> None:
    edge = Uncertain(12.1, {"battery reading": 0.2})
    assert place(exactly(12.0), [edge]).reached == (0, 1)


def test_an_error_shared_by_reading_and_edge_cancels() -> None:
    reading, edge = Uncertain(12.0, {"gain": 0.06}), Uncertain(12.05, {"gain": 0.06})
    assert place(reading, [edge]).reached == (0,)


def test_an_open_circuit_lies_in_the_last_band() -> None:
    assert place(exactly(math.inf), EDGES) == Placement(3, 3, 3, None)


def test_every_number_lies_below_an_edge_that_is_an_open_circuit() -> None:
    edges = [exactly(1.0), exactly(math.inf)]
    assert place(with_error(5.0, 0.1), edges).reached == (1,)
    assert place(exactly(math.inf), edges).reached == (2,)


numbers = st.floats(-1e6, 1e6)
radii = st.floats(0, 1e5)
values = st.builds(with_error, numbers, radii)
edge_lists = st.lists(st.floats(-1e6, 1e6), max_size=6).map(
    lambda e: [exactly(x) for x in sorted(e)]
)


@MOST
@given(values, edge_lists)
def test_the_band_as_read_is_among_the_bands_reached(
    value: Uncertain, edges: list[Uncertain]
) -> None:
    placement = place(value, edges)
    assert 0 <= placement.lowest <= placement.nominal <= placement.highest <= len(edges)


@MOST
@given(numbers, radii, radii, edge_lists)
def test_a_wider_error_never_loses_a_band(
    number: float, radius: float, more: float, edges: list[Uncertain]
) -> None:
    narrow = place(with_error(number, radius), edges)
    wide = place(with_error(number, radius + more), edges)
    assert set(narrow.reached) <= set(wide.reached)
    assert narrow.nominal == wide.nominal


@MOST
@given(values, edge_lists, st.floats(-1, 1))
def test_the_band_of_the_true_value_is_reached(
    value: Uncertain, edges: list[Uncertain], share: float
) -> None:
    placement = place(value, edges)
    true = value.value + share * value.radius
    clear_of_rounding = all(abs(true - e.value) > 1e-9 * (1 + abs(true)) for e in edges)
    band = sum(true >= e.value for e in edges)
    assert band in placement.reached or not clear_of_rounding


def test_a_band_whose_edges_have_crossed_is_empty() -> None:
    # “below 1 V”, then “below battery - 2 V” with a battery that gives 0.9 V: 0.001 V is no signal.
    edges = [exactly(1.0), exactly(-1.1), exactly(-0.1)]
    assert place(exactly(0.001), edges).nominal == 0
    assert place(exactly(1.2), edges).nominal == 3
