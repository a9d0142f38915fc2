"""What each test of a tree would tell of each car: its bands or outcomes, by number."""

from collections.abc import Iterator
from dataclasses import dataclass

from faulttree.core.bench.bench import Bench
from faulttree.core.bench.document import Test
from faulttree.core.bench.sights import SURELY
from faulttree.core.bench.suspects import Form, Row, Suspect
from faulttree.core.proof.expected import Expected, expected_at
from faulttree.core.proof.judged import Judge
from faulttree.core.tree import Measure, Observe, outcome_names

HEALTHY = Suspect("healthy", "no part: the car is sound", "no fault", 0.0, None, (Form(),))
"""A sound car among the suspects. Without it every order would end in a part condemned."""
HEALTHY_SHARE = 0.02
"""Its weight beside all others together; common practice, no source."""
NO_ANSWER = -1
"""The outcome of a test that gives no number, or one that is not plausible."""


@dataclass(frozen=True, slots=True)
class Telling:
    """One test, and what it may tell of each car.

    Attributes:
        step_id: the step of the tree.
        minutes: its own minutes, once what it needs is ready.
        needs: what has to be ready for it, by name.
        disturbs: it may cure what it looks for, and comes last.
        names: its bands or outcomes.
        may_tell: for each car the outcomes that it may give, as indexes into `names`.
    """

    step_id: str
    minutes: float
    needs: frozenset[str]
    disturbs: bool
    names: tuple[str, ...]
    may_tell: tuple[frozenset[int], ...]

    @property
    def parts_cars(self) -> bool:
        """Whether some two cars are told apart for sure."""
        return any(
            not one & other
            for i, one in enumerate(self.may_tell)
            for other in self.may_tell[i + 1 :]
        )


@dataclass(frozen=True, slots=True)
class Tellings:
    """The tests of a tree on some cars.

    Attributes:
        cars: the cars, as indexes into the bench's rows.
        rows: the same as rows.
        tests: every test that tells some of them apart.
        ready_minutes: what may have to be made ready, and its minutes.
    """

    cars: tuple[int, ...]
    rows: tuple[Row, ...]
    tests: tuple[Telling, ...]
    ready_minutes: dict[str, float]


def tellings(bench: Bench, judge: Judge, supply: str = "normal") -> Tellings:
    """What the tests of a tree tell of the cars that surely show the complaint, and of a sound one.

    Args:
        bench, judge: the tree on its bench.
        supply: the battery; it is known, so cars at others need not be told apart.
    """
    ill = {
        i: row
        for i, row in enumerate(bench.rows)
        if row.suspect is not None
        and row.supply == supply
        and row.weight > 0.0
        and bench.complaint[i] == SURELY
    }
    weight = HEALTHY_SHARE * sum(row.weight for row in ill.values())
    sound = {
        i: Row(HEALTHY, row.form, supply, weight)
        for i, row in enumerate(bench.rows)
        if row.suspect is None and row.supply == supply and ill
    }
    every = {**ill, **sound}
    cars = tuple(every)
    found = [_telling(bench, judge, step_id, cars) for step_id in _tests(bench)]
    ready = {name: access.minutes for name, access in bench.sheet.access.items()}
    tests = tuple(test for test in found if test.parts_cars)
    return Tellings(cars, tuple(every.values()), tests, ready)


def _tests(bench: Bench) -> Iterator[str]:
    """Tests that the circuit can answer and that are done while the fault is there."""
    reached = dict.fromkeys(step_id for step_id, _ in bench.keys)
    for step_id in reached:
        step = bench.tree.steps[step_id]
        assert isinstance(step, Measure | Observe)
        if not bench.sheet.tests[step_id].anything and step.set_up.complaint != "absent":
            yield step_id


def _telling(bench: Bench, judge: Judge, step_id: str, cars: tuple[int, ...]) -> Telling:
    step, test = bench.tree.steps[step_id], bench.sheet.tests[step_id]
    assert isinstance(step, Measure | Observe)
    shown = expected_at(bench, judge, step_id)
    return Telling(
        step_id,
        own_minutes(step, test),
        frozenset(test.needs),
        test.disturbs,
        outcome_names(step),
        tuple(_may_tell(shown[car]) for car in cars),
    )


def own_minutes(step: Measure | Observe, test: Test) -> float:
    """Minutes of a test with everything ready: those of the sheet, else of the step [min]."""
    return step.minutes if test.minutes is None else test.minutes


def _may_tell(expected: Expected) -> frozenset[int]:
    return frozenset(expected.places or (NO_ANSWER,))
