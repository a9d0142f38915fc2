"""Which columns of a trace file are read, and in which units."""

from collections.abc import Callable, Sequence
from dataclasses import dataclass
from typing import TypeVar

from faulttree.core.trace.arrays import Floats
from faulttree.core.trace.layout import Layout
from faulttree.core.trace.lines import TraceRefused
from faulttree.core.trace.moments import UNKNOWN, Origin, TimeKind, origin_in
from faulttree.core.trace.names import (
    MEASURED,
    tells_time,
    unit_in,
    unit_spelled,
    without_unit,
)
from faulttree.core.units import Quantity, Unit

_TIME = (Quantity.TIME,)
Number = TypeVar("Number", float, Floats)


@dataclass(frozen=True, slots=True)
class Wanted:
    """What was asked for of a file; what is None is found out from its header.

    Attributes:
        column, time: the column of the readings and that of the times, by name or number from 1.
        unit, time_unit: how their units are spelled.
        rate_hz: samples a second, in place of a column of times.
        separator, decimal: how numbers are written, as in `layout.Style`.
    """

    column: str | None = None
    time: str | None = None
    unit: str | None = None
    time_unit: str | None = None
    rate_hz: float | None = None
    separator: str | None = None
    decimal: str | None = None


@dataclass(frozen=True, slots=True)
class Columns:
    """The columns that are read.

    Attributes:
        value: index of the column of readings.
        name: what it is called.
        unit: the unit its numbers are in.
        time: index of the column of times; None where a rate tells the time.
        time_kind: how it tells the time.
        time_name: what it is called.
        time_unit_s: seconds in one of its units, where it holds numbers.
        origin: what its stamps are counted from: day and zone of the first line.
        rate_hz: samples a second, where there is no such column.
    """

    value: int
    name: str
    unit: Unit
    time: int | None
    time_kind: TimeKind = TimeKind.NUMBER
    time_name: str = ""
    time_unit_s: float = 1.0
    origin: Origin = UNKNOWN
    rate_hz: float = 0.0

    @property
    def is_clock(self) -> bool:
        """Whether times begin anew at midnight."""
        return self.time is not None and self.time_kind is TimeKind.CLOCK

    def in_seconds(self, told: Number) -> Number:
        """Times told as numbers [s], one or many; 10 ms is the number nearest to 0.01 s."""
        unit_s = self.time_unit_s
        return told * unit_s if unit_s >= 1 else told / round(1 / unit_s)


def choose_columns(layout: Layout, wanted: Wanted) -> Columns:
    """Choose the columns that are read.

    Raises:
        TraceRefused: a column is not there, none or several could be meant, or its unit is not
            told; the message says which option settles it.
    """
    time = None if wanted.rate_hz else _time_column(layout, wanted)
    value = _value_column(layout, wanted, time)
    name = without_unit(_plainly(layout, value))
    unit = _unit_of(layout, value, MEASURED, wanted.unit, "--unit")
    if time is None:
        return Columns(value, name, unit, None, rate_hz=wanted.rate_hz or 0.0)
    kind, factor = layout.kinds[time], 1.0
    if kind is TimeKind.NUMBER:
        factor = _unit_of(layout, time, _TIME, wanted.time_unit, "--time-unit").factor
    elif kind is None:
        raise _no_time(layout, time)
    origin = origin_in(layout.sample[time])
    return Columns(value, name, unit, time, kind, _plainly(layout, time), factor, origin)


def _time_column(layout: Layout, wanted: Wanted) -> int:
    if wanted.time is not None:
        return _named(layout, wanted.time, "--time")
    ways: tuple[Callable[[int], bool], ...] = (
        lambda i: layout.kinds[i] is TimeKind.STAMP,
        lambda i: _is_named_time(layout, i) and _is_in_time(layout, i),
        lambda i: layout.kinds[i] is TimeKind.CLOCK,
        lambda i: _is_named_time(layout, i),
        lambda i: _is_in_time(layout, i),
    )
    for way in ways:
        found = [i for i in range(len(layout.kinds)) if way(i)]
        if found:
            return found[0]
    raise TraceRefused(
        "No column is known to tell the time; name it with --time and its unit with --time-unit, "
        f"or say how many samples there are a second with --rate. {_listed(layout)}"
    )


