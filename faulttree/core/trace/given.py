"""Limits as a person gives them: bare numbers in the unit of the trace, or with a unit."""

import re

from faulttree.core.reading import ReadingRefused, parse_reading
from faulttree.core.trace.limits import Limits, Side
from faulttree.core.trace.lines import TraceRefused
from faulttree.core.units import Unit

_BARE = re.compile(r"[\s\d.,+-]+", re.ASCII)


def limits_given(low: str | None, high: str | None, side: Side, unit: Unit) -> Limits | None:
    """The limits given; None where there are none.

    One limit stands for both: there is no hysteresis then.

    Args:
        low, high: as typed.
        side: where dropouts lie.
        unit: the unit of the trace.

    Raises:
        TraceRefused: a limit is no value of the trace, or they are the wrong way round.
    """
    begin, other = ("--low", high) if side is Side.BELOW else ("--high", low)
    if (low if side is Side.BELOW else high) is None:
        if other is None:
            return None
        raise TraceRefused(f"Give {begin} as well: it is the limit that begins a dropout.")
    numbers = [_number(text, unit) for text in (low or high or "", high or low or "")]
    if numbers[0] > numbers[1]:
        raise TraceRefused("--low lies above --high; give the lower limit with --low.")
    return Limits(numbers[0], numbers[1], side)


def _number(text: str, unit: Unit) -> float:
    typed = f"{text} {unit.symbol}" if _BARE.fullmatch(text) else text
    try:
        value = parse_reading(typed, unit.quantity).value
    except ReadingRefused as error:
        raise TraceRefused(f"{text} is no limit: {error}") from None
    return float(f"{unit.from_si(value):.12g}")
