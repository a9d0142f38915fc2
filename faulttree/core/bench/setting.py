"""How the car is set for a look: inputs, leads and loads, what is unplugged, engine on or off."""

from collections.abc import Mapping
from dataclasses import dataclass, replace

from faulttree.core.bench.document import SetOnCar
from faulttree.core.circuit.amounts import si
from faulttree.core.circuit.document import CircuitModel
from faulttree.core.expression import Expression
from faulttree.core.tree import Engine, SetUp
from faulttree.core.units import Quantity

Inputs = Mapping[str, str | float]
"""Input to its state, or to its value [SI]."""

RUNNING = (Engine.IDLE, Engine.FAST_IDLE, Engine.DRIVING)
"""States of the engine in which the generator feeds the car."""


@dataclass(frozen=True, slots=True)
class Setting:
    """A state of the car, the supply left open.

    Attributes:
        inputs: input and state, or input and value [SI], in the order of their names.
        is_running: the engine turns the generator.
        bridges: pairs of nodes joined by a lead.
        loads: pairs of nodes joined by a resistance [ohm].
        removes: elements or branches taken out.
        elapsed_s: time since the inputs were set [s].
    """

    inputs: tuple[tuple[str, str | float], ...] = ()
    is_running: bool = False
    bridges: tuple[tuple[str, str], ...] = ()
    loads: tuple[tuple[str, str, float], ...] = ()
    removes: tuple[str, ...] = ()
    elapsed_s: float = float("inf")

    def having(self, inputs: Inputs) -> "Setting":
        """The same with some inputs set otherwise."""
        if not inputs:
            return self
        merged = tuple(sorted({**dict(self.inputs), **inputs}.items()))
        running = _is_running(inputs.get("engine"), self.is_running)
        return replace(self, inputs=merged, is_running=running)

    def joined_by(self, other: "Setting") -> "Setting":
        """The same with what another setting adds to it."""
        return replace(
            self.having(dict(other.inputs)),
            bridges=self.bridges + other.bridges,
            loads=self.loads + other.loads,
            removes=self.removes + other.removes,
            elapsed_s=min(self.elapsed_s, other.elapsed_s),
        )


def usual(model: CircuitModel) -> Setting:
    """The car with all inputs as usual."""
    engine = model.inputs.get("engine")
    return Setting(is_running=_is_running(engine.usual.text if engine else None, False))


def of_step(model: CircuitModel, set_up: SetUp) -> Setting:
    """What a step's own set-up says of key and engine, where the circuit has those states."""
    found: dict[str, str | float] = {}
    for name, state in (("key", set_up.key), ("engine", set_up.engine.value)):
        known = model.inputs.get(name)
        if state and known and known.states and state in known.states:
            found[name] = state
    return replace(Setting().having(found), is_running=set_up.engine in RUNNING)


def added(model: CircuitModel, written: SetOnCar, choices: Inputs) -> Setting:
    """What a bench sheet adds for a look.

    Args:
        model: the circuit.
        written: as the sheet has it.
        choices: choice to the state it stands for.
    """
    inputs = inputs_si(model, written.inputs)
    return Setting(
        inputs=tuple(sorted((n, choices.get(str(v), v)) for n, v in inputs.items())),
        bridges=written.bridges,
        loads=tuple((*load.between, si(load.ohm, Quantity.RESISTANCE)) for load in written.loads),
        removes=written.removes,
        elapsed_s=si(written.elapsed, Quantity.TIME) if written.elapsed else float("inf"),
    )


def inputs_si(model: CircuitModel, written: Mapping[str, Expression]) -> dict[str, str | float]:
    """Inputs as a sheet writes them: states as they stand, values [SI]."""
    quantities = model.quantities
    return {
        name: si(value, quantities[name]) if name in quantities else value.text
        for name, value in written.items()
    }


def _is_running(engine: str | float | None, otherwise: bool) -> bool:
    return otherwise if engine is None else engine in [e.value for e in RUNNING]
