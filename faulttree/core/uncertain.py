"""Values that carry their limit of error, and the sums done with them.

A value is a nominal number plus error terms, each known to lie within ± its size. Two readings of
one meter on one range share that range's gain error: in a difference it nearly cancels, which is
why a volt drop worked out from two readings of one meter is worth more than its data sheet seems
to allow. This is interval arithmetic with named terms (affine arithmetic: Comba and Stolfi 1993,
from memory); correlated inputs: JCGM 100:2008, 5.2.
"""

import math
from collections.abc import Callable, Iterable, Mapping
from dataclasses import dataclass, field


class CannotWorkOut(ArithmeticError):
    """The sum has no answer with these readings; the message says why."""


_OPEN = "one of the readings is an open circuit (OL)"


@dataclass(frozen=True, slots=True)
class Uncertain:
    """A number with its limit of error.

    Attributes:
        value: the nominal value; infinite for an open circuit.
        terms: name of an error source to how far it moves the value (signed).
        rest: what no named source accounts for; it never cancels.
    """

    value: float
    terms: Mapping[str, float] = field(default_factory=dict)
    rest: float = 0.0

    @property
    def radius(self) -> float:
        """Limit of error: how far the true value can lie from `value`, either way."""
        return sum(abs(t) for t in self.terms.values()) + self.rest

    @property
    def low(self) -> float:
        """Lowest value the error allows."""
        return self.value - self.radius

    @property
    def high(self) -> float:
        """Highest value the error allows."""
        return self.value + self.radius

    def above(self, other: "Uncertain") -> tuple[float, float]:
        """How far it lies above another value, and the limit of error of that.

        The same as the value and radius of the difference; readings are placed by it very often.
        """
        mine, its = self.terms, other.terms
        radius = self.rest + other.rest
        for name, term in mine.items():
            radius += abs(term - its.get(name, 0.0))
        for name, term in its.items():
            if name not in mine:
                radius += abs(term)
        return self.value - other.value, radius

    def __add__(self, other: "Uncertain") -> "Uncertain":
        return self._combined(other, self.value + other.value, 1.0, 1.0)

    def __sub__(self, other: "Uncertain") -> "Uncertain":
        return self._combined(other, self.value - other.value, 1.0, -1.0)

    def __mul__(self, other: "Uncertain") -> "Uncertain":
        product = self._combined(other, self.value * other.value, other.value, self.value)
        return product._with_more(self.radius * other.radius)

    def __truediv__(self, other: "Uncertain") -> "Uncertain":
        if other.low <= 0 <= other.high:
            raise CannotWorkOut("the number to divide by may be zero")
        if math.isinf(other.value):
            raise CannotWorkOut(_OPEN)
        quotient = self.value / other.value
        first = self._combined(other, quotient, 1 / other.value, -quotient / other.value)
        nearest_zero = min(abs(other.low), abs(other.high))
        return first._with_more(first.radius * other.radius / nearest_zero)

    def __neg__(self) -> "Uncertain":
        return exactly(0.0) - self

    def __abs__(self) -> "Uncertain":
        if self.low >= 0 or self.high <= 0:
            return self if self.value >= 0 else -self
        # The sign is in doubt, so the names of the errors would no longer say which way they move
        # the value; how far they move it stays the same.
        return Uncertain(abs(self.value), rest=self.radius)

    def _combined(self, other: "Uncertain", value: float, mine: float, its: float) -> "Uncertain":
        if math.isinf(self.value) or math.isinf(other.value):
            raise CannotWorkOut(_OPEN)
        if not all(map(math.isfinite, (value, mine, its))):
            raise CannotWorkOut("the result is too large a number")
        terms = {
            name: mine * self.terms.get(name, 0.0) + its * other.terms.get(name, 0.0)
            for name in sorted(self.terms.keys() | other.terms.keys())
        }
        return Uncertain(value, terms, abs(mine) * self.rest + abs(its) * other.rest)

    def _with_more(self, more: float) -> "Uncertain":
        return Uncertain(self.value, self.terms, self.rest + more)


def smallest(values: Iterable[Uncertain]) -> Uncertain:
    """The least of the values; where their errors leave open which it is, the limits of all count.

    An open circuit is greater than any number.
    """
    candidates = list(values)
    least = min(candidates, key=lambda v: v.value)
    if all(_is_surely_up_to(least, other) for other in candidates):
        return least
    low, high = min(v.low for v in candidates), min(v.high for v in candidates)
    return within(least.value, low, high)


def largest(values: Iterable[Uncertain]) -> Uncertain:
    """The greatest of the values; where their errors leave open which it is, all limits count.

    An open circuit is greater than any number.
    """
    candidates = list(values)
    greatest = max(candidates, key=lambda v: v.value)
    if all(_is_surely_up_to(other, greatest) for other in candidates):
        return greatest
    low, high = max(v.low for v in candidates), max(v.high for v in candidates)
    return within(greatest.value, low, high)


def _is_surely_up_to(value: Uncertain, other: Uncertain) -> bool:
    """True when no error makes the value greater than the other; shared errors cancel."""
    return value is other or math.isinf(other.value) or (value - other).high <= 0


def bent(function: Callable[[float], float], value: Uncertain) -> Uncertain:
    """What a function makes of a value, where its curve bends one way only over the limits.

    The named errors go on as steeply as the chord between both limits, so that what two values
    share still cancels. No curve that bends one way leaves the line of that slope through the
    middle by more than it does at the limits; that is the rest.
    """
    if math.isinf(value.value):
        raise CannotWorkOut(_OPEN)
    middle = function(value.value)
    if value.radius == 0:
        return exactly(middle)
    low, high = function(value.low), function(value.high)
    slope = (high - low) / (2 * value.radius)
    terms = {name: slope * term for name, term in value.terms.items()}
    return Uncertain(middle, terms, abs(slope) * value.rest + abs((high + low) / 2 - middle))


def within(value: float, low: float, high: float) -> Uncertain:
    """A value that the errors leave somewhere between two limits, they no longer say by which."""
    return Uncertain(value, rest=max(value - low, high - value, 0.0))


def exactly(value: float) -> Uncertain:
    """A number without error: a constant, a specified value."""
    return Uncertain(value)
