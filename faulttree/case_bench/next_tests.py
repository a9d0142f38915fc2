"""The best next tests of one case: worked out when asked for, kept while its readings stay so."""

from dataclasses import dataclass
from typing import TYPE_CHECKING

from faulttree.case_bench.documents import CaseDocuments
from faulttree.case_bench.suspects import CaseSuspects
from faulttree.case_bench.why_not import CannotTellError
from faulttree.core.instruments import Instrument
from faulttree.core.walk.aside import is_looking
from faulttree.core.walk.path import position
from faulttree.core.walk.state import WalkState

if TYPE_CHECKING:
    from faulttree.case_bench.next_tests_on_bench import TestsOnBench
    from faulttree.core.bench.document import BenchSheet
    from faulttree.core.circuit.circuit import Circuit
    from faulttree.core.suspects.suspected import Suspected
    from faulttree.render.next_tests import Advised


@dataclass(frozen=True, slots=True)
class _For:
    """What next tests are worked out from, besides what is suspect; the same gives the same."""

    own: str
    answered: frozenset[tuple[str, int]]
    fitted: frozenset[str]
    instruments: tuple[Instrument, ...]

    @classmethod
    def of(cls, state: WalkState) -> "_For":
        return cls(
            position(state).step_id,
            frozenset((step_id, answer.seq) for step_id, answer in state.answers.items()),
            frozenset(state.fitted),
            tuple(state.instruments.values()),
        )


class CaseNextTests:
    """The best next tests of a case; safe to ask from several threads."""

    def __init__(self, documents: CaseDocuments, suspects: CaseSuspects) -> None:
        self._documents, self._suspects = documents, suspects
        self._bench: TestsOnBench | None = None
        self._kept: tuple[Suspected, _For, Advised] | None = None

    def why_not(self, state: WalkState) -> str:
        """Why nothing can be told, as far as it is known at once; empty otherwise."""
        if not is_looking(state):
            return "The next test is told while the fault is looked for; here it is found."
        return self._documents.why_not(state.tree, "the next test")

    def known(self, state: WalkState) -> "Advised | None":
        """The next tests, if they were worked out for the walk as it is now; never waits."""
        if self._kept is None:
            return None
        suspected, worked_for, advised = self._kept
        is_same = suspected is self._suspects.known(state) and worked_for == _For.of(state)
        return advised if is_same else None

    def after(self, state: WalkState) -> "Advised":
        """The next tests; the first time, and with a new battery voltage, it takes a second.

        Raises:
            CannotTellError: they cannot be worked out.
        """
        why_not = self.why_not(state)
        if why_not:
            raise CannotTellError(why_not)
        suspected = self._suspects.after(state)

        def worked_out(circuit: "Circuit", sheet: "BenchSheet") -> "Advised":
            return self._worked_out(state, suspected, circuit, sheet)

        return self._documents.work(state.tree, worked_out)

    def _worked_out(
        self, state: WalkState, suspected: "Suspected", circuit: "Circuit", sheet: "BenchSheet"
    ) -> "Advised":
        from faulttree.case_bench.next_tests_on_bench import TestsOnBench  # it brings in the solver

        advised = self.known(state)
        if advised is None:
            if self._bench is None:
                self._bench = TestsOnBench(state.tree, circuit, sheet)
            advised = self._bench.after(state, suspected.suspicion)
            self._kept = suspected, _For.of(state), advised
        return advised
