"""Round numbers along an axis, and labels that keep clear of each other."""

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from faulttree.render.axis import even_steps, label_starts, log_steps


@pytest.mark.parametrize(
    ("low", "high", "most", "steps"),
    [
        (-15, 120, 9, (0, 20, 40, 60, 80, 100, 120)),
        (0, 1, 5, (0, 0.5, 1)),
        (0, 1, 6, (0, 0.2, 0.4, 0.6, 0.8, 1)),
        (-0.3, 0.3, 7, (-0.3, -0.2, -0.1, 0, 0.1, 0.2, 0.3)),
        (1500, 1700, 3, (1500, 1600, 1700)),
    ],
)
def test_even_steps_are_round_and_hold_their_ends(low, high, most, steps):
    assert even_steps(low, high, most) == pytest.approx(steps)


@pytest.mark.parametrize(("low", "high", "most"), [(1, 1, 5), (2, 1, 5), (0, 1, 1)])
def test_no_axis_runs_nowhere(low, high, most):
    with pytest.raises(ValueError, match="axis"):
        even_steps(low, high, most)


def test_log_steps_are_one_two_and_five_times_a_power_of_ten():
    assert log_steps(0.2, 60) == (0.2, 0.5, 1, 2, 5, 10, 20, 50)


@given(
    labels=st.lists(st.tuples(st.integers(0, 60), st.integers(1, 12)), max_size=12),
    gap=st.integers(1, 3),
)
def test_labels_keep_clear_of_each_other_and_inside(labels, gap):
    starts = label_starts(labels, 0, 60, gap)
    placed = sorted(
        (s, s + long) for s, (_, long) in zip(starts, labels, strict=True) if s is not None
    )
    assert all(start >= 0 and end <= 60 for start, end in placed)
    ends = [-math.inf, *(end for _, end in placed)]
    assert all(start >= end + gap for (start, _), end in zip(placed, ends, strict=False))
    if labels:
        assert starts[0] == max(0, min(labels[0][0] - labels[0][1] / 2, 60 - labels[0][1]))
