"""The figures of all branches in all cases, as arrays: states looked up, faults put in."""

from collections.abc import Callable, Iterator, Mapping
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from faulttree.core.circuit.cases import Cases, FaultSet
from faulttree.core.circuit.circuit import Circuit, State
from faulttree.core.circuit.edits import (
    Between,
    Change,
    Edit,
    Ohm,
    Open,
    Series,
    Stuck,
    Threshold,
)
from faulttree.core.circuit.netlist import Branch, Car, Law, Terms

Floats = NDArray[np.float64]
Bools = NDArray[np.bool_]
LEAD_OHM = 0.02
"""A lead with clips that bridges two points [ohm]; common practice, no source."""


@dataclass(slots=True, eq=False)
class Figures:
    """Arrays over cases, and over branches (b), controls (c) or added paths (p).

    Attributes:
        ohm, emf: terms of each branch, shape (n_cases, n_b); see netlist.Law.
        shape: further terms of the nonlinear branches, shape (n_cases, n_nonlinear, 3).
        is_open: branch taken out of the circuit, shape (n_cases, n_b).
        is_stuck: branch closed whatever works it, shape (n_cases, n_b).
        on_at, off_at: thresholds of controls [V], shape (n_cases, n_c).
        path_a, path_b: ends of added paths, shape (n_cases, n_p).
        path_ohm: their resistances, infinite where there is none, shape (n_cases, n_p).
        path_branch: the branch a path stands for, as a shorted lamp; -1 for none.
        cars: the state of the car of each of `state_of`'s values.
        state_of: index into cars, shape (n_cases,).
        next_path: the next free column of paths while faults are put in.
    """

    ohm: Floats
    emf: Floats
    shape: Floats
    is_open: Bools
    is_stuck: Bools
    on_at: Floats
    off_at: Floats
    path_a: NDArray[np.intp]
    path_b: NDArray[np.intp]
    path_ohm: Floats
    path_branch: NDArray[np.intp]
    cars: tuple[Car, ...]
    state_of: NDArray[np.intp]
    next_path: int = 0

    def take(self, rows: NDArray[np.intp]) -> "Figures":
        """The same for some cases."""
        return Figures(
            self.ohm[rows],
            self.emf[rows],
            self.shape[rows],
            self.is_open[rows],
            self.is_stuck[rows],
            self.on_at[rows],
            self.off_at[rows],
            self.path_a[rows],
            self.path_b[rows],
            self.path_ohm[rows],
            self.path_branch[rows],
            self.cars,
            self.state_of[rows],
        )


def figures(circuit: Circuit, cases: Cases) -> Figures:
    """The figures of all cases.

    Raises:
        KeyError: a state or a fault names something that the circuit does not have.
    """
    cars = tuple(circuit.car(state) for state in cases.states)
    base = [_terms(circuit.netlist.branches, car, {}) for car in cars]
    found = _base(circuit, cases, cars, base)
    _set_up(circuit, cases, found)
    bridges = _bridges(cases)
    for faults, rows in _rows_of(cases):
        found.next_path = bridges
        _put_in(circuit, faults, rows, found)
    return found


def _rows_of(cases: Cases) -> Iterator[tuple[FaultSet, NDArray[np.intp]]]:
    """Each set of faults with the cases it is in."""
    order = np.argsort(cases.fault_of, kind="stable")
    ends = np.searchsorted(cases.fault_of[order], np.arange(len(cases.faults) + 1))
    for faults, begin, end in zip(cases.faults, ends, ends[1:], strict=False):
        if faults and begin < end:
            yield faults, order[begin:end]


def nonlinear(circuit: Circuit) -> list[int]:
    """Indexes of the nonlinear branches."""
    return [i for i, b in enumerate(circuit.netlist.branches) if b.law is not Law.LINEAR]


def _terms(branches: tuple[Branch, ...], car: Car, changes: Mapping[str, float]) -> list[Terms]:
    return [branch.terms(car, changes) for branch in branches]


def _base(
    circuit: Circuit, cases: Cases, cars: tuple[Car, ...], base: list[list[Terms]]
) -> Figures:
    curved, of = nonlinear(circuit), cases.state_of
    n_cases, controls = len(of), circuit.netlist.controls
    n_paths = max((_paths(f) for f in cases.faults), default=0) + _bridges(cases)
    reference = len(circuit.netlist.nodes) - 1
    ohm = np.array([[t.ohm for t in terms] for terms in base])
    emf = np.array([[t.emf for t in terms] for terms in base])
    shape = np.array([[terms[i].shape for i in curved] for terms in base])
    return Figures(
        ohm=ohm[of],
        emf=emf[of],
        shape=shape.reshape(len(base), len(curved), 3)[of],
        is_open=np.zeros((n_cases, ohm.shape[1]), bool),
        is_stuck=np.zeros((n_cases, ohm.shape[1]), bool),
        on_at=np.tile([c.on_at for c in controls], (n_cases, 1)),
        off_at=np.tile([c.off_at for c in controls], (n_cases, 1)),
        path_a=np.full((n_cases, n_paths), reference),
        path_b=np.full((n_cases, n_paths), reference),
        path_ohm=np.full((n_cases, n_paths), np.inf),
        path_branch=np.full((n_cases, n_paths), -1),
        cars=cars,
        state_of=of,
    )


