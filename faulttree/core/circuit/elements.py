"""The elements of the trade, as an author writes them. What each does is in parts*.py."""

from typing import Annotated, Literal

from pydantic import Field, Strict, model_validator

from faulttree.core.circuit.amounts import (
    FixedAmperes,
    FixedKelvins,
    FixedOhms,
    FixedSeconds,
    FixedShare,
    FixedVolts,
    FixedWatts,
    Kelvins,
    Metres,
    Ohms,
    Share,
    SquareMetres,
    Volts,
    amount,
)
from faulttree.core.circuit.conditions import Condition, Conditions
from faulttree.core.document import Document, Id, Line
from faulttree.core.expression import Expression

Pair = tuple[Id, Id]
"""Two nodes; current is counted from the first to the second."""
Weight = Annotated[float, Strict(), Field(ge=0, le=1000)]
"""How likely a fault is beside the others; 0 leaves it out."""


class Intermittent(Document):
    """A fault that comes and goes: what brings it on, and how often it is there when looked for."""

    trigger: Literal["temperature", "vibration", "moisture", "load", "time", "random"]
    chance: FixedShare


class FaultEntry(Document):
    """What the document says of a fault: its weight, its sizes, whether it comes and goes."""

    weight: Weight | None = None
    sizes: Annotated[tuple[Expression, ...], Field(min_length=1, max_length=3)] | None = None
    intermittent: Intermittent | None = None


class Element(Document):
    """What all elements have: words for people, the part that is replaced, its faults."""

    words: Line | None = None
    part: Line | None = None
    faults: dict[Id, FaultEntry] = {}

    def words_for(self, name: str) -> str:
        """What people call it; by its own name where nothing is written."""
        return self.words or name.replace("-", " ")

    def part_for(self, name: str) -> str:
        """The part that is replaced, in words."""
        return self.part or self.words_for(name)


class TwoPole(Element):
    """An element with two ends."""

    between: Pair


class Charging(Document):
    """What the generator makes of the battery when its conditions hold."""

    when: Conditions
    voltage: Volts
    internal: Ohms | None = None


class Battery(Element):
    """Battery with its generator: EMF by state of charge behind its internal resistance."""

    kind: Literal["battery"]
    plus: Id
    minus: Id
    charge: Share = amount("100 %")
    emf: Volts | None = None
    internal: Ohms = amount("10 mohm")
    charging: Charging | None = None


class Fuse(TwoPole):
    """A fuse, or a fusible link, which is slower and carries more before it goes."""

    kind: Literal["fuse", "fusible-link"]
    rating: FixedAmperes
    resistance: FixedOhms | None = None
    opens_at: FixedShare | None = None


class Wire(TwoPole):
    """Copper wire: by length and cross-section, or by its resistance."""

    kind: Literal["wire"]
    length: Metres | None = None
    area: SquareMetres | None = None
    resistance: Ohms | None = None
    temperature: Kelvins = amount("20 C")

    @model_validator(mode="after")
    def _sized(self) -> "Wire":
        by_size = self.length is not None and self.area is not None
        if by_size == (self.resistance is not None):
            raise ValueError("needs length and area, or resistance")
        return self


class Splice(Element):
    """Wires crimped or soldered together inside the harness."""

    kind: Literal["splice"]
    joins: Annotated[tuple[Id, ...], Field(min_length=3)]
    resistance: Ohms = amount("1 mohm")


class Joint(TwoPole):
    """A pair of terminals in a connector."""

    kind: Literal["contact"]
    resistance: Ohms = amount("5 mohm")


class Ground(TwoPole):
    """Where a ground wire or strap is bolted to the body or the engine."""

    kind: Literal["chassis-ground", "engine-ground"]
    resistance: Ohms = amount("2 mohm")


class SwitchContact(Document):
    """One contact of a switch, and the positions in which it is closed."""

    between: Pair
    closed: Annotated[tuple[Id, ...], Field(min_length=1)]
    resistance: Ohms = amount("10 mohm")


class Switch(Element):
    """A switch worked by hand or foot, by an input of the car."""

    kind: Literal["switch"]
    follows: Id
    contacts: Annotated[dict[Id, SwitchContact], Field(min_length=1)]


class RelayCoil(Document):
    """The coil of a relay; polarity matters where a diode lies across it (cathode at the first)."""

    between: Pair
    resistance: Ohms
    pull_in: FixedVolts = amount("6.9 V")
    drop_out: FixedVolts = amount("1.2 V")
    suppression: Literal["none", "diode", "resistor"] = "none"


class RelayContact(Document):
    """A contact set: `make` closes on the common when the coil pulls, `break` when it does not."""

    common: Id
    make: Id | None = None
    break_: Id | None = None
    resistance: Ohms = amount("10 mohm")

    @model_validator(mode="after")
    def _has_a_contact(self) -> "RelayContact":
        if self.make is None and self.break_ is None:
            raise ValueError("needs make or break")
        return self


