"""A circuit as branches between nodes: what the elements become, and what the solver works on."""

import math
from collections.abc import Callable, Mapping
from dataclasses import dataclass, field, replace
from enum import StrEnum
from functools import cached_property
from typing import Literal

from faulttree.core.circuit.conditions import Condition
from faulttree.core.circuit.document import CircuitModel
from faulttree.core.expression import Expression
from faulttree.core.uncertain import Uncertain
from faulttree.core.units import Quantity


class Law(StrEnum):
    """How the current of a branch follows from its voltage v; ohm, emf, shape are its terms.

    linear: (v - emf) / ohm. diode: (v - emf) / ohm where v > emf, otherwise none.
    lamp: ohm cold, emf the rated voltage, shape[0] the resistance there; see devices.
    motor: ohm of the winding, shape the currents that friction, drag and fan take; see devices.
    """

    LINEAR = "linear"
    DIODE = "diode"
    LAMP = "lamp"
    MOTOR = "motor"


@dataclass(frozen=True, slots=True)
class Terms:
    """The figures of a branch in one state of the car.

    Attributes:
        ohm: resistance [ohm]; infinite where the branch is open.
        emf: voltage of the source in it, from a to b [V].
        shape: further figures of a nonlinear law.
    """

    ohm: float
    emf: float = 0.0
    shape: tuple[float, float, float] = (0.0, 0.0, 0.0)


OPEN = Terms(math.inf)
"""No path."""


@dataclass(frozen=True, slots=True)
class Supply:
    """Another battery than the model's: its EMF [V] and internal resistance [ohm].

    A flat battery keeps the EMF of its charge, unless the generator feeds the car.
    """

    emf_v: float
    internal_ohm: float


@dataclass(frozen=True, slots=True)
class Car:
    """The car's inputs in one state.

    Attributes:
        states: the state of each input that has states.
        measured: the value of each measured input [SI].
        usual: the usual value of each measured input [SI].
        supply: what stands in for every battery of the model, or None.
        elapsed_s: time since the inputs were set [s].
    """

    states: Mapping[str, str]
    measured: Mapping[str, Uncertain]
    usual: Mapping[str, Uncertain]
    supply: Supply | None = None
    elapsed_s: float = math.inf


Changes = Mapping[str, float]
"""What faults change in an element: name of the change to its size."""
Evaluate = Callable[[Car, Changes], Terms]
"""The terms of a branch for a state of the car and the changes that faults make."""


@dataclass(frozen=True, slots=True)
class Branch:
    """A path between two nodes.

    Attributes:
        name: the element's id, with a point and the part of it where it has several.
        element: id of the element.
        a, b: nodes, as indexes; current is counted from a to b.
        law: how its current follows from its voltage.
        terms: its figures.
        control: index of the control that works it, or None.
        closed_when: the state of the control in which it is closed.
        is_source: true where it drives current by itself; it is off on a dead circuit.
        opens_above_a: the current that opens it for good [A]; infinite where none does.
    """

    name: str
    element: str
    a: int
    b: int
    law: Law
    terms: Evaluate
    control: int | None = None
    closed_when: bool = True
    is_source: bool = False
    opens_above_a: float = math.inf


@dataclass(frozen=True, slots=True)
class Control:
    """Something that has two states and works branches: a coil, an input, a driver.

    A coil is on from `on_at` volts across its branch and off again at `off_at` or less; an input
    is on (high) from `on_at` between its nodes and off below `off_at`; between the two they stay
    as they are. A driver is on when its conditions hold.
    """

    name: str
    kind: Literal["coil", "input", "driver"]
    a: int = -1
    b: int = -1
    branch: int = -1
    on_at: float = 0.0
    off_at: float = 0.0
    conditions: tuple[Condition, ...] = ()
    after_s: float = 0.0


