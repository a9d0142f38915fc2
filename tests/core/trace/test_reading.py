"""Text made into arrays: the same all at once as line by line, and the numbers that are written."""

import math
from datetime import datetime

import numpy as np
import pytest
from hypothesis import example, given, settings
from hypothesis import strategies as st

from faulttree.core.trace.alike import read_alike
from faulttree.core.trace.block import BlockReader, read_each
from faulttree.core.trace.header import Wanted, choose_columns
from faulttree.core.trace.layout import layout_of
from faulttree.core.trace.lines import Block, TraceRefused
from faulttree.core.trace.numbers import number_in

CELLS = st.one_of(
    st.floats(-1e6, 1e6).map(repr),
    st.decimals(-999, 999, places=3).map(str),
    st.integers(-(10**17), 10**17).map(str),
    st.sampled_from(
        [
            *("", "NaN", "OL", "-", "---", " 1.5", "1.5  ", "+.5", "7.", "-0.0", "1e-3", "2E5"),
            *("1e999", "x", "1.2.3", "1-2", "1 2", ".", "1_0", "0x1", "\u22125", "12,5", "é"),
            *("inf", "nan ", "  ", "00012.5000", "-.", "+", "1e", "5e-07"),
        ]
    ),
)
STAMPS = st.datetimes(datetime(2020, 1, 1), datetime(2030, 1, 1)).map(
    lambda when: when.isoformat(timespec="milliseconds")
)
ZONES = st.sampled_from(["", "Z", "+01:00", "-0530"])
LINES = st.sampled_from(["", "# a comment", "   ", "% b", "1,2,3", "1"])


def _read(text, **wanted):
    layout = layout_of(text)
    return layout, choose_columns(layout, Wanted(**wanted))


def _each_way(block, layout, columns):
    """What both ways say; None where the quick one leaves a block alone."""
    try:
        each = read_each(block, layout, columns)
    except TraceRefused:
        each = None
    return read_alike(block, layout, columns), each


def _assert_same(alike, each):
    assert each is not None
    assert alike.times.tolist() == each.times.tolist()
    assert [repr(v) for v in alike.values] == [repr(v) for v in each.values]
    assert alike.lines.tolist() == each.lines.tolist()
    empty = [[] if r.is_empty is None else r.is_empty.tolist() for r in (alike, each)]
    assert empty[0] == empty[1]


@given(cells=st.lists(CELLS, min_size=1, max_size=30), separator=st.sampled_from(",;\t"))
@example(cells=["1", "1.2.3", "-"], separator=",")
@settings(max_examples=200)
def test_a_block_read_at_once_is_what_it_is_line_by_line(cells, separator):
    layout, columns = _read(f"t_s{separator}volts\n0{separator}1.5\n1{separator}2.5\n")
    lines = "".join(f"{i}.25{separator}{cell}\n" for i, cell in enumerate(cells))
    alike, each = _each_way(Block(lines.encode(), 2), layout, columns)
    if alike is not None:
        _assert_same(alike, each)


@given(values=st.lists(st.one_of(st.floats(-1e9, 1e9).map(repr), LINES), max_size=20))
def test_lines_out_of_the_ordinary_are_left_to_the_other_way(values):
    layout, columns = _read("volts\n1.5\n2.5\n", rate_hz=10)
    block = Block("".join(f"{value}\n" for value in values).encode(), 2)
    alike, each = _each_way(block, layout, columns)
    if alike is not None:
        _assert_same(alike, each)


@given(numbers=st.lists(st.floats(-1e9, 1e9), min_size=1, max_size=50))
def test_numbers_are_those_that_are_written(numbers):
    layout, columns = _read("volts\n1.5\n2.5\n", rate_hz=10)
    lines = "".join(f"{number!r}\n" for number in numbers)
    assert read_alike(Block(lines.encode(), 1), layout, columns).values.tolist() == numbers


@given(numbers=st.lists(st.decimals(-9999, 9999, places=4), min_size=1, max_size=50))
def test_decimal_commas_are_decimal_points(numbers):
    layout, columns = _read("t_s;volts\n0;1,5\n1;2,5\n")
    lines = "".join(f"0;{number}\n".replace(".", ",") for number in numbers)
    alike = read_alike(Block(lines.encode(), 1), layout, columns)
    assert alike.values.tolist() == [float(number) for number in numbers]


