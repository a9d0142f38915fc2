"""What gauges and thermometers show on an air conditioner, all of it together."""

from collections.abc import Mapping
from dataclasses import dataclass, field

from faulttree.core.atmosphere import Atmosphere
from faulttree.core.refrigerant.refrigerant import Refrigerant
from faulttree.core.uncertain import Uncertain
from faulttree.core.units import Quantity

BY_WEIGHT = "Charge by weight, never by gauge."
LOW_SIDE, HIGH_SIDE = "low-side", "high-side"
AMBIENT, HUMIDITY = "ambient", "humidity"
SUCTION, DISCHARGE, LIQUID = "suction-pipe", "discharge-pipe", "liquid-pipe"
PLACES: Mapping[str, Quantity] = {
    LOW_SIDE: Quantity.GAUGE_PRESSURE,
    HIGH_SIDE: Quantity.GAUGE_PRESSURE,
    SUCTION: Quantity.TEMPERATURE,
    DISCHARGE: Quantity.TEMPERATURE,
    LIQUID: Quantity.TEMPERATURE,
    AMBIENT: Quantity.TEMPERATURE,
    HUMIDITY: Quantity.RATIO,
}
"""What is read, by the names that a tree has for it, and as what."""
IN_WORDS: Mapping[str, str] = {
    LOW_SIDE: "low side",
    HIGH_SIDE: "high side",
    SUCTION: "suction pipe",
    DISCHARGE: "discharge pipe",
    LIQUID: "liquid pipe",
    AMBIENT: "air at the condenser",
    HUMIDITY: "relative humidity",
}


@dataclass(frozen=True, slots=True)
class Read:
    """One reading.

    Attributes:
        value: what was read, with its limit of error [SI].
        step: its last digit [SI]; 0 where it is not known.
        engine: how the engine ran; empty where it is not known.
        stands: the engine stood, and the compressor with it.
    """

    value: Uncertain
    step: float = 0.0
    engine: str = ""
    stands: bool = False


@dataclass(frozen=True, slots=True)
class OnGauges:
    """All readings of one air conditioner, as far as they were taken.

    Attributes:
        refrigerant: what is in it; None where it is not known.
        altitude: of the place [m above sea level]; None where it is not known.
        reads: what was read, by its name in `PLACES`.
        why_no_refrigerant: said where it is not known.
        minutes_apart: between the first and the last of them [min].

    Raises:
        NoSuchPlace: no car is at that altitude.
    """

    refrigerant: Refrigerant | None
    altitude: float | None = None
    reads: Mapping[str, Read] = field(default_factory=dict)
    why_no_refrigerant: str = "the refrigerant is not known"
    minutes_apart: float = 0.0

    def __post_init__(self) -> None:
        Atmosphere.at_altitude(self.altitude or 0.0)

    @property
    def atmosphere(self) -> Atmosphere:
        """The air outside; that of sea level where the altitude is not known."""
        return Atmosphere.at_altitude(self.altitude or 0.0)

    def value(self, name: str) -> Uncertain | None:
        """What was read, by its name; None where nothing was."""
        read = self.reads.get(name)
        return read.value if read else None
