"""What is still suspect, as it is told."""

from dataclasses import dataclass

from faulttree.core.bench.suspects import Suspect
from faulttree.core.suspects.evidence import Read
from faulttree.core.suspects.explain import Speaks


@dataclass(frozen=True, slots=True)
class Ranked:
    """One suspect.

    Attributes:
        suspect: which.
        share: probability that it is there, alone or as one of two.
        before: the same before the last reading.
        prior: the same before any reading.
        speaks: readings that speak for or against it, the strongest first.
        sightings: the same for stretches in which the complaint showed or stayed away, each told by
            its first reading.
    """

    suspect: Suspect
    share: float
    before: float
    prior: float
    speaks: tuple[Speaks, ...]
    sightings: tuple[Speaks, ...] = ()


@dataclass(frozen=True, slots=True)
class Together:
    """Two suspects that may be there at once, how likely that is, and was before the last
    reading."""

    one: Suspect
    other: Suspect
    share: float
    before: float = 0.0


@dataclass(frozen=True, slots=True)
class Suspicion:
    """What is still suspect.

    Attributes:
        reads: the readings it rests on; `Speaks.reading` counts among them.
        ranked: all suspects, the likeliest first.
        none, none_before: that it is none of these, or nothing at all, and that before the last
            reading.
        together: pairs, the likeliest first; none where single faults explain the readings.
    """

    reads: tuple[Read, ...]
    ranked: tuple[Ranked, ...]
    none: float
    none_before: float
    together: tuple[Together, ...] = ()
