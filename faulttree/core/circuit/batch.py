"""Some cases with all their branches: the circuit's own, added paths, and the instrument."""

from dataclasses import dataclass
from functools import lru_cache
from typing import TypeVar

import numpy as np
from numpy.typing import NDArray

from faulttree.core.circuit.circuit import Circuit
from faulttree.core.circuit.devices import Line, line
from faulttree.core.circuit.figures import Figures, nonlinear
from faulttree.core.circuit.netlist import Law, Netlist, Terms
from faulttree.core.circuit.network import Added, Network

Floats = NDArray[np.float64]
Bools = NDArray[np.bool_]
Ints = NDArray[np.intp]


@dataclass(frozen=True, slots=True, eq=False)
class Layout:
    """What does not differ between the cases of a batch.

    Attributes:
        network: where the circuit's own branches go.
        curved: column and law of every nonlinear branch, in the order of their columns.
        controlled: columns worked by a control; `control` and `closed_when` say how.
        fuses: columns that a current opens for good; `limits` are the currents [A].
    """

    network: Network
    curved: tuple[tuple[int, Law], ...]
    controlled: Ints
    control: Ints
    closed_when: Bools
    fuses: Ints
    limits: Floats

    @classmethod
    @lru_cache(maxsize=8)
    def of(cls, netlist: Netlist) -> "Layout":
        """The layout of a netlist without instrument."""
        branches = list(enumerate(netlist.branches))
        worked = [(i, b.control, b.closed_when) for i, b in branches if b.control is not None]
        fuses = [(i, b.opens_above_a) for i, b in branches if np.isfinite(b.opens_above_a)]
        return cls(
            Network.of(netlist),
            tuple((i, b.law) for i, b in branches if b.law is not Law.LINEAR),
            np.array([w[0] for w in worked], np.intp),
            np.array([w[1] for w in worked], np.intp),
            np.array([w[2] for w in worked], bool),
            np.array([f[0] for f in fuses], np.intp),
            np.array([f[1] for f in fuses], np.float64),
        )

    def with_instrument(self, column: int, law: Law) -> "Layout":
        """The layout with a nonlinear instrument in a column."""
        curved = (*self.curved, (column, law))
        return Layout(self.network, curved, self.controlled, self.control, self.closed_when,
                      self.fuses, self.limits)  # fmt: skip


