"""The car of a walk on the bench: its circuit solved, healthy and under each fault."""

from collections.abc import Iterator
from pathlib import Path

from faulttree.core.bench.bench import Bench
from faulttree.core.bench.looks import supplied
from faulttree.core.circuit.circuit import Circuit
from faulttree.core.circuit.netlist import Supply
from faulttree.core.figures import show
from faulttree.core.proof.expected import expected_at
from faulttree.core.proof.judged import Judge
from faulttree.core.tree import Measure, Observe, Tree
from faulttree.core.units import Quantity
from faulttree.core.walk.state import WalkState
from faulttree.case_bench.battery import PostVolts
from faulttree.case_bench.car import Car, NoExpectedError
from faulttree.case_bench.words import cannot_be_used, is_another, listed
from faulttree.files import cases
from faulttree.files.documents import DocumentError, load_bench, load_circuit
from faulttree.render.expected_here import expected_lines
from faulttree.render.line import Line

INTERNAL_OHM = 0.01
"""Internal resistance taken for the battery that was measured [ohm]: that of a sound one. Common
practice, no source."""
_THIS = "this battery"


class CarOnBench:
    """A case's circuit and bench sheet, and the car as it was last asked for."""

    def __init__(self, folder: Path, tree: Tree) -> None:
        """Read the two documents in the folder of a case.

        Raises:
            NoExpectedError: one cannot be used.
        """
        self._tree = tree
        try:
            model = load_circuit(folder / cases.CIRCUIT).document
            self._sheet = load_bench(folder / cases.BENCH).document
        except (DocumentError, OSError) as error:
            raise NoExpectedError(cannot_be_used(error)) from error
        if model.id != tree.circuit:
            raise NoExpectedError(is_another(cases.CIRCUIT, f"circuit model {tree.circuit}"))
        if self._sheet.tree != tree.id:
            raise NoExpectedError(is_another(cases.BENCH, f"a bench sheet of {tree.id}"))
        self._circuit = Circuit.from_document(model)
        self._bench: tuple[PostVolts, Bench] | None = None

    def lines(self, state: WalkState, step_id: str, car: Car) -> tuple[Line, ...]:
        """What a step reads, as text.

        The documents are sound each, but are not held to the rules that make sure they fit the
        tree: where they do not, anything may be raised.
        """
        judge = Judge(self._tree, car.values, car.instruments)
        cars = expected_at(self._bench_for(car.battery), judge, step_id, car.fitted)
        return (*self._head(state, step_id, car), *expected_lines(state, step_id, cars))

    def _bench_for(self, battery: PostVolts) -> Bench:
        if self._bench is None or self._bench[0] != battery:
            supplies = None if battery == PostVolts() else {_THIS: self._supplied(battery)}
            self._bench = battery, Bench(self._tree, self._circuit, self._sheet, supplies)
        return self._bench[1]

    def _supplied(self, battery: PostVolts) -> tuple[Supply, Supply]:
        """The battery measured; in a state of the engine that was not, a normal one."""
        stopped, running = supplied(self._sheet.supplies)["normal"]
        if battery.stopped is not None:
            stopped = Supply(battery.stopped, INTERNAL_OHM)
        if battery.running is not None:
            running = Supply(battery.running, INTERNAL_OHM)
        return stopped, running

    def _head(self, state: WalkState, step_id: str, car: Car) -> Iterator[Line]:
        """For which battery, and with what."""
        yield Line("Battery", self._battery(state, car))
        step = self._tree.steps[step_id]
        if isinstance(step, Measure | Observe) and step.with_:
            yield Line("With", car.instruments[step.with_].name)

    def _battery(self, state: WalkState, car: Car) -> str:
        def volts(value: float) -> str:
            return show(value, Quantity.VOLTAGE, state.units)

        if not car.lacking:
            told = [
                f"{volts(v)} with the engine {words}" for words, v in car.battery.told(car.engines)
            ]
            return f"{listed(told)}, as last measured"
        place = 1 if car.lacking == "running" else 0
        three = supplied(self._sheet.supplies).items()
        told = [f"{name} {volts(pair[place].emf_v)}" for name, pair in three]
        return (
            f"{listed(told)}, because none was measured with the engine {car.lacking}; record the "
            "battery voltage to see the readings of this car"
        )
