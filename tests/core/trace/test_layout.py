"""What stands where in a file: separators, headers, units, and what is asked where they fail."""

import pytest

from faulttree.core.trace.header import Wanted, choose_columns
from faulttree.core.trace.layout import layout_of
from faulttree.core.trace.lines import TraceRefused
from faulttree.core.trace.moments import TimeKind
from faulttree.core.trace.names import unit_in
from faulttree.core.units import Quantity


def _columns(text, **wanted):
    layout = layout_of(text, wanted.get("separator"), wanted.get("decimal"))
    return layout, choose_columns(layout, Wanted(**wanted))


@pytest.mark.parametrize(
    ("text", "style", "first_line"),
    [
        ("t_s,volts\n0,13.8\n0.1,13.7\n", (",", "."), 2),
        ("t_s;volts\n0,0;13,8\n0,1;13,7\n", (";", ","), 2),
        ("t_s;volts\n0.0;13.8\n", (";", "."), 2),
        ("t_s\tvolts\n0,0\t13,8\n", ("\t", ","), 2),
        ('t_s,volts\n"0,0","13,8"\n', (",", ","), 2),
        ("volts\n13,8\n13,7\n", ("", ","), 2),
        ("t_s,volts\n0, 13\n1, 14\n", (",", "."), 2),
        ("# a, b\n\nDevice;x\nt_s;volts\n0;13,8\n", (";", ","), 5),
        ("Logger 7\nRate,100\nt_s,volts\n\n0,13.8\n1,13.7\n2,13.6\n", (",", "."), 5),
        ("Time,Feed\n(ms),(V)\n\n0,13.8\n", (",", "."), 4),
        ("t_s,volts,\n0,1,\n1,2,\n", (",", "."), 2),
    ],
)
def test_how_numbers_are_written_is_found_out(text, style, first_line):
    layout, columns = _columns(text, rate_hz=1)
    assert (layout.style.separator, layout.style.decimal) == style
    assert layout.first_line == first_line
    assert columns.unit.symbol == "V"


def test_what_is_given_is_not_found_out():
    layout = layout_of("13,81\n14,02\n")
    assert layout.style.separator == ","
    layout = layout_of("13,81\n14,02\n", "", ",")
    assert (len(layout.kinds), layout.style.decimal) == (1, ",")


@pytest.mark.parametrize(
    ("header", "unit_s", "unit", "name"),
    [
        ("Time (ms),Feed [mV]", 0.001, "mV", "Feed"),
        ("t_s,volts", 1.0, "V", "volts"),
        ("Zeit in s,U/V", 1.0, "V", "U/V"),
        ("elapsed [min],lamp current (A)", 60.0, "A", "lamp current"),
        ("time_us,Temp °C", 1e-6, "°C", "Temp °C"),
        ("TIME_MS,Fahrenheit", 0.001, "°F", "Fahrenheit"),
        ("seconds,CH1 V", 1.0, "V", "CH1 V"),
    ],
)
def test_columns_and_units_are_found_from_the_header(header, unit_s, unit, name):
    _, columns = _columns(f"{header}\n0,13.8\n1,13.7\n")
    assert (columns.time_unit_s, columns.unit.symbol, columns.name) == (unit_s, unit, name)


@pytest.mark.parametrize(
    "name", ["Channel A", "Probe C", "A", "bank_f", "voltage", "min", "K-type"]
)
def test_a_letter_that_may_be_a_name_is_no_unit(name):
    assert unit_in(name, (Quantity.VOLTAGE, Quantity.CURRENT, Quantity.TEMPERATURE)) is None


@pytest.mark.parametrize(
    ("cell", "kind"),
    [
        ("09:30:15", TimeKind.CLOCK),
        ("9:30:15.250 PM", TimeKind.CLOCK),
        ("2026-11-25T09:30:15.25", TimeKind.STAMP),
        ("2026-11-25 09:30:15+01:00", TimeKind.STAMP),
        ("25.11.2026 09:30:15", TimeKind.STAMP),
        ("2026/11/25 09:30:15", TimeKind.STAMP),
    ],
)
def test_times_of_day_are_known_whatever_their_column_is_called(cell, kind):
    _, columns = _columns(f"x,volts\n{cell},13.8\n{cell},13.7\n")
    assert (columns.time, columns.time_kind) == (0, kind)


def test_a_minimum_is_not_taken_for_minutes():
    _, columns = _columns("min,max,t_s\n1,2,0\n1,2,1\n", column="min", unit="V")
    assert columns.time == 2
    assert unit_in("min", (Quantity.TIME,)) is None


def test_columns_are_named_by_name_part_of_one_or_number():
    text = "t_s,Feed (V),Ground drop (V)\n0,1,2\n1,1,2\n"
    for name in ("Ground drop (V)", "ground", "3"):
        assert _columns(text, column=name)[1].value == 2
    assert _columns(text, column="feed", time="1")[1].time == 0


@pytest.mark.parametrize(
    ("text", "wanted", "told"),
    [
        ("", {}, "file is empty"),
        ("\n# only\n", {}, "file is empty"),
        ("hello\nworld\n", {}, "No lines of numbers"),
        ("t_s,volts\n", {}, "No lines of numbers"),
        ("t_s,a (V),b (V)\n0,1,2\n", {}, "Several columns hold readings: “a \\(V\\)”, “b \\(V\\)”"),
        ("t_s,volts\n0,1\n", {"column": "amps"}, "No column is called “amps”. The columns are"),
        ("t_s,a1 (V),a2 (V)\n0,1,2\n", {"column": "a"}, "--column a fits “a1 \\(V\\)”, “a2"),
        ("t_s,voltage\n0,1\n", {}, "unit of “voltage”; add --unit with V"),
        ("time,volts\n0,1\n", {}, "unit of “time”; add --time-unit with s"),
        ("t_s,volts\n0,1\n", {"unit": "ohm"}, "--unit ohm is no unit that fits"),
        ("0,1\n1,2\n", {}, "No column is known to tell the time"),
        ("t_s,volts,what\n0,1,x\n1,2,y\n", {"column": "what"}, "“what” holds no numbers"),
        ("t_s,volts,what\n0,1,x\n1,2,y\n", {"time": "what"}, "“what” tells no time: “x”"),
        ("t_s,volts\n0,1,2,3\n1,1,2,3\n", {}, "above has 2 columns and this one 4"),
        ("t_s,rpm\n0,1\n", {"column": "t_s", "time": "9"}, "No column is called “9”"),
    ],
)
def test_what_the_header_does_not_settle_is_asked_for(text, wanted, told):
    with pytest.raises(TraceRefused, match=told):
        _columns(text, **wanted)
