"""Expected readings of one case: worked out when asked for, then kept."""

from typing import TYPE_CHECKING

from faulttree.case_bench.car import Car, car_at
from faulttree.case_bench.documents import CaseDocuments
from faulttree.case_bench.why_not import CannotTellError
from faulttree.core.tree import Conclude, Do
from faulttree.core.walk.state import WalkState
from faulttree.render.line import Line

if TYPE_CHECKING:
    from faulttree.case_bench.day import Day
    from faulttree.case_bench.readings_on_bench import CarOnBench
    from faulttree.core.bench.document import BenchSheet
    from faulttree.core.circuit.circuit import Circuit


class ExpectedReadings:
    """What the steps of a case would read on its circuit; safe to ask from several threads."""

    def __init__(self, documents: CaseDocuments) -> None:
        self._documents = documents
        self._bench: CarOnBench | None = None
        self._kept: dict[str, tuple[Car, Day, tuple[Line, ...]]] = {}

    def why_not(self, state: WalkState, step_id: str) -> str:
        """Why there can be none at a step, as far as it is told at once; empty otherwise."""
        is_read = not isinstance(state.tree.steps[step_id], Do | Conclude)
        if state.tree.circuit is not None and not is_read:
            return "Nothing is read at this step."
        return self._documents.why_not(state.tree, "readings")

    def known(self, state: WalkState, step_id: str) -> tuple[Line, ...] | None:
        """The readings at a step as text, if they were worked out for the car as it is now."""
        if step_id not in self._kept or self._bench is None:
            return None
        car, day, lines = self._kept[step_id]
        is_as_it_was = car == car_at(state, step_id) and day == self._bench.day(state)
        return lines if is_as_it_was else None

    def lines(self, state: WalkState, step_id: str) -> tuple[Line, ...]:
        """The readings at a step as text; the first time it takes a moment.

        Raises:
            CannotTellError: they cannot be worked out.
        """
        why_not = self.why_not(state, step_id)
        if why_not:
            raise CannotTellError(why_not)

        def worked_out(circuit: "Circuit", sheet: "BenchSheet") -> tuple[Line, ...]:
            return self._worked_out(state, step_id, circuit, sheet)

        return self._documents.work(state.tree, worked_out)

    def _worked_out(
        self, state: WalkState, step_id: str, circuit: "Circuit", sheet: "BenchSheet"
    ) -> tuple[Line, ...]:
        from faulttree.case_bench.readings_on_bench import CarOnBench  # it brings in the solver

        lines = self.known(state, step_id)
        if lines is None:
            if self._bench is None:
                self._bench = CarOnBench(state.tree, circuit, sheet)
            car = car_at(state, step_id)
            lines = self._bench.lines(state, step_id, car)
            self._kept[step_id] = car, self._bench.day(state), lines
        return lines
