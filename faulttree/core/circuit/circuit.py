"""A circuit that can be solved: its document, its netlist, and the car in a state."""

from collections.abc import Callable, Mapping
from dataclasses import dataclass, field
from typing import Any

from faulttree.core.circuit import elements as el
from faulttree.core.circuit import parts_loads, parts_supply, parts_switching
from faulttree.core.circuit.amounts import si
from faulttree.core.circuit.document import CircuitModel
from faulttree.core.circuit.netlist import Builder, Car, Netlist, Supply
from faulttree.core.uncertain import exactly

Build = Callable[[str, Any, Builder], None]

_BUILDS: dict[type[el.Element], Build] = {
    el.Battery: parts_supply.battery,
    el.Fuse: parts_supply.fuse,
    el.Wire: parts_supply.wire,
    el.Splice: parts_supply.splice,
    el.Joint: parts_supply.joint,
    el.Ground: parts_supply.joint,
    el.Switch: parts_switching.switch,
    el.ThresholdSwitch: parts_switching.threshold_switch,
    el.Relay: parts_switching.relay,
    el.ControlInput: parts_switching.control_input,
    el.ControlOutput: parts_switching.control_output,
    el.Lamp: parts_loads.lamp,
    el.Led: parts_loads.diode,
    el.Diode: parts_loads.diode,
    el.Coil: parts_loads.coil,
    el.Motor: parts_loads.motor,
    el.ResistorPack: parts_loads.resistor_pack,
    el.Sender: parts_loads.sender,
    el.Thermistor: parts_loads.thermistor,
}
"""What makes branches of each kind of element."""


@dataclass(frozen=True, slots=True)
class State:
    """How the car is set for a test.

    Attributes:
        inputs: input to its state, or to its value [SI]; the others are as usual.
        supply: another battery than the model's, or None.
        removed: elements taken out or unplugged; names of single branches are allowed too.
        bridges: pairs of nodes joined by a lead.
        elapsed_s: time since the inputs were set [s], for outputs that drive after a delay.
    """

    inputs: Mapping[str, str | float] = field(default_factory=dict)
    supply: Supply | None = None
    removed: tuple[str, ...] = ()
    bridges: tuple[tuple[str, str], ...] = ()
    elapsed_s: float = float("inf")


@dataclass(frozen=True, slots=True, eq=False)
class Circuit:
    """A checked circuit document as a netlist."""

    model: CircuitModel
    netlist: Netlist

    @classmethod
    def from_document(cls, model: CircuitModel) -> "Circuit":
        """The netlist of a document that has been checked.

        Raises:
            ExpressionError, CannotWorkOut, KeyError: the document has errors that a check tells.
        """
        builder = Builder(model)
        for name, element in model.elements.items():
            _BUILDS[type(element)](name, element, builder)
        return cls(model, builder.built())

    def car(self, state: State) -> Car:
        """The car's inputs in a state.

        Raises:
            KeyError: the state names an input, or a state of one, that the model does not have.
        """
        unknown = [name for name in state.inputs if name not in self.model.inputs]
        if unknown:
            raise KeyError(f"{self.model.id} has no input {unknown[0]}")
        states: dict[str, str] = {}
        usual = {
            name: exactly(si(self.model.inputs[name].usual, quantity))
            for name, quantity in self.model.quantities.items()
        }
        measured = dict(usual)
        for name, each in self.model.inputs.items():
            if each.states is None:
                if name in state.inputs:
                    measured[name] = exactly(float(state.inputs[name]))
                continue
            states[name] = str(state.inputs.get(name, each.usual.text))
            if states[name] not in each.states:
                raise KeyError(f"{name} has no state {states[name]}")
        return Car(states, measured, usual, state.supply, state.elapsed_s)
