"""Solving a circuit: node voltages and branch currents of every case, in physical words at need."""

from dataclasses import dataclass
from functools import cached_property

import numpy as np
from numpy.typing import NDArray

from faulttree.core.circuit.batch import Batch, Bools, Floats, whole
from faulttree.core.circuit.cases import Cases
from faulttree.core.circuit.circuit import Circuit
from faulttree.core.circuit.controls import Controls
from faulttree.core.circuit.figures import figures
from faulttree.core.circuit.newton import Point
from faulttree.core.circuit.settle import Settled, settle

CHUNK = 1024
"""Cases solved at a time: enough to make up for the time of a call, some 10 MB at 30 nodes."""


@dataclass(frozen=True, eq=False)
class Solved:
    """The steady state of every case, without an instrument.

    Attributes:
        circuit, cases: what was solved.
        voltages: of all nodes against the reference [V], shape (n_cases, n_nodes), in the order of
            `circuit.netlist.nodes`. Not a number where the case is unstable; 0 at one node of each
            floating island.
        island: shape (n_cases, n_nodes); nodes with equal numbers hang together, 0 is the
            reference's. A node with another number floats: it has no voltage of its own.
        is_stable: shape (n_cases,); false where a relay chatters.
        on: state of the controls, shape (n_cases, n_controls).
        blown: names of the fuses that have gone, for each case.
        batch, settled: the arrays behind it, which `read` starts from.
    """

    circuit: Circuit
    cases: Cases
    batch: Batch
    settled: Settled

    @cached_property
    def voltages(self) -> Floats:
        """See Solved."""
        found = self.settled.point.voltages
        return np.where(self.settled.is_stable[:, None], found, np.nan)

    @property
    def island(self) -> NDArray[np.uint16]:
        """See Solved."""
        return self.settled.point.labels

    @property
    def is_stable(self) -> Bools:
        """See Solved."""
        return self.settled.is_stable

    @property
    def on(self) -> Bools:
        """See Solved."""
        return self.settled.on

    @cached_property
    def blown(self) -> tuple[tuple[str, ...], ...]:
        """See Solved."""
        names = [self.circuit.netlist.branches[i].name for i in self.batch.layout.fuses]
        return tuple(
            tuple(n for n, gone in zip(names, row, strict=True) if gone)
            for row in self.settled.blown
        )

    def voltage(self, node: str) -> Floats:
        """Voltage of a node against the reference [V], shape (n_cases,); raises KeyError."""
        return self.voltages[:, self.circuit.netlist.node(node)]

    def floats(self, node: str) -> Bools:
        """Where a node has no path to the reference, shape (n_cases,); raises KeyError."""
        return np.asarray(self.island[:, self.circuit.netlist.node(node)] != 0)

    def part(self, rows: NDArray[np.intp]) -> "Solved":
        """The same for some of the cases, as cases of their own."""
        cases = self.cases
        of = Cases(cases.states, cases.faults, cases.state_of[rows], cases.fault_of[rows])
        return Solved(self.circuit, of, self.batch.pick(rows), self.settled.pick(rows))

    @cached_property
    def currents(self) -> Floats:
        """Currents of all branches from a to b [A], shape (n_cases, n_branches + n_added)."""
        return branch_currents(self.batch, self.settled)

    def current(self, branch: str) -> Floats:
        """Current of a branch from its first node to its second [A], shape (n_cases,)."""
        return self.currents[:, self.circuit.netlist.branch(branch)]


def solve(circuit: Circuit, cases: Cases, blown: Bools | None = None) -> Solved:
    """The steady state of every case.

    Args:
        circuit: the circuit.
        cases: states and faults.
        blown: fuses that have gone before, shape (n_cases, n_fuses), in the order of the branches;
            none by default.

    Raises:
        KeyError: a state or fault names something the circuit does not have.
    """
    controls = Controls(circuit)
    batch = whole(circuit, figures(circuit, cases))
    on = controls.start(len(batch))
    if blown is None:
        blown = np.zeros((len(batch), len(batch.layout.fuses)), bool)
    start = np.zeros(batch.shape.shape[:2])
    return Solved(circuit, cases, batch, in_chunks(batch, controls, on, blown, start))


def in_chunks(batch: Batch, controls: Controls, on: Bools, blown: Bools, start: Floats) -> Settled:
    """`settle`, some hundred cases at a time."""
    if len(batch) <= CHUNK:
        return settle(batch, controls, on, blown, start)
    found = []
    for begin in range(0, len(batch), CHUNK):
        rows = np.arange(begin, min(begin + CHUNK, len(batch)))
        found.append(settle(batch.take(rows), controls, on[rows], blown[rows], start[rows]))
    return _joined(found)


def _joined(parts: list[Settled]) -> Settled:
    def join(name: str) -> NDArray[np.float64]:
        return np.concatenate([getattr(p.point, name) for p in parts])

    point = Point(join("voltages"), join("at"), join("labels"), join("is_settled"))  # type: ignore[arg-type]
    names = ("on", "blown", "is_stable")
    return Settled(point, *(np.concatenate([getattr(p, n) for p in parts]) for n in names))


def currents_at(batch: Batch, on: Bools, blown: Bools, point: Point) -> Floats:
    """Currents of all branches from a to b at an operating point [A]."""
    closed = batch.closed(on, blown)
    slope, amps = batch.plain(closed)
    columns = list(range(slope.shape[1]))
    found = slope * batch.across(point.voltages, columns) + amps
    curved = [column for column, _ in batch.layout.curved]
    found[:, curved] = batch.curved_amps(closed, point.at)
    return found


def branch_currents(batch: Batch, settled: Settled) -> Floats:
    """Currents of all branches of a batch from a to b [A]; not a number where unstable."""
    found = currents_at(batch, settled.on, settled.blown, settled.point)
    return np.where(settled.is_stable[:, None], found, np.nan)
