"""A condenser fan that its own pressure switch turns on and off, over and over.

Running, it brings the pressure below where its switch opens; standing, the pressure rises to where
it closes. Such a car has no steady state. It is shown as it is found just before the fan stops: at
the lowest pressure at which the fan still runs, and so far from the one state to the other as
that pressure is.
"""

import math
from collections.abc import Callable, Sequence

from faulttree.core.bench.loop_runs import Values

Runs = Callable[[Sequence[Values]], Sequence[bool]]
"""Whether the fan of each case runs, given what its loop shows."""
_HALVINGS = 10


def just_before_it_stops(on: Sequence[Values], off: Sequence[Values], runs: Runs) -> list[Values]:
    """What the loops show just before the fan stops.

    Args:
        on: what each loop would settle at with its fan running.
        off: the same with the fan standing; the fan runs at what that shows.
        runs: whether the fan runs.
    """
    low, high = [0.0] * len(on), [1.0] * len(on)
    for _ in range(_HALVINGS):
        middle = [(a + b) / 2 for a, b in zip(low, high, strict=True)]
        running = runs(_between(on, off, middle))
        low = [a if ran else m for a, m, ran in zip(low, middle, running, strict=True)]
        high = [m if ran else b for b, m, ran in zip(high, middle, running, strict=True)]
    return _between(on, off, high)


def _between(on: Sequence[Values], off: Sequence[Values], shares: list[float]) -> list[Values]:
    return [
        {name: _part_way(value, b[name], share) for name, value in a.items()}
        for a, b, share in zip(on, off, shares, strict=True)
    ]


def _part_way(one: float, other: float, share: float) -> float:
    if one == other or not (math.isfinite(one) and math.isfinite(other)):
        return one
    return one + share * (other - one)
