"""What an author's tree takes on the same cars, set-ups counted as the best order counts them."""

from collections.abc import Iterable, Mapping
from dataclasses import dataclass

from faulttree.core.advice.outcomes import Tellings, own_minutes
from faulttree.core.bench.bench import Bench
from faulttree.core.proof.judged import Judge
from faulttree.core.proof.standing import Mode
from faulttree.core.proof.walks import Passed, Walker
from faulttree.core.tree import Measure, Observe


@dataclass(frozen=True, slots=True)
class TreeMinutes:
    """Minutes of a tree.

    Attributes:
        expected: mean over the cars by weight; the ways of one car count alike [min].
        worst: of the longest way found [min].
        comes_to: step to the cars that may come to it, as indexes into the bench's rows.
        before: step to the tests that every car which comes to it has passed.
    """

    expected: float
    worst: float
    comes_to: Mapping[str, frozenset[int]]
    before: Mapping[str, frozenset[str]]


def tree_minutes(bench: Bench, judge: Judge, tellings: Tellings) -> TreeMinutes:
    """What the tree takes; one path to each different end of a car is counted."""
    walker = Walker(bench, judge)
    walks = walker.walk([(car, Mode.PRESENT) for car in tellings.cars])
    total = whole = worst = 0.0
    comes_to: dict[str, set[int]] = {}
    before: dict[str, frozenset[str]] = {}
    for car, row, ways in zip(tellings.cars, tellings.rows, walks, strict=True):
        minutes = [_minutes(bench, end.path) for end in ways.ends]
        total += row.weight * sum(minutes) / (len(minutes) or 1)
        whole += row.weight
        worst = max([worst, *minutes])
        for end in ways.ends:
            passed: frozenset[str] = frozenset()
            for each in end.path:
                comes_to.setdefault(each.step_id, set()).add(car)
                before[each.step_id] = before.get(each.step_id, passed) & passed
                passed |= {each.step_id}
    reached = {step_id: frozenset(cars) for step_id, cars in comes_to.items()}
    return TreeMinutes(total / (whole or 1.0), worst, reached, before)


def _minutes(bench: Bench, path: Iterable[Passed]) -> float:
    """Minutes of a path: each test by itself, and what it needs once."""
    ready: set[str] = set()
    total = 0.0
    for passed in path:
        step = bench.tree.steps[passed.step_id]
        test = bench.sheet.tests.get(passed.step_id)
        if not isinstance(step, Measure | Observe) or test is None:
            total += passed.minutes
            continue
        new = set(test.needs) - ready
        ready |= new
        total += sum(bench.sheet.access[name].minutes for name in new)
        total += own_minutes(step, test)
    return total