@given(stamps=st.lists(STAMPS, min_size=1, max_size=20), zone=ZONES, others=st.booleans())
def test_stamps_are_those_that_the_standard_library_reads(stamps, zone, others):
    first = stamps[0] + zone
    layout, columns = _read(f"when,volts\n{first},1.5\n{first},1.5\n")
    zones = [zone, "+02:00"] if others and zone else [zone]
    texts = [stamp + zones[i % len(zones)] for i, stamp in enumerate(stamps)]
    block = Block("".join(f"{text},1.5\n" for text in texts).encode(), 2)
    alike, each = _each_way(block, layout, columns)
    began = datetime.fromisoformat(texts[0])
    wanted = [(datetime.fromisoformat(text) - began).total_seconds() for text in texts]
    assert (each.times - each.times[0]).tolist() == pytest.approx(wanted, abs=1e-6)
    if alike is not None:
        _assert_same(alike, each)
    assert alike is not None or len(zones) > 1


@pytest.mark.parametrize("blank", ["", "\n"])
def test_a_rate_counts_rows_and_not_lines(blank):
    layout, columns = _read("volts\n1.5\n", rate_hz=10)
    reader = BlockReader(layout, columns)
    first = reader.read(Block(f"volts\n1.5\n{blank}2.5\n".encode(), 1))
    then = reader.read(Block(b"\n3.5\n", 9))
    assert [*first.times, *then.times] == [0, 0.1, 0.2]
    assert then.lines.tolist() == [10]


@pytest.mark.parametrize(
    ("text", "decimal", "number"),
    [
        ("13.81", ".", 13.81),
        ("13,81", ",", 13.81),
        ("-.5e-3", ".", -0.0005),
        ("\u22125", ".", -5.0),
        ("13,81", ".", None),
        ("1.234,5", ",", None),
        ("13.8V", ".", None),
        ("1e999", ".", None),
    ],
)
def test_a_cell_is_a_number_or_not(text, decimal, number):
    assert number_in(text, decimal) == number


@pytest.mark.parametrize("text", ["", "NaN", "nan", "OL", "O.L", "-", "---", "N/A", "Null", "inf"])
def test_what_loggers_write_for_a_missing_reading_is_missing(text):
    assert math.isnan(number_in(text))


@pytest.mark.parametrize(
    ("line", "column", "told"),
    [
        ("3,err", 3, "“err” is no reading"),
        ("3,13.8 V", 3, "“13.8 V” is no reading"),
        ('"3","e\x1brr"', 6, "“e?rr” is no reading"),
        ("x,13.8", 1, "“x” is no time; expected a number"),
        (",13.8", 1, "A reading without a time"),
        ("3", 2, "1 column where the others have 2"),
        ("3,13,8", 6, "3 columns where the others have 2. With decimal commas"),
        ("NaN,13.8", 1, "is no time"),
    ],
)
def test_what_cannot_be_read_is_told_with_its_place(line, column, told):
    layout, columns = _read("t_s,volts\n1,13.8\n2,13.8\n")
    with pytest.raises(TraceRefused, match=told.replace("?", r"\?")) as error:
        BlockReader(layout, columns).read(Block(f"1,13.8\n{line}\n5,13.8\n".encode(), 2))
    assert (error.value.line, error.value.column) == (3, column)


def test_a_last_line_that_was_cut_off_is_left_out_and_told():
    layout, columns = _read("t_s,volts\n1,13.8\n")
    reader = BlockReader(layout, columns)
    rows = reader.read(Block(b"1,13.8\n2,13.8\n3.\n", 2, is_cut=True))
    assert (rows.times.tolist(), reader.cut_line) == ([1, 2], 4)


def test_a_separator_more_at_the_end_of_a_line_does_no_harm():
    layout, columns = _read("t_s,volts\n1,13.8,\n2,13.7,\n")
    rows = BlockReader(layout, columns).read(Block(b"1,13.8,\n2,13.7,\n", 2))
    assert rows.values.tolist() == [13.8, 13.7]
    assert np.isfinite(rows.times).all()
