"""How one car settles whose circuit and refrigerant loop work on each other, round by round.

Two have no steady state. A clutch that a cut-out lets go, and takes back once the pressure has
fallen, is shown as it is found when it has just let go, with the pressures that did it. A fan that
its own pressure switch turns on and off keeps what its loop shows with it running and standing.
"""

import math
from dataclasses import dataclass, field

from faulttree.core.bench.loop_runs import Drawn, Values

SAME = 0.02
"""Shares of speed that differ by less are the same."""


@dataclass(slots=True)
class Course:
    """What motors and clutch of a car do, and what its loop shows then.

    Attributes:
        drawn, values: of the last round.
        fan: what the loop shows with the fan running, and standing, where it does both by turns.
        is_over: whether another round changes nothing.
    """

    drawn: Drawn
    values: Values
    fan: tuple[Values, Values] | None = None
    is_over: bool = False
    _before: tuple[Drawn, Values] | None = None
    _engaged: Values = field(default_factory=dict)

    def __post_init__(self) -> None:
        self._engaged = self.values

    def answers(self, now: Drawn) -> None:
        """Takes what motors and clutch do at what the loop showed last."""
        if self.is_over:
            return
        if self._before and self._is_fan_back(self._before[0], now):
            self.fan = self._before[1], self.values
        elif now.is_engaged and not self.drawn.is_engaged:
            # It comes back once its loop stands, so what its loop showed had let it go.
            self.values = self._engaged
        elif not _alike(now, self.drawn):
            return
        self.is_over = True

    def goes_on(self, now: Drawn, values: Values) -> None:
        """Takes what the loop shows then."""
        if self.is_over:
            return
        self._before = self.drawn, self.values
        self.drawn, self.values = now, values
        if now.is_engaged:
            self._engaged = values

    def _is_fan_back(self, before: Drawn, now: Drawn) -> bool:
        pumped = before.is_engaged and self.drawn.is_engaged
        return pumped and self.drawn.fan < min(before.fan, now.fan) - SAME


def _alike(one: Drawn, other: Drawn) -> bool:
    return (
        one.is_engaged == other.is_engaged
        and math.isclose(one.fan, other.fan, abs_tol=SAME)
        and math.isclose(one.blower, other.blower, abs_tol=SAME)
    )
