"""A trace read in blocks of any size is the trace read at once: gaps, setbacks, missing cells."""

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from traces import analysed

from faulttree.core.trace import picking, sampler, steps
from faulttree.core.trace.limits import Counting
from faulttree.core.trace.lines import TraceRefused

CELLS = st.sampled_from(["13.8", "13.7", "5.0", "11.5", "", "NaN", "OL", "12.9"])
STEPS = st.sampled_from([0.01, 0.01, 0.01, 0.012, 0.5, 0.0, -0.3])


@st.composite
def files(draw):
    rows = draw(st.lists(st.tuples(STEPS, CELLS), min_size=3, max_size=40))
    time, text = 1.0, "t_s,volts\n1,13.8\n1.01,13.8\n"
    for step, cell in rows:
        time += step
        text += f"{time:.3f},{cell}\n" + draw(st.sampled_from(["", "", "", "\n", "# noted\n"]))
    return text


def _all_of(findings):
    surveyed = findings.surveyed
    arrays = [
        *(findings.dropouts.begins, findings.dropouts.ends, findings.dropouts.extremes),
        *(findings.dropouts.unseen, findings.dropouts.stretch),
        *(findings.scanned.lows, findings.scanned.highs, surveyed.picked, surveyed.steps),
        *findings.scanned.stretches.gaps,
    ]
    plain = (surveyed.samples, surveyed.missing, surveyed.setbacks, surveyed.sampling)
    return [array.tolist() for array in arrays], plain, findings.recorded_s, findings.limits


@given(text=files(), lines=st.integers(1, 12))
@settings(max_examples=60)
def test_blocks_of_any_size_give_the_same(text, lines):
    asked = {"low": "11", "high": "12", "counting": Counting(0.03, 0.015)}
    with pytest.MonkeyPatch.context() as patch:
        patch.setattr(steps, "LOOKED_AT", 7)
        patch.setattr(picking, "MOST", 9)
        whole, pieces = (analysed(text, n, **asked) for n in (0, lines))
    np.testing.assert_equal(_all_of(pieces), _all_of(whole))


def _text(*rows):
    return "t_s,volts\n" + "".join(f"{time},{value}\n" for time, value in rows)


def _rows(count, begin=0.0):
    return [(f"{begin + i * 0.01:.2f}", 13.8) for i in range(count)]


def _gaps(findings):
    return [
        (round(b, 6), round(e, 6)) for b, e in zip(*findings.scanned.stretches.gaps, strict=True)
    ]


def test_a_jump_of_time_is_a_gap_and_no_recorded_time():
    findings = analysed(_text(*_rows(10), *_rows(10, begin=5)), low="11")
    assert _gaps(findings) == [(0.09, 5.0)]
    assert findings.recorded_s == pytest.approx(0.2)
    assert findings.surveyed.duration_s == pytest.approx(5.09)


def test_a_step_that_is_a_little_longer_is_no_gap():
    rows = [*_rows(5), ("0.06", 5), *_rows(5, begin=0.07)]
    findings = analysed(_text(*rows), low="11")
    assert _gaps(findings) == []
    assert len(findings.dropouts) == 1


@pytest.mark.parametrize("cell", ["", "NaN", "OL"])
def test_a_missing_reading_is_a_gap(cell):
    rows = _rows(10)
    rows[4], rows[5], rows[6] = ("0.04", 5), ("0.05", cell), ("0.06", 5)
    findings = analysed(_text(*rows), low="11", counting=Counting(merge_s=1))
    assert _gaps(findings) == [(0.04, 0.06)]
    assert len(findings.dropouts) == 2
    assert findings.surveyed.missing == 1


def test_a_column_that_is_logged_more_seldom_has_no_gaps():
    rows = [(time, value if i % 3 == 0 else "") for i, (time, value) in enumerate(_rows(30))]
    findings = analysed(_text(*rows), low="11")
    assert findings.surveyed.is_sparse
    assert (_gaps(findings), findings.surveyed.missing) == ([], 0)
    assert findings.surveyed.sampling.step_s == pytest.approx(0.03)


def test_a_clock_set_back_is_told_and_parts_the_trace():
    rows = [*_rows(10, begin=7), *_rows(10)]
    rows[9], rows[10] = ("7.09", 5), ("0.00", 5)
    findings = analysed(_text(*rows), low="11", counting=Counting(merge_s=1))
    assert findings.surveyed.setbacks == 1
    assert findings.surveyed.first_setback == (12, pytest.approx(7.09))
    assert len(findings.dropouts) == 2
    assert findings.recorded_s == pytest.approx(0.2)
    assert _gaps(findings) == []


def test_midnight_is_no_setback():
    clocks = [f"23:59:5{i}" for i in range(10)] + [f"00:00:0{i}" for i in range(10)]
    text = "clock,volts\n" + "".join(f"{clock},13.8\n" for clock in clocks)
    findings = analysed(text, low="11")
    assert (findings.surveyed.setbacks, _gaps(findings)) == (0, [])
    assert findings.recorded_s == pytest.approx(20)


def test_samples_that_share_one_time_are_known_no_better():
    text = "clock,volts\n" + "".join(f"12:00:{i // 10:02d},13.8\n" for i in range(300))
    sampling = analysed(text, low="11").surveyed.sampling
    assert sampling.step_s == pytest.approx(0.1, rel=0.04)
    assert sampling.resolution_s == 1


def test_a_gap_can_be_named():
    rows = [*_rows(10), *_rows(10, begin=0.3)]
    assert len(_gaps(analysed(_text(*rows), low="11"))) == 1
    assert _gaps(analysed(_text(*rows), low="11", gap_s=1.0)) == []


@pytest.mark.parametrize(
    ("text", "told"),
    [
        (_text((0, 13.8), (1, "")), "Fewer than two readings"),
        (_text((5, 13.8), (5, 13.7), (5, 13.8)), "No time passes"),
    ],
)
def test_what_is_no_trace_is_refused(text, told):
    with pytest.raises(TraceRefused, match=told):
        analysed(text, low="11")


def test_far_too_many_gaps_are_refused(monkeypatch):
    monkeypatch.setattr(sampler, "MOST_STRETCHES", 3)
    rows = [(time, value if i % 3 else "") for i, (time, value) in enumerate(_rows(30))]
    with pytest.raises(TraceRefused, match="--gap"):
        analysed(_text(*rows), low="11")


@given(values=st.lists(st.floats(0, 20), min_size=2, max_size=300), columns=st.integers(1, 40))
def test_no_column_of_the_picture_loses_an_extreme(values, columns):
    rows = [(i, value) for i, value in enumerate(values)]
    findings = analysed(_text(*rows), low="11", picture_columns=columns)
    count = min(columns, len(values))
    edges = np.linspace(0, len(values) - 1, count + 1)
    place = np.clip(np.searchsorted(edges, np.arange(len(values)), "right") - 1, 0, count - 1)
    for column in range(count):
        inside = np.array(values)[place == column]
        assert findings.scanned.lows[column] == inside.min()
        assert findings.scanned.highs[column] == inside.max()


def test_many_readings_are_picked_evenly(monkeypatch):
    monkeypatch.setattr(picking, "MOST", 1000)
    picker = picking.Picker()
    values = np.tile([0.0, 0, 0, 0, 0, 0, 0, 1], 12_500)
    picker.pick(values, np.diff(values, prepend=np.nan))
    picked, _ = picker.picked()
    assert 500 < len(picked) <= 1000
    assert picked.mean() == pytest.approx(1 / 8, abs=0.01)
