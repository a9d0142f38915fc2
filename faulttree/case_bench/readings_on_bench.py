"""The car of a walk on the bench: what a step reads on it, healthy and under each fault."""

from collections.abc import Iterator

from faulttree.case_bench.battery import PostVolts
from faulttree.case_bench.car import Car
from faulttree.case_bench.day import Day, day_of
from faulttree.case_bench.supply import THIS, this_car
from faulttree.case_bench.why_not import listed
from faulttree.core.bench.bench import Bench
from faulttree.core.bench.document import BenchSheet
from faulttree.core.bench.looks import supplied
from faulttree.core.circuit.circuit import Circuit
from faulttree.core.circuit.loop_faults import OF_CAR_ALTITUDE, OF_CAR_REFRIGERANT
from faulttree.core.figures import show, show_altitude
from faulttree.core.proof.expected import expected_at
from faulttree.core.proof.judged import Judge
from faulttree.core.tree import Measure, Observe, Tree
from faulttree.core.units import Quantity
from faulttree.core.walk.state import WalkState
from faulttree.render.expected_here import expected_lines
from faulttree.render.line import Line


class CarOnBench:
    """A case's circuit and bench sheet, and the car as it was last asked for."""

    def __init__(self, tree: Tree, circuit: Circuit, sheet: BenchSheet) -> None:
        self._tree, self._circuit, self._sheet = tree, circuit, sheet
        self._bench: tuple[PostVolts, Day, Bench] | None = None

    def lines(self, state: WalkState, step_id: str, car: Car) -> tuple[Line, ...]:
        """What a step reads, as text."""
        judge = Judge(self._tree, car.values, car.instruments)
        bench = self._bench_for(car.battery, self.day(state))
        cars = expected_at(bench, judge, step_id, car.fitted)
        return (*self._head(state, step_id, car), *expected_lines(state, step_id, cars))

    def day(self, state: WalkState) -> Day:
        """The day, as far as the walk tells it."""
        return day_of(state, self._sheet, self._circuit.model)

    def _bench_for(self, battery: PostVolts, day: Day) -> Bench:
        """The battery and the day that were measured; without a battery, the sheet's three."""
        if self._bench is None or self._bench[:2] != (battery, day):
            model = self._circuit.model
            three = supplied(self._sheet, model)
            supplies = {n: s._replace(day={**s.day, **dict(day)}) for n, s in three.items()}
            if battery != PostVolts():
                supplies = {THIS: this_car(battery, day, self._sheet, model)}
            bench = Bench(self._tree, self._circuit, self._sheet, supplies)
            self._bench = battery, day, bench
        return self._bench[2]

    def _head(self, state: WalkState, step_id: str, car: Car) -> Iterator[Line]:
        """For which battery, and with what."""
        yield Line("Battery", self._battery(state, car))
        day = self.day(state)
        if day:
            yield Line("Day", self._of_day(state, day))
        step = self._tree.steps[step_id]
        if isinstance(step, Measure | Observe) and step.with_:
            yield Line("With", car.instruments[step.with_].name)

    def _of_day(self, state: WalkState, day: Day) -> str:
        return f"{listed([self._told(state, *each) for each in day])}, as told"

    def _told(self, state: WalkState, name: str, value: float | str) -> str:
        if name == OF_CAR_REFRIGERANT:
            return f"filled with {value}"
        if name == OF_CAR_ALTITUDE:
            return f"altitude {show_altitude(float(value), state.units)}"
        model = self._circuit.model
        words = model.inputs[name].words or name.replace("-", " ")
        return f"{words} {show(float(value), model.quantities[name], state.units)}"

    def _battery(self, state: WalkState, car: Car) -> str:
        def volts(value: float) -> str:
            return show(value, Quantity.VOLTAGE, state.units)

        if not car.lacking:
            told = [
                f"{volts(v)} with the engine {words}" for words, v in car.battery.told(car.engines)
            ]
            return f"{listed(told)}, as last measured"
        is_running = car.lacking == "running"
        three = supplied(self._sheet, self._circuit.model).items()
        told = [f"{name} {volts(pair.at(is_running).emf_v)}" for name, pair in three]
        return (
            f"{listed(told)}, because none was measured with the engine {car.lacking}; record the "
            "battery voltage to see the readings of this car"
        )
