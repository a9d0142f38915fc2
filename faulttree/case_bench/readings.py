"""Expected readings of one case: worked out when asked for, then kept.

A case keeps the circuit model and the bench sheet that it began with. They are read when they are
first asked for, so that no walk waits for them, and what is wrong with them takes nothing away but
these readings.
"""

from pathlib import Path
from threading import Lock
from typing import TYPE_CHECKING

from faulttree.core.tree import Conclude, Do
from faulttree.core.walk.state import WalkState
from faulttree.case_bench.car import Car, NoExpectedError, car_at
from faulttree.case_bench.words import listed, misfit
from faulttree.files import cases
from faulttree.render.line import Line

if TYPE_CHECKING:
    from faulttree.case_bench.on_bench import CarOnBench


class ExpectedReadings:
    """What the steps of a case would read on its circuit; safe to ask from several threads."""

    def __init__(self, folder: Path) -> None:
        """`folder` is that of the case."""
        self._folder = folder
        self._one_at_a_time = Lock()
        self._bench: CarOnBench | None = None
        self._kept: dict[str, tuple[Car, tuple[Line, ...]]] = {}

    def why_not(self, state: WalkState, step_id: str) -> str:
        """Why there can be none at a step, as far as it is told at once; empty otherwise."""
        if state.tree.circuit is None:
            return "This tree has no circuit model that readings could be worked out from."
        if isinstance(state.tree.steps[step_id], Do | Conclude):
            return "Nothing is read at this step."
        names = (cases.CIRCUIT, cases.BENCH)
        missing = [name for name in names if not (self._folder / name).exists()]
        if missing:
            return (
                f"This case has no {listed(missing)} in its folder, so readings cannot be worked "
                "out; a new case of this tree keeps them."
            )
        return ""

    def known(self, state: WalkState, step_id: str) -> tuple[Line, ...] | None:
        """The readings at a step as text, if they were worked out for the car as it is now."""
        if step_id not in self._kept:
            return None
        car, lines = self._kept[step_id]
        return lines if car == car_at(state, step_id) else None

    def lines(self, state: WalkState, step_id: str) -> tuple[Line, ...]:
        """The readings at a step as text; the first time it takes a moment.

        Raises:
            NoExpectedError: they cannot be worked out.
        """
        why_not = self.why_not(state, step_id)
        if why_not:
            raise NoExpectedError(why_not)
        with self._one_at_a_time:
            lines = self.known(state, step_id)
            if lines is None:
                car = car_at(state, step_id)
                lines = self._worked_out(state, step_id, car)
                self._kept[step_id] = car, lines
        return lines

    def _worked_out(self, state: WalkState, step_id: str, car: Car) -> tuple[Line, ...]:
        from faulttree.case_bench.on_bench import CarOnBench  # it brings in the solver

        try:
            if self._bench is None:
                self._bench = CarOnBench(self._folder, state.tree)
            return self._bench.lines(state, step_id, car)
        except NoExpectedError:
            raise
        except Exception as error:
            # Whatever documents that do not fit each other set off, the walk has to go on.
            raise NoExpectedError(misfit(self._folder, state.tree, error)) from error
