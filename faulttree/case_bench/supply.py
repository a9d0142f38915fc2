"""The battery that was measured, as the solver takes it."""

from faulttree.case_bench.battery import PostVolts
from faulttree.core.bench.document import BenchSheet
from faulttree.core.bench.looks import Supplied, supplied
from faulttree.core.circuit.netlist import Supply

THIS = "this battery"
"""What the battery of the car is called on a bench."""
INTERNAL_OHM = 0.01
"""Internal resistance taken for the battery that was measured [ohm]: that of a sound one. Common
practice, no source."""


def measured(battery: PostVolts, sheet: BenchSheet) -> Supplied | None:
    """The battery measured; in a state of the engine that was not, the sheet's normal one.

    Returns:
        None where none was measured at all.
    """
    if battery == PostVolts():
        return None
    stopped, running = supplied(sheet.supplies)["normal"]
    if battery.stopped is not None:
        stopped = Supply(battery.stopped, INTERNAL_OHM)
    if battery.running is not None:
        running = Supply(battery.running, INTERNAL_OHM)
    return stopped, running
