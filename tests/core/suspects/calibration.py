"""Whether suspects that are said to be so likely are right so often.

    python -m tests.core.suspects.calibration [CARS] [SEED]    # the table of docs/decisions

Many cars are drawn and walked; after every reading the part that is said to be the likeliest is
right or wrong. A part is what is replaced, so it is what a wrong word would sell.
"""

import sys
from collections.abc import Iterator
from dataclasses import dataclass, field
from itertools import pairwise
from pathlib import Path
from random import Random

if __name__ == "__main__":
    sys.path.insert(0, str(Path(__file__).parents[2]))

from benches import TREES
from core.suspects.real_cars import drawn, suspicions, walked

from faulttree.core.suspects.suspicion import Suspicion

EDGES = (0.0, 0.3, 0.5, 0.7, 0.8, 0.9, 0.95, 0.99, 1.0 + 1e-9)
"""Classes of what is said."""


@dataclass
class Class:
    """Parts that were said to be about so likely."""

    low: float
    high: float
    said: list[float] = field(default_factory=list)
    right: int = 0

    @property
    def count(self) -> int:
        """How many."""
        return len(self.said)

    @property
    def mean(self) -> float:
        """What was said, on average."""
        return sum(self.said) / self.count

    @property
    def share(self) -> float:
        """How many of them were right."""
        return self.right / self.count


@dataclass
class Table:
    """What came of some cars.

    Attributes:
        classes: after every reading.
        ends: at the end of every walk.
        n, first, part_first: walks, those that end with the true fault first, or its part.
        worst: what was said of a wrong part at the end of a walk, the most first.
    """

    classes: list[Class] = field(default_factory=lambda: list(_classes()))
    ends: list[Class] = field(default_factory=lambda: list(_classes()))
    n: int = 0
    first: int = 0
    part_first: int = 0
    worst: list[tuple[float, str, str]] = field(default_factory=list)

    def take(self, name: str, cars: int, seed: str) -> "Table":
        """Draw cars of a tree, walk them, and count."""
        chance = Random(f"{name} {seed}")
        for _ in range(cars):
            car = drawn(name, chance)
            told = suspicions(name, walked(name, car, chance))
            assert car.suspect is not None
            for each in told:
                _put(self.classes, *likeliest(each), car.suspect.part)
            part, share = likeliest(told[-1])
            _put(self.ends, part, share, car.suspect.part)
            self.n += 1
            self.first += told[-1].ranked[0].suspect.id == car.suspect.id
            self.part_first += part == car.suspect.part
            if part != car.suspect.part:
                self.worst.append((share, part, car.suspect.id))
        self.worst.sort(reverse=True)
        return self


def likeliest(suspicion: Suspicion) -> tuple[str, float]:
    """The likeliest part, and how likely it is said to be."""
    shares: dict[str, float] = {}
    for each in suspicion.ranked:
        shares[each.suspect.part] = shares.get(each.suspect.part, 0.0) + each.share
    for two in suspicion.together:
        if two.one.part == two.other.part:
            shares[two.one.part] -= two.share
    part = max(shares, key=lambda p: shares[p])
    return part, shares[part]


def _classes() -> Iterator[Class]:
    return (Class(low, high) for low, high in pairwise(EDGES))


def _put(classes: list[Class], part: str, share: float, true: str) -> None:
    found = next(c for c in classes if c.low <= share < c.high)
    found.said.append(share)
    found.right += part == true


def _lines(name: str, table: Table) -> Iterator[str]:
    yield f"{name}: {table.n} cars; true fault first {table.first}, its part {table.part_first}"
    for title, classes in (("after every reading", table.classes), ("at the end", table.ends)):
        for each in (c for c in classes if c.count):
            span = f"{each.low:.0%} to {min(each.high, 1.0):.0%}"
            yield f"  {title}: {span}: n {each.count}, said {each.mean:.1%}, right {each.share:.1%}"
    yield f"  surest and wrong at the end: {table.worst[:3]}"


if __name__ == "__main__":
    cars = int(sys.argv[1]) if len(sys.argv) > 1 else 200
    seed = sys.argv[2] if len(sys.argv) > 2 else "1"
    for tree in TREES:
        for line in _lines(tree, Table().take(tree, cars, seed)):
            sys.stdout.write(f"{line}\n")
