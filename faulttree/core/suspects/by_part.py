"""What is suspect, by what would be replaced or mended: a technician thinks in parts."""

from dataclasses import dataclass

from faulttree.core.suspects.ranking import Ranked, Suspicion
from faulttree.core.suspects.shares import Share, Standing, share_of


@dataclass(frozen=True, slots=True)
class Part:
    """A part with all that may be wrong with it.

    Attributes:
        name: what is replaced or mended, in words.
        share: that something is wrong with it.
        faults: the likeliest first.
    """

    name: str
    share: Share
    faults: tuple[Ranked, ...]

    @property
    def is_cleared(self) -> bool:
        """Whether no fault of it is suspect any more."""
        return self.share.standing is Standing.CLEARED


def by_part(suspicion: Suspicion) -> tuple[Part, ...]:
    """All parts, the likeliest first."""
    faults: dict[str, list[Ranked]] = {}
    for each in suspicion.ranked:
        faults.setdefault(each.suspect.part, []).append(each)
    parts = [
        Part(name, share_of(suspicion, {f.suspect.id for f in its}), tuple(its))
        for name, its in faults.items()
    ]
    return tuple(sorted(parts, key=lambda part: (-part.share.now, part.name)))


def cleared_faults(suspicion: Suspicion) -> tuple[Ranked, ...]:
    """The faults that the readings have cleared, in the order of the likeliest."""
    return tuple(
        each
        for each in suspicion.ranked
        if Share(each.share, each.before, each.prior).standing is Standing.CLEARED
    )
