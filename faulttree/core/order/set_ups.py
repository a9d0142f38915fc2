"""How the car is set up, as a number, and what it takes to change it.

A test needs some set-ups in some states and leaves them so. Nothing is set up before a test needs
it: doing it earlier would cost the same or more. What a plan leaves as it is at its end costs
nothing; the repair undoes it, or goes on from it.
"""

from collections.abc import Iterable, Mapping, Sequence

from faulttree.core.order.problem import SetUp, Test

Needs = tuple[tuple[int, int], ...]
"""Set-ups by index, each with the index of the state it must be in."""


class SetUps:
    """Every way that a car can be set up. Way 0 is how it comes in."""

    def __init__(self, set_ups: Sequence[SetUp]) -> None:
        self.names = tuple(each.name for each in set_ups)
        self._states = [_states(each) for each in set_ups]
        self._minutes = [
            [each.minutes[state] for state in states]
            for each, states in zip(set_ups, self._states, strict=True)
        ]
        self._steps: list[int] = []
        self.size = 1
        for states in self._states:
            self._steps.append(self.size)
            self.size *= len(states)

    def needs(self, test: Test) -> Needs:
        """What a test needs, in numbers."""
        return tuple(
            (n, self._states[n].index(test.needs[name]))
            for n, name in enumerate(self.names)
            if name in test.needs
        )

    def number(self, states: Mapping[str, str]) -> int:
        """The way in which these set-ups are in these states, the others as at first."""
        given = (
            (n, self._states[n].index(states[name]))
            for n, name in enumerate(self.names)
            if name in states
        )
        return sum(state * self._steps[n] for n, state in given)

    def changed(self, way: int, needs: Needs) -> tuple[float, int]:
        """Minutes to bring about what is needed, and the way the car is set up then."""
        minutes = 0.0
        for n, state in needs:
            now = self._state(way, n)
            if now != state:
                minutes += self._minutes[n][state]
                way += (state - now) * self._steps[n]
        return minutes, way

    def changes(self, way: int, needs: Needs) -> dict[str, str]:
        """What is to be brought about: set-up to state."""
        return {
            self.names[n]: self._states[n][state]
            for n, state in needs
            if self._state(way, n) != state
        }

    def only(self, way: int, which: Iterable[int]) -> int:
        """The way with all but some of the set-ups as at first."""
        return sum(self._state(way, n) * self._steps[n] for n in which)

    def dearest(self, at_most: int) -> tuple[int, ...]:
        """The set-ups that take the most minutes, as many as have so many ways together."""
        order = sorted(range(len(self.names)), key=lambda n: (-max(self._minutes[n]), n))
        chosen: list[int] = []
        ways = 1
        for n in order:
            if ways * len(self._states[n]) <= at_most:
                ways *= len(self._states[n])
                chosen.append(n)
        return tuple(sorted(chosen))

    def ways_of(self, which: Iterable[int]) -> list[int]:
        """Every way in which only some of the set-ups differ from how the car comes in."""
        ways = [0]
        for n in which:
            ways = [w + s * self._steps[n] for w in ways for s in range(len(self._states[n]))]
        return ways

    def _state(self, way: int, n: int) -> int:
        return way // self._steps[n] % len(self._states[n])


def _states(set_up: SetUp) -> list[str]:
    return [set_up.at_first, *(s for s in set_up.minutes if s != set_up.at_first)]
