"""What an expression is worked out from: readings and vehicle data, and what it can be read as."""

from collections.abc import Callable, Iterable, Mapping

from faulttree.core.uncertain import Uncertain
from faulttree.core.units import Quantity

Values = Mapping[str, Uncertain | str]
"""What the names stand for [SI]; beside them words of the car, under names no text can spell."""
Evaluate = Callable[[Values], Uncertain]
"""Works a part out [SI]; raises CannotWorkOut where these values give no answer."""
Typings = dict[Quantity, Evaluate]
"""Every quantity a part can be read as, each with how it is then worked out."""

REFRIGERANT, ALTITUDE = "refrigerant", "altitude"
"""Vehicle data that functions go by: the fact, and the value [m above sea level]."""
REFRIGERANT_WORD = "{refrigerant}"
"""Where the refrigerant of the car stands among the values, as it was typed."""


def with_refrigerant(values: Mapping[str, Uncertain], told: str | None) -> Values:
    """Values with the refrigerant of the car beside them, if it was told."""
    return {**values, REFRIGERANT_WORD: told} if told else values


def kinds_in_words(kinds: Iterable[Quantity]) -> str:
    """The quantities as a sentence names them: count or ratio."""
    return " or ".join(sorted(kind.words for kind in kinds))
