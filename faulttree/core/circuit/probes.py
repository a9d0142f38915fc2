"""Instruments as they load a circuit, and where their leads go."""

from dataclasses import dataclass
from enum import StrEnum

from faulttree.core.circuit.netlist import Law, Terms


class Tool(StrEnum):
    """What is held to the circuit."""

    VOLTMETER = "voltmeter"
    LOW_IMPEDANCE_VOLTMETER = "low-impedance-voltmeter"
    TEST_LIGHT = "test-light"
    LOAD_LAMP = "load-lamp"
    LED_PROBE = "led-probe"
    AMMETER = "ammeter"
    CLAMP = "clamp"
    OHMMETER = "ohmmeter"

    @property
    def is_lamp(self) -> bool:
        """True where a filament is what is looked at."""
        return self in (Tool.TEST_LIGHT, Tool.LOAD_LAMP)


OHMMETER_V = 2.5
"""Open-circuit voltage of an ohmmeter [V]; 0.5 to 3 V by maker, common practice, no source."""
OHMMETER_OHM = 2500.0
"""Its inner resistance [ohm]: 1 mA at a short, as the trade notes of meters say."""
OVER_RANGE_OHM = 40e6
"""Above this an ohmmeter shows OL [ohm]; usual top range of a hand-held meter."""
AMMETER_FUSE_A = 10.0
"""Current that the fuse of an ammeter carries [A]; usual range of a hand-held meter."""
LAMP_RATED_V = 12.0
"""Rated voltage of lamps used for testing [V]."""

LOADS: dict[Tool, tuple[Law, Terms]] = {
    Tool.VOLTMETER: (Law.LINEAR, Terms(10e6)),
    Tool.LOW_IMPEDANCE_VOLTMETER: (Law.LINEAR, Terms(2500.0)),
    Tool.TEST_LIGHT: (Law.LAMP, Terms(6.0, LAMP_RATED_V, (48.0, 0.0, 0.0))),
    Tool.LOAD_LAMP: (Law.LAMP, Terms(0.6857, LAMP_RATED_V, (6.857, 0.0, 0.0))),
    Tool.LED_PROBE: (Law.DIODE, Terms(1000.0, 1.9)),
    Tool.AMMETER: (Law.LINEAR, Terms(0.02)),
    Tool.OHMMETER: (Law.LINEAR, Terms(OHMMETER_OHM, OHMMETER_V)),
}
"""What each tool puts between its leads: 10 Mohm meter; low-impedance meter of 2 to 3 kohm; test
light of 0.25 A, 48 ohm hot and 6 ohm cold; 21 W lamp; LED with its resistor, 10 mA; shunt. From
makers' guides for meters; lamps and LED common practice, no source."""


@dataclass(frozen=True, slots=True)
class Probe:
    """One reading to be taken.

    Attributes:
        tool: what is held to the circuit.
        plus, minus: nodes that the leads touch; an LED probe lights only that way round.
        through: branch whose current is read, for a clamp, and for an ammeter put in series with
            it; the leads are empty then.
        removed: elements or branches taken out for the reading, as a fuse whose place an ammeter
            takes. An ohmmeter takes all sources out by itself: the circuit is dead.
    """

    tool: Tool
    plus: str = ""
    minus: str = ""
    through: str = ""
    removed: tuple[str, ...] = ()

    def __post_init__(self) -> None:
        is_series = self.tool in (Tool.AMMETER, Tool.CLAMP) and bool(self.through)
        if is_series == bool(self.plus and self.minus) or (
            self.tool is Tool.CLAMP and not self.through
        ):
            raise ValueError(f"{self.tool}: needs two leads, or the branch it reads, not both")


def volts(plus: str, minus: str) -> Probe:
    """A 10 Mohm meter on volts, red lead first."""
    return Probe(Tool.VOLTMETER, plus, minus)


def ohms(plus: str, minus: str, *removed: str) -> Probe:
    """An ohmmeter, with what is unplugged."""
    return Probe(Tool.OHMMETER, plus, minus, removed=removed)
