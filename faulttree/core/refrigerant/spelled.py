"""How people write the name of a refrigerant: R134a, r 134 a, HFC-134a, R-12, CFC 12."""

import re

from faulttree.core.refrigerant.refrigerant import Refrigerant

_FAMILIES = ("HFC", "HCFC", "CFC", "HFO", "R")
"""What may stand before the number: chemical families, and R for refrigerant (ISO 817)."""
_NAME = re.compile(rf"(?:{'|'.join(_FAMILIES)})?(\d+[A-Z]*)")
_KNOWN = {each.value.upper().removeprefix("R-"): each for each in Refrigerant}


def refrigerant_spelled(text: str) -> Refrigerant | None:
    """The refrigerant that a text names; None where it names none that is known, or more."""
    plain = re.sub(r"[\s.\-‐-―]+", "", text).upper()
    found = _NAME.fullmatch(plain)
    return _KNOWN.get(found[1]) if found else None
