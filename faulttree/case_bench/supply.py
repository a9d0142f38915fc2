"""The battery that was measured, as the solver takes it."""

from faulttree.case_bench.battery import PostVolts
from faulttree.case_bench.day import Day
from faulttree.core.bench.document import BenchSheet
from faulttree.core.bench.looks import Supplied, supplied
from faulttree.core.circuit.document import CircuitModel
from faulttree.core.circuit.netlist import Supply

THIS = "this battery"
"""What the battery of the car is called on a bench."""
INTERNAL_OHM = 0.01
"""Internal resistance taken for the battery that was measured [ohm]: that of a sound one. Common
practice, no source."""


def this_car(battery: PostVolts, day: Day, sheet: BenchSheet, model: CircuitModel) -> Supplied:
    """The battery that was measured, on the day that was; what was not is the sheet's normal."""
    stopped, running, usual_day = supplied(sheet, model)["normal"]
    if battery.stopped is not None:
        stopped = Supply(battery.stopped, INTERNAL_OHM)
    if battery.running is not None:
        running = Supply(battery.running, INTERNAL_OHM)
    return Supplied(stopped, running, {**usual_day, **dict(day)})
