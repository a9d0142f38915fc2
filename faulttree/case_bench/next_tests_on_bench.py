"""The tests of a case's tree on the car of its walk: which may be done now, and what they tell."""

from collections.abc import Iterator
from dataclasses import dataclass

from faulttree.case_bench.battery import PostVolts, post_volts
from faulttree.case_bench.day import Day, day_of
from faulttree.case_bench.supply import THIS, this_car
from faulttree.core.advice.next_test import next_tests
from faulttree.core.advice.outcomes import Tellings, tellings
from faulttree.core.bench.bench import Bench
from faulttree.core.bench.document import BenchSheet
from faulttree.core.circuit.circuit import Circuit
from faulttree.core.expression_values import Values
from faulttree.core.instruments import Instrument, InstrumentClass
from faulttree.core.proof.judged import Judge
from faulttree.core.suspects.ranking import Suspicion
from faulttree.core.tree import BATTERY_VOLTAGE, Measure, Observe, Tree
from faulttree.core.walk.events import Skipped
from faulttree.core.walk.path import position
from faulttree.core.walk.state import WalkState
from faulttree.render.next_tests import Advised


@dataclass(frozen=True, slots=True)
class _Known:
    """What the tables rest on; the same gives the same."""

    battery: PostVolts
    day: Day
    values: Values
    instruments: dict[InstrumentClass, Instrument]


class TestsOnBench:
    """A case's circuit and bench sheet, and the tests on the car as it was last asked for."""

    __test__ = False

    def __init__(self, tree: Tree, circuit: Circuit, sheet: BenchSheet) -> None:
        self._tree, self._circuit, self._sheet = tree, circuit, sheet
        self._told: tuple[_Known, Tellings, dict[str, frozenset[str]]] | None = None

    def after(self, state: WalkState, suspicion: Suspicion) -> Advised:
        """The best next tests."""
        day = day_of(state, self._sheet, self._circuit.model)
        instruments = dict(state.instruments)
        known = _Known(post_volts(state), day, state.vehicle_data, instruments)
        tests, fitted_at = self._tests_for(known)
        shares = {each.suspect.id: each.share for each in suspicion.ranked}
        skipped = {name for name, a in state.answers.items() if isinstance(a, Skipped)}
        done = state.answers.keys() - skipped
        names = [t.step_id for t in tests.tests]
        cannot = skipped | {n for n in names if not _may_be_done(state, n, fitted_at[n])}
        own = position(state).step_id
        found = next_tests(tests, shares, done, own, cannot=cannot)
        ready = {name: access.words for name, access in self._sheet.access.items()}
        return Advised(found, own, ready)

    def _tests_for(self, known: _Known) -> tuple[Tellings, dict[str, frozenset[str]]]:
        """What the tests tell of this car, and the least that is fitted where the walk comes to
        each; kept while battery, vehicle data and instruments stay as they are."""
        if self._told is None or self._told[0] != known:
            supply = this_car(known.battery, known.day, self._sheet, self._circuit.model)
            bench = Bench(self._tree, self._circuit, self._sheet, {THIS: supply})
            judge = Judge(self._tree, known.values, known.instruments)
            fitted_at = dict(reversed(bench.keys))
            self._told = known, tellings(bench, judge, THIS), fitted_at
        return self._told[1:]


def _may_be_done(state: WalkState, step_id: str, fitted: frozenset[str]) -> bool:
    """Whether a step can be done out of turn: with what is fitted now, and judged at once."""
    step = state.tree.steps[step_id]
    return fitted == frozenset(state.fitted) and not any(_lacking(state, step_id, step))


def _lacking(state: WalkState, step_id: str, step: object) -> Iterator[str]:
    """Earlier readings that a step is judged by and that were not taken yet.

    Vehicle data and the battery voltage are asked for before the step.
    """
    if not isinstance(step, Measure):
        assert isinstance(step, Observe)
        return
    known = {step_id, step.as_, BATTERY_VOLTAGE, *state.latest, *state.tree.needs.names}
    yield from step.names_used - known