def _paths(faults: FaultSet) -> int:
    """How many added paths a set of faults may need."""
    return sum(isinstance(e, Between | Ohm) for f in faults for e in f.edits)


def _bridges(cases: Cases) -> int:
    """How many leads any state has; their paths come first."""
    return max((len(s.bridges) for s in cases.states), default=0)


def _set_up(circuit: Circuit, cases: Cases, found: Figures) -> None:
    for index, state in enumerate(cases.states):
        if state.removed or state.bridges:
            rows = np.flatnonzero(cases.state_of == index)
            remove(circuit, state, rows, found)
            found.next_path = 0
            for a, b in state.bridges:
                _between(circuit, rows, found, Between(a, b, LEAD_OHM))


def remove(circuit: Circuit, state: State, rows: NDArray[np.intp], found: Figures) -> None:
    """Take the elements or branches out that a state of the car names."""
    for name in state.removed:
        for branch in branches_named(circuit, name):
            found.is_open[rows, branch] = True


def branches_named(circuit: Circuit, name: str) -> tuple[int, ...]:
    """The branches of an element, or one branch by its own name; raises KeyError."""
    if name in circuit.model.elements:
        return circuit.netlist.branches_of(name)
    return (circuit.netlist.branch(name),)


def _put_in(circuit: Circuit, faults: FaultSet, rows: NDArray[np.intp], found: Figures) -> None:
    edits = [e for f in faults for e in f.edits]
    _change(circuit, [e for e in edits if isinstance(e, Change)], rows, found)
    for edit in edits:
        if not isinstance(edit, Change):
            _EDITS[type(edit)](circuit, rows, found, edit)


def _change(circuit: Circuit, edits: list[Change], rows: NDArray[np.intp], found: Figures) -> None:
    """Work the terms of changed elements out again, once for each state of the car."""
    if not edits:
        return
    curved = nonlinear(circuit)
    for element in {e.element for e in edits}:
        changes = {e.key: e.amount for e in edits if e.element == element}
        for index in circuit.netlist.branches_of(element):
            branch = circuit.netlist.branches[index]
            for state in set(found.state_of[rows].tolist()):
                here = rows[found.state_of[rows] == state]
                terms = branch.terms(found.cars[state], changes)
                found.ohm[here, index], found.emf[here, index] = terms.ohm, terms.emf
                if index in curved:
                    found.shape[here, curved.index(index)] = terms.shape


def _open(circuit: Circuit, rows: NDArray[np.intp], found: Figures, edit: Open) -> None:
    found.is_open[rows, circuit.netlist.branch(edit.branch)] = True


def _series(circuit: Circuit, rows: NDArray[np.intp], found: Figures, edit: Series) -> None:
    index = circuit.netlist.branch(edit.branch)
    if circuit.netlist.branches[index].law is Law.LAMP:
        raise ValueError(f"{edit.branch}: put the resistance into the wire to the lamp")
    found.ohm[rows, index] += edit.ohm


def _ohm(circuit: Circuit, rows: NDArray[np.intp], found: Figures, edit: Ohm) -> None:
    """A nonlinear branch is taken out and a plain path put in its place."""
    index = circuit.netlist.branch(edit.branch)
    branch = circuit.netlist.branches[index]
    if branch.law is Law.LINEAR:
        found.ohm[rows, index] = edit.ohm
        return
    still_there = rows[~found.is_open[rows, index]]
    found.is_open[rows, index] = True
    _path(still_there, found, branch.a, branch.b, edit.ohm, index)


def _stuck(circuit: Circuit, rows: NDArray[np.intp], found: Figures, edit: Stuck) -> None:
    found.is_stuck[rows, circuit.netlist.branch(edit.branch)] = True


def _between(circuit: Circuit, rows: NDArray[np.intp], found: Figures, edit: Between) -> None:
    _path(rows, found, circuit.netlist.node(edit.a), circuit.netlist.node(edit.b), edit.ohm)


def _path(
    rows: NDArray[np.intp], found: Figures, a: int, b: int, ohm: float, stands_for: int = -1
) -> None:
    """Put a path into the next free column; `next_path` is set back for each state or fault set."""
    column = found.next_path
    found.next_path += 1
    found.path_a[rows, column], found.path_b[rows, column] = a, b
    found.path_ohm[rows, column], found.path_branch[rows, column] = ohm, stands_for


def _threshold(circuit: Circuit, rows: NDArray[np.intp], found: Figures, edit: Threshold) -> None:
    index = circuit.netlist.control(edit.control)
    found.on_at[rows, index] *= edit.factor
    found.off_at[rows, index] *= edit.factor


_EDITS: dict[type[Edit], Callable[..., None]] = {
    Open: _open,
    Series: _series,
    Ohm: _ohm,
    Stuck: _stuck,
    Between: _between,
    Threshold: _threshold,
}
