"""Dropouts found in arrays: the same as by a machine that looks at one sample after the other."""

from itertools import pairwise

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from traces import samples_of, scanned_one_by_one

from faulttree.core.trace import grouping, scan
from faulttree.core.trace.arrays import Samples
from faulttree.core.trace.limits import Counting, Limits, Sampling, Side
from faulttree.core.trace.lines import TraceRefused
from faulttree.core.trace.runs import BEGIN_UNSEEN, END_UNSEEN
from faulttree.core.trace.scan import Scanner

SAMPLING = Sampling(0.01, 1.0, 0.01)
LIMITS = Limits(11.0, 12.0)
EVERY = Counting()


def _scanned(samples, limits=LIMITS, counting=EVERY, cuts=()):
    scanner = Scanner(limits, counting, SAMPLING)
    edges = [0, *sorted(cuts), len(samples.times)]
    for begin, end in pairwise(edges):
        breaks = samples.breaks[(samples.breaks >= begin) & (samples.breaks < end)] - begin
        scanner.scan(Samples(samples.times[begin:end], samples.values[begin:end], breaks))
    return scanner.found()


def _rows(runs):
    arrays = (runs.begins, runs.ends, runs.extremes, runs.unseen, runs.stretch)
    return [list(map(float, row)) for row in zip(*arrays, strict=True)]


@st.composite
def traces(draw):
    values = draw(st.lists(st.integers(0, 4), max_size=60))
    indices = st.integers(0, max(0, len(values) - 1))
    breaks = draw(st.lists(indices, max_size=8)) if values else []
    return samples_of(values, breaks), draw(st.lists(indices, max_size=3))


@st.composite
def counted(draw):
    low, high = sorted(draw(st.tuples(*[st.sampled_from([0, 0.5, 1, 2, 3, 3.5])] * 2)))
    times = st.sampled_from([0.0, 0.01, 0.02, 0.03, 0.05])
    counting = Counting(draw(times), draw(times))
    return Limits(low, high, draw(st.sampled_from(Side))), counting


@given(trace=traces(), asked=counted(), piece=st.integers(1, 70))
@settings(max_examples=200)
def test_arrays_in_any_pieces_give_what_one_sample_after_the_other_gives(trace, asked, piece):
    samples, cuts = trace
    with pytest.MonkeyPatch.context() as patch:
        patch.setattr(scan, "PIECE", piece)
        runs, _ = _scanned(samples, *asked, cuts)
    assert _rows(runs) == scanned_one_by_one(samples, *asked, SAMPLING)


def test_a_long_trace_gives_what_one_sample_after_the_other_gives():
    rng = np.random.default_rng(20261125)
    values = 9 + (0.4 * rng.standard_normal(60_000).cumsum()) % 5
    samples = samples_of(values, rng.integers(0, len(values), 40))
    counting = Counting(0.05, 0.03)
    runs, _ = _scanned(samples, counting=counting, cuts=(20_000, 20_001))
    assert len(runs) > 100
    assert _rows(runs) == scanned_one_by_one(samples, LIMITS, counting, SAMPLING)


def test_what_lies_between_the_limits_or_on_one_changes_nothing():
    runs, _ = _scanned(samples_of([13, 11, 11.5, 10.9, 11, 12, 11.5, 12.1, 11.5, 11, 13]))
    assert [(r[0], r[1]) for r in _rows(runs)] == [(0.03, 0.07)]


def test_pauses_are_merged_before_short_ones_are_left_out():
    chatter = samples_of([13, 5, 13, 5, 13, 5, 13, 13, 13, 13, 5, 13])
    runs, short = _scanned(chatter, counting=Counting(merge_s=0.02, shortest_s=0.03))
    assert [(r[0], r[1]) for r in _rows(runs)] == [(0.01, 0.06)]
    assert short == 1
    assert len(_scanned(chatter, counting=Counting(shortest_s=0.03))[0]) == 0


@pytest.mark.parametrize("pause", range(1, 9))
def test_a_pause_as_long_as_the_limit_is_not_shorter(pause):
    # 0.07 - 0.06 is a little more than 0.01 in floats, 0.06 - 0.05 a little less.
    samples = samples_of([13] * pause + [5, 13, 5, 13])
    assert len(_scanned(samples, counting=Counting(merge_s=0.01))[0]) == 2
    assert len(_scanned(samples, counting=Counting(merge_s=0.0101))[0]) == 1
    assert len(_scanned(samples, counting=Counting(shortest_s=0.01))[0]) == 2


def test_nothing_is_bridged_over_a_gap():
    runs, _ = _scanned(samples_of([13, 5, 5, 5, 5, 13], breaks=[3]), counting=Counting(merge_s=9))
    assert [(r[0], round(r[1], 9)) for r in _rows(runs)] == [(0.01, 0.03), (0.03, 0.05)]
    assert runs.unseen.tolist() == [END_UNSEEN, BEGIN_UNSEEN]


def test_a_dropout_under_way_at_either_end_is_said_to_be():
    runs, _ = _scanned(samples_of([5, 5]))
    assert (runs.ends[0], runs.unseen.tolist()) == (0.02, [BEGIN_UNSEEN | END_UNSEEN])


def test_limits_within_the_noise_are_refused(monkeypatch):
    monkeypatch.setattr(grouping, "MOST_DROPOUTS", 9)
    with pytest.raises(TraceRefused, match="--low and --high further apart"):
        _scanned(samples_of([5, 13] * 11))


@pytest.mark.parametrize(("low", "high"), [(2, 1), (float("nan"), 1), (0, float("inf"))])
def test_limits_the_wrong_way_round_are_none(low, high):
    with pytest.raises(ValueError, match="lower limit"):
        Limits(low, high)
