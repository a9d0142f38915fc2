"""All that is told of a tree beside the best order of its tests."""

from collections.abc import Iterator
from dataclasses import dataclass

from faulttree.core.advice.compared import Compared
from faulttree.core.advice.ends import Ends
from faulttree.core.advice.not_counted import NotCounted
from faulttree.core.advice.outcomes import HEALTHY
from faulttree.core.bench.bench import Bench
from faulttree.core.bench.suspects import Suspect, parts_of
from faulttree.core.order.plan import Asked, End, Plan
from faulttree.render.proof_words import Words


@dataclass(frozen=True, eq=False)
class OrderResult:
    """A tree beside the best order, with the words for it.

    Attributes:
        bench: the tree on its bench.
        supply: the battery of the cars.
        compared: the two side by side.
        aside: steps that take no part.
        ends: which conclusion an end of the order comes to.
        words: how its things are written.
    """

    bench: Bench
    supply: str
    compared: Compared
    aside: NotCounted
    ends: Ends
    words: Words

    @property
    def suspects(self) -> tuple[Suspect, ...]:
        """What may be wrong, each once; the sound car is none of it."""
        found = (row.suspect for row in self.compared.tellings.rows)
        return tuple({s.id: s for s in found if s and s is not HEALTHY}.values())

    @property
    def parts(self) -> tuple[str, ...]:
        """What may have to be replaced or mended."""
        return parts_of(self.suspects)

    @property
    def ratio(self) -> float | None:
        """How many times as long the tree takes; None where no test is needed, or may be wrong."""
        if self.compared.wrong is not None:
            return None
        best = self.compared.best.expected.most
        return self.compared.tree.expected / best if best > 0 else None

    def left(self, end: End) -> tuple[str, ...]:
        """The parts that an end leaves; where tests may be wrong, the likeliest alone."""
        if self.compared.wrong is None:
            return tuple(sorted(self.ends.parts(end)))
        weights: dict[str, float] = {}
        for name, part in end.suspects.items():
            row = self.ends.car(name)
            if row.suspect is not None:
                weights[row.suspect.part] = weights.get(row.suspect.part, 0.0) + row.weight * part
        return (max(weights, key=lambda each: (weights[each], each)),)

    def share(self, plan: Plan) -> float:
        """The share of the weight that comes to a place of the order, from 0 to 1."""
        if isinstance(plan, Asked):
            return plan.weight
        weights = (self.ends.car(name).weight * part for name, part in plan.suspects.items())
        whole = sum(row.weight for row in self.compared.tellings.rows)
        return sum(weights) / whole


def asked(plan: Plan) -> Iterator[Asked]:
    """Every test of an order, each before those that follow it."""
    if isinstance(plan, Asked):
        yield plan
        for after in plan.go.values():
            yield from asked(after)


def ends(plan: Plan) -> Iterator[End]:
    """Every end of an order."""
    if isinstance(plan, End):
        yield plan
    else:
        for after in plan.go.values():
            yield from ends(after)
