"""What may be wrong and what was read, as arrays; no tree, no circuit."""

from dataclasses import dataclass
from enum import StrEnum

import numpy as np
from numpy.typing import NDArray

from faulttree.core.suspects.density import Floats

Ints = NDArray[np.intp]


class Sighting(StrEnum):
    """What is known of the complaint while readings were taken."""

    PRESENT = "present"
    ABSENT = "absent"
    UNKNOWN = "unknown"


@dataclass(frozen=True, slots=True)
class Stretch:
    """Readings taken together.

    Attributes:
        sighting: whether the complaint showed.
        readings: indexes of the readings; none for a sighting by itself.
    """

    sighting: Sighting
    readings: tuple[int, ...] = ()

    def without(self, reading: int) -> "Stretch":
        """The same as if one reading had not been taken."""
        return Stretch(self.sighting, tuple(r for r in self.readings if r != reading))


@dataclass(frozen=True, slots=True, eq=False)
class Hypotheses:
    """Single suspects, each in one form.

    Attributes:
        suspect: index of the suspect, shape (n,).
        prior: weight, shape (n,); not normalised.
        for_good: share of the weight under which it is there at every reading, shape (n,).
        chance: chance to be there in a stretch, where it comes and goes, shape (n,).
        shows: chance that the complaint shows while it is there, shape (n,).
        likelihood: of each reading while it is there, shape (n, n_readings).
    """

    suspect: Ints
    prior: Floats
    for_good: Floats
    chance: Floats
    shows: Floats
    likelihood: Floats

    @property
    def n_suspects(self) -> int:
        """How many suspects the hypotheses name."""
        return int(self.suspect.max()) + 1 if len(self.suspect) else 0


@dataclass(frozen=True, slots=True, eq=False)
class Pairs:
    """Two suspects at once; each of them comes and goes, or does not, as it does alone.

    Attributes:
        first, second: indexes of their hypotheses, shape (n_pairs,).
        prior: weight, shape (n_pairs,).
        shows: chance that the complaint shows while both are there, shape (n_pairs,).
        likelihood: of each reading while both are there, shape (n_pairs, n_readings).
    """

    first: Ints
    second: Ints
    prior: Floats
    shows: Floats
    likelihood: Floats

    def up_to(self, n_readings: int) -> "Pairs":
        """The same with the first readings alone."""
        likelihood = self.likelihood[:, :n_readings]
        return Pairs(self.first, self.second, self.prior, self.shows, likelihood)


@dataclass(frozen=True, slots=True, eq=False)
class Evidence:
    """What was read, and what it means without any fault.

    Attributes:
        stretches: the readings, as they were taken together; each reading is in one of them.
        healthy: likelihood of each reading on a healthy car, shape (n_readings,).
        anything: likelihood of each reading under a fault that nobody thought of, where it shows,
            shape (n_readings,).
    """

    stretches: tuple[Stretch, ...]
    healthy: Floats
    anything: Floats

    def without(self, reading: int) -> "Evidence":
        """The same as if one reading had not been taken; how the complaint was stays known."""
        kept = tuple(s.without(reading) for s in self.stretches)
        return Evidence(kept, self.healthy, self.anything)

    def before_the_last(self) -> "Evidence":
        """The same before the last reading; a stretch that began with it had not begun."""
        last = len(self.healthy) - 1
        begun = [s for s in self.stretches if s.readings != (last,)]
        kept = tuple(s.without(last) for s in begun)
        return Evidence(kept, self.healthy[:last], self.anything[:last])
