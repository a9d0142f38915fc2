"""The refrigerant loop and the heater in a circuit document.

What they show is known by fixed names, beside the inputs of the car: a pressure switch follows
`high-side`, a test reads `vent`.
"""

from collections.abc import Mapping
from dataclasses import dataclass
from typing import Annotated, Literal

from pydantic import Field, model_validator

from faulttree.core.circuit.amounts import (
    FixedAmperes,
    FixedCubicMetres,
    FixedKelvinsApart,
    FixedKilograms,
    FixedShare,
    FixedTurns,
    Kelvins,
    Metres,
    Share,
    amount,
)
from faulttree.core.circuit.elements import FaultEntry
from faulttree.core.document import Document, Id, Line
from faulttree.core.expression import Expression
from faulttree.core.units import Quantity


@dataclass(frozen=True, slots=True)
class Shown:
    """Something the loop shows: what it is, and what a car in order has about.

    `usual` is where a pressure or temperature switch between its two points comes from.
    """

    quantity: Quantity
    usual: str


SHOWN: Mapping[str, Shown] = {
    "low-side": Shown(Quantity.GAUGE_PRESSURE, "180 kPa"),
    "high-side": Shown(Quantity.GAUGE_PRESSURE, "1300 kPa"),
    "evaporator-in": Shown(Quantity.TEMPERATURE, "2 C"),
    "suction-pipe": Shown(Quantity.TEMPERATURE, "8 C"),
    "discharge-pipe": Shown(Quantity.TEMPERATURE, "75 C"),
    "liquid-pipe": Shown(Quantity.TEMPERATURE, "45 C"),
    "valve-in": Shown(Quantity.TEMPERATURE, "45 C"),
    "fin": Shown(Quantity.TEMPERATURE, "4 C"),
    "vent": Shown(Quantity.TEMPERATURE, "9 C"),
    "airflow": Shown(Quantity.RATIO, "100 %"),
    "cycles": Shown(Quantity.COUNT, "0"),
    "recovered": Shown(Quantity.MASS, "0.8 kg"),
    "equalises": Shown(Quantity.TIME, "240 s"),
    "heater-in": Shown(Quantity.TEMPERATURE, "85 C"),
    "heater-out": Shown(Quantity.TEMPERATURE, "75 C"),
}
"""What the loop and the heater show, by the names that tests read it by.

`airflow` is a share of that of a clean evaporator with the blower on high, `cycles` are those of
five minutes, `recovered` is what the scale shows of a whole recovery, `equalises` is how long the
gauges take to meet after a stop.
"""


class ByTurns(Document):
    """A rotational speed by the state of an input."""

    follows: Id
    is_: Annotated[dict[Id, FixedTurns], Field(min_length=1)]


class ByShares(Document):
    """A share of a whole by the state of an input."""

    follows: Id
    is_: Annotated[dict[Id, FixedShare], Field(min_length=1)]


class ByMotor(Document):
    """Air that a motor of the circuit moves: a share of full airflow at its rated speed."""

    motor: Id
    gives: FixedShare = amount("100 %")


class Clutch(Document):
    """The magnetic clutch: the element whose current pulls it in, and from how much."""

    current: Id
    from_: FixedAmperes


class LoopCompressor(Document):
    """What the compressor sweeps each turn, how fast it turns, and the clutch that drives it."""

    displacement: FixedCubicMetres = amount("160 cm3")
    turns: ByTurns
    clutch: Clutch | None = None


class LoopCondenser(Document):
    """Air through the condenser: from the road or the engine's fan, and from an electric fan."""

    draught: ByShares | None = None
    fan: ByMotor | None = None

    @model_validator(mode="after")
    def _has_air(self) -> "LoopCondenser":
        if self.draught is None and self.fan is None:
            raise ValueError("needs draught or fan, or both")
        return self


class LoopEvaporator(Document):
    """Air through the evaporator: by a motor of the circuit, or by the state of an input."""

    blower: ByMotor | ByShares


class LoopControl(Document):
    """What keeps the evaporator from freezing: a thermostat on its fins, or a cycling switch."""

    watches: Literal["fin-temperature", "low-side"]
    opens: Expression
    closes: Expression

    @property
    def quantity(self) -> Quantity:
        """What `opens` and `closes` are."""
        is_fin = self.watches == "fin-temperature"
        return Quantity.TEMPERATURE if is_fin else Quantity.GAUGE_PRESSURE


class LoopHeater(Document):
    """The heater core, and the door that sends air through it."""

    coolant: Kelvins
    flow: ByShares | FixedShare = amount("100 %")
    door: ByShares | FixedShare = amount("0 %")


class LoopFault(FaultEntry):
    """What the document says of a fault of the loop; also in other words."""

    words: Line | None = None
    part: Line | None = None


class Loop(Document):
    """The refrigerant loop of a car."""

    refrigerant: Literal["R-134a", "R-12", "R-1234yf", "R-22"]
    charge: FixedKilograms
    metering: Literal["expansion-valve", "orifice-tube"]
    superheat: FixedKelvinsApart = amount("5 K")
    ambient: Kelvins
    humidity: Share = amount("50 %")
    altitude: Metres = amount("0 m")
    compressor: LoopCompressor
    condenser: LoopCondenser
    evaporator: LoopEvaporator
    control: LoopControl | None = None
    heater: LoopHeater | None = None
    wrong_refrigerant: Literal["R-134a", "R-12", "R-1234yf", "R-22"] | None = None
    faults: dict[Id, LoopFault] = {}
