"""What a search for the best order of tests is given: suspects, tests, set-ups.

A suspect that may give several outcomes of a test, because the limit of error reaches over an
edge or because a judgement may go either way, goes on in each of them, with an equal part of its
weight. The outcome stands: the same test done again on the same car shows it again. So a plan holds
in every case, and its minutes are the mean over the ways that a car may take.
"""

import math
from collections import Counter
from collections.abc import Collection, Iterable, Iterator, Mapping
from dataclasses import dataclass, field, replace

MENDED, AS_BEFORE = "mended", "as before"
"""Outcomes of putting in a good part."""


class CannotOrder(ValueError):
    """The problem cannot be ordered; the message says why, and how to mend it."""


WRONG_MINUTES = 60.0
"""What a wrong conclusion costs by default: a part sold for nothing, and the car back. Common
practice, no source [min]."""


@dataclass(frozen=True, slots=True)
class Suspect:
    """One thing that may be wrong, in one form: a row of the problem.

    Attributes:
        id: unlike every other.
        fault: what is wrong; rows of one fault are its sizes, and need not be told apart.
        weight: how likely it is beside the others; not a probability.
        part: what is replaced or mended; faults of one part need not be told apart. Empty: the
            fault itself is wanted.
    """

    id: str
    fault: str
    weight: float
    part: str = ""

    @property
    def find(self) -> str:
        """What is looked for."""
        return self.part or self.fault


@dataclass(frozen=True, slots=True)
class SetUp:
    """A condition of the car that tests share: key, a connector, the glove box.

    Attributes:
        name: as tests need it.
        minutes: state to the minutes it takes to bring it about from any other [min].
        at_first: the state that the car comes in.
    """

    name: str
    minutes: Mapping[str, float]
    at_first: str


@dataclass(frozen=True, slots=True)
class Test:
    """One test.

    Attributes:
        name: unlike every other.
        minutes: what it takes when the car is set up for it [min].
        shows: for each suspect of the problem, in its order, the outcomes it may give.
        needs: set-up to the state it must be in.
        tools: instruments and tools; of two tests that are equally good the one with fewer goes
            first.
        destroys: whether it destroys evidence; it is then done only where the other tests can rule
            out nothing more, and none but others of the kind follow it.
        ends: outcomes with which the search is over: the part swapped was it.
        wrong: probability that it shows another outcome than it should, each of the others alike.
    """

    name: str
    minutes: float
    shows: tuple[tuple[str, ...], ...]
    needs: Mapping[str, str] = field(default_factory=dict)
    tools: tuple[str, ...] = ()
    destroys: bool = False
    ends: frozenset[str] = frozenset()
    wrong: float = 0.0

    @property
    def outcomes(self) -> tuple[str, ...]:
        """Every outcome that some suspect may give, in the order they are first met."""
        return tuple(dict.fromkeys(outcome for each in self.shows for outcome in each))


@dataclass(frozen=True, slots=True)
class Problem:
    """Suspects, and the tests that tell them apart.

    Attributes:
        suspects: every row; the healthy car is one like the others.
        tests: every test that may be done.
        set_ups: the conditions that tests need.
        wrong_minutes: what a wrong conclusion costs [min]; it counts only where tests may be
            wrong.

    Raises:
        CannotOrder: it contradicts itself.
    """

    suspects: tuple[Suspect, ...]
    tests: tuple[Test, ...]
    set_ups: tuple[SetUp, ...] = ()
    wrong_minutes: float = WRONG_MINUTES

    def __post_init__(self) -> None:
        for trouble in _troubles(self):
            raise CannotOrder(trouble)

    @property
    def at_first(self) -> dict[str, str]:
        """How the car is set up when it comes in."""
        return {each.name: each.at_first for each in self.set_ups}

    def without(self, names: Collection[str]) -> "Problem":
        """The same problem where some tests cannot be done."""
        return replace(self, tests=tuple(t for t in self.tests if t.name not in names))


@dataclass(frozen=True, slots=True)
class Limits:
    """How much work a search may be; never seconds, so that its answers are the same anywhere.

    Attributes:
        expansions: sets of suspects that are looked into; ten thousand take about a second.
        states: entries of a table; a million take some 150 MB.
    """

    expansions: int = 60_000
    states: int = 1_000_000


def swap(name: str, minutes: float, part: str, suspects: Iterable[Suspect]) -> Test:
    """Putting in a good part to see: it ends the search when that part was it.

    Args:
        name: of the test.
        minutes: to swap the part and to see whether the complaint is gone [min].
        part: what is swapped, as suspects are looked for.
        suspects: those of the problem, in its order.
    """
    shows = tuple((MENDED,) if s.find == part else (AS_BEFORE,) for s in suspects)
    return Test(name, minutes, shows, ends=frozenset({MENDED}))


def _troubles(problem: Problem) -> Iterator[str]:
    if not problem.suspects:
        yield "There is nothing to tell apart: give at least one suspect."
    yield from _twice("suspect", [s.id for s in problem.suspects])
    yield from _twice("test", [t.name for t in problem.tests])
    yield from _twice("set-up", [s.name for s in problem.set_ups])
    for suspect in problem.suspects:
        if not _is_amount(suspect.weight):
            yield f"Suspect {suspect.id} weighs {suspect.weight}: give 0 or more."
    if not sum(s.weight for s in problem.suspects) > 0:
        yield "No suspect has a weight: give at least one more than 0."
    if not _is_amount(problem.wrong_minutes):
        yield f"A wrong conclusion costs {problem.wrong_minutes} minutes: give 0 or more."
    for set_up in problem.set_ups:
        yield from _set_up_troubles(set_up)
    states = {s.name: s.minutes for s in problem.set_ups}
    for test in problem.tests:
        yield from _test_troubles(test, len(problem.suspects), states)


def _twice(what: str, names: list[str]) -> Iterator[str]:
    counts = Counter(names)
    for name, count in counts.items():
        if count > 1:
            yield f"Two have the name {name}: give every {what} its own."


def _set_up_troubles(set_up: SetUp) -> Iterator[str]:
    if set_up.at_first not in set_up.minutes:
        yield f"Set-up {set_up.name} begins as {set_up.at_first}, which is none of its states."
    for state, minutes in set_up.minutes.items():
        if not _is_amount(minutes):
            yield f"Set-up {set_up.name}, {state}, takes {minutes} minutes: give 0 or more."


def _test_troubles(
    test: Test, suspects: int, states: Mapping[str, Mapping[str, float]]
) -> Iterator[str]:
    if not _is_amount(test.minutes):
        yield f"Test {test.name} takes {test.minutes} minutes: give 0 or more."
    if len(test.shows) != suspects or not all(test.shows):
        yield f"Test {test.name}: say for each of the {suspects} suspects what it shows."
    if not 0 <= test.wrong < 1:
        yield f"Test {test.name} is wrong with probability {test.wrong}: give 0 or more, below 1."
    if test.wrong and test.ends:
        yield f"Test {test.name} ends the search and may be wrong: it cannot do both."
    for name, state in test.needs.items():
        if state not in states.get(name, {}):
            yield f"Test {test.name} needs {name} {state}, which no set-up has."


def _is_amount(value: float) -> bool:
    return math.isfinite(value) and value >= 0
