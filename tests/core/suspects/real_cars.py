"""Cars drawn at random from the model of the suspects, walked with instruments that are off."""

from collections.abc import Mapping
from dataclasses import dataclass
from random import Random
from typing import Any

import numpy as np
from benches import opened
from core.proof.real_walks import RealWalk
from pydantic import BaseModel

from faulttree.case_bench.battery import post_volts
from faulttree.case_bench.supply import measured
from faulttree.core.bench.bench import Bench
from faulttree.core.bench.looks import Supplied, supplied
from faulttree.core.bench.sights import NO, SURELY
from faulttree.core.bench.suspects import Form, Suspect
from faulttree.core.circuit.amounts import si
from faulttree.core.circuit.circuit import Circuit
from faulttree.core.circuit.document import CircuitModel
from faulttree.core.circuit.netlist import Supply
from faulttree.core.expression import Expression
from faulttree.core.proof.judged import Judge
from faulttree.core.proof.set_up import values_of
from faulttree.core.suspects.evidence import reads_of
from faulttree.core.suspects.grid import refined
from faulttree.core.suspects.on_bench import SuspectBench
from faulttree.core.suspects.suspicion import Suspects, Suspicion
from faulttree.core.tree import Measure, Observe
from faulttree.core.units import Quantity
from faulttree.core.usual_instruments import one_per_class
from faulttree.core.walk.events import Complaint
from faulttree.core.walk.state import WalkState

OFF = 0.1
"""How far each resistance of a real car is from that of the model, at most, either way."""
_OHMS = {"resistance", "internal", "winding"}
_SUPPLY = "this car"


@dataclass(frozen=True)
class RealCar:
    """A car of its own: resistances off, a battery, and a fault in one size; None is healthy."""

    bench: Bench
    judge: Judge
    suspect: Suspect | None
    comes: bool

    @property
    def row(self) -> int:
        """Its row on its bench; 0 is the car without the fault."""
        return 0 if self.suspect is None else 1

    @property
    def shows(self) -> bool:
        """Whether it surely shows the complaint while the fault is there."""
        return int(self.bench.complaint[self.row]) == SURELY


def drawn(name: str, chance: Random, suspect: Suspect | None = None) -> RealCar:
    """A car of a shipped tree with a fault drawn by weight, or the fault given, that complains."""
    found = opened(name)
    suspects = refined(found.circuit.document, found.sheet.document)
    weights = [s.weight for s in suspects]
    while True:
        picked = suspect or chance.choices(suspects, weights)[0]
        one = sized(picked, found.circuit.document, chance)
        comes = picked.comes is not None and chance.random() < 0.5
        car = _car(name, chance, one, comes)
        if car.shows:
            return car


def healthy(name: str, chance: Random) -> RealCar:
    """A car without a fault."""
    return _car(name, chance, None, False)


def sized(suspect: Suspect, model: CircuitModel, chance: Random) -> Suspect:
    """A suspect in one form: any size between the least and the greatest of its grid."""
    from dataclasses import replace

    from faulttree.core.circuit.faults import faults_of

    if suspect.forms[0].size is None:
        return suspect
    place = chance.randrange(len(suspect.forms) - 1)
    low, high = (suspect.forms[place + i].size or 0.0 for i in (0, 1))
    share = chance.random()
    size = low * (high / low) ** share if min(low, high) > 0 else low + share * (high - low)
    fault = next(f for f in faults_of(model) if f.id == suspect.id)
    return replace(suspect, forms=(Form(None, size, suspect.forms[0].quantity, (fault.sized(size),)),))


def _car(name: str, chance: Random, suspect: Suspect | None, comes: bool) -> RealCar:
    found = opened(name)
    tree, sheet = found.tree.document, found.sheet.document
    circuit = Circuit.from_document(off(found.circuit.document, chance))
    suspects = () if suspect is None else (suspect,)
    bench = Bench(tree, circuit, sheet, {_SUPPLY: battery(sheet, chance)}, suspects)
    vehicle = found.vehicle.document if found.vehicle else None
    judge = Judge(tree, values_of(tree, vehicle), one_per_class(()))
    return RealCar(bench, judge, suspect, comes)


def battery(sheet: Any, chance: Random) -> Supplied:
    """Anything between the weak and the charging one of the sheet."""
    three = supplied(sheet.supplies)
    share = chance.random()

    def between(place: int) -> Supply:
        low, high = three["weak"][place], three["charging"][place]
        return Supply(
            low.emf_v + share * (high.emf_v - low.emf_v),
            low.internal_ohm + share * (high.internal_ohm - low.internal_ohm),
        )

    return between(0), between(1)


def off(part: Any, chance: Random) -> Any:
    """A document with each resistance scaled by itself."""
    if isinstance(part, BaseModel):
        fields = {}
        for key in type(part).model_fields:
            value = getattr(part, key)
            is_ohms = key in _OHMS and isinstance(value, Expression) and not value.names
            fields[key] = _scaled(value, chance) if is_ohms else off(value, chance)
            if key == "resistances":
                fields[key] = tuple(_scaled(each, chance) for each in value)
        return part.model_copy(update=fields)
    if isinstance(part, Mapping):
        return {key: off(value, chance) for key, value in part.items()}
    return part


def _scaled(value: Expression, chance: Random) -> Expression:
    ohm = si(value, Quantity.RESISTANCE) * chance.uniform(1 - OFF, 1 + OFF)
    return Expression.parse(f"{ohm:.9f} ohm")


@dataclass
class ComingAndGoing(RealWalk):
    """A walk of a car whose fault comes and goes; the technician notes how the complaint is."""

    share: float = 0.3

    def __post_init__(self) -> None:
        super().__post_init__()
        self._bad = self.row

    def _answer(self, step_id: str) -> None:
        step = self.bench.tree.steps[step_id]
        if isinstance(step, Measure | Observe):
            waits = step.set_up.complaint == "present"
            row = self._bad if waits or self.chance.random() < self.share else 0
            if row != self.row or self.walk.state.complaint.complaint is Complaint.UNKNOWN:
                self.row = row
                self.walk.complaint(Complaint.PRESENT if row else Complaint.ABSENT)
        super()._answer(step_id)


def walked(name: str, car: RealCar, chance: Random) -> tuple[str, WalkState]:
    """The conclusion of a walk, and all that was recorded."""
    found = opened(name)
    vehicle = found.vehicle.document if found.vehicle else None
    if car.comes:
        assert car.suspect is not None
        assert car.suspect.comes is not None
        real: RealWalk = ComingAndGoing(
            car.bench, car.judge, vehicle, car.row, chance, car.suspect.comes.chance
        )
    else:
        real = RealWalk(car.bench, car.judge, vehicle, car.row, chance)
    end, _ = real.to_the_end()
    return end, real.walk.state


def suspicions(name: str, state: WalkState) -> list[Suspicion]:
    """What is suspect after each reading of a walk, worked out on the circuit as it is drawn."""
    found = opened(name)
    reads = reads_of(state)
    this = measured(post_volts(state), found.sheet.document)
    bench = SuspectBench(
        found.tree.document, Circuit.from_document(found.circuit.document),
        found.sheet.document, this,
    )  # fmt: skip
    suspects = Suspects(bench)
    return [suspects.after(reads[: n + 1], state.vehicle_values) for n in range(len(reads))]
