"""The operating point with switches as they stand: Newton's method on the nonlinear branches."""

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from faulttree.core.circuit.batch import Batch, Bools, Floats, Ints
from faulttree.core.circuit.network import find_islands, node_voltages

MOST_STEPS = 60
"""Newton steps before a case is given up; usual cases take one to seven."""
FULL_STEPS = 20
"""Steps after which the line is laid half-way only, which ends rare cycles of diodes."""
RELATIVE = 1e-11
"""Allowed difference between a branch's law and the line it was solved with, of its current."""
ABSOLUTE_A = 1e-13
"""The same for branches without current [A]; 10 Mohm draws 1e5 times as much at 0.1 V."""


@dataclass(slots=True, eq=False)
class Point:
    """An operating point.

    Attributes:
        voltages: of all nodes [V], shape (n_cases, n_nodes).
        at: voltages of the nonlinear branches [V], shape (n_cases, n_curved).
        labels: island of each node, shape (n_cases, n_nodes); 0 is the reference's.
        is_settled: whether one was found, shape (n_cases,).
    """

    voltages: Floats
    at: Floats
    labels: NDArray[np.uint16]
    is_settled: Bools

    def put(self, rows: Ints, other: "Point") -> None:
        """Overwrite some cases."""
        self.voltages[rows], self.at[rows] = other.voltages, other.at
        self.labels[rows], self.is_settled[rows] = other.labels, other.is_settled


def operating_point(batch: Batch, closed: Bools, start: Floats) -> Point:
    """The operating point of every case.

    Args:
        batch: the cases.
        closed: which branches are closed, shape (n_cases, n_columns).
        start: voltages of the nonlinear branches to begin with [V], shape (n_cases, n_curved).
    """
    found = Point(
        np.empty((len(batch), batch.layout.network.n_nodes)),
        start.copy(),
        np.empty((len(batch), batch.layout.network.n_nodes), np.uint16),
        np.zeros(len(batch), bool),
    )
    rows, paths = np.arange(len(batch)), None
    for step in range(MOST_STEPS):
        here = batch.take(rows)
        slope, amps = here.plain(closed[rows])
        here.put_curved(slope, amps, closed[rows], found.at[rows])
        paths = _Paths.of(here, slope, paths)
        now, is_right, at = _step(here, closed[rows], slope, amps, paths, found.at[rows], step)
        found.put(rows, now)
        found.at[rows] = at
        if is_right.all():
            break
        rows, paths = rows[~is_right], paths.take(~is_right)
    return found


@dataclass(slots=True, eq=False)
class _Paths:
    """Which branches conduct, shape (n_cases, n_columns), and the islands that makes."""

    conducts: Bools
    labels: NDArray[np.uint16]

    @classmethod
    def of(cls, batch: Batch, slope: Floats, before: "_Paths | None") -> "_Paths":
        """From step to step the paths seldom change; they are found anew only where they do."""
        conducts = slope > 0.0
        if before is not None and np.array_equal(conducts, before.conducts):
            return before
        return cls(conducts, find_islands(batch.layout.network, batch.added, slope))

    def take(self, rows: Bools) -> "_Paths":
        """The same for some cases."""
        return _Paths(self.conducts[rows], self.labels[:, rows])


def _step(
    batch: Batch, closed: Bools, slope: Floats, amps: Floats, paths: _Paths, at: Floats, step: int
) -> tuple[Point, Bools, Floats]:
    """Solve with straight lines at `at`; the point, where it is right, and the next voltages."""
    labels = paths.labels
    voltages = node_voltages(batch.layout.network, batch.added, slope, amps, labels)
    columns = [column for column, _ in batch.layout.curved]
    volts = batch.across(voltages, columns)
    true = batch.curved_amps(closed, volts)
    taken = slope[:, columns] * volts + amps[:, columns]
    within = np.abs(true - taken) <= RELATIVE * np.abs(true) + ABSOLUTE_A
    is_right = np.asarray(within.all(axis=1))
    ahead = volts if step < FULL_STEPS else (at + volts) / 2
    # A step across zero is an overshoot of a bent law: stop there, where all laws are straight.
    ahead = np.where(at * volts < 0.0, 0.0, ahead)
    point = Point(voltages, volts, labels.T, is_right)
    return point, is_right, np.where(is_right[:, None], volts, ahead)