class Relay(Element):
    """A relay: coil and contacts, with memory between drop-out and pull-in."""

    kind: Literal["relay"]
    coil: RelayCoil
    contacts: Annotated[dict[Id, RelayContact], Field(min_length=1)]


class Lamp(TwoPole):
    """A filament lamp by its rated power; cold it has a fraction of its hot resistance."""

    kind: Literal["lamp"]
    power: FixedWatts
    voltage: FixedVolts = amount("12 V")
    cold: FixedShare = amount("10 %")


class Led(TwoPole):
    """A light-emitting diode with its series resistor, anode first."""

    kind: Literal["led"]
    forward: FixedVolts = amount("1.9 V")
    resistance: FixedOhms = amount("680 ohm")


class Diode(TwoPole):
    """A diode, anode first."""

    kind: Literal["diode"]
    forward: FixedVolts = amount("0.7 V")
    resistance: FixedOhms = amount("0.05 ohm")


class Coil(TwoPole):
    """A winding of copper (clutch, valve, injector), or a heater, whose wire hardly changes."""

    kind: Literal["coil", "heater"]
    resistance: Ohms
    temperature: Kelvins = amount("20 C")
    opens_above: FixedKelvins | None = None


class Motor(TwoPole):
    """A direct-current motor by its rated point and its resistance at standstill."""

    kind: Literal["motor"]
    voltage: FixedVolts
    current: FixedAmperes
    winding: FixedOhms
    load: Literal["fan", "steady"] = "fan"


class ThermalFuse(Document):
    """The fuse of a resistor pack; it melts when the pack carries more than it can shed."""

    between: Pair
    resistance: FixedOhms = amount("5 mohm")
    opens_above: FixedAmperes | None = None


class ResistorPack(Element):
    """Resistors in series with taps between them, and the thermal fuse that guards them."""

    kind: Literal["resistor-pack"]
    taps: Annotated[tuple[Id, ...], Field(min_length=2)]
    resistances: Annotated[tuple[FixedOhms, ...], Field(min_length=1)]
    thermal_fuse: ThermalFuse | None = None

    @model_validator(mode="after")
    def _one_between_each(self) -> "ResistorPack":
        if len(self.resistances) != len(self.taps) - 1:
            raise ValueError("needs one resistance between each two taps")
        return self


class CurvePoint(Document):
    """One point of a sensor's curve."""

    at: Expression
    is_: FixedOhms


Curve = Annotated[tuple[CurvePoint, ...], Field(min_length=2)]
"""A sensor's curve, in rising order of `at`."""


class Sender(TwoPole):
    """A sender whose resistance follows an input: straight lines between the points."""

    kind: Literal["sender"]
    follows: Id
    curve: Curve


class Thermistor(TwoPole):
    """A thermistor by two or more points of its table."""

    kind: Literal["thermistor"]
    follows: Id
    curve: Curve


class ThresholdSwitch(TwoPole):
    """A switch worked by pressure or temperature, with different points to open and to close."""

    kind: Literal["pressure-switch", "temperature-switch"]
    follows: Id
    opens: Expression
    closes: Expression
    resistance: Ohms = amount("20 mohm")


class Pull(Document):
    """The resistor that holds an input up to a supply of the unit, or down to its ground."""

    to: Literal["up", "down"]
    resistance: Ohms
    supply: Volts | None = None

    @model_validator(mode="after")
    def _supplied(self) -> "Pull":
        if (self.to == "up") != (self.supply is not None):
            raise ValueError("up needs supply, down has none")
        return self


class ControlInput(Element):
    """A control unit's input: what holds it, what it loads the line with, what it takes for low."""

    kind: Literal["control-input"]
    pin: Id
    ground: Id
    pull: Pull | None = None
    load: Ohms | None = None
    low_below: FixedVolts = amount("1.5 V")
    high_from: FixedVolts = amount("3.5 V")
    powered: tuple[Condition, ...] = ()


class ControlOutput(TwoPole):
    """A control unit's output: a driver that closes to ground (low) or to its supply (high)."""

    kind: Literal["control-output"]
    side: Literal["low", "high"]
    drives_when: Conditions
    after: FixedSeconds = amount("0 s")
    resistance: Ohms = amount("0.2 ohm")


AnyElement = Annotated[
    Battery
    | Fuse
    | Wire
    | Splice
    | Joint
    | Ground
    | Switch
    | Relay
    | Lamp
    | Led
    | Diode
    | Coil
    | Motor
    | ResistorPack
    | Sender
    | Thermistor
    | ThresholdSwitch
    | ControlInput
    | ControlOutput,
    Field(discriminator="kind"),
]
"""One element of a circuit."""