def _is_named_time(layout: Layout, index: int) -> bool:
    is_number = layout.kinds[index] is TimeKind.NUMBER
    return is_number and tells_time(layout.names[index]) and not _unit_told(layout, index, MEASURED)


def _is_in_time(layout: Layout, index: int) -> bool:
    return _unit_told(layout, index, _TIME) is not None


def _value_column(layout: Layout, wanted: Wanted, time: int | None) -> int:
    if wanted.column is not None:
        return _readable(layout, _named(layout, wanted.column, "--column"))
    numbers = [i for i, kind in enumerate(layout.kinds) if kind is TimeKind.NUMBER and i != time]
    told = [i for i in numbers if _unit_told(layout, i, MEASURED)]
    found = told or [i for i in numbers if not _unit_told(layout, i, _TIME)]
    if len(found) == 1:
        return found[0]
    if not found:
        raise TraceRefused(f"No column of readings was found. {_listed(layout)}")
    raise TraceRefused(
        f"Several columns hold readings: {_joined(layout, found)}; choose one with --column."
    )


def _readable(layout: Layout, index: int) -> int:
    if layout.kinds[index] is TimeKind.NUMBER:
        return index
    raise TraceRefused(
        f"{_called(layout, index)} holds no numbers. {_listed(layout)}", layout.first_line
    )


def _named(layout: Layout, name: str, option: str) -> int:
    """The column of a name, in any case of letters; of a part of one; or of a number from 1."""
    wanted = name.strip().casefold()
    for fits in (wanted.__eq__, lambda text: wanted in text):
        found = [i for i, text in enumerate(layout.names) if text and fits(text.casefold())]
        if len(found) == 1:
            return found[0]
        if found:
            raise TraceRefused(f"{option} {name} fits {_joined(layout, found)}; name one of them.")
    if wanted.isdecimal() and 1 <= int(wanted) <= len(layout.kinds):
        return int(wanted) - 1
    raise TraceRefused(f"No column is called “{name}”. {_listed(layout)}")


def _unit_told(layout: Layout, index: int, quantities: Sequence[Quantity]) -> Unit | None:
    row = layout.units[index].strip("()[]{} ")
    return unit_spelled(row, quantities) if row else unit_in(layout.names[index], quantities)


def _unit_of(
    layout: Layout, index: int, quantities: Sequence[Quantity], given: str | None, option: str
) -> Unit:
    example = "s, ms, min or h" if quantities is _TIME else "V, mV, A, mA, °C or °F"
    if given is not None:
        unit = unit_spelled(given, quantities)
        if unit is None:
            raise TraceRefused(f"{option} {given} is no unit that fits; give {example}.")
        return unit
    told = _unit_told(layout, index, quantities)
    if told is None:
        raise TraceRefused(
            f"The header does not say the unit of {_called(layout, index)}; add {option} with "
            f"{example}."
        )
    return told


def _no_time(layout: Layout, index: int) -> TraceRefused:
    return TraceRefused(
        f"{_called(layout, index)} tells no time: “{layout.sample[index]}”; expected numbers, or "
        "times such as 09:30:15.25 or 2026-11-25T09:30:15.25.",
        layout.first_line,
    )


def _plainly(layout: Layout, index: int) -> str:
    return layout.names[index] or f"column {index + 1}"


def _called(layout: Layout, index: int) -> str:
    name = layout.names[index]
    return f"“{name}”" if name else f"column {index + 1}"


def _joined(layout: Layout, indices: Sequence[int]) -> str:
    return ", ".join(_called(layout, i) for i in indices[:12])


def _listed(layout: Layout) -> str:
    return f"The columns are: {_joined(layout, range(len(layout.kinds)))}."
