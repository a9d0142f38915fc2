"""One cell of a trace: a number, or a reading that is missing."""

import math
import re

from faulttree.core.units import with_usual_signs

POINT, COMMA = ".", ","
"""The two signs that part whole numbers from decimals."""
LARGEST_READING = 1e12
"""No reading of a trace is larger, in whatever unit."""
LARGEST_TIME_S = 4e9
"""No time of a trace is further from where times are counted from [s]: 126 years."""
_NUMBER = re.compile(r"[+-]?(?:\d+(?:\.\d*)?|\.\d+)(?:[eE][+-]?\d+)?", re.ASCII)
_MISSING = {
    *("", "nan", "na", "n/a", "#n/a", "null", "none", "?", "*"),
    *("ol", "0l", "o.l", "o.l.", "0.l", "0.l.", "overload", "over range", "inf", "+inf", "-inf"),
}
"""What loggers write where they have no reading: nothing, no number, or over range."""


def is_missing(text: str) -> bool:
    """Whether a cell says that there is no reading: empty, NaN, OL, dashes and the like."""
    return text.strip("-").lower() in _MISSING


def number_in(text: str, decimal: str = POINT) -> float | None:
    """The number that a cell holds.

    Args:
        text: the cell, without blanks around it.
        decimal: the decimal sign; the other one may not occur.

    Returns:
        The number; NaN where the reading is missing, None where the cell holds something else.
    """
    plain = text.translate(_SWAPPED) if decimal == COMMA else text
    if not _NUMBER.fullmatch(plain):
        if is_missing(text):
            return math.nan
        plain = with_usual_signs(plain)
    number = float(plain) if _NUMBER.fullmatch(plain) else math.inf
    return number if math.isfinite(number) else None


_SWAPPED = str.maketrans({COMMA: POINT, POINT: COMMA})


def decimals_of(text: str, decimal: str) -> int:
    """How many decimals a number is written with; 0 for anything else."""
    _, _, behind = text.partition(decimal)
    return len(behind) if behind.isdigit() else 0
