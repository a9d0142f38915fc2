"""All sums are told in one shape, and found by what a technician would type."""

import re

import pytest

from faulttree.core.calc.registry import FAMILIES, SUMS, NoSuchSum, find_sum, fitting

_ID = re.compile(r"[a-z][a-z0-9]*(-[a-z0-9]+)*")
_TITLE_ROOM = 47
"""Columns for a title in the list on a small screen."""


@pytest.mark.parametrize("name", SUMS)
def test_a_sum_says_all_it_should(name):
    the_sum = SUMS[name]
    assert _ID.fullmatch(name)
    assert len(name) < 20
    assert len(the_sum.title) <= _TITLE_ROOM
    assert the_sum.formula
    assert the_sum.symbols
    assert the_sum.source
    names = [each.name for each in the_sum.inputs]
    assert len(set(names)) == len(names)
    assert all(_ID.fullmatch(each) for each in names)
    assert set(the_sum.choose[1]) <= set(names)


@pytest.mark.parametrize("name", SUMS)
def test_needed_inputs_come_first(name):
    the_sum = SUMS[name]
    needed = [the_sum.is_needed(each) for each in the_sum.inputs]
    assert needed == sorted(needed, reverse=True)


def test_no_sum_is_named_twice():
    assert len(SUMS) == sum(len(sums) for _, sums in FAMILIES)


@pytest.mark.parametrize(
    ("typed", "name"),
    [
        ("joint", "joint"),
        ("JOINT", "joint"),
        ("lamp", "lamp"),
        ("fuse", "fuse-current"),
        ("win", "winding-temperature"),
    ],
)
def test_a_name_or_its_beginning_finds_a_sum(typed, name):
    assert find_sum(typed).name == name


@pytest.mark.parametrize(
    ("typed", "words"),
    [
        ("wire", "Did you mean wire-drop or wire-resistance or wire-size or wire-gauge?"),
        ("wirre-drop", "Did you mean wire-drop?"),
        ("bulb", "Did you mean lamp or lamp-at or dew-point?"),
        ("zeppelin", "faulttree calc lists them all."),
    ],
)
def test_a_name_that_is_none_is_told_with_what_comes_near(typed, words):
    with pytest.raises(NoSuchSum, match=re.escape(words)):
        find_sum(typed)


@pytest.mark.parametrize(
    ("typed", "first"),
    [
        ("", "joint"),
        ("fus", "fuse-current"),
        ("lamp", "lamp"),
        ("bulb", "lamp"),
        ("parasitic", "fuse-current"),
        ("ntc", "thermistor-points"),
        ("ghost", "ghost-voltage"),
        ("days", "stand-time"),
        ("awg", "wire-gauge"),
        ("clutch", "clutch-pull-in"),
        ("clutch coil", "coil-current"),
        ("relay coil", "coil-current"),
        ("wet bulb", "dew-point"),
        ("expansion valve", "superheat"),
        ("retrofit", "conversion-charge"),
        ("empty refrigerant", "static-check"),
        ("normal pressure", "gauge-windows"),
        ("pressure temperature chart", "saturation"),
        ("request line", "pulled-up"),
        ("defogger", "parallel"),
        ("intermittent repair", "clean-cycles"),
    ],
)
def test_what_is_typed_finds_sums(typed, first):
    assert fitting(typed)[0].name == first


def test_what_fits_nothing_finds_nothing():
    assert fitting("zeppelin") == []
    assert len(fitting("  ")) == len(SUMS)
