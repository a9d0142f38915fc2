"""The faults that a refrigerant loop and its heater may have, with usual weights and sizes.

A fault changes parameters of the loop, not branches of the circuit. Weights are relative; they and
the sizes are common practice, no source, and every document may give its own.
"""

from collections.abc import Callable, Iterator, Mapping
from dataclasses import dataclass
from typing import Any

from faulttree.core.circuit.faults import Comes, sizes_of
from faulttree.core.circuit.faults import comes as comes_with
from faulttree.core.circuit.loop_document import Loop, LoopFault
from faulttree.core.units import Quantity

PREFIX = "loop."
"""What the id of every fault of the loop, and the name of every parameter, begins with."""
OF_CAR_ALTITUDE, OF_CAR_REFRIGERANT = f"{PREFIX}altitude", f"{PREFIX}refrigerant"
"""Parameters that a car of other data than the document's sets: its altitude [m], and the
refrigerant on its label."""
Parameters = Mapping[str, float | str]
"""Parameter of the loop, with its prefix, to its value."""


@dataclass(frozen=True, slots=True)
class LoopFaultKind:
    """A fault of the loop.

    Attributes:
        id: its name in a document, without the prefix.
        words: what is wrong.
        part: what is replaced or mended.
        weight: how likely it is beside the others.
        sizes: mild, typical, severe; empty where it has no size.
        sets: the parameters it sets, given its size.
        fits: whether a loop may have it.
        most: the largest size that makes sense.
    """

    id: str
    words: str
    part: str
    weight: float
    sizes: tuple[float, ...]
    sets: Callable[[float], dict[str, float | str]]
    fits: Callable[[Loop], bool] = lambda _: True
    most: float = 0.99


@dataclass(frozen=True, slots=True)
class FaultOfLoop:
    """A fault as a loop may have it; as circuit.faults.Fault, with parameters for edits."""

    id: str
    part: str
    words: str
    weight: float
    sizes: tuple[float, ...]
    comes: Comes | None
    sets: Callable[[float], dict[str, float | str]]
    most: float

    def at(self, size: float = 1.0) -> Parameters:
        """What it sets at a size."""
        return {PREFIX + name: value for name, value in self.sets(size).items()}


def faults_of_loop(loop: Loop) -> tuple[FaultOfLoop, ...]:
    """Every fault of a loop; those of weight 0 are left out.

    Raises:
        ExpressionError: a size is of the wrong kind; the document was not checked.
    """
    found = (_fault(kind, loop.faults.get(kind.id, LoopFault())) for kind in kinds_of_loop(loop))
    return tuple(fault for fault in found if fault.weight > 0)


def kinds_of_loop(loop: Loop) -> Iterator[LoopFaultKind]:
    """Every fault that a loop of this kind may have."""
    return (kind for kind in _KINDS if kind.fits(loop))


def _fault(kind: LoopFaultKind, entry: LoopFault) -> FaultOfLoop:
    return FaultOfLoop(
        id=PREFIX + kind.id,
        part=entry.part or kind.part,
        words=entry.words or kind.words,
        weight=kind.weight if entry.weight is None else entry.weight,
        sizes=sizes_of(entry, kind.sizes, Quantity.RATIO if kind.sizes else None),
        comes=comes_with(entry, ""),
        sets=kind.sets,
        most=kind.most,
    )


def _set(name: str) -> Callable[[float], dict[str, float | str]]:
    return lambda size: {name: size}


def _left(name: str) -> Callable[[float], dict[str, float | str]]:
    """Sizes are what is lost."""
    return lambda size: {name: 1.0 - size}


def _has_valve(loop: Loop) -> bool:
    return loop.metering == "expansion-valve"


def _has_tube(loop: Loop) -> bool:
    return loop.metering == "orifice-tube"


def _has_control(loop: Loop) -> bool:
    return loop.control is not None


def _has_heater(loop: Loop) -> bool:
    return loop.heater is not None


def _kind(*given: Any, **named: Any) -> LoopFaultKind:
    return LoopFaultKind(*given, **named)


_CHARGE, _DRY = "refrigerant charge", "expansion valve"
_KINDS = (
    _kind("undercharge", "charge lost", _CHARGE, 35, (0.5, 0.7, 0.85), _left("charge")),
    _kind(
        "overcharge", "too much refrigerant in it", _CHARGE, 6, (0.4, 0.6, 0.8),
        lambda more: {"charge": 1.0 + more}, most=1.0,
    ),
    _kind("air", "air in the system", _CHARGE, 6, (0.7, 1.0, 1.5), _set("air"), most=5.0),
    _kind(
        "wrong-refrigerant", "another refrigerant in it", _CHARGE, 3, (),
        lambda _: {"charged-with": 1.0}, fits=lambda loop: loop.wrong_refrigerant is not None,
    ),
    _kind(
        "condenser-blocked", "air cannot get through the condenser", "condenser", 10,
        (0.5, 0.65, 0.8), _left("condenser-air"),
    ),
    _kind(
        "evaporator-blocked", "air cannot get through the evaporator", "evaporator and its filter",
        5, (0.5, 0.65, 0.8), _left("evaporator-air"),
    ),
    _kind(
        "restriction", "liquid line or drier restricted", "receiver-drier or liquid line", 4,
        (0.93, 0.96, 0.99), _set("restriction"),
    ),
    _kind(
        "valve-open", "valve stuck open", _DRY, 3, (1.0,), _set("valve-held"), fits=_has_valve,
        most=1.0,
    ),
    _kind(
        "valve-shut", "valve shut, or its bulb empty", _DRY, 5, (0.25, 0.1, 0.02),
        _set("valve-held"), fits=_has_valve,
    ),
    _kind(
        "tube-blocked", "screen of the orifice tube blocked", "orifice tube", 6,
        (0.6, 0.8, 0.95), _left("metering-area"), fits=_has_tube,
    ),
    _kind(
        "weak-compressor", "compressor lets gas back", "compressor", 8, (1.0, 2.0, 4.0),
        _set("leak"), most=10.0,
    ),
    _kind(
        "slipping-clutch", "clutch slips", "compressor clutch", 4, (0.5, 0.7, 0.9), _set("slip")
    ),
    _kind(
        "control-stuck", "control never switches the compressor off",
        "fin thermostat or cycling switch", 5, (), lambda _: {"control-stuck": 1.0},
        fits=_has_control,
    ),
    _kind(
        "heat-leak", "hot air or coolant gets past a shut door or valve",
        "blend door or heater valve", 15, (0.15, 0.25, 0.4), _set("heat-leak"), fits=_has_heater,
    ),
    _kind(
        "heater-starved", "little coolant through the heater core", "heater core or its hoses", 20,
        (0.9, 0.95, 0.99), _left("heater-flow"), fits=_has_heater,
    ),
    _kind(
        "door-stuck", "blend door does not move", "blend door and its drive", 20,
        (0.0, 0.5, 1.0), _set("door"), fits=_has_heater, most=1.0,
    ),
)  # fmt: skip
