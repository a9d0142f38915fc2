"""Times as loggers write them: plain numbers, times of day, dates with times of day."""

import re
from datetime import date
from enum import StrEnum
from typing import NamedTuple

DAY_S = 86400
_DAY_0 = date(2000, 1, 1).toordinal()


class Origin(NamedTuple):
    """What stamps are counted from: the beginning of a day in a zone.

    Attributes:
        day: as `day_number` tells it.
        zone_s: how far the zone is ahead of UTC [s].
    """

    day: int = 0
    zone_s: int = 0


class TimeKind(StrEnum):
    """How a column tells the time."""

    NUMBER = "number"
    """A number with a unit, such as seconds since the beginning."""
    CLOCK = "clock"
    """The time of day; it begins anew at midnight."""
    STAMP = "stamp"
    """Date and time of day."""


_CLOCK = (
    r"(?P<h>\d{1,2}):(?P<m>\d{2}):(?P<s>\d{2})(?:[.,](?P<f>\d{1,9}))?(?:\s*(?P<half>[AaPp])[Mm])?"
)
_DATE = (
    r"(?:(?P<year>\d{4})(?P<sign>[-/.])(?P<month>\d{2})(?P=sign)(?P<day>\d{2})"
    r"|(?P<day2>\d{2})\.(?P<month2>\d{2})\.(?P<year2>\d{4}))"
)
_ZONE = r"\s*(?P<zone>[Zz]|[+-]\d{2}(?::?\d{2})?)?"
_CLOCK_CELL = re.compile(_CLOCK, re.ASCII)
_STAMP_CELL = re.compile(rf"{_DATE}(?:[Tt]|\s+|,\s*){_CLOCK}{_ZONE}", re.ASCII)
UNKNOWN = Origin()
"""The origin where no stamp tells one."""
FORMS = "09:30:15.25, 2026-11-25T09:30:15.25 or 25.11.2026 09:30:15"
"""The forms of times that are read, for sentences; dates and times as in ISO 8601, or day first."""


def kind_of(text: str) -> TimeKind | None:
    """The kind of a cell that holds a time of day, with or without a date; None for any other."""
    if moment_in(text, TimeKind.CLOCK) is not None:
        return TimeKind.CLOCK
    return TimeKind.STAMP if moment_in(text, TimeKind.STAMP) is not None else None


def moment_in(text: str, kind: TimeKind, origin: Origin = UNKNOWN) -> float | None:
    """Seconds since midnight, or since the origin of stamps.

    Args:
        text: the cell.
        kind: clock time or stamp.
        origin: what stamps are counted from; one that names no zone is in that of the origin.

    Returns:
        The seconds [s]; None where the cell holds no such time.
    """
    form = _CLOCK_CELL if kind is TimeKind.CLOCK else _STAMP_CELL
    match = form.fullmatch(text)
    seconds = _seconds_of_day(match) if match else None
    if match is None or seconds is None:
        return None
    if kind is TimeKind.STAMP:
        day = _day(match)
        if day is None:
            return None
        seconds += whole_seconds(day, match["zone"] or "", origin)
    fraction = match["f"] or ""
    return seconds_from(seconds, int(fraction or 0), len(fraction))


def whole_seconds(day: int, zone: str, origin: Origin) -> int:
    """Seconds from the origin to the beginning of a day in a zone."""
    ahead = zone_s(zone) - origin.zone_s if zone else 0
    return (day - origin.day) * DAY_S - ahead


def seconds_from(whole: int, fraction: int, digits: int) -> float:
    """Whole seconds and decimals as the nearest number: 12 s and 5 of one digit are 12.5 s."""
    ticks = 10**digits
    return float((whole * ticks + fraction) / ticks)


def origin_in(text: str) -> Origin:
    """The day and zone of a stamp; the usual origin where the cell holds none."""
    match = _STAMP_CELL.fullmatch(text)
    return Origin(_day(match) or 0, zone_s(match["zone"] or "")) if match else UNKNOWN


def _day(match: re.Match[str]) -> int | None:
    return day_number(*(match[n] or match[f"{n}2"] for n in ("year", "month", "day")))


def day_number(year: str, month: str, day: str) -> int | None:
    """Days since the beginning of 2000; None where there is no such day."""
    try:
        return date(int(year), int(month), int(day)).toordinal() - _DAY_0
    except ValueError:
        return None


def zone_s(text: str) -> int:
    """How far a zone such as `+02:00` is ahead of UTC [s]; 0 where none is told."""
    digits = text.lstrip("+-").replace(":", "")
    if not digits.isdigit():
        return 0
    ahead = int(digits[:2]) * 3600 + int(digits[2:] or 0) * 60
    return -ahead if text.startswith("-") else ahead


def _seconds_of_day(match: re.Match[str]) -> int | None:
    hour, minute, second = int(match["h"]), int(match["m"]), int(match["s"])
    if minute > 59 or second > 60:
        return None
    if match["half"]:
        if not 1 <= hour <= 12:
            return None
        hour = hour % 12 + (12 if match["half"] in "Pp" else 0)
    return hour * 3600 + minute * 60 + second


def shown_clock(seconds: float, decimals: int) -> str:
    """A time of day such as `09:30:15.25`; days that are over are left out."""
    ticks = 10**decimals
    whole, fraction = divmod(round(seconds * ticks), ticks)
    minute, second = divmod(whole % DAY_S, 60)
    text = f"{minute // 60:02d}:{minute % 60:02d}:{second:02d}"
    return f"{text}.{fraction:0{decimals}d}" if decimals else text


def shown_date(day: int) -> str:
    """The date of a `day_number`."""
    return date.fromordinal(_DAY_0 + day).isoformat()
