"""The tests of a tree as a problem of least minutes."""

from collections.abc import Collection, Mapping

from faulttree.core.advice.outcomes import NO_ANSWER, Telling, Tellings
from faulttree.core.bench.suspects import Row
from faulttree.core.order.problem import Problem, SetUp, Suspect, Test, swap

AS_IT_CAME, READY = "as it came", "ready"
"""States of what has to be made ready for a test."""
SWAP = "swap: "
"""Before the part in the name of a test that puts in a known good one."""
NO_READING = "no reading"
"""The outcome of a test that gives no number."""


def problem_of(
    tellings: Tellings,
    weights: Mapping[int, float] | None = None,
    ready: Collection[str] = (),
    without: Collection[str] = (),
    swaps: Mapping[str, float] | None = None,
    unsure: Mapping[str, float] | None = None,
) -> Problem:
    """The problem of telling some cars apart, down to the part.

    Args:
        tellings: what each test tells of each car.
        weights: weight of each car, by its index on the bench, where it is not that of the model;
            cars that are left out, or have none, are no longer suspect.
        ready: what is ready already.
        without: tests that cannot be done, or were done.
        swaps: part to the minutes it takes to put in a known good one and to see.
        unsure: test to the probability that it shows another outcome than it should.

    Raises:
        CannotOrder: no car has a weight.
    """
    kept = [
        (place, row, _weight(car, row, weights))
        for place, (car, row) in enumerate(zip(tellings.cars, tellings.rows, strict=True))
    ]
    kept = [(place, row, weight) for place, row, weight in kept if weight > 0.0]
    suspects = tuple(
        Suspect(_name(row, tellings.cars[place]), _fault(row), weight, _part(row))
        for place, row, weight in kept
    )
    places = [place for place, _, _ in kept]
    wrong = unsure or {}
    tests = tuple(
        _test(t, places, wrong.get(t.step_id, 0.0))
        for t in tellings.tests
        if t.step_id not in without
    )
    set_ups = tuple(
        SetUp(name, {AS_IT_CAME: 0.0, READY: minutes}, READY if name in ready else AS_IT_CAME)
        for name, minutes in tellings.ready_minutes.items()
    )
    seen = tuple(
        swap(f"{SWAP}{part}", minutes, part, suspects) for part, minutes in (swaps or {}).items()
    )
    return Problem(suspects, (*tests, *seen), set_ups)


def _weight(car: int, row: Row, weights: Mapping[int, float] | None) -> float:
    return row.weight if weights is None else weights.get(car, 0.0)


def _test(telling: Telling, places: list[int], wrong: float) -> Test:
    shows = tuple(
        tuple(outcome_name(telling, index) for index in sorted(telling.may_tell[place]))
        for place in places
    )
    needs = dict.fromkeys(sorted(telling.needs), READY)
    disturbs = telling.disturbs
    return Test(telling.step_id, telling.minutes, shows, needs, destroys=disturbs, wrong=wrong)


def outcome_name(telling: Telling, index: int) -> str:
    """A band or outcome of a test, by its number."""
    return NO_READING if index == NO_ANSWER else telling.names[index]


def _name(row: Row, car: int) -> str:
    return f"{_fault(row)} #{car}"


def _fault(row: Row) -> str:
    assert row.suspect is not None
    return row.suspect.id


def _part(row: Row) -> str:
    assert row.suspect is not None
    return row.suspect.part
