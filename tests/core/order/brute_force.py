"""The least minutes by trying everything, in exact fractions and by the words of the definition.

Slow and plain on purpose. A car is a suspect together with an outcome for every test that may go
either way; cars are told apart by what they show, and nothing else is made of them.
"""

from collections.abc import Iterable
from dataclasses import dataclass
from fractions import Fraction
from functools import cached_property
from itertools import product

from faulttree.core.order import problem as given


@dataclass(frozen=True)
class Car:
    """One way that one suspect may show."""

    suspect: str
    find: str
    weight: Fraction
    shows: tuple[str, ...]


Cars = frozenset[Car]
SetUp = tuple[str, ...]


class BruteForce:
    """One problem, tried out."""

    def __init__(self, problem: given.Problem) -> None:
        self.problem = problem
        self._known: dict[tuple[Cars, SetUp, bool], Fraction] = {}

    @cached_property
    def cars(self) -> Cars:
        whole = sum(Fraction(s.weight) for s in self.problem.suspects)
        found = []
        for n, suspect in enumerate(self.problem.suspects):
            ways = list(product(*(dict.fromkeys(t.shows[n]) for t in self.problem.tests)))
            for way in ways:
                weight = Fraction(suspect.weight) / whole / len(ways)
                found.append(Car(suspect.id, suspect.find, weight, way))
        return frozenset(found)

    @cached_property
    def at_first(self) -> SetUp:
        return tuple(s.at_first for s in self.problem.set_ups)

    def can_rule_out(self, cars: Cars) -> bool:
        """Whether any test would leave different finds, those that destroy evidence last."""
        gentle = [n for n, t in enumerate(self.problem.tests) if not t.destroys]
        last = [n for n, t in enumerate(self.problem.tests) if t.destroys]
        return self._can_rule_out(cars, gentle) or self._can_rule_out(cars, last)

    def least(
        self, cars: Cars | None = None, set_up: SetUp | None = None, is_destroyed: bool = False
    ) -> Fraction:
        """Least minutes times weight."""
        begun = self.cars if cars is None else cars
        return self._least(begun, self.at_first if set_up is None else set_up, is_destroyed)

    def _least(self, cars: Cars, set_up: SetUp, is_destroyed: bool) -> Fraction:
        key = cars, set_up, is_destroyed
        if key not in self._known:
            self._known[key] = self._tried(cars, set_up, is_destroyed)
        return self._known[key]

    def _tried(self, cars: Cars, set_up: SetUp, is_destroyed: bool) -> Fraction:
        gentle = [n for n, t in enumerate(self.problem.tests) if not t.destroys]
        last = [n for n, t in enumerate(self.problem.tests) if t.destroys]
        if not is_destroyed and self._can_rule_out(cars, gentle):
            return self._best(cars, set_up, gentle, False)
        if self._can_rule_out(cars, last):
            return self._best(cars, set_up, last, True)
        return Fraction(0)

    def _can_rule_out(self, cars: Cars, tests: Iterable[int]) -> bool:
        """Whether doing all these tests would leave different finds for different cars."""
        alike: dict[tuple[str, ...], set[str]] = {}
        chosen = list(tests)
        for car in cars:
            alike.setdefault(tuple(car.shows[n] for n in chosen), set()).add(car.find)
        return len({frozenset(finds) for finds in alike.values()}) > 1

    def _best(self, cars: Cars, set_up: SetUp, tests: list[int], is_destroyed: bool) -> Fraction:
        found = [self.with_first(n, cars, set_up, is_destroyed) for n in tests]
        return min(each for each in found if each is not None)

    def with_first(
        self, n: int, cars: Cars, set_up: SetUp, is_destroyed: bool = False
    ) -> Fraction | None:
        """With a test first; None where it leads nowhere."""
        test = self.problem.tests[n]
        parts: dict[str, set[Car]] = {}
        for car in cars:
            parts.setdefault(car.shows[n], set()).add(car)
        if len(parts) == 1 and not test.ends & parts.keys():
            return None
        minutes, after = self._prepared(test, set_up)
        total = minutes * sum(car.weight for car in cars)
        for outcome, part in parts.items():
            if outcome not in test.ends:
                total += self._least(frozenset(part), after, is_destroyed)
        return total

    def _prepared(self, test: given.Test, set_up: SetUp) -> tuple[Fraction, SetUp]:
        minutes, after = Fraction(test.minutes), list(set_up)
        for n, each in enumerate(self.problem.set_ups):
            wanted = test.needs.get(each.name, set_up[n])
            if wanted != set_up[n]:
                minutes += Fraction(each.minutes[wanted])
                after[n] = wanted
        return minutes, tuple(after)
