"""Conditions that the car's inputs alone decide."""

from faulttree.core.circuit.amounts import si
from faulttree.core.circuit.conditions import Condition
from faulttree.core.circuit.document import CircuitModel
from faulttree.core.circuit.netlist import Car


def holds(condition: Condition, car: Car, model: CircuitModel) -> bool:
    """Whether a condition on inputs holds; it must not ask for voltages or what a unit reads."""
    if condition.any:
        return any(holds(c, car, model) for c in condition.any)
    assert condition.input is not None
    if condition.is_:
        return car.states[condition.input] in condition.is_
    quantity = model.quantities[condition.input]
    value = car.measured[condition.input].value
    above = condition.from_ is None or value >= si(condition.from_, quantity)
    return above and (condition.below is None or value < si(condition.below, quantity))


def is_static(condition: Condition) -> bool:
    """Whether the inputs alone decide it."""
    return all(is_static(c) for c in condition.any) if condition.any else bool(condition.input)
