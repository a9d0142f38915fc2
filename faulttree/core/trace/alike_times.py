"""A column of clock times or stamps that are all written alike, made into an array at once."""

import re

import numpy as np

from faulttree.core.trace.alike_numbers import cells_at
from faulttree.core.trace.arrays import Bytes, Floats, Ints
from faulttree.core.trace.lines import text_of
from faulttree.core.trace.moments import (
    DAY_S,
    Origin,
    TimeKind,
    day_number,
    moment_in,
    whole_seconds,
)

_LONGEST = 40
_ZONE = 11
"""The group of a stamp that names the zone."""
_CLOCK = r"(\d{2}):(\d{2}):(\d{2})(?:[.,](\d{1,9}))?"
_DATE = r"(?:(\d{4})[-/.](\d{2})[-/.](\d{2})|(\d{2})\.(\d{2})\.(\d{4}))"
_FORMS = {
    TimeKind.CLOCK: re.compile(_CLOCK, re.ASCII),
    TimeKind.STAMP: re.compile(rf"{_DATE}[Tt ]{_CLOCK}([Zz]|[+-]\d{{2}}:?\d{{2}})?", re.ASCII),
}


def times_alike(
    text: Bytes, begins: Ints, ends: Ints, kind: TimeKind, origin: Origin
) -> Floats | None:
    """The times of a column's cells [s], as `moments.moment_in` tells them.

    Args:
        text: a block.
        begins, ends: where each cell begins and ends in it.
        kind: clock times or stamps.
        origin: what stamps are counted from.

    Returns:
        None where the cells are not all written like the first, or one holds no time.
    """
    width = int(ends[0] - begins[0])
    if not 0 < width <= _LONGEST or (ends - begins != width).any():
        return None
    cells = cells_at(text, ends, width)
    first = text_of(cells[0].tobytes())
    match = _FORMS[kind].fullmatch(first)
    if match is None or moment_in(first, kind) is None or not _are_alike(cells, match):
        return None
    clock = 1 if kind is TimeKind.CLOCK else 7
    seconds = _seconds_of_day(cells, match, clock)
    if seconds is None:
        return None
    if kind is TimeKind.STAMP:
        days = _days(cells[:, : match.end(6) if match[6] else match.end(3)], match)
        if days is None:
            return None
        seconds = seconds + days * DAY_S + whole_seconds(0, match[_ZONE] or "", origin)
    return _with_decimals(cells, match, clock + 3, seconds)


def _are_alike(cells: Bytes, match: re.Match[str]) -> bool:
    """Whether digits stand where the first cell has digits, and the same signs elsewhere.

    A zone of time has to be the same in all of them.
    """
    is_digit = (cells >= ord("0")) & (cells <= ord("9"))
    is_free = is_digit[0].copy()
    if len(match.groups()) >= _ZONE and match[_ZONE]:
        is_free[slice(*match.span(_ZONE))] = False
    same = cells[:, ~is_free] == cells[0, ~is_free]
    return bool((is_digit == is_digit[0]).all() and same.all())


def _number(cells: Bytes, begin: int, end: int) -> Ints:
    number = np.zeros(len(cells), np.int64)
    for place in range(begin, end):
        number = number * 10 + (cells[:, place] - ord("0"))
    return number


def _seconds_of_day(cells: Bytes, match: re.Match[str], group: int) -> Ints | None:
    hour, minute, second = (_number(cells, *match.span(group + i)) for i in range(3))
    if (minute > 59).any() or (second > 60).any():
        return None
    return hour * 3600 + minute * 60 + second


def _days(dates: Bytes, match: re.Match[str]) -> Ints | None:
    """Days since the beginning of 2000; a block holds few dates, each is looked up once."""
    place = np.flatnonzero((dates[1:] != dates[:-1]).any(axis=1)) + 1
    begins = [0, *place.tolist()]
    groups = (1, 2, 3) if match[1] else (6, 5, 4)
    days = []
    for row in begins:
        told = text_of(dates[row].tobytes())
        day = day_number(*(told[slice(*match.span(group))] for group in groups))
        if day is None:
            return None
        days.append(day)
    return np.repeat(np.array(days), np.diff([*begins, len(dates)]))


def _with_decimals(cells: Bytes, match: re.Match[str], group: int, seconds: Ints) -> Floats:
    digits = len(match[group] or "")
    fraction = _number(cells, *match.span(group)) if digits else 0
    told: Floats = (seconds * 10**digits + fraction) / 10**digits
    return told