@dataclass(frozen=True, slots=True, eq=False)
class Batch:
    """Arrays of some cases; columns are the circuit's branches, then the added ones.

    Attributes:
        layout: what is the same in all of them.
        figures: thresholds, states of the car.
        added: ends of the added branches.
        ohm, emf: terms of every branch, shape (n_cases, n_columns).
        shape: further terms of the nonlinear ones, shape (n_cases, n_curved, 3).
        can_close: not taken out and not infinite, shape (n_cases, n_columns).
    """

    layout: Layout
    figures: Figures
    added: Added
    ohm: Floats
    emf: Floats
    shape: Floats
    can_close: Bools

    @classmethod
    def of(cls, layout: Layout, figures: Figures) -> "Batch":
        """All cases of some figures, without instrument."""
        ohm = np.concatenate([figures.ohm, figures.path_ohm], axis=1)
        emf = np.concatenate([figures.emf, np.zeros_like(figures.path_ohm)], axis=1)
        can_close = np.isfinite(ohm)
        can_close[:, : figures.ohm.shape[1]] &= ~figures.is_open
        added = Added(figures.path_a, figures.path_b)
        return cls(layout, figures, added, ohm, emf, figures.shape, can_close)

    def __len__(self) -> int:
        return len(self.ohm)

    def take(self, rows: Ints) -> "Batch":
        """The same for some of the cases: different ones, in rising order."""
        return self if len(rows) == len(self) else self.pick(rows)

    def pick(self, rows: Ints) -> "Batch":
        """The same for cases in any order and as often as they are named; arrays of its own."""
        return Batch(
            self.layout,
            self.figures.take(rows),
            Added(self.added.a[rows], self.added.b[rows]),
            self.ohm[rows],
            self.emf[rows],
            self.shape[rows],
            self.can_close[rows],
        )

    def with_branch(self, law: Law, terms: Terms, a: Ints, b: Ints) -> "Batch":
        """The same with an instrument between two nodes, which differ from case to case."""
        column = self.ohm.shape[1]
        layout, shape = self.layout, self.shape
        if law is not Law.LINEAR:
            layout = layout.with_instrument(column, law)
            more = np.broadcast_to(np.array(terms.shape), (len(self), 1, 3))
            shape = np.concatenate([shape, more], axis=1)
        return Batch(
            layout,
            self.figures,
            Added(_beside(self.added.a, a), _beside(self.added.b, b)),
            _beside(self.ohm, np.full(len(self), terms.ohm)),
            _beside(self.emf, np.full(len(self), terms.emf)),
            shape,
            _beside(self.can_close, np.isfinite(np.full(len(self), terms.ohm))),
        )

    def closed(self, on: Bools, blown: Bools) -> Bools:
        """Which branches are closed, shape (n_cases, n_columns).

        Args:
            on: state of the controls, shape (n_cases, n_controls).
            blown: fuses that have gone, shape (n_cases, n_fuses).
        """
        layout, closed = self.layout, self.can_close.copy()
        if len(layout.controlled):
            matches = on[:, layout.control] == layout.closed_when
            closed[:, layout.controlled] &= matches | self.figures.is_stuck[:, layout.controlled]
        if len(layout.fuses):
            closed[:, layout.fuses] &= ~blown
        return closed

    def plain(self, closed: Bools) -> tuple[Floats, Floats]:
        """Slope [S] and current at no voltage [A] of every branch, those of nonlinear ones 0."""
        slope = np.divide(1.0, self.ohm, out=np.zeros_like(self.ohm), where=closed)
        for column, _ in self.layout.curved:
            slope[:, column] = 0.0
        return slope, -slope * self.emf

    def put_curved(self, slope: Floats, amps: Floats, closed: Bools, at: Floats) -> None:
        """Fill in the nonlinear branches, taken as straight lines at voltages `at` [V]."""
        for index, (column, law) in enumerate(self.layout.curved):
            found = self._line(index, column, law, at[:, index])
            slope[:, column] = np.where(closed[:, column], found.slope, 0.0)
            amps[:, column] = np.where(
                closed[:, column], found.amps - found.slope * at[:, index], 0.0
            )

    def curved_amps(self, closed: Bools, volts: Floats) -> Floats:
        """Currents of the nonlinear branches at their voltages [A], shape (n_cases, n_curved)."""
        found = np.empty_like(volts)
        for index, (column, law) in enumerate(self.layout.curved):
            amps = self._line(index, column, law, volts[:, index]).amps
            found[:, index] = np.where(closed[:, column], amps, 0.0)
        return found

    def _line(self, index: int, column: int, law: Law, volts: Floats) -> Line:
        return line(law, volts, self.ohm[:, column], self.emf[:, column], self.shape[:, index])

    def across(self, voltages: Floats, columns: list[int] | Ints) -> Floats:
        """Voltage from a to b of some branches [V], shape (n_cases, n_columns)."""
        network, n_b = self.layout.network, len(self.layout.network.a)
        found = np.empty((len(self), len(columns)))
        cases = np.arange(len(self))
        for index, column in enumerate(columns):
            if column < n_b:
                a, b = network.a[column], network.b[column]
                found[:, index] = voltages[:, a] - voltages[:, b]
            else:
                a, b = self.added.a[:, column - n_b], self.added.b[:, column - n_b]
                found[:, index] = voltages[cases, a] - voltages[cases, b]
        return found


def whole(circuit: Circuit, figures: Figures) -> Batch:
    """All cases of some figures as one batch."""
    assert len(nonlinear(circuit)) == figures.shape.shape[1]
    return Batch.of(Layout.of(circuit.netlist), figures)


_Array = TypeVar("_Array", Floats, Bools, Ints)


def _beside(array: _Array, column: _Array) -> _Array:
    """The array with one more column."""
    return np.concatenate([array, column[:, None]], axis=1)
