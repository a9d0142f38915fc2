"""What a word without quotes means: the core table of YAML 1.2, and nothing more.

`on`, `off`, `yes` and `no` are words, `012` is twelve, dates, `1_000` and `0b1` are texts.

Source: YAML Ain't Markup Language, version 1.2.2, 2021, section 10.3.2 (tag resolution).
"""

import math
import re

Scalar = str | int | float | bool | None

MAX_NUMBER = 40
"""The longest number that is read [characters]; a measured value needs fewer than twenty."""

_WORDS: dict[str, bool | None] = {
    "": None,
    "~": None,
    "null": None,
    "Null": None,
    "NULL": None,
    "true": True,
    "True": True,
    "TRUE": True,
    "false": False,
    "False": False,
    "FALSE": False,
}

_FIRST_SIGNS = frozenset("+-.0123456789").union(word[:1] for word in _WORDS)
"""What a number or one of the words begins with; nearly all texts begin with something else."""

_NUMBER = re.compile(
    r"(?P<decimal>[-+]?[0-9]+)"
    r"|(?P<octal>0o[0-7]+)"
    r"|(?P<hex>0x[0-9a-fA-F]+)"
    r"|(?P<fraction>[-+]?(?:\.[0-9]+|[0-9]+(?:\.[0-9]*)?)(?:[eE][-+]?[0-9]+)?)"
    r"|(?P<endless>[-+]?\.(?:inf|Inf|INF)|\.(?:nan|NaN|NAN))"
)


class NumberError(ValueError):
    """A number that cannot be used; its text says why."""


def plain_value(text: str) -> Scalar:
    """The value of a scalar written without quotes.

    Raises:
        NumberError: the number is longer than `MAX_NUMBER`, too large, or not finite.

    Example:
        >>> plain_value("12.6"), plain_value("off"), plain_value("~")
        (12.6, 'off', None)
    """
    if text[:1] not in _FIRST_SIGNS:
        return text
    if text in _WORDS:
        return _WORDS[text]
    found = _NUMBER.fullmatch(text)
    if found is None:
        return text
    return _number(text, str(found.lastgroup))


def _number(text: str, kind: str) -> int | float:
    if kind == "endless":
        raise NumberError(f"`{text}` is not a finite number")
    if len(text) > MAX_NUMBER:
        raise NumberError(f"a number of {len(text):,} characters; {MAX_NUMBER} are the most")
    if kind == "decimal":
        return int(text)
    if kind == "octal":
        return int(text[2:], 8)
    if kind == "hex":
        return int(text[2:], 16)
    value = float(text)
    if not math.isfinite(value):
        raise NumberError(f"`{text}` is too large for a number")
    return value
