"""What is to be solved: states of the car, faults put in, and every combination of the two."""

from collections.abc import Iterable, Sequence
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from faulttree.core.circuit.circuit import State
from faulttree.core.circuit.faults import Injected

FaultSet = tuple[Injected, ...]
"""Faults that are present together; empty for a healthy car."""


@dataclass(frozen=True, slots=True, eq=False)
class Cases:
    """A list of cases, each a state of the car with a set of faults.

    Attributes:
        states, faults: what the cases are made of.
        state_of, fault_of: index into each, shape (n_cases,).
    """

    states: tuple[State, ...]
    faults: tuple[FaultSet, ...]
    state_of: NDArray[np.intp]
    fault_of: NDArray[np.intp]

    @classmethod
    def every(cls, states: Sequence[State], faults: Iterable[FaultSet]) -> "Cases":
        """Each set of faults in each state: case f * len(states) + s."""
        sets = tuple(faults)
        shape = len(sets), len(states)
        state_of = np.broadcast_to(np.arange(len(states)), shape).ravel()
        fault_of = np.repeat(np.arange(len(sets)), len(states))
        return cls(tuple(states), sets, state_of, fault_of)

    @classmethod
    def one(cls, state: State | None = None, *faults: Injected) -> "Cases":
        """A single case; healthy unless faults are given."""
        return cls.every([state or State()], [faults])

    def __len__(self) -> int:
        return len(self.state_of)
