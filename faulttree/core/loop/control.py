"""What switches the compressor off before the loop settles: fin thermostat or cycling switch.

With the compressor on, the loop nears what it would settle at; off, it nears the air around it.
Both ways are taken as exponential. Readings are those just before the switch opens.
"""

import math
from dataclasses import dataclass, replace
from enum import StrEnum

from faulttree.core.loop.parts import Readings, Run
from faulttree.core.refrigerant.refrigerant import Properties


class Watches(StrEnum):
    """What the control watches. The value of a member is its name in a document."""

    FIN = "fin-temperature"
    LOW_SIDE = "low-side"


@dataclass(frozen=True, slots=True)
class Control:
    """A switch that keeps the evaporator from freezing.

    Attributes:
        watches: temperature of the fins, or pressure of the low side.
        opens, closes: temperature [K] or gauge pressure [Pa].
        is_stuck: it never opens.
    """

    watches: Watches
    opens: float
    closes: float
    is_stuck: bool = False


_ON_S = {Watches.FIN: 60.0, Watches.LOW_SIDE: 12.0}
_OFF_S = {Watches.FIN: 60.0, Watches.LOW_SIDE: 25.0}
"""How slowly it nears what it would settle at, with a full charge [s]; common practice, no source.
A pressure follows the compressor at once, fins and the air in them take longer."""


@dataclass(frozen=True, slots=True)
class Cycling:
    """How the compressor is switched: seconds on and off; one is infinite where it stays so."""

    on: float
    off: float

    @property
    def rate(self) -> float:
        """Cycles each second [1/s]."""
        return 1.0 / (self.on + self.off)


STAYS_ON, STAYS_OFF = Cycling(math.inf, 0.0), Cycling(0.0, math.inf)


def controlled(
    settled: Readings, still: Readings, run: Run, control: Control | None, known: Properties
) -> tuple[Readings, Cycling]:
    """What is read just before the control opens, and how it cycles.

    Where the loop is too cool, or too empty, for the control to close at all, it stands.

    Args:
        settled: what the loop would settle at with the compressor always on.
        still: what it shows at rest.
        run: how it is run.
        control: None where nothing switches.
        known: the refrigerant in it.
    """
    if control is None or control.is_stuck:
        return settled, STAYS_ON
    is_fin = control.watches is Watches.FIN
    start = still.fin if is_fin else still.low_side
    end = settled.fin if is_fin else settled.low_side
    if start <= control.closes:
        return still, STAYS_OFF
    if end >= control.opens:
        return settled, STAYS_ON
    return _at_cut_out(settled, run, control, known), _cycling(control, run, start, end)


def _cycling(control: Control, run: Run, start: float, end: float) -> Cycling:
    small = max(run.charge, 0.05) if control.watches is Watches.LOW_SIDE else 1.0
    on = _ON_S[control.watches] * small * math.log((control.closes - end) / (control.opens - end))
    warming = (start - control.opens) / (start - control.closes)
    off = _OFF_S[control.watches] * small * math.log(warming)
    return Cycling(on, off)


def _at_cut_out(settled: Readings, run: Run, control: Control, known: Properties) -> Readings:
    """The readings on the way from standing to settled, at the moment the control opens."""
    if control.watches is Watches.FIN:
        share = (run.ambient - control.opens) / (run.ambient - settled.fin)
    else:
        boiling = known.temperature(control.opens + run.atmosphere)
        share = (run.ambient - boiling) / (run.ambient - settled.evaporator_in)
    pipes = ("evaporator_in", "suction_pipe", "fin", "vent")
    moved = {name: run.ambient + share * (getattr(settled, name) - run.ambient) for name in pipes}
    low = known.pressure(moved["evaporator_in"]) - run.atmosphere
    return replace(settled, low_side=low, **moved)