@dataclass(frozen=True, eq=False)
class Netlist:
    """All branches and controls of a circuit.

    Attributes:
        nodes: names; the last one is the reference. Splices add nodes of their own, in brackets.
        branches, controls: in the order of the document.
    """

    nodes: tuple[str, ...]
    branches: tuple[Branch, ...]
    controls: tuple[Control, ...]

    def node(self, name: str) -> int:
        """Index of a node; raises KeyError."""
        return self._nodes[name]

    def branch(self, name: str) -> int:
        """Index of a branch; raises KeyError."""
        return self._branches[name]

    def control(self, name: str) -> int:
        """Index of a control; raises KeyError."""
        return self._controls[name]

    def branches_of(self, element: str) -> tuple[int, ...]:
        """Indexes of the branches of an element; raises KeyError."""
        return self._of_element[element]

    @cached_property
    def _nodes(self) -> dict[str, int]:
        return {name: i for i, name in enumerate(self.nodes)}

    @cached_property
    def _branches(self) -> dict[str, int]:
        return {branch.name: i for i, branch in enumerate(self.branches)}

    @cached_property
    def _of_element(self) -> dict[str, tuple[int, ...]]:
        found: dict[str, tuple[int, ...]] = {}
        for index, branch in enumerate(self.branches):
            found[branch.element] = (*found.get(branch.element, ()), index)
        return found

    @cached_property
    def _controls(self) -> dict[str, int]:
        return {control.name: i for i, control in enumerate(self.controls)}


Amount = Callable[[Car], float]
"""An amount [SI] in a state of the car."""


@dataclass
class Builder:
    """Collects the branches and controls of a circuit while its elements are gone through."""

    model: CircuitModel
    names: list[str] = field(default_factory=list)
    branches: list[Branch] = field(default_factory=list)
    controls: list[Control] = field(default_factory=list)

    def __post_init__(self) -> None:
        self.names = [n for n in self.model.nodes if n != self.model.reference]
        self._index: dict[str, int] = {n: i for i, n in enumerate(self.names)}
        self._index[self.model.reference] = -1

    def node(self, name: str) -> int:
        """Index of a node of the document; -1 is the reference."""
        return self._index[name]

    def own_node(self, name: str) -> int:
        """A node that nobody can probe."""
        self.names.append(f"({name})")
        self._index[f"({name})"] = len(self.names) - 1
        return len(self.names) - 1

    def amount(self, value: Expression, quantity: Quantity) -> Amount:
        """A function from the state of the car to an amount of the document [SI]."""
        evaluate = value.evaluator(quantity, self.model.quantities)
        if not value.names:
            fixed = evaluate({}).value
            return lambda _car: fixed
        return lambda car: evaluate(car.measured).value

    def fixed(self, value: Expression, quantity: Quantity) -> float:
        """An amount that does not follow the inputs [SI]."""
        return value.evaluator(quantity, {})({}).value

    def branch(self, name: str, pair: tuple[int, int], terms: Evaluate, **more: object) -> int:
        """Add a branch; its index. `more` are further fields of Branch."""
        element = name.partition(".")[0]
        fields = {"law": Law.LINEAR, **more}
        self.branches.append(Branch(name, element, *pair, terms=terms, **fields))  # type: ignore[arg-type]
        return len(self.branches) - 1

    def pair(self, pair: tuple[str, str]) -> tuple[int, int]:
        """Both ends as indexes."""
        return self.node(pair[0]), self.node(pair[1])

    def control(self, control: Control) -> int:
        """Add a control; its index."""
        self.controls.append(control)
        return len(self.controls) - 1

    def built(self) -> Netlist:
        """The netlist; the reference becomes the last node."""
        last = len(self.names)
        branches = tuple(_with_reference(b, last) for b in self.branches)
        controls = tuple(_control_with_reference(c, last) for c in self.controls)
        return Netlist((*self.names, self.model.reference), branches, controls)


def _with_reference(branch: Branch, last: int) -> Branch:
    return replace(branch, a=branch.a % (last + 1), b=branch.b % (last + 1))


def _control_with_reference(control: Control, last: int) -> Control:
    return replace(control, a=control.a % (last + 1), b=control.b % (last + 1))
