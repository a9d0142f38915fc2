"""Tries before a repair, as they are typed: `3 of 10`, or `3 of 10 at 90 %`."""

import re

from faulttree.core.proving import USUAL_CONFIDENCE
from faulttree.core.walk.events import TriesCounted
from faulttree.core.walk.results import Recorded, Refused, Result

TRIES_WORDS = "3 of 10, 3 of 10 at 90 %, or none"
"""What may be typed for the tries before a repair."""
TRIES_QUESTION = "Before the repair it showed in how many tries (3 of 10)?"
"""How it is asked for."""
_MOST = 10_000
_COUNT = re.compile(
    r"([0-9]{1,9})\s*(?:of|in|/|out of)\s*([0-9]{1,9})(?:\s*tries)?"
    r"(?:,?\s*(?:at\s*)?([0-9]{1,3}(?:[.,][0-9]+)?)\s*%)?",
    re.IGNORECASE,
)


def read_tries(step_id: str, text: str) -> Result:
    """The count that was typed; it takes the place of an earlier one."""
    if text.strip().lower() == "none":
        return Recorded((TriesCounted(step=step_id, seen=0, tries=0),))
    found = _COUNT.fullmatch(text.strip())
    if found is None:
        return Refused(f"Type in how many of how many tries it showed: {TRIES_WORDS}.")
    seen, tries = int(found[1]), int(found[2])
    if not 1 <= tries <= _MOST or seen > tries:
        return Refused(
            f"“{text.strip()}” cannot be: it showed in some or none of 1 to {_MOST} tries, as in "
            "3 of 10."
        )
    percent = found[3].replace(",", ".") if found[3] else ""
    confidence = round(float(percent) / 100, 6) if percent else USUAL_CONFIDENCE
    if not 0.5 <= confidence <= 0.999:
        return Refused("A confidence lies between 50 and 99.9 %; 95 % is usual.")
    return Recorded((TriesCounted(step=step_id, seen=seen, tries=tries, confidence=confidence),))
