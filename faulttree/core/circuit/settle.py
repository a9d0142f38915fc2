"""The steady state: relays, drivers and fuses follow the operating point until nothing moves.

Everything starts at rest, or in the state before an instrument was attached, so that a relay
between drop-out and pull-in stays as it is. Coils and drivers follow first; a fuse is slower and
goes only when they stand still, the most overloaded one first. What never comes to rest is said to
be unstable: a relay that chatters has no reading.
"""

from collections.abc import Iterator
from dataclasses import dataclass

import numpy as np

from faulttree.core.circuit.batch import Batch, Bools, Floats, Ints
from faulttree.core.circuit.controls import Controls
from faulttree.core.circuit.newton import Point, operating_point

TOGETHER_ROUNDS = 6
"""Rounds in which all controls move at once; then one at a time, as no two relays are equal."""
MOST_ROUNDS = 30
"""Rounds after which a case is unstable, counted anew after each fuse that goes."""
SWING_ROUNDS = 8
"""Rounds that an unstable case is followed for, to see between which states it goes."""


@dataclass(slots=True, eq=False)
class Settled:
    """Steady states.

    Attributes:
        point: the operating point of each case.
        on: state of the controls, shape (n_cases, n_controls).
        blown: fuses that have gone, shape (n_cases, n_fuses), in the layout's order.
        is_stable: false where no steady state exists, shape (n_cases,).
    """

    point: Point
    on: Bools
    blown: Bools
    is_stable: Bools

    def pick(self, rows: Ints) -> "Settled":
        """The same for some cases; arrays of its own."""
        point = self.point
        there = Point(
            point.voltages[rows], point.at[rows], point.labels[rows], point.is_settled[rows]
        )
        return Settled(there, self.on[rows], self.blown[rows], self.is_stable[rows])


def settle(batch: Batch, controls: Controls, on: Bools, blown: Bools, start: Floats) -> Settled:
    """The steady state of every case.

    Args:
        batch: the cases.
        controls: what follows the voltages.
        on, blown: states to begin with; see Settled.
        start: voltages of the nonlinear branches to begin with [V].
    """
    on, blown = on.copy(), blown.copy()
    point = operating_point(batch, batch.closed(on, blown), start)
    rows, rounds = np.arange(len(batch)), np.zeros(len(batch), int)
    while True:
        here = batch.take(rows)
        moved = _moved(here, controls, point.voltages[rows], on, blown, rows, rounds)
        rounds[rows] += 1
        rows = rows[moved & (rounds[rows] <= MOST_ROUNDS) & point.is_settled[rows]]
        if not len(rows):
            break
        here = batch.take(rows)
        closed = here.closed(on[rows], blown[rows])
        point.put(rows, operating_point(here, closed, point.at[rows]))
    return Settled(point, on, blown, point.is_settled & (rounds <= MOST_ROUNDS))


def swings(batch: Batch, controls: Controls, settled: Settled) -> Iterator[tuple[Point, Bools]]:
    """The operating points that unstable cases go through, each with the state of the controls.

    Args:
        batch: the unstable cases alone.
        controls: what follows the voltages.
        settled: where they were left.
    """
    on, blown = settled.on.copy(), settled.blown.copy()
    point, rows = settled.point, np.arange(len(batch))
    for _ in range(SWING_ROUNDS):
        one_at_a_time = np.full(len(batch), TOGETHER_ROUNDS)
        _moved(batch, controls, point.voltages, on, blown, rows, one_at_a_time)
        point = operating_point(batch, batch.closed(on, blown), point.at)
        yield point, on.copy()


def _moved(
    batch: Batch, controls: Controls, voltages: Floats, on: Bools, blown: Bools, rows: Ints,
    rounds: Ints,
) -> Bools:  # fmt: skip
    """Move controls, and fuses where those stand still; whether anything moved in each case."""
    closed = batch.closed(on[rows], blown[rows])
    after = controls.after(batch, voltages, closed, on[rows])
    differs = after != on[rows]
    one_at_a_time = rounds[rows] >= TOGETHER_ROUNDS
    if one_at_a_time.any() and differs.shape[1]:
        first = np.arange(differs.shape[1]) == differs.argmax(axis=1)[:, None]
        differs = differs & (first | ~one_at_a_time[:, None])
    on[rows] ^= differs
    moved = differs.any(axis=1)
    goes = _fuse_that_goes(batch, voltages, closed) & ~moved[:, None]
    blown[rows] |= goes
    has_gone = goes.any(axis=1)
    rounds[rows[has_gone]] = 0
    return np.asarray(moved | has_gone)


def _fuse_that_goes(batch: Batch, voltages: Floats, closed: Bools) -> Bools:
    """The most overloaded fuse of each case, shape (n_cases, n_fuses)."""
    fuses, limits = batch.layout.fuses, batch.layout.limits
    if not len(fuses):
        return np.zeros((len(batch), 0), bool)
    volts = np.abs(batch.across(voltages, fuses))
    load = np.where(closed[:, fuses], volts / batch.ohm[:, fuses], 0.0) / limits
    is_worst = np.arange(len(fuses)) == load.argmax(axis=1)[:, None]
    return np.asarray(is_worst & (load > 1.0))
