"""How likely it is that one of several suspects is there, and what that means."""

from collections.abc import Collection
from dataclasses import dataclass
from enum import StrEnum

from faulttree.core.suspects.ranking import Suspicion

CLEARED = 0.1
"""What is left of its likelihood before any reading makes a suspect, or a stretch of the circuit,
cleared: less than a tenth. Common practice, no source."""
LIKELY = 0.5
"""Likely is what holds most of the weight."""


class Standing(StrEnum):
    """What the readings have made of a suspect, a part, or a stretch of the circuit."""

    CLEARED = "cleared"
    OPEN = "open"
    LIKELY = "likely"


@dataclass(frozen=True, slots=True)
class Share:
    """A probability: now, before the last reading, and before any."""

    now: float
    before: float
    prior: float

    @property
    def standing(self) -> Standing:
        """Cleared, likely, or neither."""
        if self.now < CLEARED * self.prior:
            return Standing.CLEARED
        return Standing.LIKELY if self.now >= LIKELY else Standing.OPEN


def share_of(suspicion: Suspicion, ids: Collection[str]) -> Share:
    """That at least one of some suspects is there; a pair of them counts once.

    Args:
        suspicion: what is suspect.
        ids: of the suspects.
    """
    there = [each for each in suspicion.ranked if each.suspect.id in ids]
    twos = [t for t in suspicion.together if t.one.id in ids and t.other.id in ids]
    now = sum(each.share for each in there) - sum(each.share for each in twos)
    before = sum(each.before for each in there) - sum(each.before for each in twos)
    prior = sum(each.prior for each in there)
    return Share(max(now, 0.0), max(before, 0.0), prior)
