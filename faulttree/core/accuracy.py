"""Accuracy as makers state it: ± (percent of reading + digits), percent of full scale, an amount.

A maker's figure is a limit of error, not a standard deviation: the true value lies within it.
"""

import re
from dataclasses import dataclass
from typing import Any

from faulttree.core.units import Quantity, units_spelled, with_usual_signs

_PART = re.compile(
    r"(?P<number>\d+(?:\.\d+)?|\.\d+)\s*"
    r"(?:(?P<reading>%(?:\s*of reading)?)|(?P<full_scale>%\s*of full scale)"
    r"|(?P<digits>digits?|counts?)|(?P<fixed>\D+))",
    re.ASCII,
)


@dataclass(frozen=True, slots=True)
class Accuracy:
    """A maker's limit of error.

    Attributes:
        text: what was written.
        reading: share of the reading (0.005 for 0.5 %).
        full_scale: share of the range's upper end.
        digits: steps of the last digit.
        fixed: number and unit that are always added, such as 0.3 ohm for the leads.
    """

    text: str
    reading: float = 0.0
    full_scale: float = 0.0
    digits: float = 0.0
    fixed: tuple[float, str] | None = None

    @classmethod
    def parse(cls, text: str) -> "Accuracy":
        """Read `0.5 % + 2 digits`, `1 % of full scale`, `2 K`, or a sum of such parts.

        Raises:
            ValueError: a part is none of these, or one kind of part stands there twice.
        """
        found: dict[str, Any] = {}
        for part in with_usual_signs(text).replace("±", "").split("+"):
            kind, amount = _read_part(part.strip())
            if kind in found:
                raise ValueError(f"“{text.strip()}” says the same twice; add both up in one part")
            found[kind] = amount
        return cls(text.strip(), **found)

    def fixed_si(self, quantity: Quantity) -> float:
        """The fixed amount [SI, without offset]; zero without one or in another unit."""
        if self.fixed is None:
            return 0.0
        number, spelling = self.fixed
        factor = next((u.factor for u in units_spelled(spelling) if u.quantity is quantity), 0.0)
        return number * factor

    @classmethod
    def __get_pydantic_core_schema__(cls, _source: Any, _handler: Any) -> Any:
        """Let a document field be an accuracy, written as text."""
        from pydantic_core import core_schema

        return core_schema.no_info_after_validator_function(
            cls.parse,
            core_schema.str_schema(strict=True),
            serialization=core_schema.plain_serializer_function_ser_schema(lambda a: a.text),
        )


def limit_of_error(value: float, accuracy: Accuracy, resolution: float, full_scale: float) -> float:
    """± (percent of reading + percent of full scale + digits x resolution), as makers state it.

    The fixed amount has a unit of its own and is not in it; see `Accuracy.fixed_si`.

    Args:
        value: what the instrument shows [any unit].
        accuracy: the maker's figures.
        resolution: the last digit, in the same unit.
        full_scale: upper end of the range, in the same unit.

    Returns:
        How far off the value may be, either way, in the same unit.
    """
    return (
        accuracy.reading * abs(value)
        + accuracy.full_scale * full_scale
        + accuracy.digits * resolution
    )


def _read_part(part: str) -> tuple[str, float | tuple[float, str]]:
    """The attribute of an accuracy that a part sets, and to what."""
    match = _PART.fullmatch(part)
    if match is None or (match["fixed"] and not units_spelled(match["fixed"])):
        raise ValueError(
            f"“{part}” is no accuracy; write 0.5 % + 2 digits, 1 % of full scale, "
            "or an amount such as 2 K"
        )
    kind, number = match.lastgroup or "", float(match["number"])
    if kind == "fixed":
        return kind, (number, match["fixed"])
    return kind, number if kind == "digits" else number / 100
