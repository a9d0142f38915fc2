"""A column of numbers made into an array at once.

A number of up to 15 digits is the whole number of its digits, divided by a power of ten: both are
exact in a float, so the quotient is the nearest float to what is written, as reading it sign by
sign would give.
"""

import numpy as np

from faulttree.core.trace.arrays import Bools, Bytes, Floats, Ints
from faulttree.core.trace.lines import text_of
from faulttree.core.trace.numbers import COMMA, POINT, number_in

_LONGEST = 32
_MOST_DIGITS = 15
_ZERO, _BLANK, _PLUS, _MINUS = b"0 +-"
_OF_NUMBERS = np.isin(np.arange(256), list(b"0123456789+-.eE "))
_SWAPPED = np.arange(256, dtype=np.uint8)
_SWAPPED[[ord(POINT), ord(COMMA)]] = ord(COMMA), ord(POINT)
_MOST_ODD = 0.05
"""Share of cells that are no numbers, above which reading line by line is as quick."""


def cells_at(text: Bytes, ends: Ints, width: int) -> Bytes:
    """The bytes before each of these ends, shape (ends, width)."""
    padded = np.concatenate((np.full(width, _BLANK, np.uint8), text))
    windows = np.lib.stride_tricks.sliding_window_view(padded, width)
    return windows[ends]


def numbers_alike(text: Bytes, begins: Ints, ends: Ints, decimal: str) -> Floats | None:
    """The numbers of a column's cells, NaN where one is missing; None where one is no number.

    Args:
        text: a block.
        begins, ends: where each cell begins and ends in it, without blanks around it.
        decimal: the decimal sign.
    """
    widths = ends - begins
    if not len(widths):
        return np.empty(0)
    width = int(widths.max())
    if width > _LONGEST:
        return None
    cells = cells_at(text, ends, max(width, 1))
    numbers = np.full(len(cells), np.nan)
    plain = _put_plain(numbers, cells, widths, text[begins], ord(decimal))
    odd = np.flatnonzero(~plain & (widths > 0))
    if len(odd) and not _put_odd(numbers, cells, widths, odd, decimal):
        return None
    return numbers


def _put_plain(numbers: Floats, cells: Bytes, widths: Ints, first: Bytes, point: int) -> Bools:
    """Put in the numbers that are digits with at most a sign and a point; which those are.

    All is done place by place, on the digits of all cells at once. The cells of a column mostly
    have their points at the same place: those become numbers together.
    """
    digits = np.ascontiguousarray(cells.T) - np.uint8(_ZERO)
    begins = len(digits) - widths
    for place in range(int(begins.max())):
        digits[place] *= begins <= place
    is_signed = ((first == _MINUS) | (first == _PLUS)) & (widths > 1)
    signed = np.flatnonzero(is_signed)
    digits[begins[signed], signed] = 0
    points, places = _take_points(digits, point - _ZERO & 0xFF)
    count = widths - points - is_signed
    plain: Bools = (digits.max(axis=0) <= 9) & (points <= 1) & (count > 0) & (count <= _MOST_DIGITS)
    for place in np.flatnonzero(np.bincount(places[plain])).tolist():
        chosen = plain & (places == place)
        whole = chosen.all()
        numbers[chosen] = _quotients(digits if whole else digits[:, chosen], place)
    np.negative(numbers, out=numbers, where=plain & is_signed & (first == _MINUS))
    return plain


def _take_points(digits: Bytes, point: int) -> tuple[Bytes, Bytes]:
    """How many points each cell has, and at which place; zeros are put there instead."""
    points = np.zeros(digits.shape[1], np.uint8)
    places = np.full(digits.shape[1], len(digits), np.uint8)
    for place, row in enumerate(digits):
        is_point = row == point
        if is_point.any():
            points += is_point
            places[is_point] = place
            row[is_point] = 0
    return points, places


def _quotients(digits: Bytes, point: int) -> Floats:
    """Columns of digits as numbers; the row `point` stands for the decimal point."""
    total = np.zeros(digits.shape[1])
    for place, row in enumerate(digits):
        if place != point:
            total *= 10
            total += row
    return total / 10.0 ** max(0, len(digits) - 1 - point)


def _put_odd(numbers: Floats, cells: Bytes, widths: Ints, odd: Ints, decimal: str) -> bool:
    """Put in numbers with exponents or many digits, and cells without a reading; False if in vain.

    A cell with a digit and nothing but signs of numbers is a number or a mistake.
    """
    letters = cells[odd]
    letters[np.arange(letters.shape[1]) < (letters.shape[1] - widths[odd])[:, None]] = _BLANK
    if decimal == COMMA:
        letters = _SWAPPED[letters]
    has_digit = ((letters >= _ZERO) & (letters < _ZERO + 10)).any(axis=1)
    is_number = has_digit & _OF_NUMBERS[letters].all(axis=1)
    try:
        told = np.ascontiguousarray(letters[is_number]).view(f"S{letters.shape[1]}").astype(float)
    except ValueError:
        return False
    numbers[odd[is_number]] = told.ravel()
    rest = odd[~is_number]
    if not np.isfinite(told).all() or len(rest) > _MOST_ODD * len(cells) + 10:
        return False
    texts = [text_of(cells[row, -widths[row] :].tobytes()).strip() for row in rest]
    found = [number_in(text, decimal) if text else None for text in texts]
    if None in found:
        return False
    numbers[rest] = found
    return True
